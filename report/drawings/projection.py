"""A parallel projection of boxes: directions keep their lengths, near things hide far ones."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from models.geometry import Box
from report.drawings.svg import Spot

RAISED_DEG = 32.0
"""How far above the horizon the eye is: high enough to see the tops, low enough to see the sides."""
TURNED_DEG = 36.0
"""How far the eye is turned aside from the face that one loads through."""


@dataclass(frozen=True)
class Eye:
    """Where one looks from: the signs of x and y of the sides one sees, and how far towards each."""

    towards_x: int
    towards_y: int
    along_x: float
    along_y: float

    def flat(self, point_mm: tuple[float, float, float]) -> Spot:
        """Where a point lies on the paper, in mm: right, down."""
        x, y, z = point_mm
        across = -self.towards_y * self.along_y * x + self.towards_x * self.along_x * y
        nearer = self.towards_x * self.along_x * x + self.towards_y * self.along_y * y
        lift = radians(RAISED_DEG)
        return (across, nearer * sin(lift) - z * cos(lift))

    @property
    def says(self) -> str:
        """Where one stands, in words."""
        return f"{'behind' if self.towards_x > 0 else 'in front'} and {'right' if self.towards_y > 0 else 'left'}"


def eye_for(face: str, middle_y_mm: float) -> Eye:
    """Stand before the face that one loads through, on the side of the vehicle where the space is."""
    turn = radians(TURNED_DEG)
    side = 1 if middle_y_mm > 0 else -1
    if face in {"left", "right"}:
        return Eye(1, -1 if face == "left" else 1, sin(turn), cos(turn))
    return Eye(-1 if face == "front" else 1, side, cos(turn), sin(turn))


def faces(eye: Eye, box: Box) -> tuple[tuple[Spot, ...], ...]:
    """The three sides of a box that one sees: top, the one along y, the one along x; corners in turn, in mm."""
    (ax, ay, az), (bx, by, bz) = box
    x, y = (bx if eye.towards_x > 0 else ax), (by if eye.towards_y > 0 else ay)
    top = ((ax, ay, bz), (bx, ay, bz), (bx, by, bz), (ax, by, bz))
    across = ((x, ay, az), (x, by, az), (x, by, bz), (x, ay, bz))
    along = ((ax, y, az), (bx, y, az), (bx, y, bz), (ax, y, bz))
    return tuple(tuple(eye.flat(corner) for corner in side) for side in (top, across, along))


def far_walls(eye: Eye, box: Box) -> tuple[tuple[Spot, ...], ...]:
    """The floor of a box and its two walls behind what is in it; corners in turn, in mm."""
    (ax, ay, az), (bx, by, bz) = box
    x, y = (ax if eye.towards_x > 0 else bx), (ay if eye.towards_y > 0 else by)
    floor = ((ax, ay, az), (bx, ay, az), (bx, by, az), (ax, by, az))
    across = ((x, ay, az), (x, by, az), (x, by, bz), (x, ay, bz))
    along = ((ax, y, az), (bx, y, az), (bx, y, bz), (ax, y, bz))
    return tuple(tuple(eye.flat(corner) for corner in side) for side in (floor, across, along))


def outline(eye: Eye, box: Box) -> tuple[Spot, ...]:
    """The silhouette of a box on the paper: six corners in turn."""
    (ax, ay, az), (bx, by, bz) = box
    x, far_x = (bx, ax) if eye.towards_x > 0 else (ax, bx)
    y, far_y = (by, ay) if eye.towards_y > 0 else (ay, by)
    ring = ((far_x, far_y, bz), (x, far_y, bz), (x, far_y, az), (x, y, az), (far_x, y, az), (far_x, y, bz))
    return tuple(eye.flat(corner) for corner in ring)


def nearer(eye: Eye, one: Box, other: Box) -> bool:
    """Whether a box lies wholly on the eye's side of another along some axis."""
    return (
        one.low[2] >= other.high[2]
        or (one.low[0] >= other.high[0] if eye.towards_x > 0 else one.high[0] <= other.low[0])
        or (one.low[1] >= other.high[1] if eye.towards_y > 0 else one.high[1] <= other.low[1])
    )


def hides(eye: Eye, one: Box, other: Box) -> bool:
    """Whether a box may hide a part of another: nearer, not farther, and their silhouettes meet."""
    return nearer(eye, one, other) and not nearer(eye, other, one) and crossing(outline(eye, one), outline(eye, other))


def far_first(eye: Eye, boxes: Sequence[Box]) -> list[int]:
    """Indices of boxes in an order in which each may be painted over those before."""
    waiting, order = list(range(len(boxes))), []
    while waiting:
        free = [i for i in waiting if not any(j != i and _covers(eye, boxes[i], boxes[j]) for j in waiting)]
        # A ring of boxes that hide each other in turn is cut at the farthest; three slanting ones can make one.
        chosen = min(free or waiting, key=lambda i: (_distance(eye, boxes[i]), i))
        order.append(chosen)
        waiting.remove(chosen)
    return order


def _covers(eye: Eye, one: Box, other: Box) -> bool:
    """Whether a box has to be painted after another."""
    return nearer(eye, one, other) and not nearer(eye, other, one)


def _distance(eye: Eye, box: Box) -> float:
    x, y, z = box.centre_mm
    return eye.towards_x * eye.along_x * x + eye.towards_y * eye.along_y * y + z


def holds(corners: Sequence[Spot], at: Spot) -> bool:
    """Whether a spot lies in a convex shape, edges included."""
    turns = [
        (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    return all(turn >= -1e-9 for turn in turns) or all(turn <= 1e-9 for turn in turns)


def crossing(one: Sequence[Spot], other: Sequence[Spot]) -> bool:
    """Whether two convex shapes share room: no line parts them."""
    return not any(_parts(edge, one, other) for edge in (*_edges(one), *_edges(other)))


def _edges(corners: Sequence[Spot]) -> Iterable[Spot]:
    return ((b[0] - a[0], b[1] - a[1]) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


def _parts(edge: Spot, one: Sequence[Spot], other: Sequence[Spot]) -> bool:
    normal = (-edge[1], edge[0])
    first = [normal[0] * x + normal[1] * y for x, y in one]
    second = [normal[0] * x + normal[1] * y for x, y in other]
    return max(first) <= min(second) + 1e-6 or max(second) <= min(first) + 1e-6
