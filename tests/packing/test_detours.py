"""Nothing is put into its place and taken out again: what would come out again waits until it stays."""

from collections.abc import Iterator
from random import Random

import pytest

from benchmarks.generate import Wanted, made_case
from models.case import Case, Copy
from models.plan import Plan
from packing import MoveList, moves_between
from solver.insert import jittered, put_all
from solver.plans import to_plan
from solver.problem import Problem
from solver.state import State
from tests.packing.test_moves import replay


def two_plans(seed: int, things: int, spaces: int) -> tuple[Case, Plan, Plan]:
    """A nearly full trip made by chance, packed in two orders by chance."""
    case = made_case(seed, Wanted(things=things, spaces=spaces, fill=0.6))
    return case, _packed(case, 2 * seed), _packed(case, 2 * seed + 1)


def _packed(case: Case, seed: int) -> Plan:
    problem, chance = Problem(case), Random(seed)  # noqa: S311 - plans by chance, not secrets
    state, order = State(problem), jittered(problem, problem.pieces, chance, 0.9)
    chance.shuffle(order)
    put_all(state, order, chance)
    return to_plan(state, reserve_kept_kg=0)


def undone(found: MoveList) -> Iterator[Copy]:
    """Copies that are set down after they were put somewhere."""
    placed = set[Copy]()
    for move in found.moves:
        if move.kind == "set down" and move.copy in placed:
            yield move.copy
        if move.placement is not None:
            placed.add(move.copy)


@pytest.mark.parametrize(("seed", "things", "spaces"), [(1780, 8, 2), *((seed, 9, 2) for seed in range(1, 12))])
def test_what_is_put_down_stays(seed, things, spaces):
    # With the first, two were put on their way and taken out again: 10 lifts, where 8 are enough.
    case, before, after = two_plans(seed, things, spaces)
    found = moves_between(case, before, after)
    assert list(undone(found)) == []
    replay(case, before, after, found)
    assert seed != 1780 or len(found.moves) <= 8
