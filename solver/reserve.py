"""How much of the reserve can be kept free where not all of it can: as much as what has to come leaves."""

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

from models.plan import Plan
from solver.answers import Level
from solver.asking import with_reserve
from solver.bare import RESERVED
from solver.beginning import first
from solver.clock import Budget, Clock, Worked
from solver.limits import over_g
from solver.pieces import PROOF_SPARE_G
from solver.pins import needed, pinned
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.state import State

STEP_G = 100
"""The reserve is kept in steps of so many grams, rounded down."""
TRIES = 7
"""So many figures at most are tried."""
NEAR_KG = 0.5
"""It is not looked for nearer than this."""
STEPS = 250
"""Steps of repacking for each of them."""
CORNERS = 0.4e6
"""Corners looked at for each of them at effort 1."""


@dataclass(frozen=True)
class Reserve:
    """As much of a reserve as was found to be kept by a layout of what has to come."""

    kg: float
    most_kg: float
    """More than this cannot be kept, in the same steps."""
    plan: Plan
    """A plan that keeps it and carries what has to come alone."""

    @property
    def level(self) -> Level:
        """How good that is."""
        return Level("reserve kept", self.kg, self.most_kg, "kg", "proven" if self.kg >= self.most_kg else "found")


def most_kept(state: State, clock: Clock, effort: float, seed: int, before: Plan | None) -> Reserve:
    """The most of the trip's reserve that was found; `state` carries what has to come and holds without reserve.

    First the most that masses allow is tried, then halfway to what was found, with layouts made anew.
    """
    problem = state.problem
    most_kg = _steps(min(1000 * problem.case.reserve_kg, *_by_sums(problem))) / 1000
    best, high, kg = _of(state, most_kg), most_kg, most_kg
    for _ in range(TRIES):
        if kg <= best.kg or high - best.kg < NEAR_KG:
            break
        found = _with(problem, kg, before, clock, effort, seed)
        best, high = (best, kg) if found is None else (_of(found, most_kg), high)
        kg = (best.kg + high) / 2
    return best


def _with(problem: Problem, kg: float, before: Plan | None, clock: Clock, effort: float, seed: int) -> State | None:
    """A layout of what has to come that keeps so much reserve; None when none was found."""
    now = _keeping(problem, kg, before)
    base = pinned(now, before)
    must = [piece for piece in now.pieces if needed(now, piece)]
    return first(now, must, base, Random(seed), Worked(clock, Budget(now, clock, CORNERS * effort)), STEPS)


def _keeping(problem: Problem, kg: float, before: Plan | None) -> Problem:
    own = problem.locks[len(problem.case.trip.locks) :]
    return Problem(with_reserve(problem.case, kg), locks=own, before=before)


def _of(state: State, most_kg: float) -> Reserve:
    """What a layout keeps, that of its own problem included."""
    problem = state.problem
    own_g = 1000 * problem.case.reserve_kg if problem.use_reserve else 0.0
    kg = min(most_kg, _steps(own_g + left_g(state)) / 1000)
    return Reserve(kg, most_kg, to_plan(state, reserve_kept_kg=kg))


def reserved(problem: Problem, kept: Reserve, before: Plan | None) -> tuple[State, State]:
    """The problem with so much reserve as what is pinned and as the layout that keeps it."""
    now = _keeping(problem, kept.kg, before)
    base = pinned(now, before)
    return base, from_plan(now, kept.plan, base.locked)


def left_g(state: State) -> float:
    """Grams that a layout leaves of whichever limit has a reserve kept free of it and is nearest."""
    over = (grams for t in state.problem.driving for subject, grams in over_g(state, t) if subject in RESERVED)
    return -max(over, default=0.0)


def _by_sums(problem: Problem) -> Iterator[float]:
    """Grams that masses alone leave at most of the total, and of both axles where each has as much left."""
    whole = problem.constants
    for t in problem.driving:
        k = whole.stages[t]
        must_g = sum(piece.proof_g[t] for piece in problem.pieces if needed(problem, piece))
        if k.total_left_g is not None:
            yield k.total_left_g + PROOF_SPARE_G - must_g
        if k.rear_left is not None and k.front_left is not None:
            yield ((k.rear_left + k.front_left) / whole.wheelbase + PROOF_SPARE_G - must_g) / 2


def _steps(grams: float) -> int:
    return STEP_G * max(0, int((grams + 1e-6) // STEP_G))
