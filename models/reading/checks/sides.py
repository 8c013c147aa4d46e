"""The side on which a space is open, against the side from which a hand comes."""

from collections.abc import Iterator

from models.geometry import AXIS_OF_FACE
from models.reading.draft import Draft
from models.reading.faults import shown


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
