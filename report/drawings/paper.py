"""The sheet of a projection: millimetres of the projection to units of a picture."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from models.geometry import Box
from report.drawings.projection import Eye, outline
from report.drawings.svg import Spot

WIDTH, TALLEST = 330.0, 300.0
"""Width and greatest height of a picture in its own units."""
COLUMN = 40.0
"""Room right of the drawing for numbers that do not fit on their things."""
MARGIN = 8.0
NUMBER = 14.0
"""Size of the numbers."""


@dataclass(frozen=True)
class Paper:
    """Where the projection lies in its picture."""

    left_mm: float
    top_mm: float
    mm_per_unit: float
    size: Spot
    at: Spot

    def spot(self, flat_mm: Spot) -> Spot:
        """A point of the projection as a spot of the picture."""
        return (
            self.at[0] + (flat_mm[0] - self.left_mm) / self.mm_per_unit,
            self.at[1] + (flat_mm[1] - self.top_mm) / self.mm_per_unit,
        )

    def spots(self, flat_mm: Iterable[Spot]) -> tuple[Spot, ...]:
        """Points of the projection as spots of the picture."""
        return tuple(self.spot(point) for point in flat_mm)


def fitting(eye: Eye, boxes: Sequence[Box]) -> Paper:
    """The paper on which boxes fill the width, or the height where they are tall."""
    corners = [corner for box in boxes for corner in outline(eye, box)]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    wide, tall = max(xs) - min(xs), max(ys) - min(ys)
    room = WIDTH - COLUMN - 2 * MARGIN
    scale = max(wide / room, tall / (TALLEST - 2 * MARGIN))
    aside = (room - wide / scale) / 2
    return Paper(min(xs), min(ys), scale, (WIDTH, tall / scale + 2 * MARGIN), (MARGIN + aside, MARGIN))
