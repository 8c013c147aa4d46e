"""What stands in one space on the way out of another: before its opening, on its lid, or on the thing it is part of."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from models.case import Case, Copy, copy_of
from models.geometry import Box, contains, meets, placed_box, slid
from models.plan import Placement
from models.spaces import LID_MM, Space
from packing.digging import wall_of

FAR_MM = 100_000
"""Beyond the end of any vehicle, in mm."""


class Way(NamedTuple):
    """Room outside a space that has to be free of what lies in some other spaces before a hand gets in."""

    spaces: frozenset[str]
    room: Box
    host: Copy | None = None
    """The thing that the space is part of, which is not in its own way."""

    def shut_by(self, placed: Placement) -> bool:
        """Whether a placed copy is in the way."""
        return placed.space in self.spaces and copy_of(placed) != self.host and meets(placed_box(placed), self.room)


def shut_in_by(case: Case, here: Mapping[Copy, Placement], copy: Copy, place: Placement) -> tuple[Copy, ...]:
    """Copies of other spaces that must be away before one can come out of a place, or go into it."""
    ways = tuple(ways_out(case, here, case.space_named[place.space], placed_box(place)))
    if not ways:
        return ()
    return tuple(o for o, p in here.items() if o != copy and any(way.shut_by(p) for way in ways))


def shuts(case: Case, here: Mapping[Copy, Placement], placed: Placement, space: Space, at: Box) -> bool:
    """Whether a copy put down would shut in what stands, or is to stand, at a place of another space."""
    return any(way.shut_by(placed) for way in ways_out(case, here, space, at))


def ways_out(case: Case, here: Mapping[Copy, Placement], space: Space, at: Box) -> Iterator[Way]:
    """The ways out of a place, from its own space to that around the outermost thing that it is in."""
    seen: set[Copy] = set()
    while True:
        outer = that_shut(case, space)
        if outer:
            yield Way(outer, _room(space, at))
        host = host_of(here, space)
        if host is None or host in seen:
            return
        seen.add(host)
        place = here[host]
        at = placed_box(place)
        if space.face == "top":
            yield Way(frozenset({place.space}), _column(at), host)
        space = case.space_named[place.space]


def host_of(places: Mapping[Copy, Placement], space: Space) -> Copy | None:
    """The copy that lies around a space that is part of it; None where it is part of none, or none is there."""
    if space.inside_of is None:
        return None
    walls = wall_of(space)
    around = (c for c, p in places.items() if c.thing == space.inside_of and contains(placed_box(p), walls))
    return next(around, None)


def that_shut(case: Case, space: Space) -> frozenset[str]:
    """Spaces that are open when one is and lie before it or on its lid: what lies in them decides whether it opens."""
    side = case.opening_named[space.opening].side
    if space.slides is not None or space.face not in {"top", side}:
        return frozenset()
    return frozenset(outer.name for outer in case.opened_with(space) if _lies_before(outer, space, side))


def _lies_before(outer: Space, inner: Space, side: str) -> bool:
    walls, beyond = wall_of(inner), wall_of(outer)
    if outer.slides is not None or not meets(beyond, _room(inner, walls)):
        return False
    return inner.face != "top" or side == "top" or beyond.low[2] - walls.high[2] <= LID_MM


def _room(space: Space, at: Box) -> Box:
    """The room over the whole lid of a space, or straight before a place in it."""
    return _column(wall_of(space)) if space.face == "top" else slid(at, space.face, FAR_MM)


def _column(lower: Box) -> Box:
    """The room above a box."""
    (ax, ay, _), (bx, by, bz) = lower
    return Box((ax, ay, bz), (bx, by, bz + FAR_MM))
