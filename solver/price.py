"""What more of a limit would buy: the best found with it against the best found without, the plan in hand among both.

More of a limit never makes a plan worse, as every plan that holds now holds then. So the search with more begins with
what was found without, and a loss is never told.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from models.case import Case
from models.plan import Plan
from solver.answers import SILENT, Options, Progress, Proposal
from solver.asking import as_kept, with_more
from solver.choose import choose
from solver.clock import Clock
from solver.improve import improve
from solver.limits import masses_hold
from solver.pieces import Piece
from solver.pins import needed, pinned
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.repack import score
from solver.search import by_size, propose
from solver.state import State

STEP_KG = 10.0
"""How much more of a limit is tried in kg."""
LEAST_LOWER_MM = 0.1
"""A plan that carries as much is better when it is lower by so many mm."""
LOWER_SHARE = 0.5
"""Effort to bring a plan down once more has come along, as a share of that of a whole search."""
NEW_SHARE = 0.7
"""Share of the time for each search from nothing; the rest is for what begins with a plan."""


@dataclass(frozen=True)
class Price:
    """One limit raised, all else alike; the plans are there to be checked and compared."""

    limit: str
    more_kg: float
    base: Plan | None
    """The best plan found with the limit as it is, the plan in hand among them. None: none was found."""
    more: Plan | None
    """The best found with more of it; `base` itself where none is better. None: none was found."""
    in_hand: Plan | None = None
    """The plan that was asked about."""

    @property
    def better(self) -> bool:
        """Whether anything better was found with more."""
        return self.more is not None and self.more is not self.base

    @property
    def comes(self) -> tuple[str, ...]:
        """Things of which more copies come along than in either plan without more."""
        new = set(_more_of(self.base, self.more))
        return tuple(sorted(new if self.in_hand is None else new & set(_more_of(self.in_hand, self.more))))

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
    case = as_kept(case, plan)
    raised = with_more(case, limit, STEP_KG)
    without = _best(case, plan, [plan], options, progress)
    more = _best(raised, plan, [plan, *([] if without is None else [without.plan])], options, progress)
    if without is None or more is None:
        return Price(limit, STEP_KG, None if without is None else without.plan, None if more is None else more.plan)
    if not more.beats(without):
        return Price(limit, STEP_KG, without.plan, without.plan, plan)
    # What holds without more was only not come upon before: it is the best found without.
    best = without.plan if _lying(case, plan, more.plan) is None else more.plan
    return Price(limit, STEP_KG, best, more.plan, plan)


@dataclass(frozen=True)
class _Found:
    """A plan with what it is compared by."""

    plan: Plan
    value: int
    height_mm: float

    def beats(self, other: "_Found") -> bool:
        """Whether it carries more, or as much and lower."""
        if self.value != other.value:
            return self.value > other.value
        return self.height_mm < other.height_mm - LEAST_LOWER_MM


def _best(case: Case, plan: Plan, starts: Sequence[Plan], options: Options, progress: Progress) -> _Found | None:
    """The best of a new search and of what comes of some plans, those that hold."""
    new = replace(options, seconds=NEW_SHARE * options.seconds)
    anew = propose(case, new, progress, locks=plan.locks, before=plan)
    clock = Clock((1 - NEW_SHARE) * options.seconds, progress)
    plans = [*starts, *([] if anew.plan is None or anew.reserve_given_up else [anew.plan])]
    grown = [state for one in plans if (state := _grown(case, plan, one, anew, options, clock)) is not None]
    if not grown:
        return None
    best = min(grown, key=lambda state: (-state.value(), state.height_mm()))
    effort = LOWER_SHARE * options.effort * by_size(len(case.copies))
    best = improve(best, best.carried(), Random(options.seed), clock, effort, "height")
    told = to_plan(best, reserve_kept_kg=case.reserve_kg, trip=plan.trip, locks=plan.locks)
    return _Found(told, best.value(), best.height_mm())


def _grown(case: Case, plan: Plan, start: Plan, anew: Proposal, options: Options, clock: Clock) -> State | None:
    """A plan as a layout, with what more of the optional things comes along; None where it breaks a limit."""
    state = _lying(case, plan, start)
    if state is None:
        return None
    highest = max(state.height_mm(), (anew.must_only_height_mm or 0.0) + case.trip.choose_within_mm)
    effort = options.effort * by_size(len(case.copies))
    return choose(state, _musts(state.problem), highest, Random(options.seed), clock, effort).state


def _lying(case: Case, plan: Plan, start: Plan) -> State | None:
    """A plan as a layout under the locks of the plan in hand; None where it breaks a limit."""
    problem = Problem(case, locks=plan.locks, before=plan)
    state = from_plan(problem, start, pinned(problem, plan).locked)
    # A search never passes what a space, a rack or tie-downs hold, so that no score looks at it.
    return state if masses_hold(state) and score(state, _musts(problem), State.height_mm).holds else None


def _musts(problem: Problem) -> list[Piece]:
    return [piece for piece in problem.pieces if needed(problem, piece)]
