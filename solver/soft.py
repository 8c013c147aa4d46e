"""Soft things that are given by their volume: how much it is, and the boxes that hold it."""

from math import ceil

from models.gear import Thing
from models.geometry import LEAST_SOFT_SIDE_MM, Point
from solver.in_hand import ROUNDING

MOST_STRETCH = 4
"""Longest side of a soft thing by its shortest, where it has the choice. Common practice, no source."""


def soft_mm3(thing: Thing) -> int:
    """The volume in mm3 that a soft thing given by it has to have at least; 0 where its sides are listed.

    What meets it exactly will do, though 4.03 L are 4030000.0000000005 mm3 to the machine.
    """
    return ceil((thing.volume_l or 0.0) * 1e6 * (1 - ROUNDING))


def soft_sizes(volume_mm3: int, room: Point) -> list[Point]:
    """At most eight boxes of a volume that fit in a room, each side at least the least soft side."""
    wide, deep, high = room
    cube = ceil(volume_mm3 ** (1 / 3))
    floors = [
        (wide, deep),
        (wide, deep // 2),
        (wide // 2, deep),
        (wide // 2, deep // 2),
        (cube, cube),
        (wide, 0),
        (0, deep),
    ]
    floors.append((ceil(cube * 1.4), ceil(cube * 1.4)))
    found: dict[Point, None] = {}
    for along, across in floors:
        x = along or max(LEAST_SOFT_SIDE_MM, -(-volume_mm3 // (across * high)))
        y = across or max(LEAST_SOFT_SIDE_MM, -(-volume_mm3 // (x * high)))
        z = max(LEAST_SOFT_SIDE_MM, -(-volume_mm3 // (x * y))) if min(x, y) >= LEAST_SOFT_SIDE_MM else high + 1
        if x <= wide and y <= deep and z <= high:
            found[(x, y, z)] = None
    plain = [size for size in found if max(size) <= MOST_STRETCH * min(size)]
    return (plain or list(found))[:8]
