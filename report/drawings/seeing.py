"""What can be seen of a box among others, and where its number may stand."""

from collections.abc import Iterator, Sequence

from models.geometry import Box
from report.drawings.labels import LETTER_WIDTH
from report.drawings.paper import NUMBER, Paper
from report.drawings.projection import Eye, crossing, faces, hides, holds, outline
from report.drawings.svg import Spot

SHARES = (0.5, 0.25, 0.75, 0.1, 0.9)
"""Where on a side a number is tried, as shares of its two edges."""
DOT = 2.6
"""Half the room of a dot at which a line to a number ends."""


def sight(eye: Eye, paper: Paper, box: Box, others: Sequence[Box]) -> Spot | None:
    """A spot of the picture at which a box is seen whatever of the others stands before it; None: there is none."""
    return _first(eye, paper, box, others, (DOT, DOT))


def still_seen(eye: Eye, paper: Paper, box: Box, at: Spot, other: Box) -> bool:
    """Whether a box is still seen at a spot where it was in sight before another was put in."""
    return not (hides(eye, other, box) and crossing(_room(at, (DOT, DOT)), paper.spots(outline(eye, other))))


def label_spot(eye: Eye, paper: Paper, box: Box, others: Sequence[Box], text: str) -> Spot | None:
    """A spot at which a whole number stands on a side of its box in full sight; None: it does not fit."""
    return _first(eye, paper, box, others, (0.5 * LETTER_WIDTH * NUMBER * len(text), 0.45 * NUMBER))


def _first(eye: Eye, paper: Paper, box: Box, others: Sequence[Box], half: Spot) -> Spot | None:
    before = [paper.spots(outline(eye, other)) for other in others if other is not box and hides(eye, other, box)]
    for side in sorted((paper.spots(side) for side in faces(eye, box)), key=_area, reverse=True):
        for at in _tried(side):
            room = _room(at, half)
            if all(holds(side, corner) for corner in room) and not any(crossing(room, other) for other in before):
                return at
    return None


def _room(at: Spot, half: Spot) -> tuple[Spot, ...]:
    (x, y), (a, b) = at, half
    return ((x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b))


def _tried(side: Sequence[Spot]) -> Iterator[Spot]:
    (ox, oy), (px, py), _, (qx, qy) = side
    for s in SHARES:
        for t in SHARES:
            yield (ox + s * (px - ox) + t * (qx - ox), oy + s * (py - oy) + t * (qy - oy))


def _area(corners: Sequence[Spot]) -> float:
    ring = zip(corners, (*corners[1:], corners[0]), strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in ring)) / 2
