"""Copies of which the list has fewer now: of like ones those stay that are the hardest to get at."""

from collections.abc import Mapping, Sequence

from models.case import Case, Copy, copy_of
from models.plan import Placement, Plan
from models.trip import Lock
from packing.digging import seconds_to_hand, to_move_first
from packing.matching import numbered
from packing.unlisted import known_in


def easiest_gone(case: Case, plan: Plan, locks: Sequence[Lock]) -> Plan:
    """A plan numbered so that of copies beyond the count of the list the easiest to get at have the numbers beyond it.

    Copies are alike: any of them will do. Those of a thing of which a lock names one by its number keep their numbers;
    `locks` are those added to the trip's.
    """
    placed = {copy_of(place): place for place in known_in(case, plan).placements}
    named = {lock.thing for lock in (*case.trip.locks, *locks) if lock.copy_number is not None}
    new: dict[Copy, Copy] = {}
    for thing in case.things:
        mine = sorted(copy for copy in placed if copy.thing == thing.name)
        if any(copy.number > thing.count for copy in mine) and thing.name not in named:
            new |= _renamed(_hardest(case, placed, mine, thing.count), thing.count)
    if not new:
        return plan
    places = tuple(numbered(one, new.get(copy_of(one), copy_of(one))) for one in plan.placements)
    home = tuple(numbered(one, new.get(copy_of(one), copy_of(one))) for one in plan.left_at_home)
    return plan.model_copy(update={"placements": places, "left_at_home": home})


def _hardest(case: Case, placed: Mapping[Copy, Placement], copies: Sequence[Copy], count: int) -> list[Copy]:
    """So many copies: those for which the most has to be moved, and be put back, then those that take the longest.

    What stands in the way of another has less to be moved for it, and so goes before it.
    """

    def easy(copy: Copy) -> tuple[int, float, int]:
        moved = len(to_move_first(case, placed, copy))
        return -moved, -seconds_to_hand(case, placed, copy), copy.number

    return sorted(copies, key=easy)[:count]


def _renamed(stay: list[Copy], count: int) -> dict[Copy, Copy]:
    """By copy its new number, where it gets one: those that stay have numbers of the list, and change with others."""
    down = [copy for copy in stay if copy.number > count]
    up = [copy for n in range(1, count + 1) if (copy := Copy(stay[0].thing, n)) not in stay][: len(down)]
    return dict(zip((*down, *up), (*up, *down), strict=True))
