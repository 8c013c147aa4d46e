"""Questions on ways out: what stands between a space and its opening, or on its lid, and is in no sum of seconds."""

from collections.abc import Iterator

from models.geometry import AXIS_OF_FACE, Box, box, contains, footprint_overlap_mm2, meets
from models.spaces import LID_MM, Space
from verifier.layout import Layout, Placed
from verifier.rules.reach import NOTHING_MOVED

FAR_MM = 1_000_000
"""Further than any place in a file may be, in mm."""


def beyond(layout: Layout) -> Iterator[str]:
    """Ask about what is wanted at once, or in an incident, behind another space that is opened first.

    The rules count what stands before a thing in its own space; a space behind another is seldom meant to be reached
    through it.
    """
    for one, space in layout.located:
        if not _wanted(one) or space.face == "top" or layout.case.opening_named[space.opening].side != space.face:
            continue  # what is taken out another way than straight through the opening is not judged by its box
        met = [(other, own) for other, own in _opened_before(layout, space) if meets(other.box, _beyond(one, space))]
        if met:
            names, behind = _first(met)
            yield (
                f"Between {one.name} in {space.name} and {space.opening} stands {names} in {behind}: what is in "
                "another space is in no sum of seconds. If it has to be moved first, make the two one space."
            )


def on_the_lid(layout: Layout) -> Iterator[str]:
    """Ask about what is wanted at once, or in an incident, under a lid on which something lies."""
    for space, names in _below(layout):
        met = [*_over(layout, space)]
        if met:
            on, above = _first(met)
            yield (
                f"On the lid of {space.name}, in which {names}, stands {on} in {above}: what is in another space is "
                "in no sum of seconds. If it has to be moved first, keep one of them elsewhere; a drawer that is "
                "pulled out has `slides`."
            )


def in_a_thing(layout: Layout) -> Iterator[str]:
    """Ask about what is wanted at once, or in an incident, in a thing on which, or on a lid over it, something lies."""
    for space, names in _below(layout):
        for host in layout.copies_of(space.inside_of or ""):
            own = host.space
            if own is None or not contains(host.box, box(space.corner_mm, space.size_mm)):
                continue
            met = [(other, own) for other in layout.by_space[own.name] if _above(other, host.box)]
            met += _over(layout, own) if own.face == "top" else ()
            if met:
                on, above = _first(met)
                yield (
                    f"On {host.name}, in which {names}, stands {on} in {above}: what is in another space is in no sum "
                    "of seconds. If it has to be moved first, keep one of them elsewhere."
                )


def _below(layout: Layout) -> Iterator[tuple[Space, str]]:
    """Spaces that open at the top, and what is wanted at once or in an incident and lies in them, in words."""
    for space in layout.case.vehicle.spaces:
        names = [one.name for one in layout.by_space[space.name] if _wanted(one)] if space.face == "top" else []
        if names:
            yield space, f"{names[0]} lies" if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]} lie"


def _wanted(one: Placed) -> bool:
    return one.thing.access in NOTHING_MOVED or bool(one.thing.needed_when)


def _first(met: list[tuple[Placed, Space]]) -> tuple[str, str]:
    """What is told of all that is met, and the space of the first."""
    first, own = met[0]
    return (first.name if len(met) == 1 else f"{first.name} and {len(met) - 1} more"), own.name


def _opened_before(layout: Layout, space: Space) -> Iterator[tuple[Placed, Space]]:
    """What lies in other spaces that are open when a space is, neither of them part of what lies in the other."""
    before = {own.name for own in layout.case.opened_with(space)}
    return ((other, own) for other, own in layout.located if own.name in before)


def _over(layout: Layout, space: Space) -> Iterator[tuple[Placed, Space]]:
    """What lies over a space that does not slide, in one that does not either, close above it or under one opening."""
    if space.slides is not None:
        return
    walls = box(space.corner_mm, space.size_mm)
    far = layout.case.opening_named[space.opening].side == "top"
    for other, own in _opened_before(layout, space):
        close = own.corner_mm[2] - walls.high[2] <= LID_MM
        if own.slides is None and (close or far) and _above(other, walls):
            yield other, own


def _above(other: Placed, lower: Box) -> bool:
    """Whether a thing is over a box, at any height."""
    return other.box.low[2] >= lower.high[2] and footprint_overlap_mm2(other.box, lower) > 0


def _beyond(one: Placed, space: Space) -> Box:
    """What a thing passes outside the wall of its space at `face`, however far."""
    wall, (axis, outward) = box(space.corner_mm, space.size_mm), AXIS_OF_FACE[space.face]
    low, high = list(one.box.low), list(one.box.high)
    if outward > 0:
        low[axis], high[axis] = wall.high[axis], FAR_MM
    else:
        low[axis], high[axis] = -FAR_MM, wall.low[axis]
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
