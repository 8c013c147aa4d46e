"""A space that is part of one of several copies: any of them may be the one that lies around it."""

import pytest

from models.case import Copy, copy_of
from solver import Options, propose
from solver.patterns import Patterns
from solver.problem import Problem
from solver.room_rows import rooms_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_out")

QUICK = Options(effort=0.02, seconds=600.0)


@pytest.fixture
def chests(pair):
    """Two chests, each as large as a space, and one thing to lie in the room that is part of a chest in `low`."""
    pair.things = []
    pair.thing("chest", count=2, size_mm=[400, 400, 400])
    pair.thing("bag")
    pair.space("in the low one", (2050, 50, 550), size_mm=[250, 250, 250], inside_of="chest")
    pair.trip["locks"] = [{"thing": "bag", "in": "in the low one"}]
    return pair


def spaces(case) -> dict[Copy, str]:
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert check(case, plan).broken == ()
    return {copy_of(place): place.space for place in plan.placements}


@pytest.mark.parametrize("away", [1, 2])
def test_the_copy_that_no_lock_keeps_elsewhere_lies_around_it(chests, away):
    chests.trip["locks"].append({"thing": "chest", "copy": away, "in": "high"})
    found = spaces(chests.case())
    assert (found[Copy("chest", away)], found[Copy("chest", 3 - away)]) == ("high", "low")


@pytest.mark.parametrize("here", [1, 2])
def test_the_copy_that_a_lock_keeps_there_lies_around_it(chests, here):
    chests.trip["locks"].append({"thing": "chest", "copy": here, "in": "low"})
    assert spaces(chests.case())[Copy("chest", here)] == "low"


@pytest.mark.parametrize("home", [1, 2])
def test_the_copy_that_is_not_locked_at_home_lies_around_it(chests, home):
    chests.things[0]["carry"] = 50
    chests.trip["locks"] += [
        {"thing": "chest", "copy": home, "at_home": True},
        {"thing": "chest", "copy": 3 - home, "carried": True},
    ]
    assert spaces(chests.case())[Copy("chest", 3 - home)] == "low"


def test_spaces_too_far_apart_for_one_copy_are_parts_of_two(chests):
    chests.space("in the high one", (2650, 50, 950), size_mm=[250, 250, 250], inside_of="chest")
    chests.thing("purse")
    chests.trip["locks"].append({"thing": "purse", "in": "in the high one"})
    assert set(spaces(chests.case())) == set(chests.case().copies)


def test_spaces_that_one_copy_holds_are_parts_of_one(chests):
    chests.space("on its floor", (2300, 50, 500), size_mm=[90, 90, 40], inside_of="chest")
    problem = chests.problem()
    assert len(set(problem.host.values())) == 1
    assert len(problem.host) == 2


@pytest.mark.parametrize("around", [1, 2])
def test_the_copy_that_is_around_it_in_the_plan_before_stays_so(chests, around):
    case = chests.case()
    chests.trip["locks"].append({"thing": "chest", "copy": around, "in": "low"})
    before = propose(chests.case(), QUICK).plan
    assert before is not None
    problem = Problem(case, before=before)
    assert [problem.pieces[host].copy.number for host in problem.host.values()] == [around]


def test_the_bound_counts_on_such_a_space_whichever_copy_is_carried(chests):
    problem = chests.problem()
    carried = [piece for piece in problem.pieces if piece.copy != Copy("chest", 1)]
    members = {piece.kind: [piece] for piece in carried}
    rooms = rooms_of(problem, members, 40, float("inf"))
    assert any(problem.rooms[rows.room.index].space.inside_of == "chest" for rows in rooms)


def test_no_other_copy_is_taken_for_the_one_around_a_space(chests):
    """Layouts put together from patterns name like copies anew; what lies in a chest would lose it."""
    problem = chests.problem()
    classes = Patterns(problem, frozenset()).classes
    (host,) = problem.host.values()
    assert [index for index in range(len(classes)) if classes[index] == classes[host]] == [host]
