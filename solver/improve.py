"""Bringing the centre of gravity down: quick repacking and small exact models in turn."""

from collections.abc import Sequence
from random import Random

from solver.bring_down import Pull
from solver.clock import Budget, Clock
from solver.exact import settle
from solver.problem import Piece
from solver.repack import Repacker
from solver.state import State

ROUND = 60
"""Steps of repacking between two lines of progress."""
CORNERS = 1.4e6
"""Corners looked at in repacking for the height at effort 1."""
MODELS = 2
"""Small exact models in a turn, side by side."""
TURNS = 8
"""How often repacking and models take turns at effort 1."""
WARMTH_MM = 0.15
"""How much worse, in mm of vehicle height, a step may be at the beginning."""


def improve(
    state: State,
    wanted: Sequence[Piece],
    random: Random,
    clock: Clock,
    effort: float,
    phase: str,
    pull: Pull | None = None,
) -> State:
    """The lowest layout found for a fixed set of things; never a higher one than it was given.

    `pull` says where a relaxed answer would have things.
    """
    turns = max(1, round(TURNS * effort))
    for turn in range(turns):
        warmth = WARMTH_MM * (1 - turn / turns)
        state = repacked(state, wanted, random, Budget(state.problem, clock, CORNERS * effort / turns), warmth, pull)
        clock.tell(phase, state.height_mm(), None)
        state = settle(state, wanted, random, clock, MODELS, phase)
    return state


def repacked(
    state: State, wanted: Sequence[Piece], random: Random, budget: Budget, warmth: float, pull: Pull | None = None
) -> State:
    """The lowest layout that repacking finds in a budget."""
    work = Repacker(state, wanted, State.height_mm, random, warmth)
    work.pull = pull
    while not budget.over():
        work.warmth = warmth * (1 - budget.spent())
        work.run(ROUND, budget.over)
    return work.best
