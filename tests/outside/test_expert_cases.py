"""Cases that an expert throws at a plan, by their number; each is answered by the verifier alone."""

from typing import Any

import pytest


def carried_in(bench: Any, air: str, **thing: Any) -> set[tuple[str, str]]:
    """What is broken when one thing lies in a space of a kind of air."""
    bench.space("bay", [2000, 0, 800], [800, 800, 800], air=air, holds="holder", accepts=["it"])
    bench.thing("it", 5, [300, 300, 300], holder="it", turns="upright", holds_l=2, net_kg=1, approved_can=True, **thing)
    bench.put("it", "bay", (2000, 0, 800))
    broken: set[tuple[str, str]] = bench.broken()
    return broken


@pytest.mark.parametrize("air", ["cabin", "canopy", "vents"])
def test_c01_a_gas_bottle_never_rides_in_a_closed_vehicle(bench, air):
    bench.vehicle["cargo_barrier"] = {"rated_kg": 60, "top_z_mm": 1500}
    assert carried_in(bench, air, hazard="lpg") == {("hazard", "it")}


def test_c01_outside_it_may(bench):
    assert carried_in(bench, "outside", hazard="lpg") == set()


def test_c03_petrol_in_a_sealed_canopy(bench):
    assert carried_in(bench, "canopy", hazard="petrol") == {("hazard", "it")}


def test_c04_a_generator_locked_into_a_canopy_drawer(bench):
    bench.trip["locks"] = [{"thing": "it", "in": "bay", "by": "Ilko"}]
    assert carried_in(bench, "canopy", hazard="petrol_equipment") == {("hazard", "it")}
    (finding,) = bench.verdict().broken
    assert "equipment with petrol in it, empty or not" in finding.says


def test_c06_two_things_each_allowed_and_not_together(bench):
    bench.space("bay", [2000, 0, 800], [800, 800, 800])
    for name, hazard, x in (("chlorine", "oxidiser", 2000), ("engine oil", "oil", 2400)):
        bench.thing(name, 4, [300, 300, 300], turns="upright", hazard=hazard, holds_l=4)
        bench.put(name, "bay", (x, 0, 800))
    (finding,) = bench.verdict().broken
    assert "chlorine" in finding.says
    assert "engine oil" in finding.says
    bench.places.pop()
    bench.space("other", [2000, -900, 800], [800, 800, 800])
    bench.put("engine oil", "other", (2000, -900, 800))
    assert bench.broken() == set()


@pytest.mark.parametrize("air", ["cabin", "canopy"])
def test_c09_liquid_nitrogen_pushes_air_away(bench, air):
    assert carried_in(bench, air, hazard="cryogen") == {("hazard", "it")}


def test_c10_a_spray_for_animals_in_the_driver_s_door(bench):
    assert carried_in(bench, "cabin", hazard="toxic") == {("hazard", "it")}


def test_c16_left_and_right(bench):
    bench.vehicle["limits"]["side_difference_share"] = 0.05
    for name in ("tank", "fridge", "water"):
        bench.piece(name, 50, (2000 + 300 * len(bench.things), -700, 600))
    assert bench.broken() == {("balance", "left and right")}
    bench.places.clear()
    bench.vehicle["spaces"].append({**bench.vehicle["spaces"][2], "name": "right", "corner_mm": [2600, 600, 500]})
    for name, space, y in (
        ("tank", "place of tank", -800),
        ("fridge", "place of fridge", -800),
        ("water", "right", 600),
    ):
        bench.put(name, space, (next(s["corner_mm"][0] for s in bench.vehicle["spaces"] if s["name"] == space), y, 500))
    assert bench.broken() == set()


def test_c18_both_extinguishers_behind_the_fridge(bench):
    bench.space("bay", [2000, 0, 800], [800, 800, 800], accepts=["bracket", "fridge"], holds="bracket")
    for name, x, y in (("one", 2000, 0), ("two", 2000, 200)):
        more: dict[str, Any] = {"holder": "bracket", "hazard": "extinguisher", "needed_when": ["fire"]}
        bench.thing(name, 2, [150, 150, 400], turns="upright", **more)
        bench.put(name, "bay", (x, y, 800))
    bench.thing("fridge", 30, [400, 400, 400], holder="fridge")
    bench.put("fridge", "bay", (2200, 0, 800))
    (finding,) = bench.verdict().broken
    assert (finding.rule, finding.subject) == ("incident", "fire")
    assert "belted seat" in finding.says
    assert "outside" in finding.says


def test_c19_an_extinguisher_in_the_glovebox(bench):
    bench.space("glovebox", [600, 300, 900], [400, 400, 400], air="cabin", opening="door")
    bench.thing("extinguisher", 2, [150, 150, 350], holder="bracket", hazard="extinguisher")
    bench.put("extinguisher", "glovebox", (600, 300, 900))
    assert bench.broken() == {("inside", "extinguisher"), ("hazard", "extinguisher")}


@pytest.mark.parametrize("stuck", ["tail blocked", "sills down"])
def test_c21_c22_recovery_gear_where_it_cannot_be_got_when_bogged(bench, stuck):
    bench.vehicle["openings"][1]["stuck_when"] = [stuck]
    bench.piece("recovery kit", 14, (3000, 0, 900), needed_when=["bogged"])
    assert bench.broken() == {("incident", "recovery kit, bogged")}
    bench.vehicle["spaces"][0]["opening"] = "left flap"
    assert bench.broken() == set()


def five_cans(bench: Any, left: int, **more: Any) -> set[tuple[str, str]]:
    for name, y in (("left well", -700), ("right well", 100)):
        bench.space(name, [2000, y, 600], [1000, 600, 500])
    bench.thing("water", 20, [200, 300, 400], count=5, **more)
    for number in range(5):
        well, y, along = ("left well", -700, number) if number < left else ("right well", 100, number - left)
        bench.put("water", well, (2000 + 200 * along, y, 600), copy=number + 1)
    broken: set[tuple[str, str]] = bench.broken()
    return broken


def test_c25_a_split_of_five_cans(bench):
    assert five_cans(bench, 3, spread=2) == set()


def test_c25_spread_forbids_all_in_one(bench):
    assert five_cans(bench, 5, spread=2) == {("spread", "water")}


def test_c25_together_forbids_a_split(bench):
    assert five_cans(bench, 3, kit="water", together=True) == {("kit", "water")}


@pytest.mark.parametrize(("turn", "size_mm"), [("lwh", (2500, 40, 1000)), ("wlh", (40, 2500, 1000))])
def test_c30_no_diagonal_tricks(bench, turn, size_mm):
    # The diagonal of the bay is 2 683 mm; the panel of 2 500 mm still does not go in.
    bench.space("bay", [1000, -600, 800], [2400, 1200, 1100])
    bench.thing("panel", 12, [2500, 40, 1000])
    bench.places.append(
        {"thing": "panel", "space": "bay", "corner_mm": (1000, -600, 800), "size_mm": size_mm, "turn": turn}
    )
    assert ("inside", "panel") in bench.broken()


def test_c31_an_upright_fridge_of_520_in_a_bay_of_500(bench):
    bench.space("bay", [1000, -600, 800], [1000, 1200, 500])
    bench.thing("fridge", 30, [600, 400, 520], turns="upright")
    bench.put("fridge", "bay", (1000, -600, 800))
    assert bench.broken() == {("inside", "fridge")}
    # Lying down it would fit, and it may not.
    bench.places[0] |= {"turn": "lhw", "size_mm": (600, 520, 400)}
    assert bench.broken() == {("inside", "fridge")}


def test_c58_a_thing_moved_up_raises_the_centre_by_its_share(bench):
    bench.space("low", [2000, 0, 400], [600, 600, 600])
    bench.space("high", [2000, 0, 1400], [600, 600, 600])
    bench.thing("crate", 40, [400, 400, 300])
    bench.put("crate", "low", (2000, 0, 400))
    before = bench.verdict().totals["go"].cg_height_mm
    bench.places[0] |= {"space": "high", "corner_mm": (2000, 0, 1400)}
    assert bench.verdict().totals["go"].cg_height_mm - before == pytest.approx(40 * 1000 / 2040, rel=1e-9)


def test_c63_mineral_blocks_on_the_seat_that_a_passenger_takes(bench):
    bench.vehicle["seats"] = [{"name": "rear", "at_mm": [2000, 300, 900], "back_top_z_mm": 1400}]
    bench.space("on the seat", [1900, 200, 800], [400, 400, 400], seat="rear", air="cabin", opening="door")
    bench.piece("blocks", 15, (2100, 400, 900), space="on the seat")
    bench.trip["people"] = [{"name": "Aunt Tove", "mass_kg": 70, "seat": "rear"}]
    bench.trip["stages"] = [
        {"name": "out", "surface": "off_road", "people": []},
        {"name": "back", "surface": "off_road"},
    ]
    assert bench.broken() == {("available", "blocks")}
    # Snacks eaten by then may; a container of 200 g that stays may not.
    bench.things[0] |= {"uses_up": {"snacks": 15}}
    bench.trip |= {"streams": {"snacks": {}}}
    bench.trip["stages"][1]["left"] = {"snacks": 0}
    assert bench.broken() == set()
    bench.things[0] |= {"uses_up": {"snacks": 14.8}}
    assert bench.broken() == {("available", "blocks")}


def test_c64_a_hard_box_loose_above_the_seat_backs(bench):
    bench.vehicle["seats"] = [{"name": "child", "at_mm": [1800, 300, 900], "back_top_z_mm": 1200}]
    ties = {"holds": "tie_downs", "tie_downs": [{"rated_dan": 200}]}
    bench.space("behind", [2000, 0, 800], [600, 600, 800], air="cabin", **ties)
    bench.thing("box", 20, [400, 400, 401])
    bench.put("box", "behind", (2000, 0, 800))
    assert bench.broken() == {("restraint", "box")}
    bench.things[0]["size_mm"] = [400, 400, 400]
    bench.places[0]["size_mm"] = (400, 400, 400)
    assert bench.broken() == set()


def test_c66_a_window_between_canopy_and_cab_makes_one_air(bench):
    bench.vehicle["air"]["canopy"] = "vented"
    assert carried_in(bench, "canopy", hazard="gas_cartridge") == set()
    bench.vehicle["spaces"][0]["air"] = "cabin"
    assert bench.broken() == {("hazard", "it")}


def test_c67_a_tent_that_is_up_blocks_the_side_with_the_kitchen(bench):
    bench.vehicle["openings"][2]["stuck_when"] = ["tent up"]
    bench.vehicle["racks"] = [{"name": "roof", "at_mm": [1500, 0, 1900], "limits": {"parked_kg": 300}}]
    bench.trip["stages"].append({"name": "camp", "surface": "parked", "on_racks": {"roof": 150}})
    bench.piece("kitchen", 14, (2500, -500, 900))
    bench.things[0]["access"] = "each_camp"
    bench.vehicle["spaces"][0]["opening"] = "left flap"
    (finding,) = bench.verdict().broken
    assert (finding.rule, finding.subject, finding.stage) == ("reach", "kitchen", "camp")


def test_c79_an_unknown_limit_is_never_signed_off(bench):
    bench.vehicle["limits"]["rear_axle_kg"] = "unknown"
    bench.piece("crate", 20, (2000, 0, 900))
    verdict = bench.verdict()
    assert verdict.holds is None
    assert [finding.subject for finding in verdict.unknown] == ["rear axle"]
