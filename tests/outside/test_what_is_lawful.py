"""A plan that `check` takes is proven by nobody to be impossible, to lie too low, or to be worth too much."""

from collections.abc import Iterator

import pytest

from models.case import Case
from models.plan import Plan
from solver import Options, Status, propose
from solver.answers import SILENT
from solver.asking import Asked
from solver.bound import height_bound
from solver.choose import units
from solver.clock import Clock
from solver.pins import needed
from solver.problem import Problem
from solver.seen import seen_conflict
from solver.worth import value_bound
from tests.chances import seeds
from tests.outside.drawn_trips import Drawn, drawn
from verifier import check

LONG_S = 600.0
ROUNDING_MM = 5e-3
"""Heights are of masses in whole grams in the search."""


def height_of(case: Case, plan: Plan) -> float:
    """The height of a plan at its one driving stage in mm."""
    found = check(case, plan).totals["go"].cg_height_mm
    assert found is not None
    return found


def optional(made: Drawn) -> Iterator[int]:
    """Make some of the things optional; their values."""
    for thing in made.bench.things:
        if made.maybe(0.5) and not any(lock["thing"] == thing["name"] for lock in made.bench.trip["locks"]):
            thing["carry"] = made.chance.randint(1, 100)
            yield thing["carry"]


@pytest.mark.parametrize("seed", seeds(3, of=240))
def test_what_check_takes_is_not_proven_to_be_impossible(seed):
    case = drawn(seed).case()
    conflict = seen_conflict(Asked(case, (), True, None), Clock(LONG_S, SILENT))
    assert conflict is None, conflict.says


@pytest.mark.parametrize("seed", seeds(1, of=60))
def test_what_check_takes_is_nowhere_too_low_and_worth_no_more_than_proven(seed):
    made = drawn(seed)
    problem, height = Problem(made.case()), height_of(made.case(), made.plan())
    bound = height_bound(problem, frozenset(range(len(problem.pieces))), LONG_S).height_mm
    assert bound is not None
    assert bound <= height + ROUNDING_MM
    value = sum(optional(made))
    problem = Problem(made.case())
    must = [piece.index for piece in problem.pieces if needed(problem, piece)]
    offered = units(problem, [problem.pieces[index] for index in must])
    most, _ = value_bound(problem, must, offered, height + ROUNDING_MM, LONG_S)
    assert most is not None
    assert most >= value - 1e-6


@pytest.mark.parametrize("seed", seeds(0, of=24))
@pytest.mark.usefixtures("no_bound", "searched_little")
def test_suggest_finds_a_plan_or_says_that_none_was_found(seed):
    case = drawn(seed).case()
    found = propose(case, Options(effort=0.02, seconds=20.0))
    assert found.status is not Status.IMPOSSIBLE
    assert found.plan is None or check(case, found.plan).holds is True
