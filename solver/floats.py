"""A lock at a corner so little above the floor that nothing of the list can lie under it."""

from models.case import Case
from models.gear import Thing
from models.geometry import LEAST_SOFT_SIDE_MM
from models.trip import Lock
from solver.eligible import listed_sizes


def floating_words(case: Case, thing: Thing, lock: Lock) -> list[str]:
    """That a lock leaves too little under its thing for anything to lie there, and where the floor is; else nothing.

    What lies under it may lie on the floor or on what is fixed there; of the floor there is most room.
    """
    if lock.in_ is None or lock.at_mm is None:
        return []
    space, z = case.space_named[lock.in_], lock.at_mm[2]
    floor = space.corner_mm[2]
    if z <= floor or any(solid.corner_mm[2] + solid.size_mm[2] == z for solid in space.solid):
        return []
    thinnest = min((_least_mm(one) for one in case.things if one is not thing or one.count > 1), default=None)
    if thinnest is not None and thinnest <= z - floor:
        return []
    says = f"support: at {list(lock.at_mm)} in {lock.in_} it is {z - floor} mm above the floor, which is at {floor}"
    if thinnest is None:
        return [f"{says}, and nothing else is on the list that could lie under it."]
    return [f"{says}, and nothing else on the list is less than {thinnest} mm in any turn, so that none lies under it."]


def _least_mm(thing: Thing) -> int:
    """How low a thing may be in any turn."""
    if thing.size_mm is None:
        return LEAST_SOFT_SIDE_MM
    return min(size[2] for _, size in listed_sizes(thing))
