"""Few minutes looked for again by other chances, in halves or not."""

from random import Random

import pytest

from solver.answers import SILENT
from solver.clock import Clock
from solver.few import AGAIN, again, fewer
from solver.halves import HALVES
from solver.keeping import Keeper, kept
from solver.plans import from_plan
from solver.problem import Problem
from solver.state import State

LONG = Clock(600.0, SILENT)


def chance() -> Random:
    return Random(0)  # noqa: S311 - to search, not to keep secrets


@pytest.fixture
def crossed(herd):
    """A plan, and the same where two things are to change places."""
    case, plan = herd
    problem = Problem(case)
    before = from_plan(problem, plan)
    return problem, [problem.pieces[i] for i in sorted(before.at)], before


@pytest.mark.long
def test_each_of_other_chances_holds_and_all_are_told(crossed):
    problem, wanted, before = crossed
    found = again(kept(State(problem), wanted, before), wanted, before, chance(), LONG, 20, 0.1)
    assert len(found) == AGAIN
    assert all(set(one.at) == set(before.at) for one in found)


@pytest.mark.long
def test_in_halves_the_same_is_found_as_alone(crossed, monkeypatch):
    monkeypatch.setattr("solver.few.ROUNDS", 3)
    problem, wanted, before = crossed
    some = wanted[: len(wanted) // 2]  # what is left out is to be put back somewhere
    begin = kept(State(problem), some, before)
    alone, both = (again(begin, wanted, before, chance(), LONG, 20, effort) for effort in (0.0, HALVES))
    assert sorted(sorted(one.at.items()) for one in alone) == sorted(sorted(one.at.items()) for one in both)


@pytest.mark.long
def test_rounds_end_when_nothing_moves(crossed):
    problem, wanted, before = crossed
    work = Keeper(kept(State(problem), wanted, before), wanted, before, chance())
    taken = problem.work
    fewer(work, 50, lambda: False)
    assert work.best_score.cost == 0
    assert problem.work == taken


def test_who_is_late_looks_for_no_other(crossed):
    problem, wanted, before = crossed
    assert again(kept(State(problem), wanted, before), wanted, before, chance(), Clock(0.0, SILENT), 20, 0.0) == []
