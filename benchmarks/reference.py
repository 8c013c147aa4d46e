"""Prices by a long search: the lowest that anybody comes upon, of one plan and with a thing in each of some spaces.

All searches of one plan share what has lain in single spaces, and every layout counts wherever it is an answer: the
plan's own lowest is one figure, and no space can seem better than a plan that may use it.
"""

from collections.abc import Iterable
from random import Random

from models.case import Case, Copy, copy_of, fresh
from models.locks import left_of
from models.plan import Plan
from models.trip import Lock
from solver import SILENT
from solver.clock import Clock
from solver.improve import improve
from solver.patterns import patterns_of
from solver.plans import from_plan
from solver.problem import Problem
from solver.recombine import lowest
from solver.state import Lying, State

LONGEST_S = 300.0
"""Cap on one search in seconds, a safety net: searches are as long as their effort says."""
NEAR_MM = 2.0
"""Patterns are shared that cost their search less than this, in mm."""
PLAN_TIMES = 2.0
"""How many times the effort of a row the search of the plan itself has: it enters every row."""
PASSES = 2
"""How often every row is searched: what later rows come upon helps the earlier ones."""

Row = tuple[Copy, str]
"""A thing and the space where it should be."""


class Reference:
    """The lowest layouts known of one plan without locks at a corner, as it is and with things elsewhere."""

    def __init__(self, case: Case, plan: Plan) -> None:
        self._case, self._plan = case, plan
        self._seen: dict[tuple[object, ...], tuple[int, tuple[Lying, ...]]] = {}
        self._known: list[State] = []
        self.take(plan)

    def take(self, *plans: Plan) -> None:
        """Learn of plans that somebody found."""
        self._known += [from_plan(Problem(self._case, before=self._plan), plan) for plan in plans]

    def search(self, rows: Iterable[Row], effort: float) -> None:
        """Search the plan as it is and with every thing in its space, again and again."""
        asked = list(rows)
        for turn in range(PASSES):
            self._search(self.problem(None), effort * PLAN_TIMES, turn)
            for row in asked:
                self._search(self.problem(row), effort, turn)
        self._search(self.problem(None), effort * PLAN_TIMES, PASSES)

    def price_mm(self, row: Row) -> float:
        """How much higher the lowest known with a thing in a space is than the lowest known."""
        return self._lowest(self.problem(row)).height_mm() - self._lowest(self.problem(None)).height_mm()

    def problem(self, row: Row | None) -> Problem:
        """The plan's problem; or with a copy in a space, not where it was, beside the copies like it that lie there.

        The copy is free of its locks; those on all its kind stay on the others.
        """
        kept_kg = self._plan.reserve_kept_kg
        keeps = kept_kg is None or kept_kg > 0
        if row is None:
            return Problem(self._case, use_reserve=keeps, locks=self._plan.locks, before=self._plan)
        copy, space = row
        before = {copy_of(place): place.space for place in self._plan.placements}
        there = [copy, *(one for one in before if one.thing == copy.thing and before[one] == space)]
        trip = self._case.trip
        locks = (*trip.locks, *self._plan.locks)
        kept = tuple(one for lock in locks for one in left_of(self._case, lock, [copy]))
        new = tuple(Lock.model_validate({"thing": one.thing, "copy": one.number, "in": space}) for one in there)
        case = fresh(self._case, trip=trip.model_copy(update={"locks": (*kept, *new)}))
        return Problem(case, use_reserve=keeps, before=self._plan)

    def _lowest(self, problem: Problem) -> State:
        """The lowest layout known that is an answer to a problem."""
        mine = (s for s in self._known if all(it.room in problem.fits[it.piece] for it in s.at.values()))
        return min(mine, key=State.height_mm)

    def _search(self, problem: Problem, effort: float, seed: int) -> None:
        state = self._lowest(problem).copy()
        state.problem = problem
        patterns = patterns_of(state)
        for room, lying in self._seen.values():
            if all(room in problem.fits[it.piece] for it in lying):
                patterns.add(room, lying)
        clock = Clock(LONGEST_S, SILENT)
        found = improve(state, state.carried(), Random(seed), clock, effort, "height")  # noqa: S311
        self._known.append(found)
        relaxed = lowest(found)
        near = () if relaxed is None else zip(relaxed.master.columns, relaxed.prices.cost, strict=True)
        for column in (column for column, cost in near if cost < NEAR_MM):
            key = (column.room, *sorted((problem.pieces[it.piece].kind, it.box) for it in column.lying))
            self._seen.setdefault(key, (column.room, column.lying))
