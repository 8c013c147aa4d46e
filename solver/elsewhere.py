"""The lowest layouts with one thing in each of some rooms: what is tried for any of them serves all the others."""

import copy
from collections import Counter
from collections.abc import Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from random import Random

from solver.answers import SILENT
from solver.clock import Clock
from solver.filling import fill, stays_in
from solver.footing import standing_under
from solver.grow import grow
from solver.halves import Half
from solver.laid_over import laid_over
from solver.master import Master, exactly, holding, master, with_one_of
from solver.patterns import Key, Pattern, Patterns
from solver.prices import Prices, Pricing
from solver.problem import Problem
from solver.recombine import Relaxed, height_aim, lawful, layout, put_together
from solver.repack import score
from solver.state import Lying, State, laid
from solver.target import Heard, Swaps, Target
from solver.trying import Trial

LOOK, FIRST_LOOK = ((300, 0.1),), ((400, 0.3),)
"""Columns of an exact choice and its work, in the library's own unit, about a second; and where no layout is known."""
FIRST_S = 0.5
"""Seconds that a first layout may take at most."""
LEAST_MM = 0.05
"""Least gain that an exact choice is made for, in mm of vehicle height."""
SPAN_MM = 1000.0
"""How much higher than the relaxed choice a layout may be where none is known yet."""
LINEAR = "use_dual_simplex:true use_preprocessing:false"
"""How the linear form is solved: a third less time where one row after the other is added to it."""
FRONT = 25
"""Patterns that new ones are grown from."""
GROWN = 0.002e6
"""Corners looked at in a round to grow patterns for one room's prices."""
FILLED = 8
"""Times that a room is filled in a round for the thing in it."""
LAID_OVER = 60
"""Patterns that are laid into other rooms in a round: those that cost the relaxed choice the least."""
OTHERS, OTHERS_FILLED = 2, 4
"""Rooms that are filled beside it, drawn by chance, and how often: what had to go is welcome there."""


class Elsewhere:
    """All that has lain in one room in any try, and what can be put together from it."""

    def __init__(self, trial: Trial, index: int) -> None:
        self.trial, self.index = trial, index
        self.half = Half()
        self._random = trial.random()
        self._told: dict[Key, int] = {}
        self._laid_over: set[tuple[int, tuple[Lying, ...]]] = set()
        self.problem = trial.bound_to(index, list(trial.free_fits(index)))
        self._locked = trial.now.locked - {index}
        self.patterns = Patterns(self.problem, self._locked)
        self.problem.patterns = trial.problem.patterns = self.patterns
        self.patterns.gather(trial.now)
        self._aim = height_aim(trial.now)
        here = trial.now.at[index].room
        self._here = self.target(here) if trial.locked(index) else None
        """What is asked of the plan itself, where people have locked the thing."""

    def target(self, room: int) -> Target:
        """The thing in a room, and with it the copies like it that lie there now."""
        return Target(
            room, Counter(self.patterns.classes[i] for i in {self.index, *self.trial.alike(self.index, room)})
        )

    def bound(self, room: int) -> Problem:
        """The problem with the thing in a room; what is tried in it is seen by all."""
        return self.trial.bound_to(self.index, [room], one_more=True)

    def grow(self, targets: Sequence[Target], clock: Clock) -> bool:
        """A round of new patterns for every room; False where nothing is to be found."""
        whole, pricing = self._priced()
        relaxed = self._forced(whole, pricing, None)
        if relaxed is None:
            return False
        forced = [self._forced(whole, pricing, target) for target in targets]
        costs = [relaxed.prices.cost, *(one.prices.cost for one in forced if one is not None)]
        self.patterns.rate(whole.columns, map(min, zip(*costs, strict=True)))  # what one of them would take is kept
        self._lay_over(self.half.mine(_cheapest(relaxed)[:LAID_OVER]), range(len(self.problem.rooms)), clock)
        if self.half.side == 0:
            self._grow(relaxed, self.trial.lowest, clock)
        for n, target in enumerate(targets):
            if clock.late():
                break
            self._grow_for(target, forced[n], relaxed, clock.part(1 / (len(targets) - n)))
        return True

    def _grow_for(self, target: Target, forced: Relaxed | None, relaxed: Relaxed, clock: Clock) -> None:
        """New patterns of one room with the thing there, and of others with what has to go."""
        asked = target.asked.items()
        holding_it = [c for c in _cheapest(forced or relaxed) if all(dict(c.counts).get(k, 0) >= n for k, n in asked)]
        self._lay_over(holding_it[:LAID_OVER], [target.room], clock)
        self._fill(forced or relaxed, target.room, target.asked, FILLED, clock)
        rooms = range(len(self.problem.rooms))
        for room in self._random.sample(rooms, min(OTHERS, len(rooms))):
            self._fill(forced or relaxed, room, {}, OTHERS_FILLED, clock)
        if forced is not None:
            self._grow(forced, target.lowest, clock)

    def _lay_over(self, columns: Sequence[Pattern], rooms: Sequence[int], clock: Clock) -> None:
        """Lay patterns into other rooms as they are, each once."""
        for column in columns:
            for room in rooms:
                key = (room, column.lying)
                if room == column.room or key in self._laid_over or clock.late():
                    continue
                self._laid_over.add(key)
                found = laid_over(self.patterns, column.lying, room)
                if found is not None:
                    self.patterns.add(room, found)

    def _grow(self, relaxed: Relaxed, best: State | None, clock: Clock) -> None:
        most = SPAN_MM if best is None else best.height_mm() - relaxed.prices.least
        grow(relaxed, most, self._random, clock, GROWN, FRONT)

    def _fill(self, relaxed: Relaxed, room: int, asked: Mapping[int, int], times: int, clock: Clock) -> None:
        """Fill a room again and again, around what is locked there."""
        base = stays_in(self.trial.now, room, standing_under(self.trial.now, self._locked))
        base.problem = self.problem
        for _ in range(times):
            if clock.late():
                break
            fill(relaxed, room, asked, base, self._random)

    def choose(self, targets: Sequence[Target], clock: Clock) -> None:
        """Put together the lowest layout for every room, and for the plan itself; two at once where none is beside."""
        whole, pricing = self._priced()
        itself = self._itself(whole, pricing)
        pool = ThreadPoolExecutor(1 if self.half.other == "beside" else 2)
        try:
            jobs: list[tuple[Target | None, State | Future[State | None]]] = []
            nowhere_first = sorted(targets, key=lambda target: target.lowest is not None)
            for target in [*([self._here] if self.half.side == 0 else []), *nowhere_first]:
                relaxed = self._forced(whole, pricing, target)
                if target is not None and relaxed is not None and itself is not None:
                    target.about_mm = relaxed.prices.least - itself.least
                best = self.trial.lowest if target is None or target is self._here else target.lowest
                if relaxed is not None and (best is None or best.height_mm() - relaxed.prices.least > LEAST_MM):
                    jobs.append((target, self._begin(pool, relaxed, best, clock)))
            for target, job in jobs:
                self._take(target, job if isinstance(job, State) else job.result())
        finally:
            pool.shutdown(wait=False, cancel_futures=True)

    def _priced(self) -> tuple[Master, Pricing]:
        whole = master(self.patterns, exactly(self.patterns, self.trial.now.at))
        return whole, Pricing(whole, self._aim, LINEAR)

    def _itself(self, whole: Master, pricing: Pricing) -> Prices | None:
        """The relaxed choice of the plan itself: where people have locked the thing, within what the locks allow."""
        trial, number = self.trial, self.patterns.classes[self.index]
        if not trial.locked(self.index):
            return pricing.prices()
        if trial.problem.fixed[self.index].corner_mm is not None:
            return None  # locked at a corner: a pattern may hold it at another
        return pricing.prices([j for room in trial.problem.fits[self.index] for j in holding(whole, room, {number: 1})])

    def _forced(self, whole: Master, pricing: Pricing, target: Target | None) -> Relaxed | None:
        """The relaxed choice with the thing in its room; with nothing asked, anywhere."""
        one_of = None if target is None else holding(whole, target.room, target.asked)
        found = pricing.prices(one_of)
        if found is None:
            return None
        return Relaxed(whole if one_of is None else with_one_of(whole, one_of), self._aim, found)

    def _begin(
        self, pool: ThreadPoolExecutor, relaxed: Relaxed, best: State | None, clock: Clock
    ) -> State | Future[State | None]:
        """The relaxed choice itself where it is whole; else an exact choice, beside what goes on."""
        before = (best or self.trial.now).copy()
        before.problem, before.locked = self.problem, self._locked
        if relaxed.prices.chosen is not None:
            return layout(self.patterns, [relaxed.master.columns[j] for j in relaxed.prices.chosen], before)
        highest = relaxed.prices.least + SPAN_MM if best is None else best.height_mm()
        if best is None:
            return pool.submit(put_together, relaxed, before, highest, Clock(FIRST_S, SILENT), FIRST_LOOK)
        return pool.submit(_lower, relaxed, before, highest, clock)

    def _take(self, target: Target | None, found: State | None) -> None:
        """Keep a layout that was put together, where it holds and is lower."""
        if found is None:
            return
        if target is not None:
            self._rename(found, target.room)
        if not (lawful(found) and score(found, self.trial.wanted, State.height_mm).holds):
            return
        if target is None or target is self._here:
            self.trial.lower_still(found, self.index)
        elif self.trial.one_more(found, self.index, target.room):
            target.keep(found)

    def _rename(self, state: State, room: int) -> None:
        """Let the thing and the copies that lay in the room be those that lie there, not others like them."""
        named = {self.index, *self.trial.alike(self.index, room)}
        for index in sorted(named):
            here = [it for it in state.inside[room] if it.piece not in named]
            same = [it for it in here if self.patterns.classes[it.piece] == self.patterns.classes[index]]
            if state.at[index].room != room and same:
                other = state.remove(index)
                state.remove(same[0].piece)
                state.add(same[0]._replace(piece=index))
                state.add(other._replace(piece=same[0].piece))

    def twin(self, targets: Sequence[Target]) -> tuple["Elsewhere", list[Target]]:
        """The same search and its targets once more: what either changes is its own, what never changes is shared."""
        trial = self.trial
        shared = (trial.case, trial.plan, trial.options)
        return copy.deepcopy((self, list(targets)), {id(same): same for same in shared})

    def begin(self, half: Half) -> None:
        """Search as one half from now on: what was seen so far both know."""
        self.half = half
        self._random = Random(f"{self.trial.options.seed} {half.side}")
        self._told = self.patterns.heights()

    def swap(self) -> Swaps:
        """Tell the other half what is new, and take what it tells."""
        heard = yield self.tell([])
        if heard is not None:
            self.hear(heard, [])
        self._told = self.patterns.heights()

    def tell(self, targets: Sequence[Target]) -> Heard:
        """What is new, and what was found for some rooms."""
        found = {target.room: (_lying(target.few), _lying(target.lowest), target.about_mm) for target in targets}
        return Heard(self.patterns.newer(self._told), list(self.trial.lowest.at.values()), found)

    def hear(self, heard: Heard, targets: Sequence[Target]) -> None:
        """Take what the other half tells."""
        for room, lying in heard.patterns:
            self.patterns.add(room, lying)
        own = self._laid(heard.own)
        if own is not None:
            self.trial.lower_still(own, self.index)
        for target in targets:
            if target.room in heard.found:
                few, low, about_mm = heard.found[target.room]
                target.hear(self._laid(few), self._laid(low), about_mm)

    def _laid(self, lying: Sequence[Lying] | None) -> State | None:
        return None if lying is None else laid(self.problem, lying, self._locked)


def _lower(relaxed: Relaxed, before: State, highest_mm: float, clock: Clock) -> State | None:
    """A lower layout than one that is known, as long as there is time."""
    return None if clock.late() else put_together(relaxed, before, highest_mm, clock, LOOK)


def _cheapest(relaxed: Relaxed) -> list[Pattern]:
    """The columns by what they cost the relaxed choice."""
    cost, columns = relaxed.prices.cost, relaxed.master.columns
    return [columns[j] for j in sorted(range(len(columns)), key=lambda j: (cost[j], j))]


def _lying(state: State | None) -> list[Lying] | None:
    return None if state is None else list(state.at.values())
