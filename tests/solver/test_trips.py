"""Small trips by chance: plans are lawful, trying everything finds nothing lower, seed and order change nothing."""

from collections.abc import Iterator
from functools import cache
from itertools import product
from random import Random
from typing import Any

import pytest

from benchmarks.generate import Wanted, made_case, trip_parts
from benchmarks.whole import whole_model
from models.reading import case_from
from solver import Options, Status, propose
from solver.bound import height_bound
from solver.problem import Problem
from tests.chances import seeds
from tests.outside.brute import lowest
from tests.solver.conftest import Tiny
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound")

CELL_MM = 50
QUICK = Options(effort=0.03, seconds=600)
LOOKED_FOR = Options(effort=0.3, seconds=600)
"""A height that is not proven is found with some effort only: a hundred such trips were tried."""
Boxes = list[tuple[tuple[int, int, int], bool, float]]
Rooms = list[tuple[tuple[int, int, int], int]]


@pytest.mark.parametrize("seed", seeds(1, of=20, first=1))
def test_every_plan_is_lawful(seed):
    case = made_case(seed, Wanted(10 + seed % 9, 4 + seed % 4, 1 + seed % 3))
    proposal = propose(case, QUICK)
    assert (proposal.plan is not None) == (proposal.status is Status.FOUND)
    if proposal.status is Status.IMPOSSIBLE:
        problem = Problem(case)
        must = [piece for piece in problem.pieces if piece.thing.must]
        assert whole_model(problem, must, 1.0) is None
    if proposal.plan is not None:
        assert check(case, proposal.plan).holds is True
        assert proposal.height is not None


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_out")
def test_most_small_trips_have_a_plan():
    found = [propose(made_case(seed, Wanted(12, 5, 1)), QUICK).status for seed in range(4)]
    assert found.count(Status.FOUND) >= 3


def small(seed: int) -> tuple[Boxes, Rooms]:
    """Two to four boxes and two or three rooms with their floors, in cells of 50 mm."""
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    boxes: Boxes = []
    for _ in range(chance.randint(2, 4)):
        size = (chance.randint(1, 3), chance.randint(1, 2), chance.randint(1, 2))
        litres = size[0] * size[1] * size[2] * CELL_MM**3 / 1e6
        boxes.append((size, chance.random() < 0.5, round(litres * chance.uniform(0.2, 9), 2)))
    rooms: Rooms = []
    for _ in range(chance.randint(2, 3)):
        rooms.append(((chance.randint(2, 3), chance.randint(1, 3), chance.randint(1, 3)), chance.randint(8, 20)))
    return boxes, rooms


def case_of(boxes: Boxes, rooms: Rooms) -> Any:
    tiny = Tiny()
    for i, (room, floor) in enumerate(rooms):
        corner = (1000 + 400 * i, -100, floor * CELL_MM)
        tiny.space(f"room {i}", corner, size_mm=[side * CELL_MM for side in room], face="top")
    for i, (size, up, kg) in enumerate(boxes):
        tiny.thing(f"box {i}", kg, size_mm=[side * CELL_MM for side in size], turns="upright" if up else "any")
    return tiny.case()


def moments(boxes: Boxes, rooms: Rooms) -> Iterator[float]:
    """Least moment above the ground in kg·cells, for every way to share the boxes among the rooms."""

    @cache
    def inside(room: int, chosen: tuple[int, ...]) -> float | None:
        size, floor = rooms[room]
        least = lowest([boxes[i] for i in chosen], size) if chosen else 0.0
        return None if least is None else least + floor * sum(boxes[i][2] for i in chosen)

    for way in product(range(len(rooms)), repeat=len(boxes)):
        parts = [inside(room, tuple(i for i, r in enumerate(way) if r == room)) for room in range(len(rooms))]
        if all(part is not None for part in parts):
            yield sum(part for part in parts if part is not None)


@pytest.mark.parametrize("seed", seeds(3, of=32))
def test_trying_everything_finds_nothing_lower(seed):
    boxes, rooms = small(seed)
    case = case_of(boxes, rooms)
    best = min(moments(boxes, rooms), default=None)
    proposal = propose(case, LOOKED_FOR)
    if best is None:
        assert proposal.plan is None or check(case, proposal.plan).holds is True
        return
    mass = 2000 + sum(kg for _, _, kg in boxes)
    height_mm = (2000 * 700 + best * CELL_MM) / mass
    assert proposal.height is not None
    assert proposal.height.value <= height_mm + 1e-6
    whole = Problem(case)
    bound = height_bound(whole, frozenset(range(len(whole.pieces))), QUICK.seconds).height_mm
    assert bound is not None
    assert bound <= height_mm + 1e-6


@pytest.mark.long
def test_trying_everything_is_tried_both_ways():
    found = [min(moments(*small(seed)), default=None) for seed in range(16)]
    assert any(best is None for best in found)
    assert sum(best is not None for best in found) >= 8


@pytest.mark.long
def test_the_same_seed_gives_the_same_plan():
    case = made_case(3, Wanted(12, 5, 2))
    one, other = propose(case, QUICK), propose(case, QUICK)
    assert one.plan is not None
    assert one.plan == other.plan


def test_shuffled_files_give_the_same_plan():
    vehicle, gear, trip = trip_parts(3, Wanted(12, 5, 2))
    one = propose(case_from(vehicle, gear, trip), QUICK)
    chance = Random(1)  # noqa: S311 - an order by chance, not a secret
    chance.shuffle(gear)
    chance.shuffle(vehicle["spaces"])
    other = propose(case_from(vehicle, gear, trip), QUICK)
    assert one.plan is not None
    assert other.plan is not None
    assert set(one.plan.placements) == set(other.plan.placements)
