"""The order of loading: each thing goes in by its face, on what is there, and never in the way of a later one."""

from collections.abc import Iterator, Mapping, Sequence

from models.case import Case, Copy, copy_of
from models.geometry import AXIS_OF_FACE, Box, meets, slid
from models.plan import Placement, Plan
from models.spaces import Space
from packing.digging import by_space, directly_before, wall_of
from packing.shutting import FAR_MM, host_of, that_shut, ways_out
from packing.steps import LoadStep, Tangle, step_for


def loading_order(case: Case, plan: Plan) -> tuple[LoadStep, ...] | Tangle:
    """A sequence in which all placed copies can be loaded, space by space; a tangle if there is none.

    Raises
    ------
    KeyError
        The plan names a thing or a space that the case does not have.
    """
    placed = {copy_of(placement): placement for placement in plan.placements}
    boxes = by_space(placed)
    orders: dict[str, tuple[Copy, ...]] = {}
    for name in _spaces_in_order(case, placed, boxes):
        found = _order_in(case, case.space_named[name], boxes[name])
        if isinstance(found, Tangle):
            return found
        orders[name] = found
    order = _filled_in_time(case, placed, orders)
    return tuple(step_for(case, placed[copy], copy, boxes[placed[copy].space]) for copy in order)


def _filled_in_time(
    case: Case, placed: Mapping[Copy, Placement], orders: Mapping[str, tuple[Copy, ...]]
) -> Iterator[Copy]:
    """Copies space by space; what goes into a thing that something later is put on goes in right after that thing."""
    early: dict[Copy, list[str]] = {}
    for name in orders:
        host = host_of(placed, case.space_named[name])
        if host is not None and _is_covered(case, placed, name, host):
            early.setdefault(host, []).append(name)
    within = {name for names in early.values() for name in names}
    done: set[str] = set()

    def filled(name: str) -> Iterator[Copy]:
        if name not in done:
            done.add(name)
            for copy in orders[name]:
                yield copy
                for inner in early.get(copy, ()):
                    yield from filled(inner)

    for name in (*(name for name in orders if name not in within), *orders):
        yield from filled(name)


def _is_covered(case: Case, placed: Mapping[Copy, Placement], name: str, host: Copy) -> bool:
    """Whether anything in the space of a thing lies on that thing, over a space that is part of it."""
    space, here = case.space_named[name], placed[host].space
    ways = [way for way in ways_out(case, placed, space, wall_of(space)) if way.host == host]
    return any(way.shut_by(place) for way in ways for place in placed.values() if place.space == here)


def _order_in(case: Case, space: Space, boxes: Mapping[Copy, Box]) -> tuple[Copy, ...] | Tangle:
    """Copies of one space, those first that nothing else has to wait behind; one packer's things in a row."""
    # Copies beyond the count of the list come last: the plan has them aboard, so they have a place in the order.
    waiting = {copy: boxes[copy] for copy in dict.fromkeys((*case.copies, *sorted(boxes))) if copy in boxes}
    before = _must_be_in_before(space, waiting)
    order: list[Copy] = []
    packer: str | None = None
    while waiting:
        free = [copy for copy in waiting if not before[copy] & waiting.keys()]
        if not free:
            ring = _ring(before, tuple(waiting))
            return Tangle(space.name, ring, tuple(map(case.called, ring)))
        copy = min(free, key=lambda one: _preference(case, space, one, waiting[one], packer))
        packer = case.thing_named[copy.thing].packer
        order.append(copy)
        del waiting[copy]
    return tuple(order)


def _must_be_in_before(space: Space, boxes: Mapping[Copy, Box]) -> dict[Copy, frozenset[Copy]]:
    """For each copy those that must be in already: what it rests on, and what would come out through its room."""
    before: dict[Copy, set[Copy]] = {copy: set() for copy in boxes}
    for copy in boxes:
        for later in directly_before(boxes, copy, space.face, wall_of(space)):
            before[later].add(copy)
    return {copy: frozenset(earlier) for copy, earlier in before.items()}


def _preference(case: Case, space: Space, copy: Copy, at: Box, packer: str | None) -> tuple[bool, int, int, float]:
    """What goes in next: the same packer's, then the farthest from the face, the lowest, the heaviest."""
    thing = case.thing_named[copy.thing]
    axis, outward = AXIS_OF_FACE[space.face]
    towards_face = at.high[axis] if outward > 0 else -at.low[axis]
    if space.face == "top":
        towards_face = at.low[axis]
    return (thing.packer != packer, towards_face, at.low[2], -thing.mass_kg.most)


def _ring(before: Mapping[Copy, frozenset[Copy]], stuck: Sequence[Copy]) -> tuple[Copy, ...]:
    """A ring among copies that wait for each other: each must be in before the next, the last before the first."""
    walked: list[Copy] = []
    at = stuck[0]
    while at not in walked:
        walked.append(at)
        at = min(before[at] & set(stuck))
    return tuple(reversed(walked[walked.index(at) :]))


def _spaces_in_order(
    case: Case, placed: Mapping[Copy, Placement], boxes: Mapping[str, Mapping[Copy, Box]]
) -> tuple[str, ...]:
    """Spaces that hold something: hosts before what is inside them, buried spaces first, packers in a row."""
    waiting = [space for space in case.vehicle.spaces if space.name in boxes]
    host = {space.name: _host_space(space, placed) for space in waiting}
    around = {space.name: _outwards(case, space, placed) for space in waiting}
    order: list[str] = []
    packer: str | None = None
    while waiting:
        names = {space.name for space in waiting}
        free = [space for space in waiting if host[space.name] not in names] or waiting
        outermost = [s for s in free if not any(_buries(s, one) for o in waiting for one in around[o.name])]
        if not outermost:
            # Far apart, spaces may bury each other; what lies on a lid or right before the way still goes in later.
            shutting = {name for o in waiting for one in around[o.name] for name in that_shut(case, one)}
            outermost = [s for s in free if s.name not in shutting] or free
        space = min(outermost, key=lambda one: packer not in _packers(case, boxes[one.name]))
        packer = next(reversed(_packers(case, boxes[space.name])))
        order.append(space.name)
        waiting.remove(space)
    return tuple(order)


def _packers(case: Case, copies: Mapping[Copy, Box]) -> tuple[str | None, ...]:
    return tuple(dict.fromkeys(case.thing_named[copy.thing].packer for copy in copies))


def _host_space(space: Space, placed: Mapping[Copy, Placement]) -> str | None:
    """The space in which the thing lies that a space is part of."""
    host = host_of(placed, space)
    return None if host is None else placed[host].space


def _outwards(case: Case, space: Space, placed: Mapping[Copy, Placement]) -> tuple[Space, ...]:
    """A space and, where it is part of a thing, the space in which that lies, and so on outwards, each once."""
    found = {space.name: space}
    name = _host_space(space, placed)
    while name is not None and name not in found:
        found[name] = case.space_named[name]
        name = _host_space(found[name], placed)
    return tuple(found.values())


def _buries(outer: Space, inner: Space) -> bool:
    """Whether a space stands in the way out of another that does not slide; that other is then better loaded first."""
    if outer.name == inner.name or inner.slides is not None or outer.inside_of or inner.inside_of:
        return False
    return meets(wall_of(outer), slid(wall_of(inner), inner.face, FAR_MM))
