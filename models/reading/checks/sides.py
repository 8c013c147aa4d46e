"""The side on which a space is open or to which it slides, against the side from which a hand comes; and how far."""

from collections.abc import Iterator

from models.geometry import AXIS_OF_FACE
from models.reading.draft import Draft, Entry
from models.reading.faults import shown
from models.spaces import Space
from models.vehicle import Opening

LEAST_TRAVEL, MOST_TRAVEL = 0.5, 1.5
"""Shares of a space's length by which it slides out that are not asked about. Common practice, no source: runners
open six to ten tenths of a drawer, and some carry it clear of a bumper."""


def faces(draft: Draft) -> Iterator[str]:
    """Spaces whose face looks away from where the hand comes through their own opening.

    What has to be opened before it does not count: the last opening is the one before the space. One of side `inside`
    is silent, as an arm goes in from anywhere there.
    """
    side_of = {opening.part.name: opening.part.side for opening in draft.openings}
    for space in draft.spaces:
        face, side = space.part.face, side_of.get(space.part.opening)
        if side is not None and side in AXIS_OF_FACE and _away(face, side):
            told = f"{shown(space.part.name)} is open to the {face}, and a hand through {shown(space.part.opening)}"
            yield space.note("face", f"{told} comes from the {side}; is one of them wrong?")


def _away(face: str, side: str) -> bool:
    """Whether two sides are opposite ones."""
    (axis, outward), (other_axis, other_outward) = AXIS_OF_FACE[face], AXIS_OF_FACE[side]
    return axis == other_axis and outward == -other_outward


def travels(draft: Draft) -> Iterator[str]:
    """Slides to a side from which nobody comes, else by far less or far more than the space is long."""
    of = {opening.part.name: opening.part for opening in draft.openings}
    for space in draft.spaces:
        if space.part.slides is None:
            continue
        to, sides = space.part.slides.to, _sides(of, space.part.opening)
        if sides and not {to, "top", "inside"} & sides:
            told = f"{shown(space.part.name)} slides to the {to}, and what is opened for it is at the"
            yield space.note(("slides", "to"), f"{told} {' and the '.join(sorted(sides))}; is one of them wrong?")
        else:
            yield from _far(space, to, space.part.slides.mm)


def _sides(of: dict[str, Opening], last: str) -> set[str]:
    """The sides of an opening and of all that have to be open before it; none where one of them is not known."""
    names, ahead = {last}, [last]
    while ahead:
        opening = of.get(ahead.pop())
        if opening is None:
            return set()
        ahead += (name for name in opening.after if name not in names)
        names.update(opening.after)
    return {str(of[name].side) for name in names}


def _far(space: Entry[Space], to: str, mm: int) -> Iterator[str]:
    length = space.part.size_mm[AXIS_OF_FACE[to][0]]
    told = f"{shown(space.part.name)} is {length} mm long that way and slides {mm} mm"
    if mm < LEAST_TRAVEL * length:
        yield space.note(("slides", "mm"), f"{told}, so most of it stays in; is this in millimetres?")
    elif mm > MOST_TRAVEL * length:
        yield space.note(("slides", "mm"), f"{told}, far beyond its own length; is there a digit too many?")
