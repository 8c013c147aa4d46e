"""incident: what is needed in a fire, on a side, in mud, for a wound, at a roadside."""

from typing import Any

import pytest


def test_both_extinguishers_out_of_the_belt(world):
    world.space("inner bracket")["in_reach_when"] = []
    assert world.broken() == {("incident", "fire")}


def test_no_extinguisher_from_outside(world):
    world.space("outer bracket")["opening"] = "driver door"
    assert world.broken() == {("incident", "fire")}


def test_one_extinguisher_for_both_is_not_enough(world):
    world.space("inner bracket")["opening"] = "right side"
    world.gear["extinguisher"] |= {"spread": 1, "carry": 50}
    del world.places["extinguisher #2"]
    assert world.broken() == {("incident", "fire")}


def test_a_buried_extinguisher(world):
    bracket = world.space("outer bracket")
    bracket |= {"accepts": ["bracket", "bag"], "size_mm": [150, 150, 500], "face": "top", "limit_kg": 20}
    world.gear["stove"] |= {"holder": "bag", "size_mm": [100, 100, 100], "together": False}
    world.put("stove", (2420, 520, 1250), space="outer bracket", size_mm=(100, 100, 100))
    world.gear["extinguisher"]["access"] = "each_camp"
    assert world.broken() == {("incident", "fire")}


def test_behind_a_door_of_the_cabin_is_not_outside(world):
    # The bracket's own flap is at the right all the time; what changes is the lid that is opened before it.
    world.vehicle["openings"][3]["after"] = ["roof"]
    world.vehicle["openings"][5] |= {"side": "rear", "seconds": 3}
    assert ("incident", "fire") not in world.broken()
    world.vehicle["openings"][5]["side"] = "inside"
    assert ("incident", "fire") in world.broken()


def test_nothing_for_a_fire_is_no_finding(world):
    world.gear["extinguisher"]["needed_when"] = []
    assert not [finding for finding in world.verdict().findings if finding.subject == "fire"]


@pytest.mark.parametrize("side", ["left", "right"])
def test_rolled_over_on_either_side(world, side):
    world.vehicle["openings"][0]["stuck_when"] = [f"on {side} side"]
    assert world.broken() == {("incident", "first aid, rolled over")}


@pytest.mark.parametrize("condition", ["sills down", "tail blocked"])
def test_bogged_with_sills_down_and_tail_blocked(world, condition):
    world.vehicle["openings"][3]["stuck_when"] = [condition]
    assert world.broken() == {("incident", "recovery kit, bogged")}


def test_an_opening_after_a_blocked_one_is_blocked(world):
    world.vehicle["openings"][3]["after"] = ["tailgate"]
    assert ("incident", "recovery kit, bogged") in world.broken()


def test_an_injury_is_not_searched_for(world):
    world.gear["first aid"] |= {"access": "each_stop"}
    world.vehicle["openings"][0]["seconds"] = 30
    world.gear["extinguisher"] |= {"needed_when": []}
    assert world.broken() == set()
    world.vehicle["openings"][0]["seconds"] = 31
    assert ("incident", "first aid, injury") in world.broken()


@pytest.mark.parametrize(
    ("seconds", "told"), [(31, "31 s of 30 s, 1 s too much"), (30.1, "30.1 s of 30.0 s, 0.1 s too much")]
)
def test_seconds_too_many_are_never_told_as_enough(world, seconds, told):
    world.gear["first aid"] |= {"access": "each_stop"}
    world.gear["extinguisher"] |= {"needed_when": []}
    world.vehicle["openings"][0]["seconds"] = seconds
    says = [finding.says for finding in world.verdict().broken]
    assert f"first aid is out of reach, injury: it takes {told}." in says


def test_seconds_that_are_met_exactly_but_for_the_machine_hold(world):
    world.gear["first aid"] |= {"access": "each_stop"}
    world.gear["extinguisher"] |= {"needed_when": []}
    assert 0.1 + 16.1 + 13.8 > 30  # as the machine adds it up
    world.vehicle["openings"][0] |= {"seconds": 0.1, "after": ["lid"]}
    world.vehicle["openings"] += [
        {"name": "lid", "side": "inside", "seconds": 16.1, "after": ["latch"]},
        {"name": "latch", "side": "inside", "seconds": 13.8},
    ]
    assert world.broken() == set()
    world.vehicle["openings"][-1]["seconds"] = 13.801
    assert ("incident", "first aid, injury") in world.broken()


@pytest.mark.parametrize(
    ("side", "traffic", "held"),
    [
        ("inside", "left", True),
        ("rear", "left", True),
        ("right", "left", True),
        ("right", "right", False),
        ("left", "left", False),
        ("left", "right", True),
        ("top", "left", False),
    ],
)
def test_the_safe_side_of_a_roadside(world, side, traffic, held):
    world.gear["recovery kit"]["needed_when"] = ["roadside at night"]
    world.vehicle["openings"][3] |= {"side": side, "seconds": 6, "stuck_when": []}
    world.trip["traffic_on"] = traffic
    found = ("incident", "recovery kit, roadside at night") in world.broken()
    assert found is not held


@pytest.mark.parametrize(
    ("traffic", "y_mm", "width_mm", "held"),
    [
        ("left", -640, 640, False),
        ("left", -640, 641, True),
        ("left", 0, 500, True),
        ("right", 0, 500, False),
        ("right", -1, 500, True),
        ("right", -640, 640, True),
    ],
)
def test_a_cabin_door_on_the_side_of_traffic(world, traffic, y_mm, width_mm, held):
    world.gear["jackets"]["needed_when"] = ["roadside at night"]
    world.space("rear bench").update({"corner_mm": [1900, y_mm, 750], "size_mm": [450, width_mm, 500]})
    world.put("jackets", (1950, max(y_mm, -600), 750))
    world.trip["traffic_on"] = traffic
    assert world.broken() == (set() if held else {("incident", "jackets, roadside at night")})


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({}, "nobody reaches rear bench from a seat, and its cabin door is on the side of traffic"),
        ({"in_reach_when": ["belted driver"]}, None),
        ({"in_reach_when": ["belted passenger"]}, None),
        ({"opening": "inner lid"}, None),
    ],
)
def test_from_a_seat_or_from_the_rear_nobody_stands_in_traffic(world, changes, why):
    world.gear["jackets"]["needed_when"] = ["roadside at night"]
    world.vehicle["openings"].append({"name": "inner lid", "side": "inside", "after": ["tailgate"]})
    world.space("rear bench").update(changes)
    told = [one.says for one in world.verdict().broken]
    assert told == ([] if why is None else [f"jackets is out of reach, roadside at night: {why}."])


def test_a_trailer_is_on_in_every_incident(world):
    world.tow()
    assert world.broken() == set()
    world.vehicle["openings"][0]["stuck_when"] = ["trailer on"]
    broken = {subject for rule, subject in world.broken() if rule == "incident"}
    assert broken == {"fire", "first aid, injury", "first aid, rolled over", "first aid, roadside at night"}


def test_a_way_from_the_top_is_not_told_to_be_on_the_side_of_traffic(world):
    world.gear["recovery kit"]["needed_when"] = ["roadside at night"]
    chain = world.space("right bay")["opening"]
    next(one for one in world.vehicle["openings"] if one["name"] == chain)["side"] = "top"
    told = [one.says for one in world.verdict().broken if one.subject == "recovery kit, roadside at night"]
    why = f"{chain} is at the top; safe from traffic are the cabin, the rear and the right."
    assert told == [f"recovery kit is out of reach, roadside at night: {why}"]


@pytest.mark.parametrize("own", ["inside", "rear", "right"])
@pytest.mark.parametrize(("first", "why"), [
    ("left", "tailgate is at the left, and traffic passes on the left."),
    ("top", "tailgate is at the top; safe from traffic are the cabin, the rear and the right."),
    ("rear", None),
])  # fmt: skip
def test_all_that_is_opened_at_a_roadside_is_on_a_safe_side(world, own, first, why):
    world.gear["recovery kit"]["needed_when"] = ["roadside at night"]
    world.vehicle["openings"][1]["side"] = first
    world.vehicle["openings"][3] |= {"side": own, "after": ["tailgate"]}
    name = "recovery kit, roadside at night"
    told = [one.says for one in world.verdict().broken if one.subject == name]
    assert told == ([] if why is None else [f"recovery kit is out of reach, roadside at night: {why}"])


def test_only_what_sticks_an_opening_is_said_to_keep_it_shut(world):
    world.tow()
    world.vehicle["openings"][3]["stuck_when"] = ["tail blocked"]
    told = [one.says for one in world.verdict().broken if one.rule.value == "incident"]
    assert told == ["recovery kit is out of reach, bogged: right flap does not open (tail blocked)."]


def all_seldom(world: Any) -> None:
    """Nothing is wanted at a stage, so that rule `reach` says nothing of the stages' conditions."""
    for thing in world.gear.values():
        thing["access"] = "seldom"


@pytest.mark.parametrize(("on_racks", "held"), [({"cab rack": 150}, False), ({}, True)])
def test_what_a_wound_needs_is_reached_with_the_tent_up(world, on_racks, held):
    # A ladder before the driver's door. What is for a fire and reached from a belted seat is so while driving.
    all_seldom(world)
    world.gear["first aid"]["needed_when"] = ["injury"]
    world.vehicle["openings"][0]["stuck_when"] = ["tent up"]
    world.stage("camp")["on_racks"] = on_racks
    assert world.broken() == (set() if held else {("incident", "first aid, injury")})
    told = [one.says for one in world.verdict().broken]
    why = "first aid is out of reach, injury: driver door does not open (tent up)."
    assert told == ([] if held else [why])


@pytest.mark.parametrize("need", ["rolled over", "roadside at night", "bogged"])
def test_what_happens_on_the_road_asks_for_no_tent(world, need):
    all_seldom(world)
    world.gear["first aid"]["needed_when"] = [need]
    world.vehicle["openings"][0]["stuck_when"] = ["tent up"]
    assert world.broken() == set()


@pytest.mark.parametrize(("on_racks", "held"), [({"cab rack": 150}, False), ({}, True)])
def test_what_a_fire_needs_from_outside_is_reached_with_the_tent_up(world, on_racks, held):
    all_seldom(world)
    world.vehicle["openings"][3]["stuck_when"] = ["tent up"]
    world.stage("camp")["on_racks"] = on_racks
    assert world.broken() == (set() if held else {("incident", "fire")})
    told = [one.says for one in world.verdict().broken]
    assert told == ([] if held else ["For a fire: none is in reach from outside with the tent up."])
