"""Which of the things that must come stay at home so that a layout of the rest holds every limit: as few as found."""

from collections.abc import Callable, Collection, Sequence
from random import Random

from models.plan import Plan
from solver.clock import Budget, Clock
from solver.coming import brought
from solver.insert import hardest_first, jittered, put, put_all
from solver.keeping import all_back, back, lowest_first
from solver.passing import above
from solver.pieces import Piece
from solver.pins import needed, pinned
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.repack import Repacker, score
from solver.state import State

GLANCE_STEPS = 40
"""Steps of repacking to see how many copies about have to stay at home."""
CORNERS = 0.1e6
"""Corners looked at for all of it."""
FAR = 12
"""Where more than that stays at home then, no person would leave so many, and it is left at that."""
STEPS = 300
"""Steps of repacking to bring one thing more aboard."""
CARE = 2
"""So many copies more what is needed in an incident counts."""
PER_KG = 0.001
"""What a kilogram at home counts beside a copy at home: of as many copies the lighter ones stay."""


class Filler(Repacker):
    """Repacks so that as few copies as can be stay at home, all limits held."""

    def __init__(
        self, state: State, must: Sequence[Piece], also: Sequence[Piece], before: State, random: Random
    ) -> None:
        """`also` are the pieces that come as far as there is room for them; `before` is where they may go back to."""
        self.also, self.before = tuple(also), before
        super().__init__(state, must, self.at_home, random, 0.0)

    def at_home(self, state: State) -> float:
        """How many copies stay at home, each with a little for its mass, and more where an incident needs it."""
        home = (piece for piece in self.also if piece.index not in state.at)
        return sum(1 + CARE * bool(p.thing.needed_when) + PER_KG * p.heaviest_g / 1000 for p in home)

    def fill(self, state: State, order: list[Piece]) -> None:
        """Put down what was taken out, and what stays at home before it or after it.

        As long as a limit does not hold something that may is left at home.
        """
        left = set() if self.now.holds else self._left(order)
        order = [piece for piece in order if piece.index not in left]
        home = [p for p in self.also if p.index not in state.at and p not in order and p.index not in left]
        more = jittered(state.problem, home, self.random)
        known = [piece for piece in order if piece.index in self.before.at]
        if self.random.random() < 0.5:
            put_all(state, more[:1], self.random)
        if self.random.random() < 0.5:
            all_back(state, known, self.before)
        for piece in [*order, *more]:
            if piece.index not in state.at:
                put(state, piece, random=self.random)

    def _left(self, order: Sequence[Piece]) -> set[int]:
        """What stays at home in one step: what already does, and a copy of what was taken out, or all copies."""
        home = {piece.index for piece in self.also if piece.index not in self.state.at}
        out = [piece for piece in order if piece in self.also]
        if not out:
            return home
        one = self.random.choice(out)
        alike = [p for p in out if p.kind == one.kind] if self.random.random() < 0.5 else [one]
        return home | {piece.index for piece in alike}


def filled(problem: Problem, plan: Plan, names: Sequence[str], near: Plan | None, clock: Clock) -> Plan | None:
    """A plan of what has to come with as much as was found of some things that need not; None where it does not hold.

    `plan` holds with none of them; `near` may pass a limit, and is where things go back to.
    """
    base = pinned(problem, plan)
    must = [piece for piece in problem.pieces if needed(problem, piece)]
    also = [piece for piece in problem.pieces if piece.thing.name in names and piece not in must]
    also = [piece for piece in also if not problem.fixed[piece.index].at_home and problem.fits[piece.index]]
    state = from_plan(problem, plan, base.locked)
    before = state if near is None else from_plan(problem, near)
    budget = Budget(problem, clock, CORNERS)
    work = Filler(_begun(state, also, before), must, also, before, Random(0))
    if not work.best_score.holds:
        work.run(GLANCE_STEPS, budget.over, lambda found: found.holds)
    if not work.best_score.holds:
        work = Filler(_one_by_one(state, must, also, before), must, also, before, Random(0))
    work.run(GLANCE_STEPS, budget.over, lambda found: found.holds and found.cost <= 0)
    if work.best_score.cost <= FAR:
        work.run(STEPS, budget.over, lambda found: found.holds and found.cost <= 0)
    whole = in_company(work.best, must)
    if whole is None or not score(whole, must, State.height_mm).holds:
        return None
    return to_plan(whole, reserve_kept_kg=plan.reserve_kept_kg or 0.0, locks=plan.locks)


def _begun(state: State, also: Sequence[Piece], before: State) -> State:
    """A layout with more in it: first what goes back to its place, then what is hardest to place."""
    state = state.copy()
    all_back(state, [piece for piece in also if piece.index in before.at], before)
    put_all(state, hardest_first(state.problem, [piece for piece in also if piece.index not in state.at]))
    return state


def _one_by_one(state: State, must: Sequence[Piece], also: Sequence[Piece], before: State) -> State:
    """A layout that holds with more in it: each thing by itself, the hardest to place first, where all still holds."""
    known, rest = [p for p in also if p.index in before.at], [p for p in also if p.index not in before.at]
    for piece in [*lowest_first(state.problem, known, before), *hardest_first(state.problem, rest)]:
        more = state.copy()
        if piece.index in before.at:
            back(more, piece, before.at[piece.index])
        if piece.index not in more.at:
            put(more, piece)
        if score(more, must, State.height_mm).holds:
            state = more
    return state


def in_company(state: State, must: Sequence[Piece]) -> State | None:
    """The same without what may not come without something that stays at home; None where that has to come."""
    state, kept = state.copy(), {piece.index for piece in must}
    while alone := without_company(state.problem, state.at):
        out = [index for one in alone if one in state.at for index in (*above(state, one), one)]
        for index in dict.fromkeys(out):
            state.remove(index)
        put_all(state, [state.problem.pieces[i] for i in dict.fromkeys(out) if i not in alone])
        if kept & set(alone):
            return None
    return state


def with_company(problem: Problem, carried: Collection[int], may_come: Callable[[Piece], bool]) -> set[int]:
    """Carried pieces with all that they do not come without.

    What lacks something that may not come stays at home, unless it has to come itself.
    """
    whole, never = set(carried), set[int]()
    while alone := without_company(problem, whole):
        lacking = {other for index in alone for other in brought(problem, index, whole)} - never
        more = {index for index in lacking if may_come(problem.pieces[index])}
        gone = set() if more else {index for index in alone if not needed(problem, problem.pieces[index])}
        if not more and not gone:
            break
        whole, never = (whole | more) - gone, never | gone
    return whole


def without_company(problem: Problem, carried: Collection[int]) -> list[int]:
    """Carried pieces whose companions stay at home, and those that come all or none of which some stay at home."""
    pieces, here = problem.pieces, {problem.pieces[index].thing.name for index in carried}
    home = {piece.thing.name for piece in pieces if piece.index not in carried}
    return [
        i
        for i in sorted(carried)
        if not here.issuperset(pieces[i].thing.with_) or (pieces[i].thing.all_or_none and pieces[i].thing.name in home)
    ]
