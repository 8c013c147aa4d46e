"""Ways out that give up several demands at once, where no single one is enough."""

from collections.abc import Iterable, Iterator, Sequence

from models.plan import Plan
from solver.answers import Demand, WayOut
from solver.asking import Asked, dropped
from solver.clock import Clock
from solver.feasible import TRY_SHARE, Feasible
from solver.seen import cannot_be, seen_conflict
from solver.ways import joined, sentence
from solver.wording import lock_demand

DEEPEST = 4
"""So many times it is looked at what is in the way still."""

Way = tuple[tuple[Demand, ...], Plan]
"""What is given up, with a plan that was found then."""


def several(asked: Asked, firsts: Sequence[Demand], clock: Clock, feasible: Feasible) -> list[WayOut]:
    """Ways out that begin with one of some demands each; none of them is told that contains another."""
    ways = list(_found(asked, firsts, clock, feasible))
    told = list[int]()
    for n in sorted(range(len(ways)), key=lambda n: len(ways[n][0])):  # of like lengths as they were found
        if not any(_parts(ways[other][0]) <= _parts(ways[n][0]) for other in told):
            told.append(n)
    return [
        WayOut(joined(sentence(one) for one in gone), plan, _without(asked, gone).case)
        for gone, plan in (ways[n] for n in sorted(told))
    ]


def _found(asked: Asked, firsts: Sequence[Demand], clock: Clock, feasible: Feasible) -> Iterator[Way]:
    for first in firsts:
        gone = list(_singly(first))
        for _ in range(DEEPEST):
            if clock.late():
                break
            now = _without(asked, gone)
            seen = seen_conflict(now, clock)
            if seen is None:
                plan = feasible(now.problem(), clock.part(TRY_SHARE))
                if plan is not None and len(gone) > 1:
                    yield _needed(asked, gone, plan, clock, feasible)
                break
            gone += (part for one in seen.demands[:1] for part in _singly(one))


def _needed(asked: Asked, gone: Sequence[Demand], plan: Plan, clock: Clock, feasible: Feasible) -> Way:
    """Of what is given up only what no plan was found with: each is asked for again, one at a time."""
    kept = list(gone)
    for one in gone:
        rest = [other for other in kept if other != one]
        now = _without(asked, rest)
        if not rest or clock.late() or cannot_be(now, clock):
            continue
        found = feasible(now.problem(), clock.part(TRY_SHARE), plan)
        if found is not None:
            kept, plan = rest, found
    return tuple(kept), plan


def _singly(one: Demand) -> Iterator[Demand]:
    """A demand; several locks that are told as one each by itself."""
    yield from (lock_demand(lock) for lock in one.locks) if len(one.locks) > 1 else (one,)


def _parts(demands: Iterable[Demand]) -> set[tuple[str, object]]:
    """What is given up, piece by piece: single locks, single things, else the subject."""
    return {(one.kind, part) for one in demands for part in (one.locks or one.things or (one.subject,))}


def _without(asked: Asked, demands: Iterable[Demand]) -> Asked:
    for one in demands:
        asked = dropped(asked, one)
    return asked
