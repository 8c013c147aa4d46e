"""A first layout from several beginnings, where one long run ends nowhere."""

from random import Random
from typing import Any

import pytest

from solver import beginning
from solver.answers import SILENT
from solver.beginning import ROUNDS, begun
from solver.clock import Clock
from solver.pins import pinned
from solver.repack import Repacker
from solver.state import State, lying

LONG = Clock(600.0, SILENT)
STEPS = 3000


def chance() -> Random:
    return Random(0)  # noqa: S311 - by chance, not a secret


@pytest.fixture
def runs(monkeypatch):
    """Steps of each run, of which the one of that number counts as held, and a layout of each that is told apart."""
    asked, held, run = list[int](), list[int](), Repacker.run

    def counted(self, steps, stop, enough):
        asked.append(steps)
        if len(asked) not in held:
            return steps
        return run(self, steps, stop, enough)

    monkeypatch.setattr(Repacker, "run", counted)
    monkeypatch.setattr(beginning, "start", lambda *given, **_: given[2].copy())
    return asked, held


def found(pair: Any, clock: Clock = LONG, steps: int = STEPS, near: list[State] | None = None) -> State | None:
    problem = pair.problem()
    return begun(problem, list(problem.pieces), pinned(problem, None), chance(), clock, steps, near)


def test_the_steps_are_shared_out_over_rounds_of_fewer_and_longer_runs(pair, runs):
    asked, _ = runs
    assert found(pair) is None
    assert asked == [125] * 12 + [250] * 4 + [500]
    assert sum(asked) == STEPS
    assert sum(share for _, share in ROUNDS) == pytest.approx(1)


@pytest.mark.parametrize("number", [3, 14, 17])
def test_the_first_that_holds_is_the_one(pair, runs, number):
    asked, held = runs
    held.append(number)
    state = found(pair)
    assert state is not None
    assert len(state.at) == 2
    assert len(asked) == number


@pytest.mark.parametrize(("steps", "tries"), [(1, 1), (250, 1), (500, 3)])
def test_few_steps_begin_at_least_once(pair, runs, steps, tries):
    asked, _ = runs
    assert found(pair, steps=steps) is None
    assert len(asked) == tries


@pytest.mark.usefixtures("runs")
def test_those_that_came_closest_are_gone_on_with_and_the_closest_is_told(pair, monkeypatch):
    problem, near, went, init = pair.problem(), list[State](), list[State](), Repacker.__init__
    begins = [pinned(problem, None) for _ in range(12)]
    begins[7].add(lying(problem, 0, problem.room_of["low"], 0, 2000, 0, 500))
    following = iter(begins)
    monkeypatch.setattr(beginning, "start", lambda *_, **__: next(following))

    def goes_on(self, state, *more):
        went.append(state)
        init(self, state, *more)

    monkeypatch.setattr(Repacker, "__init__", goes_on)
    assert begun(problem, list(problem.pieces), begins[0], chance(), LONG, STEPS, near) is None
    assert went[:12] == begins
    assert went[12] is went[16] is near[0] is begins[7]


def test_who_is_late_begins_once(pair, runs):
    asked, near = runs[0], list[State]()
    assert found(pair, Clock(0.0, SILENT), near=near) is None
    assert (len(asked), len(near)) == (1, 1)
