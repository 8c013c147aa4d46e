"""support: each thing stands on enough, and nothing bears more than it may."""

from collections.abc import Iterator
from itertools import pairwise

from models.geometry import Box, box
from models.rules import Rule
from models.spaces import Space
from models.trip import Stage
from verifier.finding import Finding, against, against_least, at, at_least, or_held, plain, within
from verifier.layout import Layout, Placed

LEAST_CONTACT_SHARE = 0.70
"""Least part of a base that is in contact. Common practice, no source."""


def _below(layout: Layout, one: Placed, space: Space) -> tuple[Box, ...]:
    """Surfaces level with the bottom of a thing, wherever they are in its space, as the boxes that they top."""
    floor = box(space.corner_mm, (space.size_mm[0], space.size_mm[1], 0))
    solids = [box(solid.corner_mm, solid.size_mm) for solid in space.solid]
    things = [other.box for other in layout.by_space[space.name]]
    return tuple(under for under in (floor, *solids, *things) if under.high[2] == one.box.low[2])


def _clipped(under: Box, base: Box) -> tuple[int, int, int, int]:
    """What of a base is over a box, as least and greatest x and y; the wrong way round where it is beside it."""
    low = [max(under.low[i], base.low[i]) for i in (0, 1)]
    high = [min(under.high[i], base.high[i]) for i in (0, 1)]
    return (low[0], low[1], high[0], high[1])


def _covered_mm2(patches: list[tuple[int, int, int, int]]) -> int:
    """Area that patches of ground cover together, shared parts once."""
    edges = sorted({edge for patch in patches for edge in (patch[0], patch[2])})
    area = 0
    for left, right in pairwise(edges):
        reached = None
        for _, low, _, high in sorted((p for p in patches if p[0] <= left and right <= p[2]), key=lambda p: p[1]):
            start = low if reached is None else max(low, reached)
            area += max(0, high - start) * (right - left)
            reached = high if reached is None else max(high, reached)
    return area


def _contact(layout: Layout, one: Placed, space: Space) -> Iterator[Finding]:
    clipped = (_clipped(under, one.box) for under in _below(layout, one, space))
    patches = [p for p in clipped if p[0] < p[2] and p[1] < p[3]]
    length, width, _ = one.box.size_mm
    share = _covered_mm2(patches) / (length * width)
    told, least = against_least(share, LEAST_CONTACT_SHARE, 0)
    says = f"{one.name} stands on {told} of its base; {least} is the least."
    enough = at_least(
        Rule.SUPPORT, one.name, None, share, LEAST_CONTACT_SHARE, "share", says, "common practice, no source"
    )
    yield enough
    x, y, _ = one.box.centre_mm
    if enough.holds and not any(p[0] <= x <= p[2] and p[1] <= y <= p[3] for p in patches):
        yield plain(Rule.SUPPORT, one.name, False, f"The middle of {one.name} stands over nothing.")


def stands_on_kg(layout: Layout, one: Placed, stage: Stage) -> float:
    """Kilograms that stand on a thing at a stage; what rests on several things counts whole on each, and once."""
    return sum(layout.loaded_kg(upper, stage) for upper in _pile(layout, one))


def _pile(layout: Layout, one: Placed) -> list[Placed]:
    """All that stands on a thing, directly or through others, each once by however many ways it does."""
    found, waiting, met = list[Placed](), [one], {one}
    while waiting:
        for upper in layout.above(waiting.pop()):
            if upper not in met:
                met.add(upper)
                found.append(upper)
                waiting.append(upper)
    return found


def _bears_kg(one: Placed) -> float | None:
    soft = 0.0 if one.thing.shape == "soft" else None
    return soft if one.thing.bears_kg is None else one.thing.bears_kg


def _carrying(layout: Layout, one: Placed) -> Iterator[Finding]:
    limit = _bears_kg(one)
    if limit is None or not layout.above(one):
        return
    for stage in layout.case.trip.stages:
        value = stands_on_kg(layout, one, stage)
        says = f"On {one.name} stand {against(value, limit, 'kg')}{at(stage.name)}."
        yield within(Rule.SUPPORT, one.name, stage.name, value, limit, "kg", says, "gear list")


def _all(layout: Layout) -> Iterator[Finding]:
    for one, space in layout.located:
        yield from _contact(layout, one, space)
        yield from _carrying(layout, one)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge what each thing stands on and what stands on it."""
    return or_held(_all(layout), Rule.SUPPORT, "Nothing is carried that has to stand on anything.")
