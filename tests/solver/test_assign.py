"""All things assigned to spaces at once: as low as a general-purpose solver says, and never against a limit."""

from itertools import count
from random import Random

import pytest

from benchmarks.assignment import Bars, case_of, second_opinion_mm
from benchmarks.generate import Wanted, made_case
from solver import SILENT
from solver.assign import assigned
from solver.beginning import first
from solver.clock import Clock
from solver.limits import excess, unmet
from solver.patterns import patterns_of
from solver.plans import to_plan
from solver.problem import Problem
from solver.recombine import lawful
from solver.state import State
from tests.chances import seeds, some
from verifier import check

LONG = Clock(600, SILENT)


def chance(seed: int = 0) -> Random:
    return Random(seed)  # noqa: S311 - by chance, not a secret


def many_bars(seed: int) -> Bars:
    """Eighteen bars and five shelves that they fill to nine tenths."""
    random = chance(seed)
    length = tuple(50 * random.randint(2, 12) for _ in range(18))
    shelf = 50 * -(-sum(length) // (50 * 5 * 9 // 10))
    mass = tuple(random.randint(10, 300) / 10 for _ in length)
    floors = (500, 800, 1100, 1400, 1700)
    return Bars(length, mass, (0.0,) * 18, (shelf,) * 5, floors, (900.0,) * 5, 900.0)


def laid(problem: Problem, seed: int = 0) -> State:
    """A first layout of all that has to come."""
    must = [piece for piece in problem.pieces if piece.thing.must]
    found = first(problem, must, State(problem), chance(seed), LONG, 500)
    assert found is not None
    return found


def till_the_end(state: State) -> State:
    """Assigned again and again until it is over."""
    for seed in count():
        if patterns_of(state).may_change < 1:
            return state
        state = assigned(state, state.carried(), chance(seed), LONG)
    raise AssertionError


@pytest.mark.parametrize("seed", seeds(2, of=6))
def test_bars_in_shelves_come_as_low_as_a_general_purpose_solver_has_them(seed):
    bars = many_bars(seed)
    lowest_mm, proven = second_opinion_mm(bars)
    assert proven
    begun = laid(Problem(case_of(bars)))
    assert till_the_end(begun).height_mm() == pytest.approx(lowest_mm, abs=1e-3)


@pytest.mark.parametrize("seed", some([2, 3, 8, 10, 5, 11, 14, 20], 3))
def test_what_is_assigned_on_a_made_trip_holds_every_limit_and_is_no_higher(seed):
    begun = laid(Problem(made_case(seed, Wanted(16, 5, 2))))
    found = till_the_end(begun)
    assert (found.height_mm() <= begun.height_mm(), excess(found), unmet(found)) == (True, 0, 0)
    assert lawful(found)
    assert set(found.at) == set(begun.at)
    case = found.problem.case
    assert check(case, to_plan(found, reserve_kept_kg=case.reserve_kg)).broken == ()


@pytest.mark.long
def test_on_some_made_trip_it_finds_what_is_lower():
    trips = [laid(Problem(made_case(seed, Wanted(16, 5, 2)))) for seed in (2, 3, 5, 8, 10, 11, 14, 20)]
    assert any(till_the_end(begun).height_mm() < begun.height_mm() - 1 for begun in trips)


def test_what_is_locked_stays_where_it_is():
    begun = laid(Problem(case_of(many_bars(0))))
    heaviest = max(begun.at, key=lambda index: begun.problem.pieces[index].heaviest_g)
    begun.locked = frozenset({heaviest})
    assert assigned(begun, begun.carried(), chance(), LONG).at[heaviest] == begun.at[heaviest]


def test_after_contents_that_did_not_fit_fewer_things_are_moved_and_then_none(tiny):
    tiny.space("low", (2000, 0, 500), size_mm=[300, 300, 300])
    tiny.space("high", (2600, 0, 900), size_mm=[300, 300, 300])
    # By volume both fit into the low space, by shape they do not.
    tiny.thing("plate", 10, size_mm=[280, 280, 60])
    tiny.thing("post", 9, size_mm=[60, 60, 290])
    state = laid(tiny.problem())
    patterns = patterns_of(state)
    seen = [patterns.may_change]
    while patterns.may_change:
        state = assigned(state, state.carried(), chance(), LONG)
        seen.append(patterns.may_change)
    assert seen == [8, 2, 0]
