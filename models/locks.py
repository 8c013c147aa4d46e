"""Locks by copy: which copies are under one, what it keeps them out of, what stays of it when some are free of it."""

from collections.abc import Collection, Iterable

from models.case import Case, Copy
from models.spaces import Space
from models.trip import Lock


def locks_on(locks: Iterable[Lock], copy: Copy) -> tuple[Lock, ...]:
    """Those of some locks that a copy is under, each once."""
    return tuple(dict.fromkeys(lock for lock in locks if lock.is_on(copy)))


def under(case: Case, lock: Lock) -> tuple[Copy, ...]:
    """Copies that a lock is on, in the order of the list."""
    return tuple(copy for copy in case.copies if lock.is_on(copy))


def out_names(case: Case, space: Space) -> frozenset[str]:
    """Names by which a lock may keep a copy out of a space: its own, those around it, those of racks under it."""
    return frozenset((space.name, *(one.name for one in case.around(space)), *case.racks_under(space)))


def keeps_out(case: Case, lock: Lock, space: Space) -> bool:
    """Whether a lock keeps what is under it out of a space, by its name, by that of one around it or by a rack's."""
    return lock.not_in in out_names(case, space)


def left_of(case: Case, lock: Lock, free: Collection[Copy]) -> tuple[Lock, ...]:
    """What stays of a lock when some copies are free of it: itself, or one lock for each other copy that it was on."""
    on_it = under(case, lock)
    others = [copy for copy in on_it if copy not in free]
    if len(others) == len(on_it):
        return (lock,)
    return tuple(lock.model_copy(update={"copy_number": copy.number}) for copy in others)


def taken_off(case: Case, lock: Lock, free: Collection[Copy]) -> tuple[Lock, ...]:
    """What goes of a lock when some copies are free of it: the rest of it, nothing where it is on none of them."""
    on_it = under(case, lock)
    return left_of(case, lock, [copy for copy in on_it if copy not in free]) if set(on_it) & set(free) else ()


def without(case: Case, locks: Iterable[Lock], lifted: Collection[Lock], free: Collection[Copy]) -> tuple[Lock, ...]:
    """Some locks with those that are lifted taken off some copies."""
    return tuple(one for lock in locks for one in (left_of(case, lock, free) if lock in lifted else (lock,)))
