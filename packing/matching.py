"""Which copy of the plan before is which of the plan after: like copies are alike except where they are locked."""

from collections.abc import Callable, Iterable, Iterator
from math import dist
from typing import TypeVar

from models.case import Case, Copy, copy_of
from models.plan import LeftAtHome, Placement, Plan

Places = dict[Copy, Placement]
Part = TypeVar("Part", Placement, LeftAtHome)


def matched(case: Case, before: Plan, after: Plan) -> tuple[Places, Places]:
    """Placements before and after by copy, numbered as after, so that as few like copies as possible change places.

    A copy that a lock names by its number stays itself. Things that the case does not have are left out.
    """
    then, now = _places(case, before), _places(case, after)
    names = _names(case, then, now, _fixed(case, (before, after)))
    return {names[copy]: numbered(place, names[copy]) for copy, place in then.items()}, now


def numbered_as_before(case: Case, before: Plan, after: Plan) -> Callable[[Copy], Copy]:
    """The number that each copy of the plan after should have, so that like copies keep those of the plan before.

    Whoever has marked a bag by the sheet of the plan before finds it by that mark.
    """
    fixed = _fixed(case, (before, after))
    names = _names(case, _places(case, before), _places(case, after), fixed)
    known = {new: old for old, new in names.items() if {old, new} <= set(case.copies)}
    for thing in case.things:
        copies = [copy for copy in case.copies if copy.thing == thing.name]
        rest, free = set(copies) - set(known), set(copies) - set(known.values())
        known |= {copy: copy for copy in rest & free}
        known |= dict(zip(sorted(rest - free), sorted(free - rest), strict=True))
    return lambda copy: known.get(copy, copy)


def renumbered(case: Case, plan: Plan, number: Callable[[Copy], Copy]) -> Plan:
    """A plan with other numbers for like copies, its parts in the order of the list."""
    rank = {copy: n for n, copy in enumerate(case.copies)}

    def parts(of: tuple[Part, ...]) -> tuple[Part, ...]:
        return tuple(sorted((numbered(one, number(copy_of(one))) for one in of), key=lambda one: rank[copy_of(one)]))

    return plan.model_copy(
        update={"placements": parts(plan.placements), "left_at_home": parts(plan.left_at_home)},
    )


def _places(case: Case, plan: Plan) -> Places:
    return {copy_of(p): p for p in plan.placements if p.thing in case.thing_named}


def _names(case: Case, then: Places, now: Places, fixed: frozenset[Copy]) -> dict[Copy, Copy]:
    """By copy of the plan before: the copy of the plan after that it is."""
    names: dict[Copy, Copy] = {copy: copy for copy in then if copy in fixed}
    for thing in case.things:
        names |= _pairs(_of(thing.name, then, fixed), _of(thing.name, now, fixed), case, fixed)
    return names


def same_place(case: Case, one: Placement, other: Placement) -> bool:
    """Whether two placements of like copies are the same to whoever packs."""
    return _as_packed(case, one) == _as_packed(case, other)


def _as_packed(case: Case, place: Placement) -> tuple[object, ...]:
    """What of a placement matters to whoever packs."""
    thing = case.thing_named[place.thing]
    # A soft thing by volume has no turn; of a hard one only what points up is worth a move.
    up = None if thing.size_mm is None else place.turn[2]
    # What needs no free air faces nowhere; what does and says no more faces the rear.
    facing = None if thing.air_gap_mm is None else place.facing or "rear"
    return (place.corner_mm, place.size_mm, place.space, facing, up)


def _fixed(case: Case, plans: Iterable[Plan]) -> frozenset[Copy]:
    locks = (*case.trip.locks, *(lock for plan in plans for lock in plan.locks))
    return frozenset(Copy(lock.thing, lock.copy_number) for lock in locks if lock.copy_number is not None)


def _of(thing: str, placed: Places, fixed: frozenset[Copy]) -> Places:
    return {copy: place for copy, place in sorted(placed.items()) if copy.thing == thing and copy not in fixed}


def _pairs(then: Places, now: Places, case: Case, fixed: frozenset[Copy]) -> dict[Copy, Copy]:
    """New names of the copies before: the nearest first, then the numbers that nobody took."""
    pairs: dict[Copy, Copy] = {}
    taken: set[Copy] = set()
    for *_, copy, other in sorted(_apart(case, then, now)):
        if copy not in pairs and other not in taken:
            pairs[copy] = other
            taken.add(other)
    things = {copy.thing for copy in then}
    numbers = [copy for copy in (*case.copies, *then) if copy.thing in things and copy not in now and copy not in fixed]
    free = list(dict.fromkeys(numbers))
    for copy in then:
        if copy not in pairs:
            # Its own number where that is free, so that a copy that leaves keeps its name.
            pairs[copy] = copy if copy in free else free[0]
            free.remove(pairs[copy])
    return pairs


def _apart(case: Case, then: Places, now: Places) -> Iterator[tuple[int, bool, float, Copy, Copy]]:
    """How far a copy before is from one after: another place or space, another number, the distance in mm; and both."""
    packed = {copy: _as_packed(case, place) for copy, place in now.items()}
    for copy, one in then.items():
        here = _as_packed(case, one)
        for other, place in now.items():
            rank = 0 if here == packed[other] else 1 if one.space == place.space else 2
            yield rank, copy != other, dist(one.corner_mm, place.corner_mm), copy, other


def numbered(part: Part, copy: Copy) -> Part:
    """A part of a plan with the number of a copy."""
    return part if part.copy_number == copy.number else part.model_copy(update={"copy_number": copy.number})
