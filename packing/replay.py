"""Replays an order of loading, one copy after the other, and says the first fault."""

from collections.abc import Iterable

from models.case import Case, Copy, copy_of
from models.geometry import Box, box, contact_mm2, meets, placed_box, swept
from models.plan import Placement
from models.spaces import Space


def first_fault(case: Case, order: Iterable[Placement]) -> str | None:
    """What first goes wrong when copies are put in one after the other, in a sentence. None: nothing does.

    A copy must come in straight by the face of its space past all that is there, must not be put under something that
    is there, and must find something under its bottom: the floor, a solid or a copy.
    """
    there: dict[str, dict[Copy, Box]] = {}
    for placement in order:
        copy, space = copy_of(placement), case.space_named[placement.space]
        present = there.setdefault(space.name, {})
        fault = _fault(case, space, present, copy, placed_box(placement))
        if fault is not None:
            return fault
        present[copy] = placed_box(placement)
    return None


def _fault(case: Case, space: Space, present: dict[Copy, Box], copy: Copy, at: Box) -> str | None:
    name = case.called(copy)
    way_in = swept(at, space.face, box(space.corner_mm, space.size_mm))
    for other, there in present.items():
        if other == copy:
            return f"{name} goes into {space.name} twice."
        if meets(there, way_in):
            return f"{name} cannot get past {case.called(other)} in {space.name}."
        if contact_mm2(there, at):
            return f"{name} would have to go in under {case.called(other)} in {space.name}."
    if not any(contact_mm2(at, under) for under in (*_ground(space), *present.values())):
        return f"{name} has nothing under it in {space.name} yet."
    return None


def _ground(space: Space) -> tuple[Box, ...]:
    """The floor of a space and its solids, as boxes that end where things may stand."""
    length, width, _ = space.size_mm
    floor = box(space.corner_mm, (length, width, 0))
    return (floor, *(box(solid.corner_mm, solid.size_mm) for solid in space.solid))
