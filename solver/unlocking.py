"""Locks that stand against a place, and what stays of them when one copy is free of them."""

from collections.abc import Iterator, Sequence

from models.case import Case, Copy
from models.geometry import Point
from models.spaces import Space
from models.trip import Lock
from solver.asking import fresh


def locks_on(locks: Sequence[Lock], copy: Copy) -> tuple[Lock, ...]:
    """Those of some locks that a copy is under, each once."""
    mine = (lock for lock in locks if lock.thing == copy.thing and lock.copy_number in {None, copy.number})
    return tuple(dict.fromkeys(mine))


def forbids(case: Case, lock: Lock, space: Space, corner_mm: Point | None = None) -> bool:
    """Whether a lock does not let what is under it be in a space, or with its least corner there."""
    if lock.at_home or lock.not_in in {space.name, *case.racks_under(space)}:
        return True
    elsewhere = None not in {lock.at_mm, corner_mm} and lock.at_mm != corner_mm
    return lock.in_ is not None and (lock.in_ != space.name or elsewhere)


def others_locks(case: Case, lock: Lock, copy: Copy) -> Iterator[Lock]:
    """What stays of a lock when a copy is free of it: one lock for each other copy where it was on all of its kind."""
    if lock.thing != copy.thing:
        yield lock
    elif lock.copy_number is None:
        others = (one for one in case.copies if one.thing == copy.thing and one != copy)
        yield from (lock.model_copy(update={"copy_number": one.number}) for one in others)
    elif lock.copy_number != copy.number:
        yield lock


def without(case: Case, locks: Sequence[Lock], lifted: Sequence[Lock], copy: Copy) -> tuple[Lock, ...]:
    """Some locks with those that are lifted left to the other copies alone."""
    return tuple(one for lock in locks for one in (others_locks(case, lock, copy) if lock in lifted else (lock,)))


def unlocked(case: Case, lifted: Sequence[Lock], copy: Copy) -> Case:
    """The case in which a copy is free of some locks of the trip, to judge a plan that does not keep them."""
    locks = without(case, case.trip.locks, lifted, copy)
    return fresh(case, trip=case.trip.model_copy(update={"locks": locks}))
