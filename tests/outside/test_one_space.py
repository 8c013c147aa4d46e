"""One space with up to five boxes against a search that tries everything; no bound lies above what anyone finds."""

from random import Random
from typing import Any

import pytest

from benchmarks.generate import Wanted, made_case
from models.case import Case
from models.reading import case_from
from solver import Options, propose
from solver.better import PROVEN_MM
from solver.bound import Bound, height_bound
from solver.problem import Problem
from tests.chances import seeds
from tests.outside.brute import lowest, turns
from verifier import check

CELL_MM = 50
FLOOR_MM = 600


Boxes = list[tuple[tuple[int, int, int], bool, float]]


def small(seed: int) -> tuple[tuple[int, int, int], Boxes]:
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    room = (chance.randint(3, 4), chance.randint(2, 3), chance.randint(2, 3))
    boxes: Boxes = []
    for _ in range(chance.randint(2, 5)):
        size = (chance.randint(1, 2), chance.randint(1, 2), chance.randint(1, 2))
        boxes.append((size, chance.random() < 0.5, chance.randint(2, 25) / 20))
    return room, boxes


def case_of(bench: Any, room: tuple[int, int, int], boxes: Boxes) -> Case:
    bench.space("bay", [1000, 0, FLOOR_MM], [side * CELL_MM for side in room], face="top")
    for i, (size, up, kg) in enumerate(boxes):
        bench.thing(f"box {i}", kg, [side * CELL_MM for side in size], turns="upright" if up else "any")
    return case_from(bench.vehicle, bench.things, bench.trip)


def height_mm(boxes: Boxes, kg_cells: float) -> float:
    """Height of the laden vehicle of the bench: 2 000 kg at 700 mm and the boxes."""
    mass = sum(kg for _, _, kg in boxes)
    return (2000 * 700 + mass * FLOOR_MM + kg_cells * CELL_MM) / (2000 + mass)


@pytest.mark.parametrize("seed", seeds(3, of=36))
def test_one_space_is_packed_as_low_as_by_trying_everything(bench, seed):
    room, boxes = small(seed)
    case = case_of(bench, room, boxes)
    best = lowest(boxes, room)
    proposal = propose(case, Options(effort=0.08, seconds=600))
    if best is None:
        # Off the grid there may be more: a plan is then believed only when the verifier holds it.
        assert proposal.plan is None or check(case, proposal.plan).holds is True
        return
    assert proposal.plan is not None
    assert proposal.height is not None
    assert check(case, proposal.plan).holds is True
    assert proposal.height.value <= height_mm(boxes, best) + PROVEN_MM
    off_grid = any(place % CELL_MM for p in proposal.plan.placements for place in p.corner_mm)
    assert off_grid or proposal.height.value == pytest.approx(height_mm(boxes, best), abs=PROVEN_MM)
    assert proposal.height.bound is None or proposal.height.bound <= proposal.height.value + 1e-9


def test_trying_everything_knows_the_rule():
    flat, cube = ((2, 1, 1), True, 1.0), ((1, 1, 1), True, 2.0)
    assert turns((1, 2, 3), upright=True) == {(1, 2, 3), (2, 1, 3)}
    # In a shaft of one cell the heavy cube goes first; a flat box on it would overhang and does not fit either.
    assert lowest([cube, ((1, 1, 1), True, 1.0)], (1, 1, 2)) == 2 * 0.5 + 1 * 1.5
    assert lowest([flat, cube], (1, 1, 3)) is None
    # On one cube a box of two cells stands on half of its base: not enough, on two cubes it does.
    assert lowest([flat, cube], (2, 1, 2)) == 1.0 * 0.5 + 2.0 * 1.5
    assert lowest([((2, 1, 1), True, 9.0), cube, cube], (2, 1, 2)) == 9.0 * 0.5 + 4 * 1.5


@pytest.mark.parametrize("seed", seeds(0, of=4))
def test_no_bound_lies_above_what_anyone_finds(seed, monkeypatch):
    case = made_case(seed, Wanted(10, 6, 2, fill=0.3, optional=0.0))
    problem = Problem(case)
    bound = height_bound(problem, frozenset(range(len(problem.pieces))), 600.0).height_mm
    # The set of things is the same in all of them, and so is the bound: it is looked for once.
    monkeypatch.setattr("solver.better.height_bound", lambda *_: Bound(None))
    proposals = [propose(case, Options(effort=0.01 * (1 + 2 * s), seconds=600, seed=s)) for s in range(3)]
    heights = [proposal.height.value for proposal in proposals if proposal.height is not None]
    assert heights
    assert bound is not None
    assert bound <= min(heights) + 1e-6
