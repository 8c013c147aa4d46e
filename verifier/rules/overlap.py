"""overlap: no two things share room, no thing stands in another's air, a slide meets nothing on its way."""

from collections.abc import Iterator
from itertools import combinations

from models.geometry import box, meets, slid
from models.rules import Rule
from models.spaces import Slide, Space
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout, Placed


def _nested(layout: Layout, one: Placed, other: Placed) -> bool:
    return _around(layout, one, other) or _around(layout, other, one)


def _around(layout: Layout, inner: Placed, outer: Placed) -> bool:
    """Whether a copy lies in what the other is around; a space that is not there is told by the rule `inside`."""
    space = inner.space
    if space is None or outer in layout.hosts(space):
        return space is not None
    return space.inside_of == outer.thing.name and not layout.exists(space)


def _says(one: Placed, other: Placed) -> str | None:
    if not meets(one.with_air, other.with_air):  # nearly all pairs
        return None
    if meets(one.box, other.box):
        return f"{one.name} and {other.name} share room."
    if meets(one.with_air, other.box):
        return f"{other.name} stands in the air that {one.name} needs."
    if meets(other.with_air, one.box):
        return f"{one.name} stands in the air that {other.name} needs."
    return None


def _pairs(layout: Layout) -> Iterator[Finding]:
    for one, other in combinations(layout.placed, 2):
        says = _says(one, other)
        if says is not None and not _nested(layout, one, other):
            yield plain(Rule.OVERLAP, f"{one.name} and {other.name}", False, says)


def _belongs(layout: Layout, space: Space, one: Placed) -> bool:
    """Whether a copy moves with a sliding space, or lies around it as what the space is part of."""
    if one.placement.space == space.name or one in layout.hosts(space):
        return True
    return any(around.placement.space == space.name for around in layout.hosts(one.space))


def _way(layout: Layout, space: Space, slides: Slide) -> Iterator[Finding]:
    room = slid(box(space.corner_mm, space.size_mm), slides.to, slides.mm)
    for one in layout.placed:
        if meets(one.box, room) and not _belongs(layout, space, one):
            says = f"{one.name} is in the way of {space.name}, which slides {slides.mm} mm to the {slides.to}."
            yield plain(Rule.OVERLAP, f"{space.name} and {one.name}", False, says)


def _all(layout: Layout) -> Iterator[Finding]:
    yield from _pairs(layout)
    for space in layout.case.vehicle.spaces:
        if space.slides is not None and layout.exists(space):
            yield from _way(layout, space, space.slides)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge all pairs of things, and every slide."""
    return or_held(_all(layout), Rule.OVERLAP, "No two things share room, and every slide runs free.")
