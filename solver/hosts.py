"""Which copy of a thing lies around a space that is part of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from models.case import copy_of
from models.geometry import box as box_of
from models.geometry import contains, placed_box

if TYPE_CHECKING:
    from collections.abc import Sequence

    from models.plan import Plan
    from solver.pieces import Piece, Room
    from solver.problem import Problem
    from solver.state import Lying


def hosts(problem: Problem, before: Plan | None) -> dict[int, int]:
    """By index of a room that is part of a thing: the index of the piece that has to lie around it.

    Copies alike can change places, so that one is settled on for a whole search, of those that may lie around all
    rooms they are chosen for: the one around it in the plan `before`, else the one that locks leave the least choice.
    """
    found: dict[int, int] = {}
    for room in problem.rooms:
        if room.space.inside_of is None:
            continue
        copies = [piece for piece in problem.pieces if piece.thing.name == room.space.inside_of]
        able = [piece for piece in copies if _goes_around(problem, piece, [*_chosen(problem, found, piece), room])]
        around = _around(room, before)
        best = min(
            able or copies, key=lambda piece: (piece.copy not in around, *_freedom(problem, piece)), default=None
        )
        if best is not None:
            found[room.index] = best.index
    return found


def _around(room: Room, before: Plan | None) -> frozenset[object]:
    """Copies that lie around a room in a plan."""
    own = box_of(room.space.corner_mm, room.space.size_mm)
    places = () if before is None else before.placements
    return frozenset(copy_of(place) for place in places if contains(placed_box(place), own))


def _freedom(problem: Problem, piece: Piece) -> tuple[bool, int, bool, int]:
    """Least for a copy at a locked corner, then for one with few rooms, then for one that the plan before carries."""
    cornered = problem.fixed[piece.index].corner_mm is not None
    return not cornered, len(problem.fits[piece.index]), piece.copy not in problem.aboard, piece.index


def _chosen(problem: Problem, found: dict[int, int], piece: Piece) -> list[Room]:
    return [problem.rooms[index] for index, host in found.items() if host == piece.index]


def _goes_around(problem: Problem, piece: Piece, rooms: Sequence[Room]) -> bool:
    """Whether its locks and its sides let a piece lie around some rooms at once, all else aside."""
    low = tuple(min(room.low[k] for room in rooms) for k in range(3))
    high = tuple(max(room.high[k] for room in rooms) for k in range(3))
    corner = problem.fixed[piece.index].corner_mm
    for index, fit in problem.fits[piece.index].items():
        outer = problem.rooms[index]
        within = all(outer.low[k] <= low[k] and high[k] <= outer.high[k] for k in range(3))
        for size in (piece.shapes[i].size for i in fit.shapes):
            at = corner or tuple(high[k] - size[k] for k in range(3))
            if within and all(at[k] <= low[k] and high[k] <= at[k] + size[k] for k in range(3)):
                return True
    return False


def held_by(it: Lying, room: Room) -> bool:
    """Whether a thing lies around a room that is part of it."""
    return all(it.box[i] <= room.low[i] and room.high[i] <= it.box[i + 3] for i in range(3))
