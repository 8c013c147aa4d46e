"""reach: seconds to hand, stuck openings, nothing before what is needed at once."""

from typing import Any

import pytest


def test_seconds_by_hand(world):
    # Food box: right flap 6 s, the recovery kit (14 kg: 12 s) in its way. Drawer: tailgate 8 s and front 4 s.
    assert world.found("reach", "food box", "leaving").value == 18
    assert world.found("reach", "recovery kit", "leaving").value == 6
    assert world.found("reach", "water jug #1", "camp").value == 12
    assert world.found("reach", "fridge", "track").value == 6 + 6


def test_what_stands_on_a_thing_is_moved_too(world):
    # Tool box: flap 6 s, recovery kit 12 s before it, food box (10 kg: 12 s) on it.
    assert world.found("reach", "tool box", "camp").value == 30


def test_what_is_before_what_is_on_it_counts_once(world):
    world.put("stove", (3200, 160, 1350))
    world.gear["tool box"]["bears_kg"] = 20
    # Food box: flap 6 s, recovery kit 12 s, stove on it 6 s.
    assert world.found("reach", "food box", "leaving").value == 24


def test_a_thing_needed_at_once_behind_another(world):
    world.gear["tool box"]["access"] = "at_once"
    assert world.broken() == {("reach", "tool box")}


@pytest.mark.parametrize("turned", [False, True])
def test_what_must_be_moved_first_is_told_as_it_is_lifted(world, turned):
    # The stove stands on the food box, and that on the tool box, behind the recovery kit.
    world.put("stove", (3200, 160, 1350))
    world.gear["tool box"] |= {"access": "at_once", "bears_kg": 20}
    if turned:
        world.places = dict(reversed(world.places.items()))
    (says,) = {one.says for one in world.verdict().broken if "must be free" in one.says}
    told = says.removeprefix("tool box must be free, and ").removesuffix(" must be moved first.").split(", ")
    assert sorted(told) == ["food box", "recovery kit", "stove"]
    assert told.index("stove") < told.index("food box") > told.index("recovery kit")


def test_exactly_the_promised_seconds(world):
    world.vehicle["openings"][3]["seconds"] = 30
    assert world.broken() == set()
    world.vehicle["openings"][3]["seconds"] = 31
    assert world.broken() == {("reach", "recovery kit"), ("reach", "extinguisher #2"), ("incident", "fire")}


def test_belted_needs_a_place_in_reach_of_a_belt(world):
    world.space("door pocket")["in_reach_when"] = []
    assert world.broken() == {("reach", "first aid")}


def test_belted_within_five_seconds(world):
    world.space("inner bracket")["opening"] = "right side"
    world.vehicle["openings"][0]["seconds"] = 6
    assert world.broken() == {("reach", "first aid")}


def test_a_trailer_blocks_the_tailgate_on_the_road_alone(world):
    stuck = [dict(opening) for opening in world.vehicle["openings"]]
    world.tow()
    world.vehicle["openings"] = stuck
    assert world.broken() == {("reach", "water jug #1"), ("reach", "water jug #2"), ("reach", "sleeping bag #1")}
    world.stage("camp")["towing"] = False
    assert world.broken() == set()
    world.gear["sleeping bag"]["access"] = "each_stop"
    broken = world.verdict().broken
    assert {(finding.subject, finding.stage) for finding in broken} == {
        ("sleeping bag #1", "leaving"),
        ("sleeping bag #1", "track"),
    }
    assert {finding.value for finding in broken} == {None}


def test_a_tent_that_is_up_blocks_a_door_at_camp(world):
    world.vehicle["openings"][3]["stuck_when"] = ["tent up"]
    broken = {(finding.subject, finding.stage) for finding in world.verdict().broken}
    of_the_stage = {(name, "camp") for name in ("tool box", "stove", "recovery kit", "extinguisher #2")}
    assert broken == {*of_the_stage, ("fire", None)}


def test_what_is_used_up_need_not_be_reached(world):
    world.gear["recovery kit"]["uses_up"] = {"rope": 14}
    world.trip["streams"]["rope"] = {}
    world.gear["recovery kit"]["needed_when"] = []
    world.vehicle["openings"][3]["stuck_when"] = ["tent up"]
    assert ("reach", "recovery kit") in world.broken()
    world.stage("camp")["left"]["rope"] = 0
    assert ("reach", "recovery kit") not in world.broken()


def test_seldom_is_looked_at_once(world):
    world.gear["tool box"]["access"] = "seldom"
    assert world.found("reach", "tool box").limit == pytest.approx(900)


@pytest.mark.parametrize(
    ("stuck_when", "says"),
    [
        (["trailer on"], "right flap does not open (trailer on)."),
        (["tent up", "sills down"], "right flap does not open (tent up)."),
        (["trailer on", "tent up"], "right flap does not open (tent up, trailer on)."),
    ],
)
def test_only_what_sticks_an_opening_is_said_to_keep_it_shut(world, stuck_when, says):
    """At the camp the tent is up and the trailer still on; who reads why looks for what to undo."""
    world.tow()
    world.vehicle["openings"][3]["stuck_when"] = stuck_when
    world.gear["recovery kit"]["needed_when"] = []
    told = [one.says for one in world.verdict().broken if (one.subject, one.stage) == ("recovery kit", "camp")]
    assert told == [f"recovery kit is out of reach at 'camp': {says}"]


def eaten_by_the_track(world: Any, **thing: Any) -> None:
    """The recovery kit, which stands before the others in the right bay, is gone from the track on."""
    world.gear["recovery kit"] |= {"uses_up": {"bait": 14}} | thing
    world.trip["streams"]["bait"] = {}
    for name in ("track", "camp"):
        world.stage(name).setdefault("left", {})["bait"] = 0


def test_what_is_gone_at_a_stage_is_not_moved_there(world):
    eaten_by_the_track(world, access="seldom", needed_when=[])
    # Food box: right flap 6 s, the recovery kit (14 kg: 12 s) in its way as long as it is there.
    assert world.found("reach", "food box", "leaving").value == 18
    assert world.found("reach", "food box", "track").value == 6
    # Tool box: flap 6 s and the food box (10 kg: 12 s) on it.
    assert world.found("reach", "tool box", "camp").value == 18


def test_what_stands_before_what_is_gone_is_not_in_the_way_for_it(world):
    world.put("stove", (3200, 160, 1350))
    world.gear["tool box"] |= {"bears_kg": 20}
    world.gear["food box"] |= {"uses_up": {"food": 10}}
    world.stage("camp").setdefault("left", {})["food"] = 0
    # Tool box: flap 6 s, recovery kit 12 s; the food box is gone, and what stood on it no longer stands on that.
    assert world.found("reach", "tool box", "camp").value == 18


def test_what_is_needed_at_once_is_free_of_what_is_there_at_any_stage_of_its_own(world):
    eaten_by_the_track(world, access="seldom", needed_when=[])
    world.gear["food box"] |= {"access": "at_once"}
    assert world.broken() == {("reach", "food box")}
    world.stage("leaving")["left"] = {"bait": 0}
    assert world.broken() == set()


def test_what_is_needed_for_an_injury_is_free_of_what_is_there(world):
    eaten_by_the_track(world, access="seldom", needed_when=[])
    world.gear["food box"] |= {"needed_when": ["injury"]}
    assert world.broken() == {("incident", "food box, injury")}
    world.stage("leaving")["left"] = {"bait": 0}
    assert world.broken() == set()


def test_what_is_looked_at_once_has_all_that_is_carried_in_its_way(world):
    eaten_by_the_track(world, access="seldom", needed_when=[])
    world.gear["food box"] |= {"access": "seldom"}
    world.stage("leaving")["left"] = {"bait": 0}
    assert world.found("reach", "food box").value == 18
