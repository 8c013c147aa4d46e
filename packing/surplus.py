"""Copies of which the list has fewer now: of like ones those stay that are locked, then the hardest to get at."""

from collections.abc import Mapping, Sequence

from models.case import Case, Copy, copy_of
from models.gear import Thing
from models.plan import Placement, Plan
from models.trip import Lock
from packing.digging import seconds_to_hand, to_move_first
from packing.matching import numbered
from packing.standing import inside_it
from packing.unlisted import known_in


def easiest_gone(case: Case, plan: Plan, extra_locks: Sequence[Lock] = ()) -> Plan:
    """A plan numbered so that of copies beyond the count of the list those have the numbers beyond it that are to go.

    Copies are alike: any of them will do, but one that a lock names stays before one that none names, then one around
    a space that is part of it and holds something, and of others the easiest to get at goes. A lock of the plan goes
    along with its copy to the new number; a copy that a lock names by a number of the list keeps it. `extra_locks` are
    those added to the plan's and the trip's.
    """
    placed = {copy_of(place): place for place in known_in(case, plan).placements}
    named = _named(case, plan, extra_locks)
    new: dict[Copy, Copy] = {}
    for thing in case.things:
        mine = sorted(copy for copy in placed if copy.thing == thing.name)
        if any(copy.number > thing.count for copy in mine):
            new |= _renamed(_staying(case, placed, mine, named, thing), thing.name, thing.count)
    if not new:
        return plan
    return plan.model_copy(
        update={
            "locks": tuple(_along(lock, new) for lock in plan.locks),
            "placements": tuple(numbered(one, new.get(copy_of(one), copy_of(one))) for one in plan.placements),
            "left_at_home": tuple(numbered(one, new.get(copy_of(one), copy_of(one))) for one in plan.left_at_home),
        }
    )


def _named(case: Case, plan: Plan, extra_locks: Sequence[Lock]) -> set[Copy]:
    """Copies that a lock names by their number."""
    locks = (*case.trip.locks, *plan.locks, *extra_locks)
    return {Copy(lock.thing, lock.copy_number) for lock in locks if lock.copy_number is not None}


def _along(lock: Lock, new: Mapping[Copy, Copy]) -> Lock:
    """A lock with the new number of the copy that it names."""
    copy = None if lock.copy_number is None else new.get(Copy(lock.thing, lock.copy_number))
    return lock if copy is None else lock.model_copy(update={"copy_number": copy.number})


def _staying(
    case: Case, placed: Mapping[Copy, Placement], copies: Sequence[Copy], named: set[Copy], thing: Thing
) -> list[Copy]:
    """As many copies as the list has, with their old numbers.

    First what a lock names by a number of the list, aboard or, where it is the trip's, not; then what lies aboard and
    is named by another; then a copy around a space that holds something, which would have no place without it; then the
    copies for which the most has to be moved, and be put back, then those that take the longest. What stands in the way
    of another has less to be moved for it, and so goes before it. What the plan alone names and is not aboard comes
    last: a copy that is kept at home puts none out that lies in the vehicle.
    """
    of_trip = {Copy(lock.thing, lock.copy_number) for lock in case.trip.locks if lock.copy_number is not None}

    def order(copy: Copy) -> tuple[bool, bool, int, float, int]:
        moved = len(to_move_first(case, placed, copy))
        return (
            copy not in named,
            not inside_it(case, placed, copy),
            -moved,
            -seconds_to_hand(case, placed, copy),
            copy.number,
        )

    listed = sorted(copy for copy in named if copy.thing == thing.name and copy.number <= thing.count)
    kept = [copy for copy in listed if copy in placed or copy in of_trip]
    aboard = sorted((copy for copy in copies if copy not in kept), key=order)
    return [*kept, *aboard, *(copy for copy in listed if copy not in kept)][: thing.count]


def _renamed(stay: Sequence[Copy], thing: str, count: int) -> dict[Copy, Copy]:
    """By copy its new number, where it gets one: those that stay have numbers of the list, and change with others."""
    down = [copy for copy in stay if copy.number > count]
    up = [copy for n in range(1, count + 1) if (copy := Copy(thing, n)) not in stay][: len(down)]
    return dict(zip((*down, *up), (*up, *down), strict=True))
