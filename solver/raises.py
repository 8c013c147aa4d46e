"""So many kilograms more of a limit, or moved on the vehicle where a share has no figure to raise; in words too."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.case import Case
from models.plan import Plan
from solver.asking import Asked, dropped, lighter_ball, raised
from solver.clock import Clock
from solver.core import RELAXED_S
from solver.feasible import TRY_SHARE, Feasible
from solver.holding import rated_dan_for
from solver.limits import excess, lean_g
from solver.passing import over_kg
from solver.plans import from_plan
from solver.problem import Problem
from solver.shifting import SHARES, front_words, side_words, to_the_front, to_the_right
from solver.state import State
from solver.wording import limit_holds, limit_words

STEP_KG = 5.0
"""More of a limit is told in steps of so many kg."""
FEWER_KG = 50.0
"""A limit less to raise is worth so many kg more of the others."""
PARTS = (0.125, 0.25, 0.5)
"""Parts of what a plan needs of a share that are tried: nothing is proven of it."""
LESS_SHARE = 0.35
"""Share of the time left to find a layout that passes a limit by less, and for each figure that is tried."""


@dataclass(frozen=True)
class Raise:
    """So much more of one limit, or moved to the front axle or to one side, or off the tow ball."""

    subject: str
    kg: float
    right: bool = False
    """Where it is moved to a side: whether that is the right one."""

    def of(self, asked: Asked) -> Asked:
        """What is asked, with it."""
        if self.subject == "front share":
            case = to_the_front(asked.case, self.kg)
        elif self.subject == "side":
            case = to_the_right(asked.case, self.kg if self.right else -self.kg)
        elif self.subject == "tow ball":
            case = lighter_ball(asked.case, self.kg)
        else:
            case = raised(asked.case, self.subject, self.kg)
        return replace(asked, case=case)

    def says(self, case: Case) -> str:
        """It as a sentence."""
        if self.subject == "front share":
            return front_words(case, self.kg)
        if self.subject == "side":
            return side_words(case, self.kg, right=self.right)
        if self.subject == "tow ball":
            return f"With a trailer that puts {self.kg:g} kg less on the tow ball."
        return more_words(case, self.subject, self.kg)


def least_more(asked: Asked, subject: str, plan: Plan, clock: Clock, feasible: Feasible) -> tuple[Raise, Plan] | None:
    """As little more of a limit as was found, with a plan that holds then; `plan` is one without that limit.

    No more of it, 0 kg or less, where the plan that was found holds the limit as it is. None where what is moved on
    the vehicle to make up for a share breaks another limit.
    """
    limits = asked.problem()

    def passed(state: State) -> float:
        return max(0.0, over_kg(state, limits, subject))

    lifted = dropped(asked, limit_holds(asked.case, subject)).problem()
    best = feasible(lifted, clock.part(LESS_SHARE), plan, passed) or plan
    most = needed_raise(from_plan(lifted, best), limits, subject)
    if most.kg <= 0:
        return most, best
    for kg in _figures(asked, most, clock):
        more = Raise(subject, kg)
        # Nothing is proven against it, and what lies on the limit may have to change places with what lies elsewhere.
        found = None if clock.late() else feasible(more.of(asked).problem(), clock.part(LESS_SHARE), best, keenly=True)
        if found is not None:
            return more, found
    changed = most.of(asked).problem()
    lies = from_plan(changed, best)
    if over_kg(lies, changed, subject) <= 0 and excess(lies) <= 0:
        # All else holds in it as it lies, so that nothing has to be searched for, and no time can run out.
        return most, best
    # What is moved on the vehicle may bring another axle or another stage over.
    found = None if clock.late() else feasible(changed, clock.part(TRY_SHARE), best)
    return None if found is None else (most, found)


def _figures(asked: Asked, most: Raise, clock: Clock) -> list[float]:
    """Less than a plan needs: what is proven to be missed at least, then halfway; of a share parts of it."""
    if most.subject in SHARES:
        return sorted({kg for part in PARTS if (kg := in_steps(most.kg * part)) < most.kg})
    if most.kg <= STEP_KG or clock.late() or most.subject not in asked.relaxed.over:
        return []
    on, seconds = asked.relaxed.asked_for(asked.use_reserve), min(RELAXED_S, clock.left())
    least = in_steps(asked.relaxed.least_over_g(most.subject, on, seconds) / 1000)
    return sorted({kg for kg in (least, in_steps((least + most.kg) / 2)) if 0 < kg < most.kg})


def together(
    asked: Asked, subjects: Sequence[str], near: Plan | None, clock: Clock, feasible: Feasible
) -> tuple[tuple[Raise, ...], Plan] | None:
    """As little more of several limits at once as was found, with a plan that holds then; None where none was found.

    It is looked for near a plan where one is given. Limits of which no more is needed are left out.
    """
    limits, free = asked.problem(), asked
    for subject in subjects:
        free = dropped(free, limit_holds(asked.case, subject))

    def passed(state: State) -> float:
        over = [kg for subject in subjects if (kg := over_kg(state, limits, subject)) > 0]
        return sum(over) + FEWER_KG * len(over)

    lifted = free.problem()
    best = None if clock.late() else feasible(lifted, clock.part(LESS_SHARE), near, passed)
    if best is None:
        return None
    lies, more = from_plan(lifted, best), asked
    needed = [needed_raise(lies, limits, subject) for subject in subjects]
    needed = [one for one in needed if one.kg > 0]
    for one in needed:
        more = one.of(more)
    changed = more.problem()
    holds = all(over_kg(lies, changed, subject) <= 0 for subject in subjects)
    return (tuple(needed), best) if needed and holds else None


def needed_raise(lies: State, limits: Problem, subject: str) -> Raise:
    """As much more of a limit as a layout needs that passes it, in whole steps."""
    kg = over_kg(lies, limits, subject)
    if subject != "side":
        return Raise(subject, in_steps(kg))
    # What goes from one side to the other counts twice in their difference.
    return Raise(subject, in_steps(kg / 2), right=_leans_left(lies))


def _leans_left(lies: State) -> bool:
    """Whether the left wheels carry more where the sides differ most."""
    return max((lean_g(lies, t) for t in lies.problem.driving), key=abs, default=0.0) < 0


def in_steps(kg: float) -> float:
    """Kilograms rounded up to whole steps."""
    return STEP_KG * math.ceil(kg / STEP_KG - 1e-9)


def more_words(case: Case, subject: str, more_kg: float) -> str:
    """So much more of a limit, as a sentence; a lighter trailer is as good as more of what it may weigh."""
    if subject.startswith("tie-downs "):
        dan = rated_dan_for(more_kg, case.rulebook.restraint)
        return f"With {dan} daN more of this limit, for {more_kg:g} kg more: {limit_words(case, subject)}."
    lighter = f"a trailer {more_kg:g} kg lighter, or " if subject == "with trailer" else ""
    return f"With {lighter}{more_kg:g} kg more of this limit: {limit_words(case, subject)}."
