"""A layout near a plan: few moves from it, few things left behind where not all can come."""

from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from random import Random

from models.case import copy_of
from models.plan import Placement, Plan
from models.trip import Lock
from packing import known_in, moves_between
from solver.answers import Conflict, Level, Options, Proposal, Status
from solver.as_it_lies import take_as_it_lies
from solver.asking import Asked
from solver.beginning import begun
from solver.behind import Group, Left, closed, few_behind, may_stay, moved, orders, rest, too_heavy
from solver.clock import Budget, Clock, Worked
from solver.few import STEPS, again, back_where_it_was, fewer
from solver.handling import handling_seconds
from solver.insert import put, put_all
from solver.keeping import Keeper, kept
from solver.leaving import in_company, with_company, without_company
from solver.misses import closest_words
from solver.pieces import Piece
from solver.pins import needed, pinned
from solver.plans import from_plan, to_plan
from solver.repack import score
from solver.reserve import Reserve
from solver.seen import seen_conflict
from solver.state import State
from solver.still_home import reasons_behind
from solver.unloaded import unloaded_words

TRIES = 3
"""Rounds of steps to find a lawful layout near the plan."""
MOST_BETTERED = 3
"""Of what may stay behind so many choices at most are gone into."""
LONG_STEPS = 3000
"""Steps to make a layout anew where few moves led nowhere."""
SEARCH_CORNERS = 4e6
"""Corners looked at for what stays behind at effort 1."""
LONG_CORNERS = 3e6
"""Corners looked at for a layout made anew."""
REGAIN_STEPS = 60
"""Steps to bring back what was left behind, each."""


class NearPlan:
    """The search for few moves."""

    def __init__(
        self,
        asked: Asked,
        plan: Plan,
        clock: Clock,
        options: Options,
        *,
        looked: bool = False,
        most: Reserve | None = None,
        vacated: Sequence[Placement] = (),
    ) -> None:
        """`looked`, `most` and `vacated` as in `solver.revise`."""
        self.asked, self.clock, self.options, self.vacated = asked, clock, options, vacated
        self._looked, self._most = looked, most
        self.interrupted = False
        """Whether someone cut in when a layout that holds was there."""
        self._conflict: Conflict | None = None
        self._closest: tuple[str, ...] = ()
        self.problem = problem = asked.problem()
        self.before, self.known = from_plan(problem, plan), known_in(asked.case, plan)
        self.aboard = {copy_of(place) for place in (*self.known.placements, *vacated)}
        """What came before, also from where the vehicle has no space any more."""
        self.random = Random(options.seed)
        take_as_it_lies(problem, self.before, {*self.before.at, *self._carried()})
        self.base = pinned(problem, plan)
        self.steps = max(20, int(STEPS * options.effort))
        whole = self._carried()
        self.wanted = [piece for piece in problem.pieces if piece.index in whole]
        self._all_of_it = frozenset(whole)

    def _carried(self) -> Collection[int]:
        """What has to come or came before and may, with its company."""
        pieces = self.problem.pieces
        must = (p.index for p in pieces if needed(self.problem, p))
        came = (p.index for p in pieces if p.copy in self.aboard and self._may_come(p))
        return with_company(self.problem, sorted({*must, *came}), self._may_come)

    def _may_come(self, piece: Piece) -> bool:
        return not self.problem.fixed[piece.index].at_home and bool(self.problem.fits[piece.index])

    def search(self) -> State | None:
        """The layout with the fewest minutes that was found, with all that came before if that can be."""
        self.budget = Budget(self.problem, self.clock, SEARCH_CORNERS * max(1.0, self.options.effort))
        state = None if too_heavy(self.problem, self.wanted) else self._few_moves(self._begun(), self.wanted)
        if state is not None or self.proof():
            return self._back(self._fewest(state))
        # Where chance did not bring it about, other chances may, before anything stays behind.
        state = self._fewest(None)
        if state is None and (less := self._leaving_some()) is not None:
            state = self._fewest(less)
        return self._back(self._with_what_has_room(state))

    def _with_what_has_room(self, state: State | None) -> State | None:
        """The same with what was left behind and has room as the rest lies, the most wanted first.

        The clock may have ended the search before that was tried.
        """
        if state is None:
            return None
        gone = [piece for piece in self.problem.pieces if piece.index in self._all_of_it - state.at.keys()]
        with self._cut_in(state):
            for piece in sorted(gone, key=lambda one: (-(one.thing.carry or 0), one.index)):
                state = state if piece.index in state.at else self._one_more(state, piece)
        return state

    def _one_more(self, state: State, piece: Piece) -> State:
        """The same with a piece and what it does not come without, where there is room; else as it is."""
        whole = frozenset(with_company(self.problem, [*state.at, piece.index], self._may_come))
        if piece.index not in whole or not whole <= self._all_of_it or without_company(self.problem, whole):
            return state
        trial, wanted = state.copy(), [one for one in self.problem.pieces if one.index in whole]
        put_all(trial, [one for one in wanted if one.index not in state.at])
        if not score(trial, wanted, State.height_mm).holds:
            return state
        self.wanted = wanted
        return trial

    def _back(self, state: State | None) -> State | None:
        """The same with what need not have moved back where it was, where that takes fewer minutes."""
        if state is None:
            return None
        found = state
        with self._cut_in(state):
            found = back_where_it_was(state, self.wanted, self.before)
        return min(state, found, key=self._minutes)

    def _leaving_some(self) -> State | None:
        """A layout without some of what came before, else one made anew."""
        left = few_behind(self.base, self.wanted, self.before, self._minutes, self.budget)
        if not left:
            return self._one_by_one() or (None if self.proof() else self._from_nothing())
        best = min((self._fewer(one) for one in left[:MOST_BETTERED]), key=lambda one: one.dear)
        self.wanted = rest(self.wanted, best.gone)
        return best.state

    def _fewest(self, state: State | None) -> State | None:
        """Of a layout and others of the same things, looked for by other chances, the one with the fewest minutes."""
        enough = self._hopeless() if state is None else self.interrupted or self._minutes(state) <= 0
        if enough:
            return state
        begin, effort, more = self._begun(), self.options.effort, list[State]()
        with self._cut_in(state):
            more = again(begin, self.wanted, self.before, self.random, self.clock, self.steps, effort)
        return min((one for one in (state, *more) if one is not None), key=self._minutes, default=None)

    def _hopeless(self) -> bool:
        """Whether no layout of all that is wanted is looked for: it is proven, or seen, that there is none."""
        return self.proof() is not None or too_heavy(self.problem, self.wanted)

    def _begun(self) -> State:
        return kept(self.base, self.wanted, self.before, self.vacated)

    def _minutes(self, state: State) -> float:
        return moves_between(self.problem.case, self.known, self.plan(state, ())).minutes

    def _fewer(self, left: Left) -> Left:
        """The same left behind with fewer minutes for the rest, where that is found."""
        found = None if left.minutes <= 0 else self._few_moves(left.state, rest(self.wanted, left.gone))
        if found is None:
            return left
        other = replace(left, state=found, minutes=self._minutes(found), moved=moved(found, self.before))
        return min(left, other, key=lambda one: one.dear)

    def _one_by_one(self) -> State | None:
        """One after the other stays behind; what stayed behind without need comes back."""
        every = list(self.wanted)
        for order in orders(self.problem, every):
            self.wanted = every
            state = self._in_turn(order)
            if state is not None:
                return state
        self.wanted = every
        return None

    def _in_turn(self, order: Sequence[Group]) -> State | None:
        gone = list[Group]()
        for group in order:
            if self.budget.over():
                break
            more = closed(self.problem, self.wanted, group)
            if not may_stay(self.problem, more):
                continue
            gone.append(more)
            self.wanted = rest(self.wanted, more)
            state = None if too_heavy(self.problem, self.wanted) else self._few_moves(self._begun(), self.wanted)
            if state is not None:
                return self._regained(state, gone)
        return None

    def proof(self) -> Conflict | None:
        """Demands that are proven not to hold together; looked for once."""
        if not self._looked:
            self._looked = True
            self._conflict = seen_conflict(self.asked, self.clock)
        return self._conflict

    def closest(self) -> tuple[str, ...]:
        """What is missed with nothing loaded, and by the layout that came closest."""
        return (*unloaded_words(self.problem), *self._closest)

    def _from_nothing(self) -> State | None:
        """A layout made anew of what has to come and then what else finds room; the moves are made few afterwards."""
        must = [piece for piece in self.problem.pieces if needed(self.problem, piece)]
        steps = int(LONG_STEPS * max(1.0, self.options.effort))
        near: list[State] = []
        clock = Worked(self.clock, Budget(self.problem, self.clock, LONG_CORNERS * max(1.0, self.options.effort)))
        if self._most is not None:
            state: State | None = from_plan(self.problem, self._most.plan, self.base.locked)
        else:
            state = begun(self.problem, must, self.base, self.random, clock, steps, near)
        if state is None:
            self._closest = tuple(says for one in near for says in closest_words(one, must))
            return None
        wanted = list(must)
        for piece in sorted(self.wanted, key=lambda one: (-(one.thing.carry or 0), one.index)):
            trial = state.copy()
            if piece not in wanted and put(trial, piece) and score(trial, [*wanted, piece], State.height_mm).holds:
                state, wanted = trial, [*wanted, piece]
        whole = in_company(state, must)
        if whole is None:
            return None
        self.wanted = [piece for piece in wanted if piece.index in whole.at]
        return self._few_moves(whole, self.wanted)

    def _few_moves(self, state: State, wanted: Sequence[Piece]) -> State | None:
        """A lawful layout from a broken one, then fewer minutes as long as a round of steps still saves some."""
        work = Keeper(state, wanted, self.before, self.random)
        work.run(self.steps, self.budget.over, lambda score: score.holds)
        if not work.best_score.holds and self.proof() is None:
            work.run((TRIES - 1) * self.steps, self.budget.over, lambda score: score.holds)
        if not work.best_score.holds:
            return None
        with self._cut_in(work.best):
            fewer(work, self.steps, self.clock.late)
        return work.best

    @contextmanager
    def _cut_in(self, state: State | None) -> Iterator[None]:
        """Whoever cuts in once a layout is there has that, and no more is looked for than has to be."""
        try:
            yield
        except KeyboardInterrupt:
            if state is None:
                raise
            self.interrupted = True

    def _regained(self, state: State, gone: Sequence[Group]) -> State:
        """Bring back what was left behind without need, the most wanted first; the last one has no room."""
        for group in reversed(gone[:-1]):
            here = {piece.index for piece in self.wanted}
            wanted = [*self.wanted, *(self.problem.pieces[index] for index in group if index not in here)]
            if without_company(self.problem, here | set(group)) or too_heavy(self.problem, wanted):
                continue
            work = Keeper(state, wanted, self.before, self.random)
            work.run(REGAIN_STEPS, self.clock.late, lambda score: score.holds)
            if work.best_score.holds:
                state, self.wanted = work.best, wanted
        return state

    def proposal(self, state: State, locks: tuple[Lock, ...]) -> Proposal:
        """The proposal that a layout is."""
        plan = self.plan(state, locks)
        return Proposal(
            Status.FOUND,
            plan=plan,
            levels=near_levels(state),
            seconds=self.clock.elapsed(),
            interrupted=self.interrupted,
            cut_short=self.clock.late(),
            home_reasons=reasons_behind(state, self.aboard, cut_short=self.clock.late()),
        )

    def plan(self, state: State, locks: tuple[Lock, ...]) -> Plan:
        """The plan that a layout is."""
        kept_kg = self.problem.case.reserve_kg if self.options.use_reserve else 0.0
        return to_plan(state, reserve_kept_kg=kept_kg, locks=locks)


def near_levels(state: State) -> tuple[Level, ...]:
    """What a layout comes to, with nothing said of how much better another could be."""
    return (
        Level("height", state.height_mm(), None, "mm", "found"),
        Level("handling", handling_seconds(state), None, "s a day", "found"),
    )
