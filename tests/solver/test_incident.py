"""incident: the solver's side."""

import pytest

from solver import Options, propose
from solver.build import Build
from solver.limits import against_fire
from solver.plans import to_plan
from solver.rules import incident
from solver.state import laid, lying
from tests.solver.conftest import Tiny, conflict_of, decided
from verifier import check
from verifier.layout import layout_of
from verifier.rules.incident import find


def test_rolled_over(pair):
    pair.things[0]["needed_when"] = ["rolled over"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})


def test_bogged(pair):
    pair.things[0]["needed_when"] = ["bogged"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "high"})
    assert pair.allows(incident.add, places={"one": "low"})


def test_at_the_roadside_at_night(pair):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    pair.vehicle["spaces"][1]["opening"] = "right flap"
    pair.trip["traffic_on"] = "left"
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})


def test_all_that_is_opened_at_the_roadside_is_away_from_traffic(pair):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["openings"].append({"name": "inner lid", "side": "rear", "after": ["left flap"]})
    pair.vehicle["spaces"][0]["opening"] = "inner lid"
    pair.vehicle["spaces"][1]["opening"] = "right flap"
    pair.trip["traffic_on"] = "left"
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})
    pair.vehicle["openings"][-1]["after"] = ["tailgate"]
    assert pair.allows(incident.add, places={"one": "low"})


@pytest.mark.parametrize(
    ("traffic", "y_mm", "held"), [("left", -400, False), ("left", -399, True), ("right", 0, False)]
)
def test_through_a_cabin_door_away_from_traffic(pair, traffic, y_mm, held):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "corner_mm": [2000, y_mm, 500]}
    pair.trip["traffic_on"] = traffic
    assert pair.allows(incident.add, places={"one": "low"}) == held


@pytest.mark.parametrize("changes", [{"in_reach_when": ["belted driver"]}, {"opening": "inner lid"}])
def test_from_a_seat_or_from_the_rear_nobody_stands_in_traffic(pair, changes):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["openings"].append({"name": "inner lid", "side": "inside", "after": ["tailgate"]})
    pair.vehicle["spaces"][0] |= {"opening": "door", "corner_mm": [2000, -400, 500]}
    pair.trip["traffic_on"] = "left"
    assert not pair.allows(incident.add, places={"one": "low"})
    pair.vehicle["spaces"][0] |= changes
    assert pair.allows(incident.add, places={"one": "low"})


@pytest.mark.usefixtures("no_bound", "no_ways_told")
@pytest.mark.parametrize(("traffic", "space"), [("left", "high"), ("right", "low")])
def test_it_is_proposed_away_from_traffic_in_the_cabin(pair, traffic, space):
    """`low` is on the left and the lowest place, `high` is on the right."""
    pair.things[:] = [{**pair.things[0], "needed_when": ["roadside at night"], "carry": "must"}]
    for one, y_mm in zip(pair.vehicle["spaces"], (-400, 0), strict=True):
        one |= {"opening": "door", "corner_mm": [2000, y_mm, one["corner_mm"][2]]}
    pair.trip["traffic_on"] = traffic
    plan = propose(pair.case(), Options(effort=0.02, seconds=600.0)).plan
    assert plan is not None
    assert [one.space for one in plan.placements] == [space]
    assert check(pair.case(), plan).holds


def test_fire(pair):
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "low", "two": "low"})
    assert not pair.allows(incident.add, places={"one": "high", "two": "high"})
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})


def two_in_a_door(tiny: Tiny, count: int = 3, near: int = 2) -> Tiny:
    """So many copies for a fire fit in a door, reached belted and from outside; others behind a slow tailgate."""
    tiny.space("door pocket", (1400, 0, 500), size_mm=[200 * near, 200, 200], opening="front", air="cabin", face="top")
    tiny.vehicle["openings"].append({"name": "front", "side": "left", "seconds": 4})
    tiny.vehicle["spaces"][-1]["in_reach_when"] = ["belted driver"]
    tiny.space("rear", (3000, 0, 900), opening="slow")
    tiny.vehicle["openings"].append({"name": "slow", "side": "rear", "seconds": 60})
    tiny.thing("blanket", count=count, needed_when=["fire"], turns="fixed", carry="must")
    return tiny


@pytest.mark.parametrize(
    ("spaces", "holds"),
    [
        (("door pocket", "door pocket", "rear"), True),
        (("door pocket", "rear", "rear"), False),
        (("door pocket", "door pocket", "door pocket"), False),
        (("rear", "rear", "rear"), False),
    ],
)
def test_two_against_fire_may_be_in_one_space_where_a_third_is_elsewhere(tiny, spaces, holds):
    two_in_a_door(tiny, near=3)
    tiny.vehicle["spaces"][1]["size_mm"][0] = 600
    case, problem = tiny.case(), tiny.problem()
    corners = [(1400, 500) if space == "door pocket" else (3000, 900) for space in spaces]
    rooms = [problem.room_of[space] for space in spaces]
    whole = laid(problem, [lying(problem, n, rooms[n], 0, x + 200 * n, 0, z) for n, (x, z) in enumerate(corners)])
    assert all(one.holds for one in find(layout_of(case, to_plan(whole, reserve_kept_kg=0)))) == holds
    assert (not against_fire(whole)) == holds
    for free in (problem.pieces[:1], problem.pieces):
        rest = whole.copy()
        for piece in free:
            rest.remove(piece.index)
        build = Build(problem, free, range(len(problem.rooms)), rest)
        incident.add(build)
        for piece in free:
            build.hold(build.carried(piece))
            build.hold(build.inside(piece, whole.at[piece.index].room))
        assert decided(build) == holds


@pytest.mark.usefixtures("no_bound", "no_ways_told")
@pytest.mark.parametrize(("count", "near", "holds"), [(3, 2, True), (3, 1, False), (2, 2, False), (4, 2, True)])
def test_two_against_fire_in_one_door_are_proposed_with_a_third_elsewhere(tiny, count, near, holds):
    two_in_a_door(tiny, count, near)
    tiny.vehicle["spaces"][1]["size_mm"][0] = 800
    plan = propose(tiny.case(), Options(effort=0.02, seconds=600.0)).plan
    assert (plan is not None) == holds
    assert plan is None or check(tiny.case(), plan).holds


def test_against_fire_behind_the_cabin_is_not_outside(pair):
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    pair.vehicle["openings"].append({"name": "hatch", "side": "rear", "after": ["tailgate"]})
    pair.vehicle["spaces"][1]["opening"] = "hatch"
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})
    pair.vehicle["openings"][-1]["after"] = ["door"]
    assert not pair.allows(incident.add, places={"one": "low", "two": "high"})


def camped(pair: Tiny) -> None:
    """People sleep on the roof, and their ladder stands before the left flap, which is the way into `low`."""
    pair.vehicle["racks"].append({"name": "roof", "own_mass_kg": 0, "limits": {"any_kg": 200}})
    pair.vehicle["openings"][2]["stuck_when"] = ["tent up"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    pair.trip["stages"].append({"name": "camp", "surface": "parked", "on_racks": {"roof": 80}})


def test_what_a_wound_needs_with_the_tent_up(pair):
    camped(pair)
    pair.things[0]["needed_when"] = ["injury"]
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})
    pair.trip["stages"][1]["on_racks"] = {}
    assert pair.allows(incident.add, places={"one": "low"})


def test_what_a_fire_needs_from_outside_with_the_tent_up(pair):
    camped(pair)
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][1] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    assert not pair.allows(incident.add, places={"one": "low", "two": "high"})
    pair.trip["stages"][1]["on_racks"] = {}
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})


def test_in_reach_of_a_belt_is_asked_while_driving_alone(pair):
    camped(pair)
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["openings"][2] |= {"side": "inside", "seconds": 3}
    pair.vehicle["spaces"][0] |= {"in_reach_when": ["belted driver"], "air": "cabin"}
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})


@pytest.mark.usefixtures("no_bound", "no_ways_told")
@pytest.mark.parametrize("need", ["injury", "fire"])
def test_it_is_proposed_where_it_is_reached_with_the_tent_up(pair, need):
    """`low` is the lowest place, and for a wound and from outside in a fire there is `high` alone."""
    camped(pair)
    pair.things[0] |= {"needed_when": [need], "carry": "must", "access": "seldom"}
    pair.vehicle["openings"].append({"name": "glovebox", "side": "inside", "seconds": 3})
    pair.space("in the cabin", (1500, 0, 400), opening="glovebox", air="cabin", in_reach_when=["belted driver"])
    pair.things[1] |= {"needed_when": ["fire"] if need == "fire" else [], "carry": "must"}
    plan = propose(pair.case(), Options(effort=0.02, seconds=600.0)).plan
    assert plan is not None
    assert check(pair.case(), plan).holds
    assert "low" not in {one.space for one in plan.placements if need in pair.case().thing_named[one.thing].needed_when}


@pytest.mark.usefixtures("no_ways_told")
def test_a_refusal_tells_what_the_tent_keeps_shut(pair):
    camped(pair)
    pair.things[0] |= {"needed_when": ["injury"], "carry": "must"}
    pair.vehicle["spaces"][1]["opening"] = "left flap"
    assert "With the tent up nobody gets at: low, high." in conflict_of(pair).says
