"""lock: what people fixed stays."""

from collections.abc import Iterator

from models.case import Copy
from models.rules import Rule
from models.trip import Lock
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout, Placed


def _copies(layout: Layout, lock: Lock) -> tuple[Copy, ...]:
    return tuple(copy for copy in layout.case.copies if lock.is_on(copy))


def _wrong_place(lock: Lock, here: tuple[Placed, ...]) -> str | None:
    if lock.in_ is None:
        return None
    if not here:
        return f"should be in {lock.in_} and is not carried"
    for one in here:
        if one.placement.space != lock.in_:
            return f"should be in {lock.in_} and is in {one.placement.space}"
        if lock.at_mm is not None and one.placement.corner_mm != lock.at_mm:
            return f"should be at {list(lock.at_mm)} and is at {list(one.placement.corner_mm)}"
    return None


def _forbidden_place(layout: Layout, lock: Lock, here: tuple[Placed, ...]) -> str | None:
    for one in here:
        if lock.not_in is not None and lock.not_in in _where(layout, one):
            return f"should not be in {lock.not_in} and is"
    return None


def _where(layout: Layout, one: Placed) -> set[str]:
    """All that a thing is in: its space, those around that where it is part of a thing, and the racks that bear it."""
    if one.space is None:
        return {one.placement.space}
    around = (space.name for space in layout.case.around(one.space))
    return {one.space.name, *around, *layout.case.racks_under(one.space)}


def _presence(lock: Lock, here: tuple[Placed, ...]) -> str | None:
    if lock.at_home and here:
        return "should stay at home and is carried"
    if lock.carried and not here:
        return "should come and is not carried"
    return None


def _whose(lock: Lock) -> str:
    by = "" if lock.by is None else f" ({lock.by})"
    return by if lock.because is None else f"{by}: {lock.because}"


def _lock(layout: Layout, lock: Lock) -> Iterator[Finding]:
    for copy in _copies(layout, lock):
        here = tuple(one for one in layout.placed if one.copy == copy)
        name = layout.case.called(copy)
        reasons = (_wrong_place(lock, here), _forbidden_place(layout, lock, here), _presence(lock, here))
        for reason in reasons:
            if reason is not None:
                says = f"{name} {reason}{_whose(lock)}."
                yield plain(Rule.LOCK, name, False, says, source="lock")


def find(layout: Layout) -> Iterator[Finding]:
    """Judge the locks of the trip and of the plan."""
    locks = (*layout.case.trip.locks, *layout.plan.locks)
    found = (finding for lock in locks for finding in _lock(layout, lock))
    return or_held(found, Rule.LOCK, "Everything that people fixed is where they fixed it.")
