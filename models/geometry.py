"""Boxes: turned, moved, enlarged, met. Nothing here sums or judges."""

from functools import lru_cache
from typing import NamedTuple

from models.gear import AirGap, Thing
from models.plan import Facing, Placement, Turn

Point = tuple[int, int, int]

TURNS: dict[str, tuple[Turn, ...]] = {
    "any": ("lwh", "wlh", "lhw", "hlw", "whl", "hwl"),
    "upright": ("lwh", "wlh"),
    "fixed": ("lwh",),
}
"""The turns that each word allows, the listed one first."""

LEAST_SOFT_SIDE_MM = 80
"""Least side of a soft thing given by volume, in mm. Common practice, no source."""


class Box(NamedTuple):
    """An axis-parallel box by its least and greatest corner, in mm."""

    low: Point
    high: Point

    @property
    def size_mm(self) -> Point:
        """Its sides along x, y and z in mm."""
        return (self.high[0] - self.low[0], self.high[1] - self.low[1], self.high[2] - self.low[2])

    @property
    def centre_mm(self) -> tuple[float, float, float]:
        """Its middle, which is the centre of mass of a thing, in mm."""
        (ax, ay, az), (bx, by, bz) = self.low, self.high
        return ((ax + bx) / 2, (ay + by) / 2, (az + bz) / 2)


@lru_cache(maxsize=100_000)
def box(corner_mm: Point, size_mm: Point) -> Box:
    """The box with a least corner and sides; asked for the same place again and again."""
    (x, y, z), (a, b, c) = corner_mm, size_mm
    return Box((x, y, z), (x + a, y + b, z + c))


def placed_box(placement: Placement) -> Box:
    """The box of a placed copy."""
    return box(placement.corner_mm, placement.size_mm)


def turned(size_mm: Point, turn: Turn) -> Point:
    """Sides along x, y and z of a listed size [l, w, h] under a turn."""
    side = dict(zip("lwh", size_mm, strict=True))
    return (side[turn[0]], side[turn[1]], side[turn[2]])


def meets(one: Box, other: Box) -> bool:
    """Whether two boxes share room; touching faces do not."""
    # Written out, as this is asked more often than all else.
    (ax, ay, az), (bx, by, bz) = one
    (cx, cy, cz), (dx, dy, dz) = other
    return ax < dx and cx < bx and ay < dy and cy < by and az < dz and cz < bz


def contains(outer: Box, inner: Box) -> bool:
    """Whether a box lies wholly in another; touching walls do."""
    return all(outer.low[i] <= inner.low[i] and inner.high[i] <= outer.high[i] for i in range(3))


_QUARTERS: dict[Facing, tuple[str, str, str, str]] = {
    # Where the listed rear, left, front and right point.
    "rear": ("rear", "left", "front", "right"),
    "left": ("left", "front", "right", "rear"),
    "front": ("front", "right", "rear", "left"),
    "right": ("right", "rear", "left", "front"),
}


def gaps_as_placed(gap: AirGap | None, facing: Facing | None) -> dict[str, int]:
    """Air gaps in mm by the vehicle's sides, for a thing whose listed rear points to `facing`."""
    if gap is None:
        return dict.fromkeys(("left", "right", "front", "rear", "top", "bottom"), 0)
    turned_to = dict(zip(("rear", "left", "front", "right"), _QUARTERS[facing or "rear"], strict=True))
    around = {turned_to[side]: getattr(gap, side) for side in ("rear", "left", "front", "right")}
    return {**around, "top": gap.top, "bottom": gap.bottom}


def enlarged(inner: Box, gaps_mm: dict[str, int]) -> Box:
    """A box with its air gaps, by the vehicle's sides."""
    (ax, ay, az), (bx, by, bz) = inner
    return Box(
        (ax - gaps_mm["front"], ay - gaps_mm["left"], az - gaps_mm["bottom"]),
        (bx + gaps_mm["rear"], by + gaps_mm["right"], bz + gaps_mm["top"]),
    )


def swept(inner: Box, face: str, wall: Box) -> Box:
    """A box drawn straight out to the wall of its space at `face`, itself included."""
    low, high = list(inner.low), list(inner.high)
    axis, outward = AXIS_OF_FACE[face]
    if outward > 0:
        high[axis] = max(high[axis], wall.high[axis])
    else:
        low[axis] = min(low[axis], wall.low[axis])
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


AXIS_OF_FACE: dict[str, tuple[int, int]] = {
    "front": (0, -1),
    "rear": (0, 1),
    "left": (1, -1),
    "right": (1, 1),
    "bottom": (2, -1),
    "top": (2, 1),
}
"""Axis and direction of a face of a box."""


def slid(inner: Box, to: str, by_mm: int) -> Box:
    """The room a sliding box goes through, its resting place included."""
    axis, outward = AXIS_OF_FACE[to]
    low, high = list(inner.low), list(inner.high)
    if outward > 0:
        high[axis] += by_mm
    else:
        low[axis] -= by_mm
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def contact_mm2(above: Box, below: Box) -> int:
    """Area in mm² on which a box stands on another whose top is level with its bottom; else 0."""
    if above.low[2] != below.high[2]:
        return 0
    return footprint_overlap_mm2(above, below)


def footprint_overlap_mm2(one: Box, other: Box) -> int:
    """Area in mm² that two boxes share seen from above."""
    along = min(one.high[0], other.high[0]) - max(one.low[0], other.low[0])
    across = min(one.high[1], other.high[1]) - max(one.low[1], other.low[1])
    return along * across if along > 0 and across > 0 else 0


def facings(thing: Thing, turn: Turn) -> tuple[Facing | None, ...]:
    """Where the listed rear of a thing may point under a turn."""
    if thing.air_gap_mm is None:
        return (None,)
    if thing.turns == "fixed":
        return ("rear",)
    return ("rear", "front") if turn == "lwh" else ("left", "right")
