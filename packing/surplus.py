"""Copies of which the list has fewer now: of like ones those stay that are the hardest to get at."""

from typing import TypeVar

from models.case import Case, Copy, copy_of
from models.plan import LeftAtHome, Placement, Plan
from packing.digging import seconds_to_hand
from packing.unlisted import known_in

Part = TypeVar("Part", Placement, LeftAtHome)


def easiest_gone(case: Case, plan: Plan) -> Plan:
    """A plan numbered so that of copies beyond the count of the list the easiest to get at have the numbers beyond it.

    Copies are alike: any of them will do. Those of a thing of which a lock names one by its number keep their numbers.
    """
    placed = {copy_of(place): place for place in known_in(case, plan).placements}
    named = {lock.thing for lock in (*case.trip.locks, *plan.locks) if lock.copy_number is not None}
    new: dict[Copy, Copy] = {}
    for thing in case.things:
        mine = sorted(copy for copy in placed if copy.thing == thing.name)
        if any(copy.number > thing.count for copy in mine) and thing.name not in named:
            new |= _renamed(_hardest(case, placed, mine, thing.count), thing.count)
    if not new:
        return plan
    places = tuple(_numbered(place, new) for place in plan.placements)
    home = tuple(_numbered(one, new) for one in plan.left_at_home)
    return plan.model_copy(update={"placements": places, "left_at_home": home})


def _hardest(case: Case, placed: dict[Copy, Placement], copies: list[Copy], count: int) -> list[Copy]:
    """So many copies: the easiest to get at is taken away first, again and again."""
    left, there = list(copies), dict(placed)
    while len(left) > count:
        easiest = min(left, key=lambda copy: (seconds_to_hand(case, there, copy), -copy.number))
        left.remove(easiest)
        del there[easiest]
    return left


def _renamed(stay: list[Copy], count: int) -> dict[Copy, Copy]:
    """By copy its new number, where it gets one: those that stay have numbers of the list, and change with others."""
    down = [copy for copy in stay if copy.number > count]
    up = [copy for n in range(1, count + 1) if (copy := Copy(stay[0].thing, n)) not in stay][: len(down)]
    return dict(zip((*down, *up), (*up, *down), strict=True))


def _numbered(part: Part, new: dict[Copy, Copy]) -> Part:
    copy = Copy(part.thing, part.copy_number)
    number = new.get(copy, copy).number
    return part if part.copy_number == number else part.model_copy(update={"copy_number": number})
