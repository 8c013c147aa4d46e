"""The golden numbers that were checked by hand, to the digits they are printed with."""

from itertools import product
from typing import Any

import pytest

import verifier
from verifier import (
    PointMass,
    articulated_lower_bound_deg,
    axle_loads,
    combined_deviation_kg,
    grade_front_kg,
    static_stability_factor,
    tip_angles_deg,
    tip_back_deg,
)

centre: Any = verifier.centre
wheel_loads: Any = verifier.wheel_loads
"""Every place is known in these examples, so no sum is unknown."""

BASE = PointMass(2000, 1400, 0, 700)
G1 = (BASE, PointMass(100, 3600, 500, 1000))


def test_g1_one_thing_behind_the_axle():
    x, y, z = centre(G1)
    assert (x, y, z) == pytest.approx((1504.76, 23.81, 714.29), abs=0.005)
    assert axle_loads(G1, 3000) == pytest.approx((1046.67, 1053.33), abs=0.005)
    left, right = wheel_loads(G1, 1580)
    assert (left, right, right - left) == pytest.approx((1018.35, 1081.65, 63.29), abs=0.006)
    assert static_stability_factor(1580, z) == pytest.approx(1.106, abs=0.0005)
    assert tip_angles_deg(1580, y, z) == pytest.approx((48.73, 47.01), abs=0.005)
    assert articulated_lower_bound_deg(1580, 3000, x, 0, z, "front") == pytest.approx(28.21, abs=0.005)


def test_g1_through_a_plan(bench):
    bench.piece("crate", 100, (3600, 500, 1000))
    totals = bench.verdict().totals["go"]
    assert (totals.mass_kg, totals.front_axle_kg, totals.rear_axle_kg) == pytest.approx(
        (2100, 1046.67, 1053.33), abs=0.005
    )
    assert totals.cg_height_mm == pytest.approx(714.29, abs=0.005)
    assert totals.side_slope_deg == pytest.approx((48.73, 47.01), abs=0.005)
    assert totals.articulated_bound_deg < 28.21


def test_g3_on_a_climb():
    x, _, z = centre(G1)
    assert grade_front_kg(G1, 3000, 25) == pytest.approx(737.29, abs=0.005)
    assert tip_back_deg(3000, x, z) == pytest.approx(64.47, abs=0.005)
    assert grade_front_kg(G1, 3000, tip_back_deg(3000, x, z)) == pytest.approx(0, abs=1e-9)


def test_g5_the_middle_of_a_trip_is_higher(bench):
    bench.vehicle["tanks"] = [{"name": "tank", "fluid": "water", "holds_l": 100, "at_mm": [2000, 0, 500]}]
    bench.piece("can a", 20, (2000, 100, 1900), uses_up={"can": 16})
    bench.piece("can b", 20, (2000, -100, 1900), uses_up={"can": 16})
    poured = {"tanks": {"tank": 0.32}, "left": {"can": 0}, "taken_on_l": {"water": 32}}
    bench.trip["stages"] = [
        {"name": "full", "surface": "off_road"},
        {"name": "tank empty", "surface": "off_road", "tanks": {"tank": 0}},
        {"name": "poured over", "surface": "off_road", **poured},
    ]
    bench.trip["streams"] = {"can": {}}
    verdict = bench.verdict()
    heights = [totals.cg_height_mm for totals in verdict.totals.values()]
    assert heights == pytest.approx([713.08, 723.53, 701.57], abs=0.005)
    assert verdict.highest_stage == "tank empty"


@pytest.mark.parametrize(("mass_kg", "rear_kg", "held"), [(325, 1600.83, False), (324, 1599.60, True)])
def test_g7_the_rear_axle_is_over_while_the_total_is_fine(bench, mass_kg, rear_kg, held):
    bench.vehicle["kerb"] = {"front_kg": 1200, "rear_kg": 1200, "cg_height_mm": 700}
    bench.vehicle["limits"] |= {"gvm_kg": 3200, "rear_axle_kg": 1600}
    bench.space("bed", [3200, -500, 700], [1000, 1000, 400])
    bench.thing("load", mass_kg, [1000, 1000, 400])
    bench.put("load", "bed", (3200, -500, 700))
    verdict = bench.verdict()
    assert verdict.totals["go"].rear_axle_kg == pytest.approx(rear_kg, abs=0.005)
    assert {finding.subject for finding in verdict.broken} == (set() if held else {"rear axle"})
    assert verdict.tightest("gross_mass").margin == pytest.approx(800 - mass_kg)


def roof(bench: Any, surface: str) -> None:
    bench.trip["stages"] = [{"name": "go", "surface": surface}]
    bench.vehicle["racks"] = [
        {"name": "roof", "limits": {"sealed_road_kg": 100, "off_road_kg": 100, "parked_kg": 300}},
        {"name": "rack", "on": "roof", "own_mass_kg": 30, "at_mm": [1500, 0, 1900],
         "limits": {"sealed_road_kg": 80, "off_road_kg": 53, "parked_kg": 300}},
    ]  # fmt: skip
    bench.space("top", [1000, -500, 1900], [2000, 1000, 500], on=["rack"], air="outside", opening="roof", face="top")


@pytest.mark.parametrize(("surface", "pieces", "binding"), [("sealed_road", 5, "roof"), ("off_road", 4, "rack")])
def test_g8_what_a_roof_carries_by_the_ground(bench, surface, pieces, binding):
    roof(bench, surface)
    for number in range(pieces):
        bench.piece(f"piece {number}", 12, (1100 + 200 * number, 0, 2000), space="top")
    assert bench.broken() == set()
    bench.piece("one more", 12, (1100 + 200 * pieces, 0, 2000), space="top")
    assert bench.broken() == {("rack", binding)}


def test_g8_parked_with_people_in_the_tent(bench):
    roof(bench, "parked")
    bench.trip["stages"][0]["on_racks"] = {"rack": 160}
    bench.piece("tent", 60, (1100, 0, 2000), space="top")
    bench.piece("bedding", 10, (1300, 0, 2000), space="top")
    (found,) = [finding for finding in bench.verdict().findings if finding.rule == "rack" and finding.subject == "roof"]
    assert (found.value, found.limit, found.holds) == (pytest.approx(260), 300, True)


def test_g10_two_boxes_that_fit_alone_and_not_together(bench):
    # 72 % of the volume and of the floor; both would cover the middle of the space.
    bench.space("bay", [1000, -500, 900], [1000, 1000, 500])
    for name in ("one", "other"):
        bench.thing(name, 10, [600, 600, 500])
    corners = [(x, y, 900) for x, y in product((1000, 1200, 1400), (-500, -300, -100))]
    for first, second in product(corners, corners):
        bench.places.clear()
        bench.put("one", "bay", first)
        bench.put("other", "bay", second)
        assert bench.broken() == {("overlap", "one and other")}


def test_g10_each_fits_alone(bench):
    bench.space("bay", [1000, -500, 900], [1000, 1000, 500])
    bench.thing("one", 10, [600, 600, 500])
    bench.put("one", "bay", (1400, -100, 900))
    assert bench.broken() == set()


def test_g12_deviations_add_as_squares():
    assert combined_deviation_kg((0.25 * 14, 0.01 * 300)) == pytest.approx(4.61, abs=0.005)
