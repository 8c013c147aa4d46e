"""Views of the vehicle straight from a side: which axis runs where on the paper, and what hides what."""

from collections.abc import Iterable
from dataclasses import dataclass

from models.geometry import Box
from report.drawings.labels import Rect
from report.drawings.svg import Spot


@dataclass(frozen=True)
class View:
    """A direction to look from. Axes are counted as in a box: x 0, y 1, z 2."""

    key: str
    name: str
    across: int
    """The axis that runs to the right on the paper."""
    up: int
    """The axis that runs up on the paper."""
    away: int
    """The axis along which one looks."""
    nearer_is_less: bool
    """Whether what has less of that axis is nearer."""


LEFT = View("left", "from the left", 0, 2, 1, nearer_is_less=True)
ABOVE = View("above", "from above", 0, 1, 2, nearer_is_less=False)
BEHIND = View("behind", "from behind", 1, 2, 0, nearer_is_less=False)
VIEWS = (LEFT, ABOVE, BEHIND)


@dataclass(frozen=True)
class Frame:
    """A view at a scale: millimetres of the vehicle to units of the paper."""

    view: View
    left_mm: float
    """The least of the axis across that is on the paper."""
    top_mm: float
    """The greatest of the axis up that is on the paper."""
    mm_per_unit: float
    at: Spot
    """Where that corner lies on the paper."""

    def spot(self, point_mm: tuple[float, float, float]) -> Spot:
        """Where a point of the vehicle lies on the paper."""
        across, up = point_mm[self.view.across], point_mm[self.view.up]
        return (
            self.at[0] + (across - self.left_mm) / self.mm_per_unit,
            self.at[1] + (self.top_mm - up) / self.mm_per_unit,
        )

    def rect(self, box: Box) -> Rect:
        """A box as a rectangle of the paper."""
        (ax, ay), (bx, by) = self.spot(box.low), self.spot(box.high)
        return (min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))

    def units(self, length_mm: float) -> float:
        """A length of the vehicle on the paper."""
        return length_mm / self.mm_per_unit


def depth(view: View, box: Box) -> float:
    """How near a box is to the eye: greater hides less."""
    middle = (box.low[view.away] + box.high[view.away]) / 2
    return -middle if view.nearer_is_less else middle


def extent(boxes: Iterable[Box], axis: int) -> tuple[int, int]:
    """Least and greatest of an axis among boxes."""
    found = list(boxes)
    return (min(box.low[axis] for box in found), max(box.high[axis] for box in found))
