"""What stands in the way while things are moved at the roadside."""

from collections.abc import Iterable, Mapping

from models.case import Case, Copy
from models.geometry import Box, contact_mm2, contains, meets, placed_box, slid, swept
from models.plan import Placement
from models.spaces import Space
from packing.digging import directly_before, to_move_first, wall_of
from packing.shutting import shut_in_by, shuts

Places = Mapping[Copy, Placement]


def in_space(places: Places, space: str) -> dict[Copy, Box]:
    """Boxes in mm of what stands in a space."""
    return {copy: placed_box(place) for copy, place in places.items() if place.space == space}


def above_or_before(case: Case, here: Places, copy: Copy) -> tuple[Copy, ...]:
    """Copies that must be away before one that stands in the vehicle can be lifted out."""
    space = case.space_named[here[copy].space]
    boxes = in_space(here, space.name)
    found = dict.fromkeys(directly_before(boxes, copy, space.face, wall_of(space)))
    found |= dict.fromkeys(inside_it(case, here, copy))
    found |= dict.fromkeys(shut_in_by(case, here, copy, here[copy]))
    return tuple(found | dict.fromkeys(_on_the_slide(case, here, space, copy)))


def in_the_way_in(case: Case, here: Places, copy: Copy, target: Placement) -> tuple[Copy, ...]:
    """Copies that must be away before one can be put into its place: in its room, on the way in, or above it."""
    space, at = case.space_named[target.space], placed_box(target)
    way_in = swept(at, space.face, wall_of(space))
    found = [
        other
        for other, there in in_space(here, space.name).items()
        if other != copy and (meets(there, way_in) or contact_mm2(there, at) > 0)
    ]
    elsewhere = [
        other
        for other, place in here.items()
        if other != copy and place.space != space.name and meets(placed_box(place), at)
        if not _nested(case, space, copy, place.space, other)
    ]
    shut = shut_in_by(case, here, copy, target)
    return tuple(dict.fromkeys([*found, *elsewhere, *shut, *_on_the_slide(case, here, space, copy)]))


def all_of(case: Case, here: Places, first: Iterable[Copy]) -> tuple[Copy, ...]:
    """Copies and all that must be away before each of them, each once."""
    found: dict[Copy, None] = {}
    waiting = list(first)
    while waiting:
        copy = waiting.pop(0)
        if copy not in found:
            found[copy] = None
            waiting += above_or_before(case, here, copy)
    return tuple(found)


def in_other_spaces(case: Case, here: Places, copy: Copy) -> tuple[Copy, ...]:
    """Copies of other spaces that must be moved before one comes out, and what must be away before those."""
    before = (copy, *to_move_first(case, here, copy))
    first = (other for one in before for other in shut_in_by(case, here, one, here[one]))
    return tuple(other for other in all_of(case, here, first) if other not in before)


def would_block(case: Case, here: Places, placed: Placement, place: Placement, stands: bool) -> bool:
    """Whether a copy put down would be in the way of another that still has to come out of a place or go into it.

    `stands` says that the other is there; else it still has to go there.
    """
    space, at, other = case.space_named[place.space], placed_box(placed), placed_box(place)
    if placed.space != space.name:
        return _travel_meets(case, space, placed) or shuts(case, here, placed, space, other)
    if not stands:
        return False
    return meets(at, swept(other, space.face, wall_of(space))) or contact_mm2(at, other) > 0


def _travel_meets(case: Case, space: Space, placed: Placement) -> bool:
    travel = _travel(space)
    return travel is not None and _meets_travel(case, space, travel, placed)


def _meets_travel(case: Case, space: Space, travel: Box, placed: Placement) -> bool:
    return meets(placed_box(placed), travel) and not _linked(case, space, placed)


def _travel(space: Space) -> Box | None:
    """The room that a space slides through; None where it stays."""
    return None if space.slides is None else slid(wall_of(space), space.slides.to, space.slides.mm)


def _linked(case: Case, space: Space, placed: Placement) -> bool:
    """Whether a space and a placed copy are parts of one another."""
    return placed.thing == space.inside_of or case.space_named[placed.space].inside_of is not None


def _on_the_slide(case: Case, here: Places, space: Space, copy: Copy) -> list[Copy]:
    travel = _travel(space)
    if travel is None:
        return []
    return [
        other
        for other, place in here.items()
        if other != copy and place.space != space.name and _meets_travel(case, space, travel, place)
    ]


def inside_it(case: Case, here: Places, copy: Copy) -> list[Copy]:
    """What lies in a space that is part of a copy: of the one that lies around it."""
    at = placed_box(here[copy])
    inner = {s.name for s in case.vehicle.spaces if s.inside_of == copy.thing and contains(at, wall_of(s))}
    return [other for other, place in here.items() if place.space in inner]


def _nested(case: Case, space: Space, copy: Copy, other_space: str, other: Copy) -> bool:
    return space.inside_of == other.thing or case.space_named[other_space].inside_of == copy.thing
