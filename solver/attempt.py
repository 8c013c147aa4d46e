"""One attempt at a layout, with the reserve or without: no plan can exist, none was found, or the best one found."""

from random import Random

from solver.answers import Conflict, Level, Options, Proposal, Status
from solver.asking import Asked
from solver.beginning import begun, first
from solver.better import Better
from solver.clock import Clock
from solver.misses import closest_words
from solver.pieces import Piece
from solver.pins import needed, pinned
from solver.plain import plain_conflict
from solver.plans import to_plan
from solver.reserve import most_kept, reserved
from solver.seen import seen_conflict
from solver.state import State
from solver.still_home import reasons_at_last
from solver.unloaded import unloaded_words

SHORT_STEPS = 500
"""Steps of repacking before it is asked whether a layout can exist at all."""
FIRST_STEPS = 3000
"""Steps of repacking before a first layout is given up."""
LONG_SHARE = 0.5
"""Share of the time left that they may take at most, so that ways out can be tried."""


class Attempt:
    """An attempt at what is asked."""

    def __init__(self, asked: Asked, options: Options, clock: Clock, *, keeps_most: bool = False) -> None:
        """`keeps_most`: with as much of the reserve as what has to come leaves, where it need not be kept."""
        self.asked, self.options, self.clock, self.keeps_most = asked, options, clock, keeps_most
        self.problem = asked.problem()
        self.random = Random(options.seed)

    def proposal(self) -> Proposal:
        """What it comes to. Whoever cuts in has the best so far."""
        conflict = plain_conflict(self.problem)
        if conflict is not None:
            return self._impossible(conflict)
        base = pinned(self.problem, self.asked.before)
        try:
            found = self._first(base)
        except KeyboardInterrupt:
            return Proposal(Status.NOT_FOUND, seconds=self.clock.elapsed(), interrupted=True)
        if isinstance(found, Proposal):
            return found
        self.clock.first_plan()
        return self._better(base, found)

    @property
    def _must(self) -> list[Piece]:
        return [piece for piece in self.problem.pieces if needed(self.problem, piece)]

    def _impossible(self, conflict: Conflict) -> Proposal:
        return Proposal(Status.IMPOSSIBLE, conflict=conflict, seconds=self.clock.elapsed())

    def _first(self, base: State) -> State | Proposal:
        """A layout of what has to come, or why there is none."""
        must, near = self._must, list[State]()
        state = first(self.problem, must, base, self.random, self.clock, SHORT_STEPS)
        if state is not None:
            return state
        conflict = seen_conflict(self.asked, self.clock)
        if conflict is not None:
            return self._impossible(conflict)
        steps, clock = int(FIRST_STEPS * max(1.0, self.options.effort)), self.clock.part(LONG_SHARE)
        state = begun(self.problem, must, base, self.random, clock, steps, near)
        if state is not None:
            return state
        closest = (*unloaded_words(self.problem), *(says for one in near for says in closest_words(one, must)))
        nearest = to_plan(near[0], reserve_kept_kg=0.0, locks=self.asked.locks) if near else None
        return Proposal(Status.NOT_FOUND, seconds=self.clock.elapsed(), closest=closest, nearest=nearest)

    def _better(self, base: State, state: State) -> Proposal:
        """The best found from a first layout on."""
        options, clock = self.options, self.clock
        reserve_kg = self.asked.case.reserve_kg if self.asked.use_reserve else 0.0
        levels, interrupted = tuple[Level, ...](), False
        work = Better(base, state, self._must, self.random, clock, options.effort)
        try:
            if self.keeps_most:
                kept_now = most_kept(state, clock, options.effort, options.seed, self.asked.before)
                base, state = reserved(self.problem, kept_now, self.asked.before)
                self.problem = base.problem
                work = Better(base, state, self._must, self.random, clock, options.effort)
                reserve_kg, levels = kept_now.kg, (kept_now.level,)
            work.all()
            work.reasons = reasons_at_last(work.best, work.must, work.highest_mm, work.reasons, clock, options.effort)
        except KeyboardInterrupt:
            interrupted = True
        return self._found(work, reserve_kg, levels, interrupted)

    def _found(self, work: Better, reserve_kg: float, levels: tuple[Level, ...], interrupted: bool) -> Proposal:
        return Proposal(
            Status.FOUND,
            plan=to_plan(work.best, reserve_kept_kg=reserve_kg, locks=self.asked.locks),
            levels=(*levels, *work.all_levels()),
            seconds=self.clock.elapsed(),
            first_plan_seconds=self.clock.first_s,
            start_height_mm=work.start_mm,
            must_only_height_mm=work.musts_mm,
            interrupted=interrupted,
            cut_short=work.cut_short,
            home_reasons=work.reasons,
        )
