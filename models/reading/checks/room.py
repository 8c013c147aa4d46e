"""Spaces lie within the vehicle or within their thing, apart from each other, with their solids inside them."""

from collections.abc import Iterator
from itertools import combinations

from models.geometry import AXIS_OF_FACE, TURNS, Box, Point, box, contains, meets, slid, turned
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.spaces import Slide, Space
from models.vehicle import Outline


def _box(space: Entry[Space]) -> Box:
    return box(space.part.corner_mm, space.part.size_mm)


def outside(draft: Draft) -> Iterator[Fault]:
    """Spaces that stick out of the outline; those that hang on a rack may be higher than the body."""
    if draft.outline is None:
        return
    outline = draft.outline.part
    if outline.front >= outline.rear:
        found = f"front {outline.front} and rear {outline.rear}"
        yield draft.outline.fault((), found, "a front that is less than the rear: x runs rearward")
        return
    for space in draft.spaces:
        yield from _outside(space, outline)


def _outside(space: Entry[Space], outline: Outline) -> Iterator[Fault]:
    low, high = _box(space)
    half = (outline.width + 1) // 2
    walls = [(low[0], high[0], outline.front, outline.rear, "x"), (low[1], high[1], -half, half, "y")]
    top = outline.height if not space.part.on and space.part.inside_of is None else 100_000
    walls.append((low[2], high[2], 0, top, "z"))
    for least, most, wall_low, wall_high, axis in walls:
        if least < wall_low or most > wall_high:
            over = max(wall_low - least, most - wall_high)
            found = f"{shown(space.part.name)} from {axis} {least} to {most} mm, {over} mm outside the vehicle"
            until = f"from {wall_low} to {wall_high} mm" if wall_high < 100_000 else f"from {wall_low} mm"
            cure = "`on: [a rack]` cures it where the space is on a roof or on a carrier: it may be higher then"
            hint = cure if axis == "z" and most > wall_high else ""
            yield space.fault("corner_mm", found, f"{axis} {until}, the outline of the vehicle", hint)


def overlaps(draft: Draft) -> Iterator[Fault]:
    """Spaces that share room, but for a space that is part of a thing."""
    for one, other in combinations(draft.spaces, 2):
        a, b = _box(one), _box(other)
        if one.part.inside_of == other.part.inside_of and one.part.name != other.part.name and meets(a, b):
            low = [max(a.low[i], b.low[i]) for i in range(3)]
            high = [min(a.high[i], b.high[i]) for i in range(3)]
            sides = " x ".join(str(high[i] - low[i]) for i in range(3))
            found = f"{shown(other.part.name)} inside {shown(one.part.name)} by {sides} mm from {low} to {high}"
            yield other.fault("corner_mm", found, "spaces that do not share room")


def solids(draft: Draft) -> Iterator[Fault]:
    """Solids that stick out of their space, and walls to the space itself."""
    for space in draft.spaces:
        for index, solid in enumerate(space.part.solid):
            inner = box(solid.corner_mm, solid.size_mm)
            if not contains(_box(space), inner):
                found = f"a solid from {list(inner.low)} to {list(inner.high)}"
                low, high = _box(space)
                allowed = f"inside {shown(space.part.name)}, from {list(low)} to {list(high)}"
                yield space.fault(
                    ("solid", index), found, allowed, "corners are measured from the front axle, as the space's"
                )
        if space.part.name in space.part.solid_wall_between:
            yield space.fault("solid_wall_between", f"{shown(space.part.name)} itself", "the names of other spaces")


def within_things(draft: Draft) -> Iterator[Fault]:
    """Spaces that are part of a thing and larger than it, whichever way the thing may be turned."""
    things = {thing.part.name: thing.part for thing in draft.things}
    for space in draft.spaces:
        thing = things.get(space.part.inside_of or "")
        if thing is None or thing.size_mm is None:
            continue
        inner, outer = space.part.size_mm, [turned(thing.size_mm, turn) for turn in TURNS[thing.turns]]
        if not any(all(least <= most for least, most in zip(inner, sides, strict=True)) for sides in outer):
            found = f"{_sides(inner)} mm in {shown(thing.name)}, which has {_sides(thing.size_mm)} mm"
            allowed = "a space no larger than the thing it is part of, as that may be turned"
            yield space.fault("size_mm", found, allowed)


def _sides(size_mm: Point) -> str:
    return " x ".join(map(str, size_mm))


def slides(draft: Draft) -> Iterator[Fault | str]:
    """Slides that run into a solid, and through other spaces, where then nothing may stand, whatever is in them."""
    for one in draft.spaces:
        if one.part.slides is not None:
            way = slid(_box(one), one.part.slides.to, one.part.slides.mm)
            others = [other for other in draft.spaces if other is not one]
            yield from _run_into(one, one.part.slides, others, way)
            for other in (other for other in others if _in_the_way(one.part, other.part, way)):
                says = (
                    f"{shown(one.part.name)} slides through {shown(other.part.name)}, where nothing may be in its way"
                )
                yield one.note("slides", f"{says}; leave `slides` out if that swings away first")


def _run_into(one: Entry[Space], slides: Slide, others: list[Entry[Space]], way: Box) -> Iterator[Fault]:
    """Solids of other spaces in the way of a slide; what is part of a thing is there only where that thing lies."""
    axis, outward = AXIS_OF_FACE[slides.to]
    own = _box(one)
    for other in others:
        for solid in other.part.solid if other.part.inside_of in (None, one.part.inside_of) else ():
            built = box(solid.corner_mm, solid.size_mm)
            if meets(built, way):
                free = built.low[axis] - own.high[axis] if outward > 0 else own.low[axis] - built.high[axis]
                where = f"the solid of {shown(other.part.name)} from {list(built.low)} to {list(built.high)}"
                allowed = f"at most {free} mm, where that begins" if free > 0 else "a way that meets no solid"
                yield one.fault(("slides", "mm"), f"{slides.mm} mm to the {slides.to}, into {where}", allowed)


def _in_the_way(one: Space, other: Space, way: Box) -> bool:
    part_of_a_thing = one.inside_of is not None or other.inside_of is not None
    return not part_of_a_thing and meets(box(other.corner_mm, other.size_mm), way)


def odd_spaces(draft: Draft) -> Iterator[str]:
    """Spaces that can hold nothing as they are described, and what a barrier leaves open."""
    for space in draft.spaces:
        if space.part.holds == "tie_downs" and not space.part.tie_downs:
            yield space.note("holds", "held by tie-downs, but names none, so nothing that must be tied can ride here")
        if space.part.holds in ("holder", "bracket") and space.part.accepts is None:
            says = f"a {space.part.holds} that accepts anything is made for nothing, and what is in it has to be tied"
            yield space.note("holds", f"{says}; name in `accepts` the `holder` of what it is made for")
        if space.part.holds == "barrier" and draft.vehicle is not None and draft.vehicle.at(("cargo_barrier",)) is None:
            yield space.note("holds", "held by a barrier, but the vehicle has no `cargo_barrier`")
    kinds = None if draft.vehicle is None else draft.vehicle.at(("air",))
    among_people = {name for name, kind in kinds.items() if kind == "people"} if isinstance(kinds, dict) else set()
    relied_on = any(one.part.holds == "barrier" and one.part.air in among_people for one in draft.spaces)
    if relied_on and draft.barrier is not None and not draft.barrier.part.behind_seats:
        says = "no seats, so that all who are aboard are taken to sit ahead of the barrier"
        yield draft.barrier.note("behind_seats", says)


def accepted(draft: Draft) -> Iterator[Fault]:
    """Spaces that take anything and name words as well, which would be one of them."""
    for space in draft.spaces:
        if "anything" in (space.part.accepts or ()):
            yield space.fault("accepts", "`anything` in a list of words", "`anything` by itself, or a list of words")


def barrier(draft: Draft) -> Iterator[Fault]:
    """Spaces that a barrier is to hold, and that lie or begin ahead of the seats it stands behind."""
    named = () if draft.barrier is None else draft.barrier.part.behind_seats
    seats = [seat.part for seat in draft.seats if seat.part.name in named]
    if not seats:
        return
    last = max(seats, key=lambda seat: seat.at_mm[0])
    line = last.at_mm[0]
    for space in draft.spaces:
        low, high = _box(space)
        if space.part.holds == "barrier" and low[0] < line:
            found = f"barrier for {shown(space.part.name)}, from x {low[0]} to {high[0]} mm"
            behind = f"{shown(last.name)} at x {line:g} mm, behind which the barrier stands"
            part = "make a space of its own of what lies further forward" if high[0] > line else ""
            yield space.fault("holds", found, f"that where a space begins no further forward than {behind}", part)
