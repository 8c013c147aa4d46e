"""Bringing the centre of gravity down in two halves."""

import multiprocessing
from random import Random

import pytest

from benchmarks.generate import Wanted, made_case
from benchmarks.quick import first_plan
from models.case import Case
from models.plan import Plan
from solver.answers import SILENT
from solver.clock import Budget, Clock
from solver.improve import BESIDE_ASSIGNED, improve
from solver.patterns import patterns_of
from solver.plans import from_plan
from solver.problem import Problem
from solver.state import Lying, State

pytestmark = pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
"""Those who run the tests have threads of their own; a user's process has none."""
LONG_S = 600.0


class Listener:
    """Whoever wants to know how it goes."""

    def __init__(self) -> None:
        self.heights: list[float | None] = []

    def step(self, _elapsed_s: float, _phase: str, height_mm: float | None, _bound_mm: float | None) -> None:
        self.heights.append(height_mm)


def chance(seed: int = 0) -> Random:
    return Random(seed)  # noqa: S311 - by chance, not a secret


@pytest.fixture(scope="module")
def soon() -> tuple[Case, Plan]:
    """A made trip with things in many spaces, and a plan of it that was soon found."""
    case = made_case(2, Wanted(16, 6, 3))
    plan = first_plan(case)
    assert plan is not None
    return case, plan


def laid_out(soon: tuple[Case, Plan]) -> State:
    """A plan that was soon found, with a memory of its own."""
    case, plan = soon
    return from_plan(Problem(case, before=plan), plan)


def brought_down(state: State, effort: float, listener=SILENT) -> State:
    return improve(state, state.carried(), chance(3), Clock(LONG_S, listener), effort, "height")


def lies(state: State) -> dict[int, Lying]:
    return dict(sorted(state.at.items()))


@pytest.mark.long
@pytest.mark.usefixtures("two_cores")
def test_one_process_and_two_find_the_same(soon, monkeypatch):
    for budget in ("CORNERS", "GROWN_CORNERS"):
        monkeypatch.setattr(f"solver.improve.{budget}", 2e5)
    beside = brought_down(laid_out(soon), 0.5)
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    state = laid_out(soon)
    assert lies(brought_down(state, 0.5)) == lies(beside)
    assert beside.height_mm() < state.height_mm()
    assert multiprocessing.active_children() == []


@pytest.mark.long
def test_both_halves_are_searched_and_only_one_of_them_is_told_of(soon, monkeypatch):
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    seen = []

    def repacked(now: State, *_: object) -> State:
        seen.append(now.problem)
        return now

    monkeypatch.setattr("solver.improve.repacked", repacked)
    listener = Listener()
    state = laid_out(soon)
    brought_down(state, 0.5, listener)
    assert [problem is state.problem for problem in seen] == [True, False] * 2
    assert len({id(problem) for problem in seen}) == 2
    assert len(listener.heights) == 2


@pytest.mark.parametrize(
    ("most_pairs", "may_change", "times"),
    [(2500, 6, BESIDE_ASSIGNED), (0, 6, 1.0), (2500, 0, 1.0)],
    ids=["all are assigned", "too many pairs", "nothing came of it"],
)
def test_the_second_half_repacks_longer_where_the_first_assigns_all(soon, monkeypatch, most_pairs, may_change, times):
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    monkeypatch.setattr("solver.assign.MOST_PAIRS", most_pairs)
    corners = []

    def budget(problem: Problem, clock: Clock, many: float) -> Budget:
        corners.append(many)
        return Budget(problem, clock, many)

    monkeypatch.setattr("solver.improve.Budget", budget)
    for step in ("repacked", "settle", "assigned", "recombined"):
        monkeypatch.setattr(f"solver.improve.{step}", lambda now, *_: now)
    for step in ("grow", "fill"):
        monkeypatch.setattr(f"solver.improve.{step}", lambda *_, **__: None)
    state = laid_out(soon)
    patterns_of(state).may_change = may_change
    brought_down(state, 0.5)
    assert corners[1] == pytest.approx(times * corners[0])


@pytest.mark.long
def test_what_one_half_finds_the_other_goes_on_from(soon, monkeypatch):
    """Repacking finds something in the second half alone; the first begins its next turn with it."""
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    state = laid_out(soon)
    lower = brought_down(laid_out(soon), 0.1)
    starts = []

    def repacked(now: State, *_: object) -> State:
        starts.append(now.height_mm())
        if now.problem is state.problem:
            return now
        found = State(now.problem)
        for it in lower.at.values():
            found.add(it)
        return found

    monkeypatch.setattr("solver.improve.repacked", repacked)
    for step in ("settle", "assigned", "recombined"):
        monkeypatch.setattr(f"solver.improve.{step}", lambda now, *_: now)
    found = brought_down(state, 0.5)
    assert starts[0] == pytest.approx(state.height_mm())
    assert starts[2] == pytest.approx(lower.height_mm())
    assert lower.height_mm() < state.height_mm()
    assert found.height_mm() == pytest.approx(lower.height_mm())


def test_a_search_that_is_late_changes_nothing(soon):
    state = laid_out(soon)
    assert improve(state, state.carried(), chance(), Clock(0.0, SILENT), 1.0, "height") is state
