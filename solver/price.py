"""What each kilogram of a limit would buy, found by solving again with more of it."""

from collections import Counter
from dataclasses import dataclass

from models.case import Case
from models.plan import Plan
from solver.answers import SILENT, Options, Progress
from solver.asking import with_more
from solver.search import propose

STEP_KG = 10.0
"""How much more of a limit is tried in kg."""


@dataclass(frozen=True)
class Price:
    """One limit raised, all else alike; the plans are there to be checked and compared."""

    limit: str
    more_kg: float
    base: Plan | None
    """The plan found with the limit as it is. None: none was found in the effort."""
    more: Plan | None
    """The plan found with more of it."""

    @property
    def comes(self) -> tuple[str, ...]:
        """Things of which more copies come along."""
        return _more_of(self.base, self.more)

    @property
    def leaves(self) -> tuple[str, ...]:
        """Things of which fewer copies come."""
        return _more_of(self.more, self.base)


def _more_of(one: Plan | None, other: Plan | None) -> tuple[str, ...]:
    if one is None or other is None:
        return ()
    had, has = (Counter(place.thing for place in plan.placements) for plan in (one, other))
    return tuple(sorted((has - had).keys()))


def price_of(case: Case, plan: Plan, limit: str, options: Options, progress: Progress = SILENT) -> Price:
    """The price of a limit (`total`, `rear axle`, `front axle`, `rack NAME`, `space NAME`), same effort for both.

    Raises KeyError where there is no such limit.
    """
    raised = with_more(case, limit, STEP_KG)
    base = propose(case, options, progress, locks=plan.locks, before=plan)
    more = propose(raised, options, progress, locks=plan.locks, before=plan)
    return Price(limit, STEP_KG, base.plan, more.plan)
