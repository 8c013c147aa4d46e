"""Bringing the centre of gravity down: repacking, small models, a choice of patterns, all things assigned, in turns."""

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from random import Random

from solver.assign import assigned
from solver.clock import Budget, Clock
from solver.exact import settle
from solver.grow import grow
from solver.patterns import patterns_of
from solver.problem import Piece
from solver.recombine import QUICK, THOROUGH, lowest, recombined
from solver.repack import Repacker
from solver.state import State

ROUND = 60
"""Steps of repacking between two looks at the budget."""
CORNERS = 1.4e6
"""Corners looked at in repacking for the height at effort 1."""
TURNS = 8
"""Turns at effort 1."""
WARMTH_MM = 0.4
"""How much worse, in mm of vehicle height, a step may be at the beginning: what is seen on the way is not lost."""
GROWN_CORNERS = 2e6
"""Corners looked at to grow new patterns at effort 1."""


def improve(state: State, wanted: Sequence[Piece], random: Random, clock: Clock, effort: float, phase: str) -> State:
    """The lowest layout found for a fixed set of things; never a higher one than it was given."""
    turns = max(1, round(TURNS * effort))
    if clock.late():
        return state
    patterns_of(state).try_again()
    pool, whole = ThreadPoolExecutor(2), False
    try:
        for turn in range(turns):
            state = _turn(state, wanted, random, clock, effort / turns, WARMTH_MM * (1 - turn / turns), pool)
            clock.tell(phase, state.height_mm(), None)
            if clock.late():
                break
        whole = True
    finally:
        # Nothing is under way any more, unless someone cuts in: then nothing is waited for.
        pool.shutdown(wait=whole, cancel_futures=True)
    return state if clock.late() else recombined(state, wanted, lowest(state), clock, THOROUGH if turns > 1 else QUICK)


def _turn(
    state: State,
    wanted: Sequence[Piece],
    random: Random,
    clock: Clock,
    effort: float,
    warmth: float,
    pool: ThreadPoolExecutor,
) -> State:
    """The lowest of what three ways find side by side from one layout and a fourth after them; all they see is kept."""
    relaxed = lowest(state)
    together = pool.submit(recombined, state, wanted, relaxed, clock)
    settled = pool.submit(settle, state, wanted, Random(random.random()), clock)
    lower = repacked(state, wanted, random, Budget(state.problem, clock, CORNERS * effort), warmth)
    if relaxed is not None:
        grow(relaxed, state.height_mm() - relaxed.prices.least, random, clock, GROWN_CORNERS * effort)
    found = [state, lower, together.result(), settled.result()]
    found.append(assigned(min(found, key=State.height_mm), wanted, random, clock))
    for one in found:
        patterns_of(one)
    return min(found, key=State.height_mm)


def repacked(state: State, wanted: Sequence[Piece], random: Random, budget: Budget, warmth: float) -> State:
    """The lowest layout that repacking finds in a budget."""
    work = Repacker(state, wanted, State.height_mm, random, warmth)
    while not budget.over():
        work.warmth = warmth * (1 - budget.spent())
        work.run(ROUND, budget.over)
    return work.best
