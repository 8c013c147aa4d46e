"""Shapes by chance: put down as low as it goes each by itself, things do not pack best.

A flat shape has the lowest middle and takes the most floor: of four bags one layer may hold all only where each stands.
"""

from collections.abc import Iterable
from random import Random

from solver.pieces import Piece
from solver.problem import Problem

Drawn = dict[int, int]
"""By kind of thing: the one shape in which it is put down, for as long as it finds a place in that."""


def drawn(problem: Problem, pieces: Iterable[Piece], share: float, random: Random, room: int | None = None) -> Drawn:
    """For about so great a share of the kinds of some pieces one shape each, of those that a room takes or of all."""
    found = Drawn()
    for kind, piece in {piece.kind: piece for piece in pieces}.items():
        if random.random() < share:
            # A plan may have a thing where it may not be: there it has no shapes of its own.
            fit = None if room is None else problem.fits[piece.index].get(room)
            found[kind] = random.choice(tuple(range(len(piece.shapes))) if fit is None else fit.shapes)
    return found
