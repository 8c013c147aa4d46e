"""What a refusal names: spaces that leave no height, too few places, words of brackets, limits beside each other."""

from typing import Any

import pytest

from models.case import Copy
from models.plan import Plan
from solver import Status, propose
from solver.core import bearer
from solver.heights import every_reason
from solver.misses import closest_words
from solver.plans import from_plan
from solver.wording import copies_words
from tests.solver.conftest import QUICK, conflict_of

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_a_space_in_which_a_thing_would_stand_too_high_is_not_called_lawful(starter):
    shelf = next(one for one in starter.vehicle["spaces"] if one["name"] == "right shelf")
    shelf |= {"air": "cabin", "holds": "tie_downs", "tie_downs": [{"rated_dan": 900}], "corner_mm": [2460, 80, 1400]}
    shelf |= {"size_mm": [1700, 640, 370], "in_reach_when": []}
    case = starter.case()
    # 240 mm upright on a floor at 1400 mm, behind seat backs of 1150 mm.
    too_high = "its top would be 490 mm above the lowest seat back in every turn it may take"
    assert too_high in [
        one.says for one in every_reason(case, case.thing_named["tool box"], case.space_named["right shelf"])
    ]
    starter.trip["locks"] = [{"thing": "tool box", "in": "right shelf"}]
    assert f"restraint: {too_high}." in conflict_of(starter).says
    starter.trip["locks"] = [
        {"thing": "tool box", "not_in": "right drawer"},
        {"thing": "tool box", "not_in": "left bay"},
    ]
    assert conflict_of(starter).says == (
        "tool box has no place that its locks leave open; lawful: left bay, right drawer.",
    )


@pytest.mark.usefixtures("no_ways_told")
def test_a_space_that_is_too_low_above_the_water_is_told_too(starter):
    starter.vehicle["wading_line_mm"] = 1400
    starter.things.append(
        {"name": "inverter", "mass_kg": 9, "size_mm": [300, 250, 420], "turns": "upright", "electrical": True}
    )
    assert "left bay: is 120 mm too low for it above the wading line." in conflict_of(starter).says


def test_a_single_extinguisher_is_proven_to_be_too_few(starter):
    next(one for one in starter.things if one["name"] == "extinguisher").update(count=1, spread=1)
    conflict = conflict_of(starter)
    two = "fire: one has to be in reach of a belted seat and another from outside"
    assert conflict.says == (f"{two}; extinguisher is the only one that may come: take a second.",)
    assert [one.subject for one in conflict.demands] == ["extinguisher"]


@pytest.mark.usefixtures("no_ways_told")
def test_a_vehicle_with_nothing_in_reach_of_a_belted_seat_is_told_so(starter):
    next(one for one in starter.vehicle["spaces"] if one["name"] == "cabin bracket").update(in_reach_when=[])
    assert "no space in reach with a belt on may take extinguisher." in conflict_of(starter).says[0]


@pytest.mark.long
def test_a_second_thing_for_a_fire_is_enough(starter):
    next(one for one in starter.things if one["name"] == "extinguisher").update(count=1, spread=1)
    starter.things.append({"name": "fire blanket", "mass_kg": 1, "size_mm": [200, 200, 80], "needed_when": ["fire"]})
    assert propose(starter.case(), QUICK).status is Status.FOUND


def kinds_of(made: Any) -> list[tuple[str, str]]:
    return [(one.kind, one.subject) for one in conflict_of(made).demands]


@pytest.mark.usefixtures("no_ways_told")
def test_a_lock_without_which_it_is_as_much_too_much_is_not_named(pair):
    # 2000 kg with nothing loaded.
    pair.vehicle["limits"]["gvm_kg"] = 2100
    pair.things[0]["mass_kg"] = 130
    pair.things[1]["mass_kg"] = 5
    pair.thing("guitar", 2, carry=20)
    pair.thing("drum", 40, carry=20)
    pair.trip["locks"] = [{"thing": name, "carried": True, "by": "Ada"} for name in ("guitar", "drum")]
    assert kinds_of(pair) == [("must come", "one, two"), ("limit", "total")]
    pair.things[0]["mass_kg"] = 60  # 65 kg that must come, and 42 kg by locks: the drum alone makes it too much
    assert kinds_of(pair) == [("lock", "drum"), ("must come", "one, two"), ("limit", "total")]
    pair.things[0]["mass_kg"] = 54  # 101 kg: neither lock can be spared
    assert kinds_of(pair) == [("lock", "guitar"), ("lock", "drum"), ("must come", "one, two"), ("limit", "total")]
    pair.things[3]["mass_kg"] = 101  # too much by itself
    assert kinds_of(pair) == [("lock", "drum"), ("limit", "total")]


@pytest.mark.usefixtures("no_ways_told")
def test_a_lock_without_which_there_are_as_few_places_is_not_named(pair):
    pair.things = pair.things[:1]
    pair.things[0] |= {"count": 2, "needed_when": ["fire"]}
    pair.trip["locks"] = [{"thing": "one", "copy": 2, "not_in": "low", "by": "Bo", "because": "it rusts there"}]
    assert kinds_of(pair) == [("must come", "one")], "nothing is in reach with a belt on"
    pair.vehicle["openings"][1]["seconds"] = 5
    pair.vehicle["spaces"][0] |= {"in_reach_when": ["belted driver"]}
    pair.trip["locks"] += [{"thing": "one", "copy": 1, "not_in": "low", "by": "Ada"}]
    assert kinds_of(pair) == [("lock", "one"), ("lock", "one"), ("must come", "one")], "both keep it out of reach"


@pytest.mark.long
def test_copies_that_are_spread_and_locked_in_one_space_cannot_be(starter):
    next(one for one in starter.things if one["name"] == "water can")["spread"] = 2
    starter.trip["locks"] = [{"thing": "water can", "in": "left bay", "by": "Ada"}]
    conflict = conflict_of(starter)
    assert conflict.says == ("spread: water can has to be in 2 different spaces, and only left bay may take it.",)
    # No other space takes it without the lock either.
    assert [(one.kind, one.subject) for one in conflict.demands] == [("must come", "water can")]


@pytest.mark.usefixtures("no_ways_told")
def test_a_lock_that_keeps_copies_in_one_space_that_have_to_be_in_two_is_named(pair):
    pair.things[0] |= {"count": 2, "spread": 2}
    pair.trip["locks"] = [{"thing": "one", "in": "low", "by": "Ada"}]
    assert kinds_of(pair) == [("lock", "one"), ("must come", "one")]


@pytest.mark.usefixtures("no_ways_told")
def test_of_a_thing_without_its_holder_the_bracket_that_would_take_it_is_told(starter):
    del next(one for one in starter.things if one["name"] == "extinguisher")["holder"]
    assert set(conflict_of(starter).says[1:]) >= {
        "cabin bracket: takes only: extinguisher; if it belongs there, give it `holder: extinguisher`.",
        "tailgate bracket: takes only: extinguisher; if it belongs there, give it `holder: extinguisher`.",
    }


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_limits_that_share_a_load_are_told_each_with_the_others_kept(starter):
    starter.vehicle["racks"][0]["limits"] = {"any_kg": 20}
    next(one for one in starter.vehicle["spaces"] if one["name"] == "left bay")["limit_kg"] = 60
    says = conflict_of(starter).says
    told = [one for one in says if "wherever things lie, as long as the other limits hold" in one]
    assert [one.split(" gets ")[0] for one in told] == ["drawer frame", "left bay"]
    starter.vehicle["racks"][0]["limits"] = {"any_kg": 900}
    next(one for one in starter.vehicle["spaces"] if one["name"] == "left bay")["limit_kg"] = 30
    alone, *_ = conflict_of(starter).says
    assert alone.startswith("left bay gets at least ")
    assert alone.endswith(" kg too much with all that is asked, wherever things lie.")


@pytest.mark.parametrize(
    ("count", "home", "says"),
    [(1, 1, "can"), (2, 1, "can (1 of 2)"), (2, 2, "can (both)"), (3, 3, "can (all 3)"), (3, 2, "can (2 of 3)")],
)
def test_how_many_copies_stay_at_home_is_told(tiny, count, home, says):
    tiny.space("hold", (0, 0, 500))
    tiny.thing("can", count=count)
    assert copies_words(tiny.case(), [Copy("can", n + 1) for n in range(home)]) == [says]


@pytest.mark.usefixtures("no_ways_told")
def test_what_has_to_stand_upright_is_told_to_be_too_tall_and_not_too_long(starter):
    starter.trip["stages"][0]["closed"] = ["left bay"]
    says = conflict_of(starter).says
    assert "right shelf: it is 90 mm too tall and has to stay upright." in says
    starter.things = [one | ({"turns": "any"} if one["name"] == "water can" else {}) for one in starter.things]
    assert not any("too tall" in one for one in conflict_of(starter).says if one.startswith("right shelf"))


@pytest.mark.parametrize(
    ("size_mm", "turns", "says"),
    [
        ([500, 400, 300], "any", "it is 100 mm too long for low in every turn it may take"),
        ([500, 430, 300], "any", "it is 100 mm too long for low in every turn it may take, and 30 mm on a second side"),
        ([300, 500, 400], "upright", "it is 100 mm too long for low in every turn it may take"),
        (
            [410, 430, 420],
            "any",
            "it is 30 mm too long for low in every turn it may take, and 20 and 10 mm on the other two sides",
        ),
        ([400, 400, 430], "upright", "it is 30 mm too tall for low and has to stay upright"),
    ],
)
def test_on_how_many_sides_a_thing_is_too_long_is_told(tiny, size_mm, turns, says):
    tiny.space("low")
    tiny.thing("case", size_mm=size_mm, turns=turns)
    case = tiny.case()
    assert [one.says for one in every_reason(case, case.thing_named["case"], case.space_named["low"])] == [says]


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_what_only_one_or_two_spaces_take_is_told_where_a_limit_is_too_small(starter):
    starter.things.append({"name": "anvil", "mass_kg": 120, "size_mm": [500, 250, 300], "turns": "upright"})
    says = conflict_of(starter).says
    assert "These may be nowhere else: anvil in left bay; water can in left bay." in says


def closest_of(made: Any, **spaces: str) -> str:
    """What is said of a layout with each thing at the lowest corner of a space."""
    problem = made.problem()
    corner = {room.space.name: room.low for room in problem.rooms}
    lay = [
        {"thing": name, "space": space, "corner_mm": corner[space], "size_mm": [200, 200, 200]}
        for name, space in spaces.items()
    ]
    state = from_plan(problem, Plan.model_validate({"trip": "t", "placements": lay}))
    return " ".join(closest_words(state, []))


def test_what_the_closest_layout_misses_on_the_whole_is_named(pair):
    assert closest_of(pair, one="low", two="high") == ""
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    assert closest_of(pair, one="low", two="high") == "The layout that came closest parts the kit kitchen."
    assert closest_of(pair, one="low") == ""


def test_copies_and_things_for_a_fire_are_named_too(pair):
    pair.things[0] |= {"count": 2, "spread": 2}
    assert closest_of(pair, one="low").endswith("has one in 1 of the 2 spaces that are asked for.")
    del pair.things[0]["count"], pair.things[0]["spread"]
    pair.things[0]["needed_when"] = ["fire"]
    assert "has nothing for a fire in reach of a belted seat" in closest_of(pair, one="low")
    assert "in reach from outside" not in closest_of(pair, one="low")
    pair.vehicle["spaces"][0] |= {"in_reach_when": ["belted driver"], "opening": "door"}
    assert closest_of(pair, one="low").endswith("closest has nothing for a fire in reach from outside.")


def test_where_showing_members_took_all_its_time_the_locks_into_their_space_are_told_as_one(tiny, monkeypatch):
    monkeypatch.setattr("solver.conflict.SHOW_SHARE", 0.0)
    tiny.space("chest", size_mm=[500, 400, 200])
    tiny.space("bay", (2600, 0, 500), size_mm=[800, 400, 400])
    for name in ("long one", "long two", "long three"):
        tiny.thing(name, size_mm=[260, 260, 200])
    tiny.thing("other")
    tiny.trip["locks"] = [{"thing": one["name"], "in": "chest"} for one in tiny.things[:3]]
    tiny.trip["locks"].append({"thing": "other", "in": "bay"})
    conflict = conflict_of(tiny)
    assert [(one.subject, one.shown) for one in conflict.demands] == [("long one, long two, long three", True)]
    assert conflict.ways_out[0].says.startswith("Without these 2 locks, all in chest: ")


def test_the_space_that_is_made_for_a_thing_and_too_weak_is_told_first(tiny):
    tiny.space("a bay")
    tiny.space("b bay", (2600, 0, 500))
    tiny.space("mount", (3200, 0, 500), accepts=["spare"], limit_kg=50)
    tiny.thing("wheel", 60, holder="spare")
    says = conflict_of(tiny).says
    assert says[1] == "mount: it weighs 60.0 kg and mount holds 50 kg."


def test_of_a_hazard_the_spaces_in_air_that_it_may_ride_in_are_told_first(tiny):
    tiny.space("a bay")
    tiny.space("b bay", (2600, 0, 500))
    tiny.space("rack", (3200, 0, 500), air="outside", holds="holder", accepts=["can"], limit_kg=5)
    tiny.thing("can", 20, hazard="petrol", holder="can", approved_can=True, holds_l=10, size_mm=[200, 200, 500])
    says = conflict_of(tiny).says
    assert says[1].startswith("rack: ")


LIFTED = {
    "front axle": "a higher limit of the front axle",
    "tow ball": "a higher limit of the tow ball",
    "front share": "a smaller share asked of the front axle",
    "side": "a greater difference allowed between left and right",
}


@pytest.mark.parametrize("limit", LIFTED)
def test_a_lifted_limit_is_named_whatever_it_is(tiny, limit):
    tiny.space("bay")
    tiny.thing("big", 5, size_mm=[900, 900, 900])
    limits = tiny.vehicle["limits"]
    if limit == "front axle":
        limits["front_axle_kg"] = 1000
    elif limit == "front share":
        limits["front_share_min"] = 0.9
    elif limit == "side":
        tiny.vehicle["kerb"]["right_of_centre_mm"] = 300
        limits["side_difference_share"] = 0.01
    else:
        limits |= {"tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000}
        tiny.trip["towing"] = {"ball_kg": 150, "trailer_kg": 1000}
    says = conflict_of(tiny).says
    assert f"Even with {LIFTED[limit]}: big has no lawful place in this vehicle." in says


@pytest.mark.parametrize(
    ("subject", "begins"),
    [
        ("total", "The total"),
        ("with trailer", "The total of vehicle and trailer"),
        ("rear axle", "The rear axle"),
        ("rack rear axle", "rear axle"),
        ("space total", "total"),
        ("tie-downs tow ball", "tow ball"),
    ],
)
def test_a_sentence_begins_with_what_a_limit_is_of(subject, begins):
    assert bearer(subject) == begins
