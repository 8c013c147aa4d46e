"""The order of loading: each thing goes in by its face, on what is there, and never in the way of a later one."""

from collections.abc import Mapping, Sequence

from models.case import Case, Copy, copy_of
from models.geometry import AXIS_OF_FACE, Box, contains, meets, placed_box, slid
from models.plan import Placement, Plan
from models.spaces import Space
from packing.digging import by_space, directly_before, wall_of
from packing.steps import LoadStep, Tangle, step_for

FAR_MM = 100_000
"""Beyond the end of any vehicle, in mm."""


def loading_order(case: Case, plan: Plan) -> tuple[LoadStep, ...] | Tangle:
    """A sequence in which all placed copies can be loaded, space by space; a tangle if there is none.

    Raises
    ------
    KeyError
        The plan names a thing or a space that the case does not have.
    """
    placed = {copy_of(placement): placement for placement in plan.placements}
    boxes = by_space(placed)
    steps: list[LoadStep] = []
    for name in _spaces_in_order(case, placed, boxes):
        found = _order_in(case, case.space_named[name], boxes[name])
        if isinstance(found, Tangle):
            return found
        steps += [step_for(case, placed[copy], copy, boxes[name]) for copy in found]
    return tuple(steps)


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
    order: list[str] = []
    packer: str | None = None
    while waiting:
        names = {space.name for space in waiting}
        free = [space for space in waiting if host[space.name] not in names] or waiting
        outermost = [s for s in free if not any(_buries(s, other) for other in free)] or free
        space = min(outermost, key=lambda one: packer not in _packers(case, boxes[one.name]))
        packer = next(reversed(_packers(case, boxes[space.name])))
        order.append(space.name)
        waiting.remove(space)
    return tuple(order)


def _packers(case: Case, copies: Mapping[Copy, Box]) -> tuple[str | None, ...]:
    return tuple(dict.fromkeys(case.thing_named[copy.thing].packer for copy in copies))


def _host_space(space: Space, placed: Mapping[Copy, Placement]) -> str | None:
    """The space in which the thing lies that a space is part of."""
    for copy, placement in placed.items():
        if copy.thing == space.inside_of and contains(placed_box(placement), wall_of(space)):
            return placement.space
    return None


def _buries(outer: Space, inner: Space) -> bool:
    """Whether a space stands in the way out of another that does not slide; that other is then better loaded first."""
    if outer.name == inner.name or inner.slides is not None or outer.inside_of or inner.inside_of:
        return False
    return meets(wall_of(outer), slid(wall_of(inner), inner.face, FAR_MM))
