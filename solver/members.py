"""Several demands of one kind as one member of a conflict."""

from collections.abc import Iterable
from dataclasses import replace

from solver.answers import Demand
from solver.asking import Asked
from solver.plain import breaks_alone
from solver.wording import lock_demand, locks_words, must_come


def as_one(asked: Asked, kind: str, demands: Iterable[Demand], but: Iterable[Demand] = ()) -> list[Demand]:
    """The demands of a kind as one, without what is a member by itself already; empty where nothing is left."""
    mine = _parts(kind, demands) - _parts(kind, but)
    if kind == "lock":
        locks = [lock for lock in asked.every_lock if lock in mine]
        return [lock_demand(*locks)] if locks else []
    names = tuple(thing.name for thing in asked.case.things if thing.name in mine)
    return [must_come(asked.case, tuple(sorted(names)))] if names else []


def _parts(kind: str, demands: Iterable[Demand]) -> set[object]:
    return {part for one in demands if one.kind == kind for part in (*one.things, *one.locks)}


def alike(asked: Asked, member: Demand) -> list[Demand]:
    """All locks into the spaces of some locks, where these are not yet all of them."""
    spaces = {lock.in_ for lock in member.locks if lock.in_ is not None}
    locks = tuple(lock for lock in asked.every_lock if lock.in_ in spaces or lock in member.locks)
    return [lock_demand(*locks)] if len(locks) > len(member.locks) else []


def all_of(asked: Asked, kind: str) -> list[Demand]:
    """All locks, or all things that must come, as one demand."""
    if kind == "lock":
        return [lock_demand(*asked.every_lock)] if asked.every_lock else []
    names = tuple(sorted(thing.name for thing in asked.case.things if thing.must))
    return [must_come(asked.case, names)] if names else []


def unrelated(asked: Asked, member: Demand) -> Demand:
    """A member of several locks that says so where each of them breaks a rule by itself: they do not clash."""
    problem = asked.problem()
    if len(member.locks) < 2 or not all(breaks_alone(problem, lock) for lock in member.locks):
        return member
    return replace(member, says=f"{locks_words(member.locks)} (each breaks a rule by itself)")
