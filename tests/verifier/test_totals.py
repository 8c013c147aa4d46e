"""Totals: the bare vehicle, heights, sides and slopes of a stage."""

import math
from typing import Any

import pytest

from models.reading import case_from
from verifier.bare import bare_points
from verifier.statics import PointMass, articulated_lower_bound_deg, centre, total_kg


def bare(world: Any) -> tuple[PointMass, ...]:
    return bare_points(case_from(world.vehicle, list(world.gear.values()), world.trip))


def test_what_was_on_the_scale_is_taken_off(world):
    world.vehicle["kerb"] |= {"aboard_kg": {"driver": 84}, "right_of_centre_mm": 10}
    points = bare(world)
    mass, fuel = 2150 - 80 * 0.835 - 84, 80 * 0.835
    assert total_kg(points) == pytest.approx(mass)
    x, y, z = centre(points)
    assert x == pytest.approx((960 * 3200 - fuel * 2300 - 84 * 1500) / mass)
    assert y == pytest.approx((2150 * 10 + fuel * 300 - 84 * 380) / mass)
    assert z == pytest.approx((2150 * 700 - fuel * 550 - 84 * 800) / mass)


def test_putting_back_what_was_aboard_gives_the_weighing(world):
    world.trip["people"] = []
    world.vehicle["tanks"][1]["holds_l"] = 0
    totals = world.verdict().totals["leaving"]
    assert totals.mass_without_load_kg == pytest.approx(2150)
    assert totals.cg_without_load_mm == pytest.approx((960 * 3200 / 2150, 0, 700))
    assert totals.cg_without_load_mm[2] == pytest.approx(700)


def test_fittings_and_racks_that_were_not_weighed_are_added(world):
    before = total_kg(bare(world))
    world.vehicle["fittings"] = [{"name": "bull bar", "mass_kg": 62, "at_mm": [-750, 0, 800]}]
    world.rack("cab rack")["on_the_scale"] = False
    points = bare(world)
    assert total_kg(points) == pytest.approx(before + 62 + 28)


def test_a_height_nobody_knows_is_that_of_the_class(world):
    world.vehicle["kerb"] = {"front_kg": 1190, "rear_kg": 960}
    verdict = world.verdict()
    assert (verdict.height_estimated, verdict.height_doubt_mm) == (True, 40)
    assert centre(bare(world))[2] == pytest.approx(1570 / (2 * 1.18))


def test_a_given_height_has_no_such_doubt(world):
    verdict = world.verdict()
    assert (verdict.height_estimated, verdict.height_doubt_mm) == (False, 0)


def test_slopes_follow_from_height_and_side(world):
    totals = world.verdict().totals["track"]
    x, y, z = totals.cg_mm
    left, right = totals.side_slope_deg
    assert totals.static_stability_factor == pytest.approx(1570 / 2 / z)
    assert math.tan(math.radians(right)) * z == pytest.approx(785 - y)
    assert math.tan(math.radians(left)) * z == pytest.approx(785 + y)
    assert math.tan(math.radians(totals.tip_back_deg)) * z == pytest.approx(3200 - x)
    assert totals.articulated_bound_deg < min(left, right)


def test_the_highest_driving_stage_is_named(world):
    verdict = world.verdict()
    heights = {name: totals.cg_height_mm for name, totals in verdict.totals.items()}
    assert heights["camp"] > heights["track"] > heights["leaving"]
    assert verdict.highest_stage == "track"


def test_likely_masses_make_the_height(world):
    before = world.verdict().totals["leaving"]
    world.gear["roof tent"]["mass_kg"] = {"least": 50, "likely": 55, "most": 60}
    assert world.verdict().totals["leaving"] == before


def test_the_tightest_finding(world):
    verdict = world.verdict()
    tightest = verdict.tightest("space_mass")
    assert tightest.margin == min(f.margin for f in verdict.findings if f.rule == "space_mass" and f.margin is not None)
    assert verdict.tightest("kit") is None


def test_a_limit_met_exactly_is_the_tightest(world):
    # 77 of 77 kg are nearer than 4 of 4.5 kg.
    world.space("right bay")["limit_kg"] = 77
    world.space("rear bench")["limit_kg"] = 4.5
    assert world.verdict().tightest("space_mass").subject == "right bay"


def test_the_lower_bound_is_that_of_the_worse_axle(world):
    for corner in (2500, 4000):
        world.put("petrol can", (corner, 200, 900))
        totals = world.verdict().totals["track"]
        x, y, z = totals.cg_mm
        bounds = [articulated_lower_bound_deg(1570, 3200, x, y, z, free) for free in ("front", "rear")]
        assert totals.articulated_bound_deg == min(bounds) != max(bounds)


def test_the_highest_stage_is_not_the_last_in_the_alphabet(world):
    world.stage("track")["name"] = "dirt track"
    assert world.verdict().highest_stage == "dirt track"


def test_a_trip_that_never_drives_has_no_highest_stage(world):
    for stage in world.trip["stages"]:
        stage["surface"] = "parked"
    assert world.verdict().highest_stage is None
