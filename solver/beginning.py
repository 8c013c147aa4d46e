"""First layouts of a settled set of things, and which of several is worth going on with."""

from functools import partial
from random import Random

from solver.clock import Budget, Clock
from solver.halves import HALVES, Half, Search, at_once, in_halves
from solver.improve import WARMTH_MM, repacked
from solver.pieces import Piece
from solver.problem import Problem
from solver.repack import Repacker, start
from solver.state import Lying, State, laid

START_TRIES = 25
"""Orders tried for the first layout."""
MIXED_TRIES = 8
"""Orders tried for a layout made afresh."""
ROUNDS = ((125, 1 / 2), (250, 1 / 3), (500, 1 / 6))
"""Steps of repacking for each layout of a round, and its share of all steps; the best of a round are in the next."""
FIRST_WARMTH_MM = 0.3
"""How much higher a layout is taken with one chance in e, at the beginning."""
FRESH_STARTS = 7
"""Layouts made afresh: where a search ends depends more on where it began than on how long it is."""
FRESH_STEPS = 40
"""Steps of repacking for each of them to hold all limits."""
FRESH_CORNERS = 1.5e6
"""Corners looked at after which no more are made at effort 1: a large trip has time for few."""
HEAT_CORNERS = 0.1e6
"""Corners looked at to bring each of them down at effort 1."""
FINALISTS = 2
"""The lowest of them go on."""
FINAL_CORNERS = 0.2e6
"""Corners looked at for each of these at effort 1."""


def first(
    problem: Problem,
    must: list[Piece],
    base: State,
    random: Random,
    clock: Clock,
    steps: int,
    *,
    mixed: bool = False,
) -> State | None:
    """A layout of what has to come that holds all limits; None when none was found. `mixed` begins in another order."""
    state = start(problem, must, base, random, MIXED_TRIES if mixed else START_TRIES, mixed=mixed)
    clock.tell("first layout", None, None)
    work = _gone_on(state, must, random, clock, steps)
    return work.best if work.best_score.holds else None


def begun(
    problem: Problem,
    must: list[Piece],
    base: State,
    random: Random,
    clock: Clock,
    steps: int,
    closest: list[State] | None = None,
) -> State | None:
    """As `first`, so many steps shared out over several beginnings in mixed orders: one long run often ends nowhere.

    Those that came closest are gone on with, for some need more steps than many beginnings can have. Where none holds,
    what came closest goes to `closest`.
    """
    clock.tell("first layout", None, None)
    pool = list[Repacker]()
    for length, share in ROUNDS:
        count, ran = round(steps * share / length), list[Repacker]()
        begins = (start(problem, must, base, random, MIXED_TRIES, mixed=True) for _ in range(max(1, count)))
        for state in (work.best for work in pool[:count]) if pool else begins:
            if (pool or ran) and clock.late():
                break
            work = _gone_on(state, must, random, clock, length)
            if work.best_score.holds:
                return work.best
            ran.append(work)
        pool = sorted([*ran, *pool[len(ran) :]], key=lambda one: one.best_score)
    if closest is not None:
        closest.append(pool[0].best)
    return None


def _gone_on(state: State, must: list[Piece], random: Random, clock: Clock, steps: int) -> Repacker:
    """So many steps of repacking at most to bring a layout to hold all limits."""
    work = Repacker(state, must, State.height_mm, random, FIRST_WARMTH_MM)
    work.run(steps, clock.late, lambda found: found.holds)
    return work


def raced(
    wanted: list[Piece], base: State, random: Random, clock: Clock, effort: float, state: State | None = None
) -> State | None:
    """The lowest of some layouts made afresh and of one given, each brought down a little; None when there is none."""
    chances = Random(random.random()), Random(random.random())

    def begin(half: Half) -> Search[None, tuple[Lying, ...] | None]:
        own, given = half.own(base), state if half.side == 0 else None
        return at_once(partial(_raced, half, wanted, own, chances[half.side], half.told(clock), effort, given))

    found = in_halves(begin, begin if effort >= HALVES else None, clock.left())
    laid_out = [laid(base.problem, things, base.locked) for things in found if things is not None]
    return min(laid_out, key=State.height_mm, default=None)


def _raced(
    half: Half, wanted: list[Piece], base: State, random: Random, clock: Clock, effort: float, state: State | None
) -> tuple[Lying, ...] | None:
    """The lowest of one half's beginnings."""
    pool = [] if state is None else [state]
    budget = Budget(base.problem, clock, FRESH_CORNERS * effort)
    for _ in half.mine(range(max(1, round(FRESH_STARTS * min(1.0, effort))))):
        if budget.over():
            break
        fresh = first(base.problem, wanted, base, random, clock, FRESH_STEPS, mixed=True)
        pool += [] if fresh is None else [fresh]
    finalists = FINALISTS if half.other == "none" else FINALISTS // 2
    for corners, left in ((HEAT_CORNERS, finalists), (FINAL_CORNERS, 1)):
        pool = [_lower(one, wanted, random, clock, corners * effort) for one in pool]
        pool = sorted(pool, key=State.height_mm)[:left]
    return tuple(pool[0].at.values()) if pool else None


def _lower(state: State, wanted: list[Piece], random: Random, clock: Clock, corners: float) -> State:
    return repacked(state, wanted, random, Budget(state.problem, clock, corners), WARMTH_MM)
