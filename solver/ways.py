"""Ways out of a conflict, as cheap as they were found, each of them tried."""

import math
from collections.abc import Iterable, Iterator, Sequence

from models.case import Case, Copy, copy_of
from models.locks import keeps_out
from models.plan import Plan
from models.trip import Lock
from solver.answers import Demand, WayOut
from solver.asking import COMPANY, Asked, dropped
from solver.clock import Clock
from solver.core import RELAXED_S
from solver.feasible import TRY_SHARE, Feasible
from solver.leaving import filled
from solver.passing import lightened
from solver.plans import from_plan
from solver.raises import least_more
from solver.seen import cannot_be
from solver.wording import (
    copies_words,
    lock_demand,
    locks_words,
    lowered,
    must_come,
    nothing_for,
    poured_words,
    some_of,
)

HEAVIER = (1.0, 1.15, 1.5, 2.5)
"""Where leaving the fewest things is not enough, things so many times as heavy are left."""
MARGINS = (1.0, 1.5, 2.5)
"""So many times as much as a limit is passed by is taken off, as what lay on it has to find another place."""
NAMED = 6
"""So many of what stays at home are named where many things do."""
MOST_LEFT = 5
"""Leaving more things at home that must come is no way out that a person would take."""
FOUND_AFTER_ALL = "With more effort (--effort): a layout of all that is asked was come upon while this was looked into."
"""What is said where the search for less to take brought all of it aboard."""


class Ways:
    """Ways out, one demand after the other; plans found for a limit help with what should stay at home."""

    def __init__(self, asked: Asked, clock: Clock, feasible: Feasible, nearest: Plan | None = None) -> None:
        """`nearest` is a layout that may miss limits, without what found no place in it."""
        self.asked, self.clock, self.feasible, self.nearest = asked, clock, feasible, nearest
        self.loaded: list[tuple[str, Plan]] = []
        """Limits, each with a plan that passes it by little and holds all else."""
        self.last: list[WayOut] = []
        """What is told only where there is no other way out."""

    def of(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """Ways out that give up one demand, or as little of it as was found; `plan` is one without it."""
        if one.kind == "limit":
            yield from self.more(one, plan)
        elif one.kind == "must come":
            yield from self._fewest_left(one, plan)
        elif one.kind == "lock" and len(one.locks) > 1:
            yield from self._fewest_locks(one, plan)
        elif one.kind in COMPANY and _in_company(self.asked.case, plan, one):
            yield WayOut(FOUND_AFTER_ALL, plan, self.asked.case)
        else:
            yield WayOut(sentence(one), plan, dropped(self.asked, one).case)

    def more(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """As little more of a limit as was found."""
        found = least_more(self.asked, one.subject, plan, self.clock, self.feasible)
        self.loaded.append((one.subject, plan if found is None else found[1]))
        if found is not None and found[0].kg <= 0:
            yield WayOut(FOUND_AFTER_ALL, found[1], self.asked.case)
        elif found is not None:
            yield WayOut(found[0].says(self.asked.case), found[1], found[0].of(self.asked).case)

    def _fewest_left(self, one: Demand, plan: Plan) -> Iterator[WayOut]:
        """Few things that make room when they stay at home, as a search and as masses and volumes tell them."""
        best = self.filled(one.things, plan)
        for names, near in self._to_leave(one):
            if self.clock.late() or len(self._home(best, one.things)) == 1:
                break
            without = dropped(self.asked, must_come(self.asked.case, names))
            found = self.feasible(without.problem(), self.clock.part(TRY_SHARE), near)
            if found is not None and self._dear(found, one.things) < self._dear(best, one.things):
                best = self.filled(names, found)
                break
        home, case = self._home(best, one.things), dropped(self.asked, one).case
        if 0 < len({copy.thing for copy in home}) <= MOST_LEFT:
            poured = poured_words(self.asked.case, dict.fromkeys(copy.thing for copy in home))
            yield WayOut(f"Leaving at home: {', '.join(copies_words(self.asked.case, home))}.{poured}", best, case)
        elif home:
            self.last.append(WayOut(self._many_words(home), best, case))
        else:
            yield WayOut(FOUND_AFTER_ALL, best, self.asked.case)

    def filled(self, names: Sequence[str], plan: Plan) -> Plan:
        """A plan with as much as was found of some things that it leaves at home."""
        problem = dropped(self.asked, must_come(self.asked.case, tuple(names))).problem()
        best, beginnings = plan, [(plan, near) for near in (*(near for _, near in self.loaded[-1:]), None)]
        beginnings += [] if self.nearest is None else [(self.nearest, self.nearest)]
        for n, (begin, near) in enumerate(beginnings):
            # The first is done even when it is late: what goes back to its place is soon found.
            if n == 0 or not self.clock.late():
                now = filled(problem, begin, names, near, self.clock.part(TRY_SHARE)) or best
                best = min(best, now, key=lambda one: self._dear(one, names))
        return best

    def _home(self, plan: Plan, names: Sequence[str]) -> list[Copy]:
        """Copies of some things that a plan leaves at home."""
        return [Copy(left.thing, left.copy_number) for left in plan.left_at_home if left.thing in names]

    def _dear(self, plan: Plan, names: Sequence[str]) -> tuple[int, int, float]:
        """For how many incidents nothing is aboard, how many copies of some things stay at home, how heavy they are."""
        home = self._home(plan, names)
        return (
            len(nothing_for(self.asked.case, plan)),
            len(home),
            sum(self.asked.case.thing_named[copy.thing].mass_kg.most for copy in home),
        )

    def _many_words(self, home: Sequence[Copy]) -> str:
        """How many things stay at home in what was found, where they are too many to be called a way out."""
        named = self.asked.case.thing_named
        mass = sum(named[copy.thing].mass_kg.most for copy in home)
        names = sorted({copy.thing for copy in home}, key=lambda name: (-named[name].mass_kg.most, name))
        musts = sum(thing.must for thing in self.asked.case.things)
        told = f"Leaving at home about {len(names)} of {musts} things that must come ({mass:.0f} kg)"
        return f"{told}, in the plan that was found {some_of(names, NAMED)}; with fewer no plan was found."

    def _to_leave(self, one: Demand) -> Iterator[tuple[tuple[str, ...], Plan | None]]:
        """What a plan that passes a limit has too much of, near that plan; then what masses and volumes tell."""
        limits, named = self.asked.problem(), self.asked.case.thing_named
        for subject, plan in self.loaded:
            for margin in MARGINS:
                names = lightened(from_plan(limits, plan), limits, subject, one.things, margin)
                if names:
                    yield names, plan
        relaxed = self.asked.relaxed
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
        least, plan = set[Lock](), self._as_it_stands(one, plan)
        for order in (_bulk(self.asked, one.locks), _bulk(self.asked, one.locks)[::-1]):
            gone, found = self._taken_back(order, plan)
            if gone and (not least or (not least <= set(gone) and len(gone) <= len(least) + 1)):
                least = least or set(gone)
                locks = tuple(lock for lock in one.locks if lock in gone)
                case = dropped(self.asked, lock_demand(*locks)).case
                yield WayOut(sentence(lock_demand(*locks)), found, case, locks)

    def _as_it_stands(self, one: Demand, plan: Plan) -> Plan:
        """A plan without only those locks that the plan in hand does not keep, where one is found; else the same plan.

        It is looked for even when it is late: what stands already is soon found.
        """
        before = self.asked.before
        if before is None:
            return plan
        gone = [lock for lock in one.locks if not keeps(self.asked.case, before, lock)]
        problem = dropped(self.asked, lock_demand(*gone)).problem() if gone else None
        found = None if problem is None else self.feasible(problem, self.clock.part(TRY_SHARE), before)
        return plan if found is None else found

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


def joined(says: Iterable[str]) -> str:
    """Several things to give up, as one way out."""
    first, *rest = says
    return " ".join([first, *(f"And {lowered(one)}" for one in rest)])


def sentence(one: Demand) -> str:
    """Giving up a demand, as a sentence."""
    match one.kind:
        case "lock":
            told = f"Without {locks_words(one.locks, 'these') if len(one.locks) > 1 else f'this lock: {one.says}'}."
        case "together":
            told = f"Without keeping kit {one.subject} in one space: {', '.join(one.things)}."
        case "all or none":
            told = f"Taking only some of {one.subject}, which need not come all or none then."
        case "reserve":
            told = f"Without the reserve: {one.says}."
        case "limit" if one.subject == "tow ball":
            told = "With a trailer that puts less on the tow ball."
        case "limit":
            told = f"With more of this limit: {one.says}."
        case "must come" if len(one.things) > MOST_LEFT:
            told = f"Leaving at home most of the {len(one.things)} things that must come."
        case "must come":
            told = f"Leaving at home: {', '.join(one.things)}."
    return told


def _in_company(case: Case, plan: Plan, one: Demand) -> bool:
    """Whether a plan keeps a kit in one space, or all copies of a thing or none aboard."""
    here = [place for place in plan.placements if place.thing in one.things]
    if one.kind == "together":
        return len({place.space for place in here}) == 1
    return len(here) in (0, case.thing_named[one.subject].count)


def _bulk(asked: Asked, locks: Sequence[Lock]) -> list[Lock]:
    """Locks on small things first: so the most of them are kept."""
    named = asked.case.thing_named

    def litres(lock: Lock) -> float:
        thing = named[lock.thing]
        return math.prod(thing.size_mm) / 1e6 if thing.size_mm else thing.volume_l or 0.0

    return sorted(locks, key=lambda lock: (litres(lock), lock.thing, lock.copy_number or 0))


def keeps(case: Case, plan: Plan, lock: Lock) -> bool:
    """Whether a plan keeps a lock."""
    here = [place for place in plan.placements if lock.is_on(copy_of(place))]
    home = [left for left in plan.left_at_home if lock.is_on((left.thing, left.copy_number))]
    if lock.at_home:
        return not here
    if lock.in_ is not None:
        corners = lock.at_mm is None or all(place.corner_mm == lock.at_mm for place in here)
        return bool(here) and not home and corners and all(place.space == lock.in_ for place in here)
    if lock.not_in is not None:
        return not any(keeps_out(case, lock, case.space_named[place.space]) for place in here)
    return bool(here) and not home
