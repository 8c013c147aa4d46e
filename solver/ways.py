"""Ways out of a conflict, as cheap as they were found, each of them tried."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Protocol

from models.case import Case, Copy
from models.plan import Plan
from models.trip import Lock
from solver.answers import Demand, WayOut
from solver.asking import Asked, dropped, raised
from solver.clock import Clock
from solver.core import RELAXED_S
from solver.passing import lightened, over_kg
from solver.plans import from_plan
from solver.problem import Problem
from solver.relaxed import Relaxed
from solver.repack import Cost
from solver.seen import cannot_be
from solver.state import State
from solver.wording import limit_words, lock_demand, locks_words, must_come

STEP_KG = 5.0
"""More of a limit is told in steps of so many kg."""
HEAVIER = (1.0, 1.15, 1.5, 2.5)
"""Where leaving the fewest things is not enough, things so many times as heavy are left."""
MARGINS = (1.0, 1.5, 2.5)
"""So many times as much as a limit is passed by is taken off, as what lay on it has to find another place."""
TRY_SHARE = 0.2
"""Share of the time left that one try may take."""
MOST_LEFT = 5
"""Leaving more things at home that must come is no way out that a person would take."""
LESS_SHARE = 0.35
"""Share of the time left to find a layout that passes a limit by less."""


class Feasible(Protocol):
    """Tries to find a plan."""

    def __call__(
        self, problem: Problem, clock: Clock, near: Plan | None = None, cost: Cost | None = None
    ) -> Plan | None:
        """A plan for a problem, looked for near a plan and with a small cost where they are given; None: none found."""


class Ways:
    """Ways out, one demand after the other; plans found for a limit help with what should stay at home."""

    def __init__(self, asked: Asked, clock: Clock, feasible: Feasible) -> None:
        self.asked, self.clock, self.feasible = asked, clock, feasible
        self.loaded: list[tuple[str, Plan]] = []
        """Limits, each with a plan that passes it by little and holds all else."""
        self.last: list[WayOut] = []
        """What is told only where there is no other way out."""

    def of(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """Ways out that give up one demand, or as little of it as was found; `plan` is one without it."""
        if one.kind == "limit" and not one.subject.startswith("tie-downs "):
            yield from self._least_more(one, plan)
        elif one.kind == "must come" and len(one.things) > 1:
            yield from self._fewest_left(one)
        elif one.kind == "lock" and len(one.locks) > 1:
            yield from self._fewest_locks(one, plan)
        else:
            yield WayOut(sentence(one), plan)

    def _least_more(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """As little more of a limit as was found: what a plan needs in which the limit is passed by little."""
        limits = self.asked.problem()

        def passed(state: State) -> float:
            return max(0.0, over_kg(state, limits, one.subject))

        lifted = dropped(self.asked, one).problem()
        best = self.feasible(lifted, self.clock.part(LESS_SHARE), plan, passed) or plan
        most = in_steps(over_kg(from_plan(lifted, best), limits, one.subject))
        for more in self._raises(one.subject, most):
            asked = replace_limit(self.asked, one.subject, more)
            found = None if self.clock.late() else self.feasible(asked.problem(), self.clock.part(TRY_SHARE), best)
            if found is not None:
                self.loaded.append((one.subject, found))
                yield WayOut(more_words(self.asked.case, one.subject, more), found)
                return

    def _raises(self, subject: str, most_kg: float) -> list[float]:
        """Kilograms more of a limit to try: what is proven to be missed at least, then halfway to what a plan needs."""
        relaxed = Relaxed(self.asked.free_problem(), self.asked.problem())
        on = relaxed.asked_for(self.asked.use_reserve)
        known = subject in relaxed.over and most_kg > STEP_KG
        seconds = min(RELAXED_S, self.clock.left())
        least = in_steps(relaxed.least_over_g(subject, on, seconds) / 1000) if known else most_kg
        return sorted({kg for kg in (least, in_steps((least + most_kg) / 2), most_kg) if 0 < kg <= most_kg})

    def _fewest_left(self, one: Demand) -> Iterator[WayOut]:
        """Few things that make room when they stay at home."""
        for names, near in self._to_leave(one):
            if self.clock.late():
                return
            without = dropped(self.asked, must_come(self.asked.case, names))
            found = self.feasible(without.problem(), self.clock.part(TRY_SHARE), near)
            if found is not None:
                home = sorted({left.thing for left in found.left_at_home} & set(names)) or list(names)
                if len(home) <= MOST_LEFT:
                    yield WayOut(f"Leaving at home: {', '.join(home)}.", found)
                else:
                    self.last.append(WayOut(self._many_words(home), found))
                return

    def _many_words(self, home: Sequence[str]) -> str:
        """How many things would have to stay at home, where they are too many to be called a way out."""
        named = self.asked.case.thing_named
        mass = sum(named[name].mass_kg.most * named[name].count for name in home)
        musts = sum(thing.must for thing in self.asked.case.things)
        return f"About {len(home)} of {musts} things that must come would have to stay at home ({mass:.0f} kg)."

    def _to_leave(self, one: Demand) -> Iterator[tuple[tuple[str, ...], Plan | None]]:
        """What a plan that passes a limit has too much of, near that plan; then what masses and volumes tell."""
        limits, named = self.asked.problem(), self.asked.case.thing_named
        for subject, plan in self.loaded:
            for margin in MARGINS:
                names = lightened(from_plan(limits, plan), limits, subject, one.things, margin)
                if names:
                    yield names, plan
        relaxed = Relaxed(self.asked.free_problem(), limits)
        on = relaxed.asked_for(self.asked.use_reserve)
        least_kg = 0.0
        for times in HEAVIER:
            names = relaxed.fewest_gone(on, one.things, times * least_kg, min(RELAXED_S, self.clock.left()))
            if not names:
                return
            least_kg = least_kg or sum(named[name].mass_kg.most * named[name].count for name in names)
            yield names, None

    def _fewest_locks(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """Few of several locks that make a plan possible when they go, found in two orders."""
        least: set[Lock] = set()
        for order in (_bulk(self.asked, one.locks), _bulk(self.asked, one.locks)[::-1]):
            gone, found = self._taken_back(order, plan)
            if gone and (not least or (not least <= set(gone) and len(gone) <= len(least) + 1)):
                least = least or set(gone)
                locks = tuple(lock for lock in one.locks if lock in gone)
                yield WayOut(sentence(lock_demand(*locks)), found, locks)

    def _taken_back(self, locks: Sequence[Lock], plan: Plan) -> tuple[list[Lock], Plan]:
        """Take locks back one at a time as long as a plan is found with each; what a plan keeps anyway is kept."""
        gone = [lock for lock in locks if not keeps(self.asked.case, plan, lock)]
        for lock in list(gone):
            without = [other for other in gone if other is not lock]
            if lock not in gone or not without or self.clock.late():
                continue
            now = dropped(self.asked, lock_demand(*without))
            found = (
                None if cannot_be(now, self.clock) else self.feasible(now.problem(), self.clock.part(TRY_SHARE), plan)
            )
            if found is not None:
                plan = found
                gone = [other for other in without if not keeps(self.asked.case, plan, other)]
        return gone, plan


def replace_limit(asked: Asked, subject: str, more_kg: float) -> Asked:
    """The same with more of a limit."""
    return replace(asked, case=raised(asked.case, subject, more_kg))


def in_steps(kg: float) -> float:
    """Kilograms rounded up to whole steps."""
    return STEP_KG * math.ceil(kg / STEP_KG - 1e-9)


def more_words(case: Case, subject: str, more_kg: float) -> str:
    """So much more of a limit, as a sentence; a lighter trailer is as good as more of what it may weigh."""
    lighter = f"a trailer {more_kg:g} kg lighter, or " if subject == "with trailer" else ""
    return f"With {lighter}{more_kg:g} kg more of this limit: {limit_words(case, subject)}."


def sentence(one: Demand) -> str:
    """Giving up a demand, as a sentence."""
    if one.kind == "lock" and len(one.locks) > 1:
        return f"Without {locks_words(one.locks, 'these')}."
    if one.kind == "lock":
        return f"Without this lock: {one.says}."
    if one.kind == "reserve":
        return f"Without the reserve: {one.says}."
    if one.kind == "limit":
        return f"With more of this limit: {one.says}."
    if len(one.things) > MOST_LEFT:
        return f"Leaving at home most of the {len(one.things)} things that must come."
    return f"Leaving at home: {', '.join(one.things)}."


def _bulk(asked: Asked, locks: Sequence[Lock]) -> list[Lock]:
    """Locks on small things first: so the most of them are kept."""
    named = asked.case.thing_named

    def litres(lock: Lock) -> float:
        thing = named[lock.thing]
        return math.prod(thing.size_mm) / 1e6 if thing.size_mm else thing.volume_l or 0.0

    return sorted(locks, key=lambda lock: (litres(lock), lock.thing, lock.copy_number or 0))


def keeps(case: Case, plan: Plan, lock: Lock) -> bool:
    """Whether a plan keeps a lock."""
    here = [
        place
        for place in plan.placements
        if place.thing == lock.thing and lock.copy_number in (None, place.copy_number)
    ]
    home = [left for left in plan.left_at_home if _is_of(Copy(left.thing, left.copy_number), lock)]
    if lock.at_home:
        return not here
    if lock.in_ is not None:
        corners = lock.at_mm is None or all(place.corner_mm == lock.at_mm for place in here)
        return bool(here) and not home and corners and all(place.space == lock.in_ for place in here)
    if lock.not_in is not None:
        return not any(lock.not_in in (p.space, *case.racks_under(case.space_named[p.space])) for p in here)
    return bool(here) and not home


def _is_of(copy: Copy, lock: Lock) -> bool:
    return copy.thing == lock.thing and lock.copy_number in (None, copy.number)
