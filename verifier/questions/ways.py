"""Questions on ways out: what stands between a space and its opening and is in no sum of seconds."""

from collections.abc import Iterator

from models.geometry import AXIS_OF_FACE, Box, box, meets
from models.spaces import Space
from verifier.layout import Layout, Placed
from verifier.rules.reach import NOTHING_MOVED

FAR_MM = 1_000_000
"""Further than any place in a file may be, in mm."""


def beyond(layout: Layout) -> Iterator[str]:
    """Ask about what is wanted at once, or in an incident, behind another space with the same opening.

    The rules count what stands before a thing in its own space; a space behind another is seldom meant to be reached
    through it.
    """
    for one, space in layout.located:
        wanted = one.thing.access in NOTHING_MOVED or one.thing.needed_when
        if not wanted or layout.case.opening_named[space.opening].side != space.face:
            continue  # what is taken out another way than straight through the opening is not judged by its box
        met = [(other, own) for other, own in layout.located if _before(layout, one, space, other, own)]
        if met:
            first, behind = met[0]
            names = first.name if len(met) == 1 else f"{first.name} and {len(met) - 1} more"
            yield (
                f"Between {one.name} in {space.name} and {space.opening} stands {names} in {behind.name}: what is in "
                "another space is in no sum of seconds. If it has to be moved first, make the two one space."
            )


def _before(layout: Layout, one: Placed, space: Space, other: Placed, own: Space) -> bool:
    """Whether a thing of another space with the same opening is in the way out of a space, straight to its face."""
    if own.name == space.name or own.opening != space.opening or space in layout.case.around(own):
        return False
    return own not in layout.case.around(space) and meets(other.box, _beyond(one.box, space))


def _beyond(inner: Box, space: Space) -> Box:
    """What a thing passes outside the wall of its space at `face`, however far."""
    wall, (axis, outward) = box(space.corner_mm, space.size_mm), AXIS_OF_FACE[space.face]
    low, high = list(inner.low), list(inner.high)
    if outward > 0:
        low[axis], high[axis] = wall.high[axis], FAR_MM
    else:
        low[axis], high[axis] = -FAR_MM, wall.low[axis]
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
