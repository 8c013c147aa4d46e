"""Where a kind of thing may be in the bound: a room, the height of its box, and a level to stand on."""

from dataclasses import dataclass

from solver.problem import Piece

ANY_SHAPE = ((0, 0),)
"""Sides of a soft thing given by volume: nothing is known of them, only its area at a height."""


def quick(piece: Piece) -> bool:
    """Whether every lawful plan leaves nothing to be moved before a piece."""
    return piece.thing.access in ("belted", "at_once") or "injury" in piece.thing.needed_when


@dataclass(frozen=True)
class Slot:
    """Pieces of a kind in a room with the same box height on the same level."""

    kind: int
    room: int
    dz: int
    area: int
    """Least footprint in mm²."""
    ways: tuple[tuple[int, int], ...]
    """Sides along and across of every box of this height in mm."""
    floor: int
    """Least height of the bottom above the floor of the room in mm."""
    top_of_cell: int
    """Greatest height of the bottom above the floor of the room in mm."""
    column: bool
    """Nothing may lie above it."""
