"""A small exact model of some spaces, drawn by how much the load in them could go down."""

from collections.abc import Sequence
from random import Random

from solver.clock import Clock
from solver.neighbourhood import Effort, better, promising
from solver.pieces import Piece
from solver.state import State

SIZES = (7, 9, 11, 14)
"""Pieces decided together: few are settled at once, many find what few cannot."""
WORK = 0.1
"""Work of one model in the library's own unit: about a tenth of a second."""


def settle(state: State, wanted: Sequence[Piece], random: Random, clock: Clock) -> State:
    """The lowest layout that a model finds; never a higher one than it was given."""
    rooms, free = promising(state, random), random.choice(SIZES)
    if not rooms or clock.late():
        return state
    return better(state, wanted, rooms, Effort(WORK, min(5.0, clock.left()), free=free)) or state
