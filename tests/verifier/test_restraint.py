"""restraint: enclosed, barrier, holder, tied; nothing hard and loose above the seat backs."""

from typing import Any

import pytest


def behind_barrier(world: Any, **changes: Any) -> None:
    world.space("right bay")["holds"] = "barrier"
    world.vehicle["cargo_barrier"] = {"rated_kg": 30, "top_z_mm": 1350} | changes


def test_a_barrier_holds_what_it_is_rated_for(world):
    behind_barrier(world)
    assert world.broken() == set()
    behind_barrier(world, rated_kg=29.9)
    assert world.broken() == {("restraint", "fridge")}


def test_a_barrier_holds_up_to_its_top(world):
    behind_barrier(world, top_z_mm=1349)
    assert world.broken() == {("restraint", "food box")}


def test_a_barrier_does_not_hold_what_is_behind_somebody_who_sits_behind_it_too(world):
    behind_barrier(world, top_z_mm=1500)
    world.vehicle["cargo_barrier"]["behind_seats"] = ["driver"]
    world.trip["people"].append({"name": "Kit", "mass_kg": 30, "seat": "rear left"})
    of_other_air = world.broken()
    world.space("right bay")["air"] = "cabin"
    assert {("restraint", "fridge"), ("restraint", "food box")} <= world.broken() - of_other_air
    world.vehicle["cargo_barrier"]["behind_seats"] = ["driver", "rear left"]
    assert not [name for rule, name in world.broken() if rule == "restraint"]
    world.vehicle["cargo_barrier"]["behind_seats"] = ["driver"]
    world.trip["people"].pop()  # the passenger sits beside the driver, as far ahead
    assert not [name for rule, name in world.broken() if rule == "restraint"]


@pytest.mark.parametrize(
    ("left", "back", "held"),
    [
        (0.0, ["Mara", "Kit"], True),
        (0.00004, ["Mara", "Kit"], True),  # 0.4 g, which is nothing
        (0.0001, ["Mara", "Kit"], False),
        (0.0001, ["Mara"], True),
    ],
)
def test_who_sits_behind_a_barrier_counts_where_the_thing_is_still_there(world, left, back, held):
    behind_barrier(world, top_z_mm=1500, behind_seats=["driver"])
    world.space("right bay")["air"] = "cabin"
    world.gear["food box"]["uses_up"] = {"food": 10}
    world.trip["people"].append({"name": "Kit", "mass_kg": 30, "seat": "rear left"})
    world.trip["stages"] = [
        {"name": "out", "surface": "off_road", "people": ["Mara"]},
        {"name": "camp", "surface": "parked", "people": ["Mara", "Kit"]},
        {"name": "back", "surface": "off_road", "people": back, "left": {"food": left}},
    ]
    told = [one.says for one in world.verdict().broken if (one.rule.value, one.subject) == ("restraint", "food box")]
    assert told == ([] if held else ["Kit in rear left sits behind the barrier that is to hold food box in right bay."])


def test_nothing_holds_a_hard_thing(world):
    world.gear["jackets"]["shape"] = "hard"
    assert world.broken() == {("restraint", "jackets")}


def top_of_the_jackets(world: Any) -> Any:
    """What is found of their top, beside what is found of their mass."""
    found = world.verdict().findings
    (top,) = [one for one in found if (one.rule.value, one.subject, one.unit) == ("restraint", "jackets", "mm")]
    return top


def test_a_soft_thing_below_the_seat_backs(world):
    world.space("rear bench")["corner_mm"] = [1900, -640, 950]
    world.put("jackets", (1950, -600, 950))
    assert world.broken() == set()
    world.space("rear bench")["corner_mm"] = [1900, -640, 951]
    world.put("jackets", (1950, -600, 951))
    assert world.broken() == {("restraint", "jackets")}


def test_a_soft_thing_outside_is_not_held_by_nothing(world):
    world.space("rear bench")["air"] = "canopy"
    assert world.broken() == {("restraint", "jackets")}


def test_a_soft_thing_lies_loose_among_people_only_if_it_is_light(world):
    assert world.broken() == set()
    world.gear["jackets"]["mass_kg"] = 1.001
    assert world.broken() == {("restraint", "jackets")}
    (told,) = [one.says for one in world.verdict().broken]
    assert told == (
        "Nothing holds jackets in rear bench; soft things may lie loose among people up to 1 kg: 1.001 kg of 1.000 kg, "
        "0.001 kg too much."
    )
    world.space("rear bench")["holds"] = "enclosed"
    assert world.broken() == set()


@pytest.mark.parametrize(("left", "held"), [(0.4, True), (0.41, False)])
def test_what_lies_loose_counts_at_the_stage_at_which_it_is_heaviest(world, left, held):
    world.gear["jackets"] |= {"mass_kg": 1.6, "fills": {"mud": 1}}
    world.trip["streams"]["mud"] = {}
    world.stage("track")["filled"] = {"mud": left}
    assert world.broken() == (set() if held else {("restraint", "jackets")})


@pytest.mark.parametrize("mark", ["tied", "two_person"])
def test_a_heavy_soft_thing_among_people_may_be_tied_where_there_are_points(world, mark):
    world.gear["jackets"] |= {"mass_kg": 8, mark: True}
    assert world.broken() == {("restraint", "jackets"), ("restraint", "rear bench")}
    world.space("rear bench")["tie_downs"] = [{"rated_dan": 100}]
    assert world.broken() == set()
    del world.gear["jackets"][mark]
    assert world.broken() == {("restraint", "jackets")}
    world.space("rear bench")["holds"] = "tie_downs"
    assert world.broken() == set()


def test_a_rule_book_of_ones_own_says_what_may_lie_loose(world):
    world.gear["jackets"]["mass_kg"] = 3
    case = world.case()
    own = case.rulebook.loose_soft_kg.model_copy(update={"value": 3, "source": "our club"})
    book = case.rulebook.model_copy(update={"loose_soft_kg": own})
    assert world.verdict(case.model_copy(update={"rulebook": book})).holds is True


def test_seat_backs_that_nobody_measured(world):
    for seat in world.vehicle["seats"]:
        del seat["back_top_z_mm"]
    assert world.unknown() == {("restraint", "jackets")}


@pytest.mark.parametrize("aboard", [True, False])
@pytest.mark.parametrize("hard", [True, False])
def test_one_seat_back_that_nobody_measured_leaves_the_lowest_unknown(world, hard, aboard):
    # The back of the rear left seat, taken or not; the lowest that is given is 1150 mm.
    del world.vehicle["seats"][2]["back_top_z_mm"]
    bench = world.space("rear bench")
    bench |= {"seat": None, "size_mm": [450, 500, 700]}
    if hard:
        bench |= {"holds": "tie_downs", "tie_downs": [{"rated_dan": 100}]}
        world.gear["jackets"]["shape"] = "hard"
    if aboard:
        world.trip["people"].append({"name": "Kit", "mass_kg": 30, "seat": "rear left"})
    bench["corner_mm"] = [1900, -640, 950]
    world.put("jackets", (1950, -600, 950))
    assert world.broken() == set()
    assert world.unknown() == {("restraint", "jackets")}
    found = top_of_the_jackets(world)
    assert (found.value, found.limit) == (1150, None)
    assert found.says.endswith("1150 mm; the lowest given is 1150 mm, and that of rear left is not known.")
    bench["corner_mm"] = [1900, -640, 951]
    world.put("jackets", (1950, -600, 951))
    assert world.broken() == {("restraint", "jackets")}
    world.vehicle["seats"][2]["back_top_z_mm"] = 1200
    world.put("jackets", (1950, -600, 950))
    bench["corner_mm"] = [1900, -640, 950]
    assert (world.broken(), world.unknown()) == (set(), set())


def test_a_hard_tied_thing_among_people_above_the_seat_backs(world):
    world.space("rear bench").update(holds="tie_downs", tie_downs=[{"rated_dan": 100}])
    world.gear["jackets"]["shape"] = "hard"
    assert world.broken() == set()
    for seat in world.vehicle["seats"]:
        seat["back_top_z_mm"] = 949
    assert world.broken() == {("restraint", "jackets")}


def test_straps_hold_exactly_what_they_are_rated_for(world):
    # The tent with the bedding in it: 0.8 · 9.81 · 56.5 kg = 443.412 N asks for 88.6824 daN, of which half counts.
    world.space("roof place")["tie_downs"] = [{"rated_dan": 44.3412}, {"rated_dan": 44.3412}]
    assert world.broken() == set()
    assert world.found("restraint", "roof place", "leaving").value == pytest.approx(443.412)
    assert world.found("restraint", "roof place", "leaving").says.endswith(": 56.5 kg of 56.5 kg.")
    world.space("roof place")["tie_downs"] = [{"rated_dan": 88.66}]
    assert world.broken() == {("restraint", "roof place")}
    # 0.5 · 10 · 88.66 N hold 56.486 kg.
    told = world.found("restraint", "roof place", "leaving").says
    assert told.endswith("0.2 N too much: 56.50 kg of 56.49 kg, 0.02 kg too much.")


def test_a_tied_thing_in_an_enclosed_space_without_tie_downs(world):
    world.space("right bay")["tie_downs"] = []
    assert world.broken() == {("restraint", "right bay")}
    world.gear["fridge"]["tied"] = False
    assert world.broken() == set()


def test_what_two_people_lift_is_tied_as_well(world):
    world.gear["water jug"]["two_person"] = True
    assert world.broken() == {("restraint", "left drawer")}


def test_a_holder_holds_what_is_marked_tied(world):
    world.gear["petrol can"]["tied"] = True
    assert world.broken() == set()


def test_without_a_barrier_in_the_vehicle_nothing_is_held_by_one(world):
    world.space("right bay")["holds"] = "barrier"
    here = ("fridge", "tool box", "food box", "stove", "recovery kit")
    assert world.broken() == {("restraint", name) for name in here}


def in_a_bracket(world: Any, **thing: Any) -> None:
    """The jackets in a space of the open that is a bracket; `thing` changes them."""
    world.space("rear bench").update(holds="bracket", air="outside", seat=None)
    world.gear["jackets"] |= thing


def test_a_bracket_that_accepts_anything_holds_nothing(world):
    in_a_bracket(world, shape="hard")
    assert world.broken() == {("restraint", "jackets")}
    (told,) = [one.says for one in world.verdict().broken]
    assert "Nothing holds jackets in rear bench, a bracket not made for it: it has no `holder`" in told


@pytest.mark.parametrize("marked", [{}, {"tied": True}, {"two_person": True}])
def test_a_bracket_holds_what_has_its_word(world, marked):
    in_a_bracket(world, shape="hard", holder="bracket", **marked)
    world.space("rear bench")["accepts"] = ["bracket"]
    assert world.broken() == set()


def test_what_only_suits_a_bracket_is_not_held_by_it(world):
    in_a_bracket(world, shape="hard", suits=["bracket"])
    world.space("rear bench")["accepts"] = ["bracket"]
    assert world.broken() == {("restraint", "jackets")}


def test_what_is_in_a_bracket_of_other_things_is_tied_there(world):
    in_a_bracket(world, shape="hard")
    # 0.8 · 9.81 · 1 kg = 7.848 N asks for 1.5696 daN, of which half counts.
    world.space("rear bench")["tie_downs"] = [{"rated_dan": 1.5696}]
    assert world.broken() == set()
    world.space("rear bench")["tie_downs"] = [{"rated_dan": 1.56}]
    assert world.broken() == {("restraint", "rear bench")}


def test_a_hard_thing_tied_in_a_bracket_of_other_things_is_below_the_seat_backs(world):
    in_a_bracket(world, shape="hard")
    world.space("rear bench").update(air="cabin", tie_downs=[{"rated_dan": 100}])
    top = top_of_the_jackets(world).value
    for seat in world.vehicle["seats"]:
        seat["back_top_z_mm"] = top
    assert world.broken() == set()
    for seat in world.vehicle["seats"]:
        seat["back_top_z_mm"] = top - 1
    assert world.broken() == {("restraint", "jackets")}
