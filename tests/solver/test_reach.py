"""reach: the solver's side. Spaces open to the rear; a tailgate takes 8 s."""

import pytest

from models.reading import case_from
from solver import propose
from solver.eligible import reasons
from solver.problem import Problem
from solver.rules import overlap, reach
from tests.solver.conftest import QUICK, Tiny
from verifier import check

BEHIND = {"one": ("low", (2000, 0, 500)), "two": ("low", (2200, 0, 500))}
"""`two` stands in the way of `one`."""
ASIDE = {"one": ("low", (2000, 0, 500)), "two": ("low", (2200, 200, 500))}
ON_TOP = {"one": ("low", (2000, 0, 500)), "two": ("low", (2000, 0, 700))}


def test_nothing_stands_before_what_is_needed_at_once(pair):
    pair.things[0]["access"] = "at_once"
    assert pair.allows(overlap.add, reach.add)
    assert not pair.allows(overlap.add, reach.add, places=BEHIND)
    assert pair.allows(overlap.add, reach.add, places=ASIDE)


def test_nothing_stands_on_what_is_needed_at_once(pair):
    pair.things[0]["access"] = "at_once"
    assert not pair.allows(overlap.add, reach.add, places=ON_TOP)
    assert pair.allows(overlap.add, reach.add, places={**ON_TOP, "two": ("low", (2000, 0, 701))})


def test_seconds_of_digging(pair):
    pair.things[0]["access"] = "each_stop"
    pair.things[1]["mass_kg"] = 30
    pair.vehicle["openings"][1]["seconds"] = 100
    assert pair.allows(overlap.add, reach.add, places=BEHIND)
    pair.vehicle["openings"][1]["seconds"] = 101
    assert not pair.allows(overlap.add, reach.add, places=BEHIND)
    assert pair.allows(overlap.add, reach.add, places=ASIDE)


def test_seconds_of_lifting_are_rounded_up_in_any_order_of_the_steps(pair):
    pair.things[1]["mass_kg"] = 30
    steps = [{"up_to_kg": 20, "seconds": 7.5}, {"up_to_kg": 10, "seconds": 5.25}]
    case = case_from(pair.vehicle, pair.things, pair.trip, {"handling": {"steps": steps, "source": "measured"}})
    assert [piece.handling_s for piece in Problem(case).pieces] == [6, 8]


def test_what_lies_on_what_must_be_moved_counts(pair):
    pair.things[0]["access"] = "each_stop"
    pair.thing("three", 30)
    pair.vehicle["openings"][1]["seconds"] = 105
    pile = {**BEHIND, "three": ("low", (2200, 0, 700))}
    assert not pair.allows(overlap.add, reach.add, places=pile)
    assert pair.allows(overlap.add, reach.add, places={**BEHIND, "three": ("low", (2200, 200, 500))})


def used_up(pair: Tiny, *stages: tuple[str, float]) -> None:
    """`two` is used up; at each stage as much of it is left."""
    pair.things[1] |= {"uses_up": {"wood": 10}}
    pair.trip["streams"] = {"wood": {}}
    pair.trip["stages"] = [
        {"name": f"stage {n}", "surface": surface, "left": {"wood": left}} for n, (surface, left) in enumerate(stages)
    ]


@pytest.mark.parametrize("places", [BEHIND, ON_TOP])
@pytest.mark.parametrize(("first", "free"), [(0.00004, True), (0.0001, False)])
def test_what_is_gone_is_not_in_the_way_of_what_is_needed_at_once(pair, places, first, free):
    pair.things[0]["access"] = "at_once"
    used_up(pair, ("off_road", first), ("parked", 0))
    assert pair.allows(overlap.add, reach.add, places=places) is free
    assert pair.allows(overlap.add, reach.add, places=ASIDE)


@pytest.mark.parametrize(("camp", "free"), [(0, True), (1, False)])
def test_what_is_gone_at_the_camp_is_not_moved_there(pair, camp, free):
    pair.things[0]["access"] = "each_camp"
    pair.vehicle["openings"][1]["seconds"] = 300
    used_up(pair, ("off_road", 1), ("parked", camp))
    assert pair.allows(overlap.add, reach.add, places=BEHIND) is free
    assert pair.allows(overlap.add, reach.add, places=ASIDE)


def test_what_is_gone_bounds_nothing_where_something_may_lie_over_what_is_needed_at_once(pair):
    pair.things[0]["access"] = "at_once"
    used_up(pair, ("off_road", 1), ("parked", 0))
    assert pair.problem().pieces[0].wanted.never_under
    used_up(pair, ("off_road", 0), ("parked", 0))
    wanted = pair.problem().pieces[0].wanted
    assert (wanted.quick, wanted.never_under, wanted.minds_all) == (True, False, False)


def test_a_plan_lies_as_what_is_gone_lets_it(tiny):
    """One space with room for one thing on the other alone: the torch lies under what is gone."""
    tiny.space("bin", size_mm=[200, 200, 400], face="top")
    tiny.thing("torch", 1, access="at_once", carry="must", bears_kg=100)
    tiny.thing("wood", 10, uses_up={"wood": 10}, carry="must", bears_kg=0)
    tiny.trip["streams"] = {"wood": {}}
    tiny.trip["stages"] = [{"name": "go", "surface": "off_road", "left": {"wood": 0}}]
    found = propose(tiny.case(), QUICK)
    assert found.plan is not None
    assert check(tiny.case(), found.plan).holds is True
    tiny.trip["stages"][0]["left"]["wood"] = 1
    assert propose(tiny.case(), QUICK).plan is None


def test_an_opening_that_takes_too_long(pair):
    pair.things[0]["access"] = "at_once"
    pair.vehicle["openings"][1]["seconds"] = 30
    assert pair.allows(reach.add)
    pair.vehicle["openings"][1]["seconds"] = 31
    assert not pair.allows(reach.add, places={"one": "low"})


def test_an_opening_that_is_stuck(pair):
    pair.vehicle["openings"][1]["stuck_when"] = ["trailer on"]
    pair.things[0]["access"] = "each_stop"
    assert pair.allows(reach.add, places={"one": "low"})
    pair.vehicle["limits"] |= {"gcm_kg": 9000, "tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000}
    pair.trip["towing"] = {"ball_kg": 50, "trailer_kg": 500}
    assert not pair.allows(reach.add, places={"one": "low"})


@pytest.mark.parametrize(("seconds", "told"), [(31, "31 s to open and it must be in hand in 30 s"), (30.04, "30.04 s")])
def test_seconds_too_many_are_never_told_as_enough(pair, seconds, told):
    pair.things[0]["access"] = "at_once"
    pair.vehicle["openings"][1]["seconds"] = seconds
    case = pair.case()
    (why,) = reasons(case, case.thing_named["one"], case.space_named["low"])
    assert told in why.says
