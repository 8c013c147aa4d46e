"""Where a piece can lie: what is asked of corners alone agrees with asking everywhere."""

from itertools import product
from random import Random

import pytest

from solver.geometry import barred_corners, free_somewhere
from solver.pieces import Six
from solver.shapes import Shape

ROOM = (6, 5, 10)
"""Sides of the room in mm: so small that every corner can be tried."""


def boxes(chance: Random) -> list[Six]:
    """A few boxes in the room, whether or not they meet."""
    found = []
    for _ in range(chance.randrange(6)):
        x, y = chance.randrange(ROOM[0]), chance.randrange(ROOM[1])
        found.append((x, y, 0, chance.randint(x + 1, ROOM[0]), chance.randint(y + 1, ROOM[1]), 10))
    return found


def clear_anywhere(blocks: list[Six], shape: Shape) -> bool:
    """Whether a shape with its gaps is inside the room and clear of all boxes at any whole millimetre."""
    wide, deep = (shape.size[k] + shape.before[k] + shape.behind[k] for k in (0, 1))
    corners = product(range(ROOM[0] - wide + 1), range(ROOM[1] - deep + 1))
    return any(all(b[3] <= x or x + wide <= b[0] or b[4] <= y or y + deep <= b[1] for b in blocks) for x, y in corners)


@pytest.mark.parametrize("seed", range(20))
def test_a_piece_has_room_somewhere_just_where_it_has_room_pushed_left_and_forward(seed):
    chance, found = Random(seed), set()  # noqa: S311 - by chance, not a secret
    for _ in range(100):
        blocks = boxes(chance)
        left, front, right, rear = (chance.choice((0, 0, 1)) for _ in range(4))
        size = (chance.randint(1, 5), chance.randint(1, 4), 1)
        shape = Shape(size, "lwh", None, (front, left, 0), (rear, right, 0))
        free = free_somewhere(*barred_corners((0, 0, 0), ROOM, blocks, shape))
        assert free == clear_anywhere(blocks, shape)
        found.add(free)
    assert found == {True, False}
