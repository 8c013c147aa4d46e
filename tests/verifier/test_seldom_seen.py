"""What changes of the verifier showed to be seldom seen: limits by count, parked stages, words that no file brings."""

from typing import Any

import pytest

from models.plan import Plan
from verifier import check
from verifier.rules.support import _covered_mm2


def plan_of(world: Any) -> Plan:
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})


def test_three_bottles_are_one_too_many(world):
    for name in ("water jug", "petrol can"):
        world.gear[name] |= {"hazard": "lpg", "net_kg": 4}
    counted = [f for f in world.verdict().broken if f.subject == "lpg"]
    assert [(f.value, f.limit, f.unit, f.says) for f in counted] == [
        (3, 2, "pieces", "Of lpg, the vehicle carries 3 of at most 2.")
    ]
    world.gear["petrol can"] |= {"hazard": "diesel", "net_kg": None}
    assert not [f for f in world.verdict().broken if f.subject == "lpg"]


def test_air_that_nobody_described_is_unknown(world):
    verdict = world.verdict(world.made(air={"cabin": "people", "canopy": "sealed"}))
    (found,) = [f for f in verdict.unknown if f.rule == "hazard"]
    assert (found.subject, found.says) == ("petrol can", "What air petrol can shares in can holder is not known.")


def test_a_hazard_that_the_rule_book_does_not_know_is_unknown(world):
    case = world.case()
    things = tuple(t.model_copy(update={"hazard": "moonshine"} if t.name == "jackets" else {}) for t in case.things)
    odd = type(case)(vehicle=case.vehicle, things=things, trip=case.trip, rulebook=case.rulebook)
    (found,) = check(odd, plan_of(world)).unknown
    assert found.says == "The rule book does not know the hazard 'moonshine'."


def test_an_amount_that_is_not_given_is_said_so(world):
    case = world.case()
    things = tuple(t.model_copy(update={"holds_l": None} if t.name == "petrol can" else {}) for t in case.things)
    odd = type(case)(vehicle=case.vehicle, things=things, trip=case.trip, rulebook=case.rulebook)
    assert {f.says for f in check(odd, plan_of(world)).unknown} == {
        "petrol can holds an amount that the list does not give in L.",
        "Of petrol, the vehicle carries an amount that the list does not give in L.",
    }


@pytest.mark.parametrize("rule", ["balance", "axle", "gross_mass"])
def test_a_parked_stage_is_left_out_and_a_later_one_is_not(world, rule):
    assert {f.stage for f in world.verdict().findings if f.rule == rule} == {"leaving", "track"}
    world.stage("leaving")["surface"] = "parked"
    assert {f.stage for f in world.verdict().findings if f.rule == rule} == {"track"}


@pytest.mark.parametrize(
    ("rule", "what"), [("balance", "sides were"), ("axle", "axles were"), ("gross_mass", "total was")]
)
def test_a_trip_that_never_drives_is_never_signed_off(world, rule, what):
    assert world.verdict().drives
    for stage in world.trip["stages"]:
        stage["surface"] = "parked"
    verdict = world.verdict()
    (found,) = [f for f in verdict.findings if f.rule == rule]
    assert found.says == f"No driving stage is in the trip, so the {what} not checked."
    assert (found.holds, verdict.holds, verdict.drives) == (None, None, False)


def test_sides_carry_alike_on_the_middle_line(world):
    # Where both sides carry the same it is the right that is named; the difference is nothing.
    for thing in world.gear.values():
        thing |= {"mass_kg": 0.0, "uses_up": {}}
    for stage in world.trip["stages"]:
        stage.pop("left", None)
    world.trip["streams"] = {}
    for seat in world.vehicle["seats"]:
        seat["at_mm"][1] = 0
    for tank in world.vehicle["tanks"]:
        tank["at_mm"][1] = 0
    found = world.found("balance", "left and right", "leaving")
    assert found.value == 0
    assert found.says.startswith("The right wheels carry more at 'leaving' by 0.0 kg of ")


def test_all_or_none_with_all_of_them(world):
    world.gear["water jug"] |= {"carry": 40, "all_or_none": True}
    assert world.broken() == set()
    del world.places["water jug #2"]
    assert ("carried", "water jug") in world.broken()


def test_sides_are_unknown_where_a_place_is(world):
    rack = {"name": "bare rack", "own_mass_kg": 12.0, "on_the_scale": True, "limits": {"any_kg": 200}}
    world.vehicle["racks"].append(rack)
    case = world.case()
    off = {"on_the_scale": False}
    hung = tuple(r.model_copy(update=off if r.name == "bare rack" else {}) for r in case.vehicle.racks)
    verdict = world.verdict(world.made(racks=hung))
    assert {f.rule.value for f in verdict.unknown} == {"axle", "balance"}
    assert "What each side carries at 'track' is not known." in {f.says for f in verdict.unknown}


def test_ground_that_overlaps_is_counted_once():
    # Two plates share a strip of 10 mm: 60 + 60 - 10 of 100 mm, 50 mm deep; a third lies apart within the same strip.
    assert _covered_mm2([(0, 0, 60, 50), (50, 0, 110, 50)]) == 110 * 50
    assert _covered_mm2([(0, 0, 60, 50), (0, 20, 60, 80)]) == 60 * 80
    assert _covered_mm2([(0, 0, 60, 80), (0, 20, 60, 50)]) == 60 * 80
    assert _covered_mm2([(0, 0, 10, 10), (0, 30, 10, 40)]) == 200
    assert _covered_mm2([(0, 0, 10, 80), (0, 20, 10, 50), (0, 60, 10, 90)]) == 900


def test_the_middle_over_one_of_two_supports_is_enough(world):
    # Two feet with a gap between them; the middle stands over the wide one.
    world.gear["jackets"] |= {"shape": "hard"}
    bench = world.space("rear bench")
    bench["holds"] = "enclosed"
    bench["solid"] = [
        {"corner_mm": [1950, -600, 750], "size_mm": [60, 300, 100]},
        {"corner_mm": [2050, -600, 750], "size_mm": [200, 300, 100]},
    ]
    world.put("jackets", (1950, -600, 850))
    assert world.found("support", "jackets").value == pytest.approx(260 / 300)
    assert world.broken() == set()


def test_one_thing_against_fire_does_not_serve_from_both_sides(world):
    # The one in the cab is reached with a belt on and, its door now being outside, from the ground too.
    del world.places["extinguisher #2"]
    world.gear["extinguisher"] |= {"count": 1, "spread": 1}
    door = next(o for o in world.vehicle["openings"] if o["name"] == "driver door")
    door |= {"side": "right", "seconds": 3, "stuck_when": []}
    (found,) = [f for f in world.verdict().broken if f.subject == "fire"]
    assert found.says == (
        "For a fire: the one from a belted seat is the only one from outside as well; all are in inner bracket."
    )
