"""What each kilogram of a limit would buy, found by solving again with more of it."""

from dataclasses import dataclass

from models.case import Case
from models.plan import Plan
from solver.answers import Options
from solver.asking import with_more
from solver.search import propose

STEP_KG = 10.0
"""How much more of a limit is tried in kg."""


@dataclass(frozen=True)
class Price:
    """One limit raised, all else alike."""

    limit: str
    more_kg: float
    more_value: float | None
    lower_mm: float | None
    """How much lower the vehicle would stand; None when no plan was found in the effort."""
    comes: tuple[str, ...] = ()
    """Things that would come along."""


def price_of(case: Case, plan: Plan, limit: str, options: Options) -> Price:
    """The price of a limit (`total`, `rear axle`, `front axle`, `rack NAME`, `space NAME`), same effort for both."""
    base = propose(case, options, locks=plan.locks, before=plan)
    more = propose(with_more(case, limit, STEP_KG), options, locks=plan.locks, before=plan)
    if base.plan is None or more.plan is None or base.height is None or more.height is None:
        return Price(limit, STEP_KG, None, None)
    had = {(p.thing, p.copy_number) for p in base.plan.placements}
    comes = tuple(sorted({p.thing for p in more.plan.placements if (p.thing, p.copy_number) not in had}))
    values = [next(level.value for level in p.levels if level.name == "value carried") for p in (base, more)]
    return Price(limit, STEP_KG, values[1] - values[0], base.height.value - more.height.value, comes)
