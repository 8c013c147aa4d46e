"""inside: turned as allowed, of its own size, within the walls of a space that takes it, air gaps included."""

from collections.abc import Iterator
from math import prod

from models.gear import Thing
from models.geometry import LEAST_SOFT_SIDE_MM, TURNS, Box, box, contains, facings, meets, turned
from models.plan import Placement
from models.rules import Rule
from models.spaces import Space
from verifier.finding import ROUNDING, Finding, or_held, plain
from verifier.held import let_in
from verifier.layout import Layout, Placed

WALLS = (("front", "rear"), ("left", "right"), ("bottom", "top"))
"""Walls of a box at its least and its greatest corner, axis by axis."""


def _shape(thing: Thing, placement: Placement) -> Iterator[str]:
    if thing.size_mm is None:
        yield from _soft_shape(thing, placement)
        return
    if placement.turn not in TURNS[thing.turns]:
        yield f"is turned {placement.turn}, and may only be {' or '.join(TURNS[thing.turns])}"
    elif thing.air_gap_mm and (placement.facing or "rear") not in facings(thing, placement.turn):
        allowed = " or ".join(str(facing) for facing in facings(thing, placement.turn))
        yield f"faces {placement.facing or 'rear'}, and turned {placement.turn} it can only face {allowed}"
    size = turned(thing.size_mm, placement.turn)
    if tuple(placement.size_mm) != size:
        planned, own = _sides(placement.size_mm), _sides(size)
        yield f"has the size {planned} mm in the plan, and turned {placement.turn} it is {own} mm"


def _soft_shape(thing: Thing, placement: Placement) -> Iterator[str]:
    litres = prod(placement.size_mm) / 1e6
    if min(placement.size_mm) < LEAST_SOFT_SIDE_MM:
        yield f"is pressed to {min(placement.size_mm)} mm; {LEAST_SOFT_SIDE_MM} mm is the least"
    if thing.volume_l is not None and litres < thing.volume_l * (1 - ROUNDING):
        yield f"is given {litres:.1f} L and needs {thing.volume_l:.1f} L"


def _sides(size_mm: tuple[int, int, int]) -> str:
    return "×".join(str(side) for side in size_mm)


def _poking(room: Box, inner: Box) -> str:
    over = {}
    for axis, (low, high) in enumerate(WALLS):
        over[low] = room.low[axis] - inner.low[axis]
        over[high] = inner.high[axis] - room.high[axis]
    return ", ".join(f"{mm} mm at the {wall}" for wall, mm in over.items() if mm > 0)


def _room(one: Placed, space: Space) -> Iterator[str]:
    room = box(space.corner_mm, space.size_mm)
    air = " with the air it needs" if one.with_air != one.box else ""
    if not contains(room, one.with_air):
        yield f"sticks out of {space.name}{air}: {_poking(room, one.with_air)}"
    for solid in space.solid:
        if meets(one.with_air, box(solid.corner_mm, solid.size_mm)):
            yield f"runs into a solid part of {space.name}{air}"


def _taken(thing: Thing, space: Space) -> Iterator[str]:
    if let_in(thing, space):
        return
    if thing.holder is not None:
        yield f"needs a holder for '{thing.holder}', and {space.name} is none"
    else:
        yield f"is not what {space.name} takes: {', '.join(space.accepts or ())}"


def _reasons(layout: Layout, one: Placed) -> Iterator[str]:
    yield from _shape(one.thing, one.placement)
    if one.space is None:
        yield f"is put into '{one.placement.space}', which the vehicle does not have"
        return
    if not layout.exists(one.space):
        yield f"is in {one.space.name}, which is there only where {one.space.inside_of} holds it"
    yield from _taken(one.thing, one.space)
    yield from _room(one, one.space)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge every copy in its space."""
    found = (
        plain(Rule.INSIDE, one.name, False, f"{one.name} {reason}.")
        for one in layout.placed
        for reason in _reasons(layout, one)
    )
    return or_held(found, Rule.INSIDE, "Every thing is turned as allowed and fits inside its space.")
