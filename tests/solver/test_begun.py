"""A first layout from several beginnings, where one long run ends nowhere."""

from random import Random

import pytest

from solver import beginning
from solver.answers import SILENT
from solver.beginning import BEGIN_STEPS, begun
from solver.clock import Clock
from solver.pins import pinned
from solver.state import State

LONG = Clock(600.0, SILENT)


def chance() -> Random:
    return Random(0)  # noqa: S311 - by chance, not a secret


def test_another_beginning_is_tried_where_one_ends_nowhere(pair, monkeypatch):
    problem = pair.problem()
    real, asked = beginning.first, list[int]()

    def first(*given, closest, **more):
        asked.append(given[5])
        return real(*given, closest=closest, **more) if len(asked) == 3 else closest.append(given[2])

    monkeypatch.setattr(beginning, "first", first)
    found = begun(problem, list(problem.pieces), pinned(problem, None), chance(), LONG, 4 * BEGIN_STEPS)
    assert found is not None
    assert len(found.at) == len(problem.pieces)
    assert asked == [BEGIN_STEPS] * 3


@pytest.mark.parametrize(("steps", "tries"), [(1, 1), (3 * BEGIN_STEPS, 3)])
def test_of_all_that_ended_nowhere_the_nearest_is_told(pair, monkeypatch, steps, tries):
    problem = pair.problem()
    whole = beginning.first(problem, list(problem.pieces), pinned(problem, None), chance(), LONG, 10)
    assert whole is not None
    whole.remove(problem.pieces[-1].index)
    poor, near, gone = pinned(problem, None), list[State](), list[State]()

    def first(*_, closest, **__):
        gone.append(whole if len(gone) == tries - 1 else poor)
        closest.append(gone[-1])

    monkeypatch.setattr(beginning, "first", first)
    assert begun(problem, list(problem.pieces), poor, chance(), LONG, steps, near) is None
    assert (len(gone), near) == (tries, [whole])


def test_who_is_late_begins_once(pair, monkeypatch):
    problem, near = pair.problem(), list[State]()
    monkeypatch.setattr(beginning, "first", lambda *given, closest, **_: closest.append(given[2]))
    assert begun(problem, list(problem.pieces), pinned(problem, None), chance(), Clock(0.0, SILENT), 1000, near) is None
    assert len(near) == 1
