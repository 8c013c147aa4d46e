"""Beginnings and what comes, searched in two halves: one process and two find the same, and the better half counts."""

import multiprocessing
from collections.abc import Callable
from random import Random
from typing import Any

import pytest

from benchmarks.generate import Wanted, made_case
from solver.answers import SILENT
from solver.beginning import first, raced
from solver.choose import choose, take, units
from solver.clock import Clock
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import Lying, State
from solver.worthiest import worthiest
from tests.chances import some

pytestmark = pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
"""Those who run the tests have threads of their own; a user's process has none."""
LONG = Clock(600, SILENT)
ABOVE_MM = 20
"""How far above the musts alone optional things may lift the load here, in mm."""


def chance(seed: int = 0) -> Random:
    return Random(seed)  # noqa: S311 - by chance, not a secret


def musts(seed: int = 2) -> tuple[State, list[Piece]]:
    """A layout of the musts of a made trip with many optional things, with a memory of its own."""
    problem = Problem(made_case(seed, Wanted(24, 7, 3)))
    must = [piece for piece in problem.pieces if piece.thing.must]
    found = first(problem, must, State(problem), chance(), LONG, 500)
    assert found is not None
    return found, must


def chosen(state: State, must: list[Piece]) -> State:
    return choose(state, must, state.height_mm() + ABOVE_MM, chance(3), LONG, 0.5).state


def dearest(state: State, must: list[Piece]) -> State:
    offered = units(state.problem, must)
    return worthiest(state, must, offered, state.height_mm() + ABOVE_MM, chance(3), LONG, 0.5)


def begun(state: State, must: list[Piece]) -> State:
    found = raced(must, State(state.problem), chance(3), LONG, 0.5, state)
    assert found is not None
    return found


def lies(state: State) -> dict[int, Lying]:
    return dict(sorted(state.at.items()))


@pytest.mark.parametrize("step", some([chosen, dearest, begun], 2))
@pytest.mark.usefixtures("two_cores")
def test_one_process_and_two_find_the_same(step: Callable[[State, list[Piece]], State], monkeypatch):
    beside = step(*musts())
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    before, must = musts()
    assert lies(step(before, must)) == lies(beside)
    assert (beside.value(), -beside.height_mm()) >= (before.value(), -before.height_mm())
    assert multiprocessing.active_children() == []


@pytest.mark.parametrize("able", [0, 1])
def test_what_either_half_can_bring_comes(able, monkeypatch):
    """Only one half finds room for anything; its layout is taken, and its reasons."""
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    state, must = musts()

    def taken(now: State, *others: Any) -> State | str:
        here = int(now.problem is not state.problem)
        return take(now, *others) if here == able else "no hands"

    monkeypatch.setattr("solver.choose.take", taken)
    found = choose(state, must, state.height_mm() + ABOVE_MM, chance(3), LONG, 0.5)
    assert found.state.value() > state.value()
    assert "no hands" not in found.reasons.values()
    assert found.state.problem is state.problem
    assert found.level.value == found.state.value()


def test_the_second_half_begins_with_what_is_worth_most_for_its_mass(monkeypatch):
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    state, must = musts(9)
    tried: dict[bool, list[float]] = {True: [], False: []}

    def taken(now: State, _: object, extra: list[Piece], *__: object) -> str:
        worth = sum(piece.thing.carry or 0 for piece in extra) / sum(piece.heaviest_g for piece in extra)
        tried[now.problem is state.problem].append(worth)
        return "no"

    monkeypatch.setattr("solver.choose.take", taken)
    choose(state, must, state.height_mm() + ABOVE_MM, chance(3), LONG, 0.5)
    assert tried[False] == sorted(tried[False], reverse=True)
    assert sorted(tried[True]) == sorted(tried[False])
    assert tried[True] != tried[False]
