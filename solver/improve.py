"""Bringing the centre of gravity down: repacking, small models, a choice of patterns, all things assigned, in turns.

Two halves do it beside each other, each with chances of its own, and hear after every turn what the other has seen.
"""

from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from random import Random
from typing import NamedTuple

from solver.assign import assigned, may_assign
from solver.clock import Budget, Clock
from solver.exact import settle
from solver.filling import fill, stays_in
from solver.footing import standing_under
from solver.grow import grow
from solver.halves import Half, Search, in_halves
from solver.patterns import patterns_of
from solver.pieces import Piece
from solver.recombine import QUICK, THOROUGH, Relaxed, lowest, recombined
from solver.repack import Repacker
from solver.state import Lying, State, laid

ROUND = 60
"""Steps of repacking between two looks at the budget."""
CORNERS = 1e6
"""Corners looked at by each half in repacking for the height at effort 1."""
TURNS = 4
"""Turns at effort 1."""
LEAST_TURNS = 2
"""With fewer turns there is one half: nothing that it told would be used."""
WARMTH_MM = 0.4
"""How much worse, in mm of vehicle height, a step may be at the beginning: what is seen on the way is not lost."""
GROWN_CORNERS = 1.2e6
"""Corners looked at by each half to grow new patterns at effort 1."""
BESIDE_ASSIGNED = 2.5
"""So many times as long the second half repacks in a turn in which the first assigns all things, which takes longer."""
FILLED = 16
"""Times that each half fills every room anew at effort 1, by what a relaxed choice pays; once in a turn at least."""

Content = tuple[Lying, ...]


class Seen(NamedTuple):
    """What one half tells the other after a turn."""

    lowest: Content
    """Its lowest layout."""
    patterns: list[tuple[int, Content]]
    """What has lain in single rooms since it told last."""
    may_change: int
    """So many things may change their room the next time that all are assigned."""


def improve(state: State, wanted: Sequence[Piece], random: Random, clock: Clock, effort: float, phase: str) -> State:
    """The lowest layout found for a fixed set of things; never a higher one than it was given."""
    if clock.late():
        return state
    turns = max(1, round(TURNS * effort))
    chances = Random(random.random()), Random(random.random())

    def begin(half: Half) -> Search[Seen, Content]:
        mine = _Half(half, half.own(state), wanted, chances[half.side], half.told(clock), phase)
        return mine.search(turns, effort)

    found = in_halves(begin, begin if turns >= LEAST_TURNS else None, clock.left())
    return min((laid(state.problem, things, state.locked) for things in found), key=State.height_mm)


@dataclass
class _Half:
    """One half, and the lowest layout that it knows."""

    half: Half
    state: State
    wanted: Sequence[Piece]
    random: Random
    clock: Clock
    phase: str

    def search(self, turns: int, effort: float) -> Search[Seen, Content]:
        """So many turns, and at the end a thorough choice by the first half."""
        patterns = patterns_of(self.state)
        patterns.try_again()
        pool, whole = ThreadPoolExecutor(2), False
        try:
            for turn in range(turns):
                if self.clock.late():
                    break
                heights = patterns.heights()
                self.state = self._turn(effort / turns, WARMTH_MM * (1 - turn / turns), pool)
                self.clock.tell(self.phase, self.state.height_mm(), None)
                if self.clock.late():
                    break
                heard = yield Seen(tuple(self.state.at.values()), patterns.newer(heights), patterns.may_change)
                if heard is not None:
                    self._take(heard)
            whole = True
        finally:
            # Nothing is under way any more, unless someone cuts in: then nothing is waited for.
            pool.shutdown(wait=whole, cancel_futures=True)
        if self.half.side == 0 and not self.clock.late():
            self.state = self._recombined(lowest(self.state), THOROUGH if turns > 1 else QUICK)
        return tuple(self.state.at.values())

    def _take(self, heard: Seen) -> None:
        """Take what the other half tells."""
        patterns = patterns_of(self.state)
        for room, lying in heard.patterns:
            patterns.add(room, lying)
        if self.half.side == 1:
            patterns.may_change = heard.may_change
        theirs = laid(self.state.problem, heard.lowest, self.state.locked)
        self.state = min(self.state, theirs, key=State.height_mm)

    def _turn(self, effort: float, warmth: float, pool: ThreadPoolExecutor) -> State:
        """The lowest of what is found in several ways side by side from one layout; all they see is kept."""
        state, wanted, random, clock = self.state, self.wanted, self.random, self.clock
        relaxed = lowest(state)
        aside = self._aside(relaxed, pool)
        waits = self.half.side == 1 and may_assign(state)
        corners = CORNERS * effort * (BESIDE_ASSIGNED if waits else 1.0)
        lower = repacked(state, wanted, random, Budget(state.problem, clock, corners), warmth)
        if relaxed is not None:
            self._grow(relaxed, effort)
        found = [state, lower, *(one.result() for one in aside)]
        if self.half.side == 0:
            found.append(assigned(min(found, key=State.height_mm), wanted, random, clock))
        for one in found:
            patterns_of(one)
        return min(found, key=State.height_mm)

    def _grow(self, relaxed: Relaxed, effort: float) -> None:
        """New patterns: near the good ones one thing is exchanged, and whole rooms are filled anew."""
        most = self.state.height_mm() - relaxed.prices.least
        grow(relaxed, most, self.random, self.clock, GROWN_CORNERS * effort, half=self.half)
        stays, times = standing_under(self.state, self.state.locked), max(1, round(FILLED * effort))
        for room in range(len(self.state.problem.rooms)):
            if self.clock.late():
                break
            base = stays_in(self.state, room, stays)
            for _ in range(times):
                fill(relaxed, room, {}, base, self.random)

    def _aside(self, relaxed: Relaxed | None, pool: ThreadPoolExecutor) -> list[Future[State]]:
        """What the library searches meanwhile: a choice of patterns in the first half, a small model in the second."""
        found = []
        if self.half.side == 0:
            found.append(pool.submit(self._recombined, relaxed, QUICK))
        if self.half.side == 1 or self.half.other == "none":
            chance = Random(self.random.random())
            found.append(pool.submit(settle, self.state, self.wanted, chance, self.clock))
        return found

    def _recombined(self, relaxed: Relaxed | None, looks: Sequence[tuple[int, float]]) -> State:
        return recombined(self.state, self.wanted, relaxed, self.clock, looks)


def repacked(state: State, wanted: Sequence[Piece], random: Random, budget: Budget, warmth: float) -> State:
    """The lowest layout that repacking finds in a budget."""
    work = Repacker(state, wanted, State.height_mm, random, warmth)
    while not budget.over():
        work.warmth = warmth * (1 - budget.spent())
        work.run(ROUND, budget.over)
    return work.best
