"""overlap: no two things share room, no thing stands in another's air, a slide meets nothing on its way."""

from collections.abc import Iterator
from itertools import combinations

from models.geometry import box, meets, slid
from models.rules import Rule
from models.spaces import Slide, Space
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout, Placed


def _nested(layout: Layout, one: Placed, other: Placed) -> bool:
    return other.thing.name in layout.hosts(one.space) or one.thing.name in layout.hosts(other.space)


def _says(one: Placed, other: Placed) -> str | None:
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
    """Whether a thing moves with a sliding space, or is what the space is part of."""
    if one.placement.space == space.name or one.thing.name in layout.hosts(space):
        return True
    within = {inner.thing.name for inner in layout.by_space[space.name]}
    return bool(within & layout.hosts(one.space))


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
