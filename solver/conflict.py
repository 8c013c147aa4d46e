"""When no plan exists: demands that cannot hold together, none of which can be dropped, and ways out, tried."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from models.plan import Plan
from solver.answers import Conflict, Demand, WayOut
from solver.asking import Asked, dropped, with_more
from solver.clock import Clock
from solver.plain import plain_conflict
from solver.problem import Problem
from solver.relaxed import Key, Relaxed
from solver.together import too_full
from solver.wording import limit_words, lock_words, reserve_words, things_words

ORDER = ("lock", "must come", "reserve", "limit")
"""What a person can change first."""
WAYS_OUT = 3
"""How many ways out are told."""
MOST_APART = 4
"""So many things that must come are told and tried one by one; more are told together."""
DEEPEST = 4
"""So many demands at most are dropped together as one way out."""
HEAVIEST = 4
"""So many of the heaviest things are tried at home one by one, the lightest of them first."""
SETS = (2, 3, 5, 8, 13, 21)
"""How many of the heaviest are then tried at home together."""
MORE_KG = (640.0, 320.0, 160.0, 80.0, 40.0, 20.0, 10.0, 5.0)
"""How much more of a limit is tried in kg."""
SPARE = 2
"""Shares of the time that are kept for the ways out."""
TRY_SHARE = 0.2
"""Share of the time left that one way out may take."""
RELAXED_S = 4.0
"""Seconds to see whether a case can be at all."""

Feasible = Callable[[Problem, Clock], Plan | None]
"""Tries to find a plan for a problem within a time; None when none was found."""


def find_conflict(asked: Asked, clock: Clock, feasible: Feasible) -> Conflict | None:
    """A smallest set of demands that cannot hold together, tried; None when none is seen."""
    seen = seen_conflict(asked, clock)
    return None if seen is None else tried(asked, seen, clock, feasible)


def seen_conflict(asked: Asked, clock: Clock) -> Conflict | None:
    """Demands that are proven not to hold together, with nothing tried yet."""
    return plain_conflict(asked.problem()) or too_full(asked, clock) or _by_sums(asked, clock)


def _by_sums(asked: Asked, clock: Clock) -> Conflict | None:
    relaxed = Relaxed(asked.free_problem(), asked.problem())
    on = set(relaxed.switches)
    if not asked.use_reserve:
        on.discard(("reserve", "reserve"))
    if relaxed.impossible(on, min(RELAXED_S, clock.left())) is not True:
        return None
    demands = sorted(_demands(asked, shrunk(relaxed, on, clock)), key=lambda one: ORDER.index(one.kind))
    return Conflict(tuple(demands), ())


def shrunk(relaxed: Relaxed, on: set[Key], clock: Clock) -> list[Key]:
    """Drop demands one at a time, those a person can change least easily first, while the rest stays impossible.

    Only a proof drops a member: a test that stays open keeps it.
    """
    core = set(relaxed.few(on, min(RELAXED_S, clock.left())))
    for kind in ("limit", "must come", "reserve", "lock"):
        group = sorted(key for key in core if key[0] == kind)
        size = max(1, len(group) // 2)
        while group and size >= 1:
            for start in range(0, len(group), size):
                part = {key for key in group[start : start + size] if key in core}
                if part and not clock.late() and relaxed.impossible(core - part, 1.0) is True:
                    core -= part
            group = [key for key in group if key in core]
            size = 0 if size == 1 else max(1, size // 2)
    return sorted(core)


def _demands(asked: Asked, core: list[Key]) -> Iterator[Demand]:
    things = tuple(subject for kind, subject in core if kind == "must come")
    for kind, subject in core:
        if kind == "lock":
            yield lock_demand(asked, int(subject))
        elif kind == "reserve":
            yield Demand("reserve", subject, reserve_words(asked.case))
        elif kind == "limit":
            yield Demand("limit", subject, limit_words(asked.case, subject))
    for names in [things] if len(things) > MOST_APART else [(name,) for name in things]:
        yield must_come(asked, names)


def lock_demand(asked: Asked, number: int) -> Demand:
    """A lock by its number among all locks."""
    lock = asked.every_lock[number]
    return Demand("lock", lock.thing, lock_words(lock), lock=lock)


def must_come(asked: Asked, names: tuple[str, ...]) -> Demand:
    """That some things must come, as one demand."""
    return Demand("must come", ", ".join(names), things_words(asked.case, names), things=names)


def tried(asked: Asked, conflict: Conflict, clock: Clock, feasible: Feasible) -> Conflict:
    """A conflict whose members are dropped one at a time to see whether a plan is found then; and the ways out.

    Limits are dropped first, as a plan is soonest found without them; each gets a share of the time that is left.
    """
    plans: dict[Demand, Plan | None] = {}
    for n, one in enumerate(reversed(conflict.demands)):
        share = clock.part(1 / (len(conflict.demands) - n + SPARE))
        plans[one] = None if clock.late() else feasible(dropped(asked, one).problem(), share)
    ways: list[WayOut] = []
    for one in conflict.demands:
        plan = plans[one]
        if plan is not None and len(ways) < WAYS_OUT:
            ways += _way(asked, one, plan, clock, feasible)
    if not ways:
        ways += _several(asked, conflict, clock, feasible)
    demands = tuple(replace(one, shown=plans[one] is not None) for one in conflict.demands)
    return replace(conflict, demands=demands, ways_out=tuple(ways[:WAYS_OUT]))


def _way(asked: Asked, one: Demand, plan: Plan, clock: Clock, feasible: Feasible) -> Iterator[WayOut]:
    if one.kind == "limit":
        yield from _least_more(asked, one, clock, feasible)
    elif one.kind == "must come" and len(one.things) > 1:
        yield from _fewest_left(asked, one, clock, feasible)
    else:
        yield WayOut(_sentence(one), plan)


def _least_more(asked: Asked, one: Demand, clock: Clock, feasible: Feasible) -> Iterator[WayOut]:
    """The least more of a limit with which a plan was found, from much to little: what works is soon found."""
    best: WayOut | None = None
    # The strength of tie-downs is no figure in kilograms, so nothing is told that could be raised.
    for more in MORE_KG if not one.subject.startswith("tie-downs ") else ():
        case = with_more(asked.case, one.subject, more)
        found = None if clock.late() else feasible(replace(asked, case=case).problem(), clock.part(TRY_SHARE))
        if found is None:
            break
        best = WayOut(f"With {more:g} kg more of this limit: {limit_words(asked.case, one.subject)}.", found)
    if best is not None:
        yield best


def _sentence(one: Demand) -> str:
    if one.kind == "lock":
        return f"Without this lock: {one.says}."
    if one.kind == "reserve":
        return f"Without the reserve: {one.says}."
    if one.kind == "limit":
        return f"With more of this limit: {one.says}."
    return f"Leaving at home: {', '.join(one.things)}."


def _fewest_left(asked: Asked, one: Demand, clock: Clock, feasible: Feasible) -> Iterator[WayOut]:
    """The lightest single thing that makes room when it stays; else the heaviest ones until there is room."""
    named = asked.case.thing_named
    by_mass = sorted(one.things, key=lambda name: (named[name].mass_kg.most * named[name].count, name))
    tries = [(name,) for name in by_mass[-HEAVIEST:]] + [tuple(by_mass[-n:]) for n in SETS if n <= len(by_mass)]
    for names in tries:
        if clock.late():
            return
        found = feasible(dropped(asked, must_come(asked, names)).problem(), clock.part(TRY_SHARE))
        if found is not None:
            home = sorted({left.thing for left in found.left_at_home} & set(names))
            yield WayOut(f"Leaving at home: {', '.join(home or names)}.", found)
            return


def _several(asked: Asked, conflict: Conflict, clock: Clock, feasible: Feasible) -> Iterator[WayOut]:
    """One way out that drops several demands, where no single one is enough."""
    for first in conflict.demands[:WAYS_OUT]:
        told, now = [first], dropped(asked, first)
        while len(told) <= DEEPEST and not clock.late():
            seen = seen_conflict(now, clock)
            if seen is None:
                plan = feasible(now.problem(), clock.part(TRY_SHARE))
                if plan is not None and len(told) > 1:
                    yield WayOut(" And ".join(_sentence(one) for one in told), plan)
                break
            told.append(seen.demands[0])
            now = dropped(now, seen.demands[0])


def not_brought_together(asked: Asked, clock: Clock, feasible: Feasible) -> Conflict:
    """Where nothing is proven and nothing was found: what is asked, each dropped to see whether a plan comes."""
    locks = tuple(lock_demand(asked, n) for n in range(len(asked.every_lock)))
    says = ("No layout was found in the effort given; whether one exists is unknown.",)
    told = tried(asked, Conflict((*locks, *_not_locked(asked)), says, proven=False), clock, feasible)
    told = replace(told, demands=tuple(one for one in told.demands if one.shown or one.kind == "lock"))
    if told.ways_out:
        return told
    return replace(told, says=(*says, "More effort (--effort), fewer locks or fewer things may help."))


def _not_locked(asked: Asked) -> Iterator[Demand]:
    """What is asked beside the locks: the things that must come, the reserve, the limits of the whole vehicle."""
    names = tuple(sorted(thing.name for thing in asked.case.things if thing.must))
    if names:
        yield must_come(asked, names)
    if asked.use_reserve and asked.case.trip.reserve_kg:
        yield Demand("reserve", "reserve", reserve_words(asked.case))
    limits = asked.case.vehicle.limits
    for subject, limit in (("total", limits.gvm_kg), ("rear axle", limits.rear_axle_kg)):
        if limit.kg is not None:
            yield Demand("limit", subject, limit_words(asked.case, subject))
