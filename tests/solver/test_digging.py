"""What is in front of a piece, as the boxes of the models tell it: no arithmetic of the solver is in that."""

from random import Random
from types import SimpleNamespace
from typing import Any

import pytest

from models.geometry import Box, contact_mm2, meets, swept
from solver.digging import Ahead, dig_seconds, in_front
from solver.state import Lying
from tests.chances import seeds

FACES = ("front", "rear", "left", "right", "top")
SIDE = 6


def drawn(random: Random, piece: int) -> Lying:
    ax, ay, az = (random.randrange(SIDE - 1) for _ in range(3))
    bx, by, bz = (random.randrange(at + 1, SIDE) for at in (ax, ay, az))
    box = (ax, ay, az, bx, by, bz)
    return Lying(piece, 0, 0, box, box)


def room_of(face: str, count: int) -> Any:
    room = SimpleNamespace(low=(0, 0, 0), high=(SIDE, SIDE, SIDE), space=SimpleNamespace(face=face))
    pieces = [SimpleNamespace(handling_s=float(2**n)) for n in range(count)]
    return SimpleNamespace(problem=SimpleNamespace(rooms=[room], pieces=pieces))


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("seed", seeds(8, of=40))
def test_in_front_is_what_meets_the_way_out_or_rests_on_it(face: str, seed: int) -> None:
    random = Random(seed)  # noqa: S311 - a test that repeats
    here = [drawn(random, piece) for piece in range(6)]
    wall = Box((0, 0, 0), (SIDE, SIDE, SIDE))
    boxes = [Box(it.box[:3], it.box[3:]) for it in here]
    for it, own in zip(here, boxes, strict=True):
        way = swept(own, face, wall)
        told = [o.piece for o in in_front(room_of(face, 6), here, it)]
        assert told == [
            o.piece
            for o, box in zip(here, boxes, strict=True)
            if o.piece != it.piece and (meets(box, way) or contact_mm2(box, own) > 0)
        ]


@pytest.mark.parametrize("seed", seeds(8, of=40))
def test_all_that_is_in_front_in_turn_is_moved_once(seed: int) -> None:
    random = Random(seed)  # noqa: S311 - a test that repeats
    state, here, kept = room_of(random.choice(FACES), 8), [drawn(random, piece) for piece in range(8)], Ahead()
    told = [dig_seconds(state, here, it, ahead=kept) for it in here]
    assert told == [_one_by_one(state, here, it) for it in here]


def _one_by_one(state: Any, here: list[Lying], it: Lying) -> float:
    moved = {it.piece}
    while True:
        more = {o.piece for one in here if one.piece in moved for o in in_front(state, here, one)} - moved
        if not more:
            seconds: float = sum(state.problem.pieces[piece].handling_s for piece in moved - {it.piece})
            return seconds
        moved |= more
