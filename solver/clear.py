"""Whether anything can lie in a space clear of what is built into it and of what slides through it.

A box that lies clear somewhere still does when it is moved forward, left and down until it meets a wall or a block: so
the corners where it would then lie are all that have to be looked at.
"""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from models.case import Case
from models.geometry import LEAST_SOFT_SIDE_MM, Box, Point, box, contains, meets, slid
from models.rules import Rule
from models.spaces import Space

SOFT: Point = (LEAST_SOFT_SIDE_MM, LEAST_SOFT_SIDE_MM, LEAST_SOFT_SIDE_MM)
"""Sides of the smallest box that a soft thing may be, in mm: where this one does not lie clear, no shape of it does."""


def ways_through(case: Case, space: Space) -> dict[str, Box]:
    """The room through which other spaces slide where it meets a space, by their names; what rides in a thing apart."""
    return {other.name: way for other, way in _sliding(case, space) if not space.inside_of and not other.inside_of}


class Drawer(NamedTuple):
    """A space that slides and is part of a thing: its way is there where the thing is."""

    way: Box
    space: Space


def drawers_through(case: Case, space: Space) -> tuple[Drawer, ...]:
    """The drawers whose way meets a space, but for one in which the space itself may ride."""
    sliding = _sliding(case, space)
    return tuple(Drawer(way, other) for other, way in sliding if other.inside_of and other not in case.around(space))


def _sliding(case: Case, space: Space) -> Iterator[tuple[Space, Box]]:
    """Other spaces that slide, each with its way where that meets a space."""
    own = box(space.corner_mm, space.size_mm)
    for other in case.vehicle.spaces:
        if other.slides and other.name != space.name:
            way = slid(box(other.corner_mm, other.size_mm), other.slides.to, other.slides.mm)
            if meets(way, own):
                yield other, way


def in_the_way(case: Case, sizes: Sequence[Point], space: Space) -> list[tuple[Rule, str]]:
    """What leaves no box of some sizes a place in a space, as a rule and a sentence; none given: a soft thing."""
    sizes = [size for size in sizes or (SOFT,) if all(size[i] <= space.size_mm[i] for i in range(3))]
    ways = ways_through(case, space)
    solids = [box(one.corner_mm, one.size_mm) for one in space.solid]
    blocks = [*solids, *ways.values()]
    if not sizes or not blocks or any(_lies_clear(space, size, blocks) for size in sizes):
        return []
    if not any(_lies_clear(space, size, solids) for size in sizes):
        return [(Rule.INSIDE, f"what is built into {space.name} leaves no room for it")]
    verb = "slides" if len(ways) == 1 else "slide"
    return [(Rule.OVERLAP, f"{' and '.join(ways)} {verb} through {space.name} and would meet it wherever it lies")]


def _lies_clear(space: Space, size: Point, blocks: Sequence[Box]) -> bool:
    room = box(space.corner_mm, space.size_mm)
    stops = [sorted({room.low[i], *(block.high[i] for block in blocks)}) for i in range(3)]
    placed = (box((x, y, z), size) for x, y, z in product(*stops))
    return any(contains(room, one) and not any(meets(one, block) for block in blocks) for one in placed)
