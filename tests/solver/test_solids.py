"""What is built into a space: boxes that overlap fill, and hold up, what they fill together."""

from itertools import product
from random import Random

import pytest

from models.plan import Plan
from solver.geometry import on_enough
from solver.pieces import Six, meet
from solver.plans import from_plan
from solver.problem import Problem
from solver.solids import disjoint
from verifier import check

SIDE = 6
"""Sides of the room of these boxes in mm: so small that every cubic millimetre can be looked at."""


def boxes(chance: Random) -> list[Six]:
    found = []
    for _ in range(chance.randint(1, 4)):
        x, y, z = (chance.randrange(SIDE) for _ in range(3))
        found.append((x, y, z, *(chance.randint(at + 1, SIDE) for at in (x, y, z))))
    return [(a, b, c, d, e, f) for a, b, c, d, e, f in found]


def filled(blocks: list[Six]) -> set[tuple[int, ...]]:
    return {at for b in blocks for at in product(range(b[0], b[3]), range(b[1], b[4]), range(b[2], b[5]))}


@pytest.mark.parametrize("seed", range(5))
def test_disjoint_boxes_fill_the_same_room_once(seed):
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    for _ in range(60):
        blocks = boxes(chance)
        parts = disjoint(blocks)
        assert filled(list(parts)) == filled(blocks)
        assert not any(meet(a, b) for n, a in enumerate(parts) for b in parts[n + 1 :])


def test_boxes_that_meet_none_stay_as_they_are():
    apart = ((0, 0, 0, 2, 2, 2), (2, 0, 0, 4, 2, 2))
    assert disjoint(apart) == apart


@pytest.mark.parametrize(("end", "holds"), [(2099, False), (2140, True), (2139, False)])
def test_solids_that_overlap_hold_up_what_they_cover_together(tiny, end, holds):
    # The radio is 200 mm long: its base is on the solids from x 2000 on, and 140 mm are 70 %.
    solids = [
        {"corner_mm": [2000, 0, 500], "size_mm": [100, 200, 150]},
        {"corner_mm": [2010, 0, 500], "size_mm": [end - 2010, 200, 150]},
    ]
    tiny.space("bay", size_mm=[400, 200, 400], solid=solids)
    tiny.thing("radio", 5)
    place = {"thing": "radio", "space": "bay", "corner_mm": (2000, 0, 650), "size_mm": (200, 200, 200), "turn": "lwh"}
    case, plan = tiny.case(), Plan.model_validate({"trip": "trip.yaml", "placements": [place]})
    state = from_plan(Problem(case), plan)
    assert on_enough(state, state.at[0]) is holds
    assert check(case, plan).holds is holds
