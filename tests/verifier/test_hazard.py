"""hazard: air, upright, holder, heat, can, amounts; empty counts as full."""

from typing import Any

import pytest


def test_a_hazard_in_closed_air(world):
    world.gear["petrol can"]["hazard"] = "diesel"
    assert world.broken() == set()
    world.space("can holder")["air"] = "canopy"
    assert world.broken() == {("hazard", "petrol can")}


def test_a_hazard_lies_on_its_side(world):
    world.gear["petrol can"]["turns"] = "any"
    assert world.broken() == set()
    world.put("petrol can", (3700, 200, 900), turn="lhw", size_mm=(350, 470, 170))
    world.space("can holder")["size_mm"] = [400, 500, 500]
    assert world.broken() == {("hazard", "petrol can")}


def test_a_hazard_out_of_a_holder(world):
    world.space("can holder")["holds"] = "enclosed"
    assert world.broken() == {("hazard", "petrol can")}


def test_a_hazard_in_a_holder_of_other_things(world):
    del world.gear["petrol can"]["holder"]
    world.space("can holder")["accepts"] = "anything"
    assert world.broken() == {("hazard", "petrol can")}
    world.space("can holder")["tie_downs"] = [{"rated_dan": 100}]
    assert world.broken() == {("hazard", "petrol can")}


def test_a_hazard_where_it_is_hot(world):
    world.space("can holder")["heat"] = "hot"
    assert world.broken() == {("hazard", "petrol can")}


def test_a_can_that_is_not_approved(world):
    world.gear["petrol can"]["approved_can"] = False
    assert world.broken() == {("hazard", "petrol can")}


def test_one_can_holds_exactly_what_it_may(world):
    world.gear["petrol can"]["holds_l"] = 25
    assert world.broken() == set()
    world.gear["petrol can"]["holds_l"] = 25.1
    assert world.broken() == {("hazard", "petrol can")}


def test_the_vehicle_holds_exactly_what_it_may(world):
    world.gear["petrol can"] |= {"count": 3, "mass_kg": 5}
    for number, y in ((2, 370), (3, 540)):
        where = {"copy": number, "corner_mm": (3700, y, 900)}
        world.places[f"petrol can #{number}"] = world.places["petrol can"] | where
    world.space("can holder")["size_mm"] = [400, 600, 500]
    world.gear["petrol can"]["access"] = "seldom"
    assert world.broken() == set()
    assert world.found("hazard", "petrol").value == 60
    world.gear["petrol can"]["holds_l"] = 20.1
    assert world.broken() == {("hazard", "petrol")}


def test_an_amount_that_nobody_gave(world):
    # Files without litres are refused when they are read; a case made otherwise is not taken for harmless.
    case = world.case()
    things = tuple(
        thing.model_copy(update={"holds_l": None}) if thing.hazard == "petrol" else thing for thing in case.things
    )
    verdict = world.verdict(case.model_copy(update={"things": things}))
    assert {finding.subject for finding in verdict.unknown} == {"petrol can", "petrol", "diesel"}
    assert verdict.holds is None


def test_litres_of_what_is_counted_in_kilograms_are_no_kilograms(world):
    world.gear["jackets"] |= {"hazard": "firelighter", "holds_l": 0.4}
    assert world.unknown() == {("hazard", "firelighter in cabin")}
    assert world.verdict().holds is not True


def test_an_amount_in_one_air(world):
    world.gear["jackets"] |= {"hazard": "firelighter", "net_kg": 0.5}
    assert world.broken() == set()
    world.gear["jackets"]["net_kg"] = 0.51
    assert world.broken() == {("hazard", "firelighter in cabin")}


def test_an_empty_can_counts_as_full(world):
    world.gear["petrol can"] |= {"uses_up": {"fuel": 20}}
    for stage in world.trip["stages"]:
        stage["left"] = {**stage.get("left", {}), "fuel": 0}
    world.trip["streams"]["fuel"] = {}
    world.space("can holder")["heat"] = "hot"
    assert world.broken() == {("hazard", "petrol can")}


@pytest.mark.parametrize(
    "word", ["lpg", "petrol", "petrol_equipment", "cryogen", "dry_ice", "gas_cartridge", "toxic", "repellent_spray"]
)
def test_never_in_air_that_people_breathe(world, word):
    world.gear["jackets"] |= {"hazard": word, "holds_l": 0.1, "net_kg": 0.1, "approved_can": True}
    assert ("hazard", "jackets") in world.broken()


def test_a_repellent_spray_rides_outside_and_not_where_it_gets_hot(world):
    world.gear["petrol can"] = {**world.gear["petrol can"], "hazard": "repellent_spray", "holds_l": 0.3}
    for key in ("approved_can", "uses_up"):
        world.gear["petrol can"].pop(key, None)
    assert world.broken() == set()
    world.space("can holder")["heat"] = "hot"
    assert world.broken() == {("hazard", "petrol can")}


def test_two_bottles_at_most(world):
    world.gear["petrol can"] |= {"hazard": "lpg", "net_kg": 9}
    assert world.broken() == set()
    world.gear["petrol can"]["net_kg"] = 9.1
    assert world.broken() == {("hazard", "petrol can")}


def test_amounts_count_in_each_air_by_itself(world):
    world.gear["jackets"] |= {"hazard": "firelighter", "net_kg": 0.5}
    world.gear["recovery kit"] |= {"hazard": "firelighter", "net_kg": 5}
    assert world.broken() == set()


def with_equipment(world: Any, word: str, litres: float) -> None:
    """The petrol can's 20 L, and so many litres of another word beside it."""
    world.gear["recovery kit"] |= {"hazard": word, "holds_l": litres}


def test_fuel_in_equipment_counts_as_petrol(world):
    with_equipment(world, "petrol_equipment", 40)
    assert world.found("hazard", "petrol").margin == 0
    assert ("hazard", "petrol") not in world.broken()
    with_equipment(world, "petrol_equipment", 40.1)
    assert ("hazard", "petrol") in world.broken()
    says = "Of petrol and petrol_equipment, the vehicle carries 60.1 L of 60.0 L, 0.1 L too much."
    assert world.found("hazard", "petrol").says == says


def test_equipment_alone_counts_as_petrol(world):
    world.gear["petrol can"] = {**world.gear["petrol can"], "hazard": None, "holds_l": None}
    with_equipment(world, "petrol_equipment", 60.1)
    assert world.found("hazard", "petrol").says.startswith("Of petrol_equipment, the vehicle carries 60.1 L of 60.0 L")


@pytest.mark.parametrize("word", ["diesel", "ethanol", "petrol_equipment"])
def test_all_liquids_that_burn_count_in_the_total_of_diesel(world, word):
    with_equipment(world, word, 220)
    assert world.found("hazard", "diesel").value == 240
    assert ("hazard", "diesel") not in world.broken()
    with_equipment(world, word, 220.1)
    assert ("hazard", "diesel") in world.broken()


def test_what_counts_in_another_total_does_not_count_the_other_way_round(world):
    with_equipment(world, "diesel", 60)
    assert world.found("hazard", "petrol").value == 20


@pytest.mark.parametrize(("most", "holds"), [(2, True), (1, False)])
def test_copies_count_together_too(world, most, holds):
    with_equipment(world, "petrol_equipment", 4)
    case = world.case()
    hazards = dict(case.rulebook.hazards)
    totals = hazards["petrol"].totals.model_copy(update={"total_count": most, "total_l": None})
    hazards["petrol"] = hazards["petrol"].model_copy(update={"totals": totals})
    book = case.rulebook.model_copy(update={"hazards": hazards})
    verdict = world.verdict(case.model_copy(update={"rulebook": book}))
    (found,) = [one for one in verdict.findings if one.subject == "petrol" and one.unit == "pieces"]
    assert (found.value, found.holds) == (2, holds)
    assert found.says == f"Of petrol and petrol_equipment, the vehicle carries 2 of at most {most}."


def test_a_can_without_a_holder_in_a_can_holder_is_told_once(world):
    del world.gear["petrol can"]["holder"]
    assert [one.says for one in world.verdict().broken] == ["petrol can is not what can holder takes: jerry can."]


def test_a_can_that_suits_a_can_holder_and_is_not_made_for_it_is_told_once(world):
    world.gear["petrol can"] |= {"holder": None, "suits": ["jerry can"]}
    (told,) = world.verdict().broken
    assert (told.rule.value, told.subject) == ("hazard", "petrol can")
