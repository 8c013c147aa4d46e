"""Bringing the centre of gravity down: quick repacking first, then small exact models."""

from collections.abc import Sequence
from random import Random

from solver.clock import Budget, Clock
from solver.problem import Piece
from solver.repack import Repacker
from solver.state import State

ROUND = 60
"""Steps of repacking between two lines of progress."""
CORNERS = 5e6
"""Corners looked at in repacking for the height at effort 1."""
WARMTH_MM = 0.25
"""How much worse, in mm of vehicle height, a step may be at the beginning."""


def improve(state: State, wanted: Sequence[Piece], random: Random, clock: Clock, effort: float, phase: str) -> State:
    """The lowest layout found for a fixed set of things; never a higher one than it was given."""
    work = Repacker(state, wanted, State.height_mm, random, WARMTH_MM)
    budget = Budget(state.problem, clock, CORNERS * effort)
    while not budget.over():
        work.warmth = WARMTH_MM * (1 - budget.spent())
        work.run(ROUND, budget.over)
        clock.tell(phase, work.best_score.cost, None)
    return work.best
