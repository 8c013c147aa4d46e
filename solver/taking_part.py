"""Which locks take part in a conflict: the problem without some of them, asked again."""

import copy
from collections.abc import Callable, Collection, Sequence

from models.trip import Lock
from solver.answers import Conflict
from solver.coming import coming
from solver.demands import fixed
from solver.problem import Problem


def loosened(problem: Problem, gone: Collection[Lock], *, musts: bool = True) -> Problem:
    """The problem without some locks, and with `musts` False with nothing that comes for its own sake.

    It is made to be asked what has to come and what may be where, not to be searched.
    """
    other = copy.copy(problem)
    other.locks = tuple(lock for lock in problem.locks if lock not in gone)
    other.fixed = tuple(fixed(other.locks, piece.copy) for piece in problem.pieces)
    other.fits = other.every_fit()
    vars(other).pop("lowest2", None)
    vars(other)["coming"] = coming(other, musts=musts)
    return other


def needless(locks: Sequence[Lock], still: Callable[[Sequence[Lock]], bool]) -> list[Lock]:
    """Locks that can go, tried one at a time in their order: `still` says whether it cannot be without some."""
    gone = list[Lock]()
    for lock in dict.fromkeys(locks):
        if still([*gone, lock]):
            gone.append(lock)
    return gone


def with_fewest_locks(problem: Problem, first: Conflict, again: Callable[[Problem], Conflict | None]) -> Conflict:
    """A conflict with those of its locks alone without which it is none; `again` tells that of a problem."""
    locks = [lock for one in first.demands for lock in one.locks]
    gone = needless(locks, lambda some: again(loosened(problem, some)) is not None)
    return (again(loosened(problem, gone)) if gone else None) or first
