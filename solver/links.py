"""What links the rooms of the bound: every kind comes whole; racks and the rear axle hold; heights by stage."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from models.geometry import LEAST_SOFT_SIDE_MM
from solver.pieces import PROOF_SPARE_G, Piece
from solver.problem import Problem
from solver.room_rows import RoomRows
from solver.slots import Members, poured

KILO = 1000.0
GRAMS_A_LITRE = 150
"""Room is worth something as well: about so many grams a litre. A measure of steps only."""


@dataclass(frozen=True)
class Links:
    """Rows over several rooms. What is listed by room stands in the order of the rooms given."""

    copies: dict[int, int]
    """By kind: how many come."""
    loads: list[tuple[dict[tuple[int, int], float], float]]
    """Rows Σ share · count ≤ limit, shares by kind and room: kg on racks, kg·m of the rear axle."""
    still_mm: NDArray[np.float64]
    """By driving stage: the height that the bare vehicle alone would give the whole in mm."""
    lifts: list[NDArray[np.float64]]
    """By room: by driving stage and slot, by how many mm a piece there lifts the whole."""
    scale: dict[int, float]
    """By kind: about how many mm the whole rises when a copy, or as much of other things, is a mm higher."""
    scale_of_loads: float
    """The same for a kilogram."""


def links_of(problem: Problem, members: Members, rooms: list[RoomRows]) -> Links:
    """All that links the rooms."""
    everyone = [piece for pieces in members.values() for piece in pieces]
    stages = [problem.constants.stages[t] for t in problem.driving]
    mass = np.array(
        [s.mass_g + sum(p.likely_g[t] for p in everyone) for t, s in zip(problem.driving, stages, strict=True)]
    )
    return Links(
        {kind: len(pieces) for kind, pieces in members.items()},
        [*_racks(problem, members, rooms), *_rear(problem, members, rooms)],
        np.array([stage.moment[2] for stage in stages]) / mass,
        [_lifts(problem, members, rows) / mass[:, None] for rows in rooms],
        {k: (m[0].heaviest_g + GRAMS_A_LITRE * _litres(m[0])) / float(mass.max()) for k, m in members.items()},
        KILO / float(mass.max()),
    )


def _litres(piece: Piece) -> float:
    size = piece.thing.size_mm
    return (piece.thing.volume_l or 0.0) if size is None else math.prod(size) / KILO**2


def _lifts(problem: Problem, members: Members, rows: RoomRows) -> NDArray[np.float64]:
    middle = np.array([rows.room.low[2] + slot.middle_mm for slot in rows.slots])
    grams = np.array([[members[s.kind][0].likely_g[t] for s in rows.slots] for t in problem.driving], dtype=float)
    return np.asarray(grams * middle, dtype=np.float64)


def _racks(
    problem: Problem, members: Members, rooms: list[RoomRows]
) -> list[tuple[dict[tuple[int, int], float], float]]:
    found = []
    for t, stage in enumerate(problem.constants.stages):
        for bearer, left in enumerate(stage.bearers_proof_g):
            on = [rows for rows in rooms if rows.room.index in problem.rooms_on[bearer]]
            if left is not None and on:
                kilos = {(k, r.room.index): members[k][0].proof_g[t] / KILO for r in on for k in r.kinds}
                found.append((kilos, (left + PROOF_SPARE_G) / KILO))
    return found


def _rear(
    problem: Problem, members: Members, rooms: list[RoomRows]
) -> list[tuple[dict[tuple[int, int], float], float]]:
    found = []
    for t in problem.driving:
        left = problem.constants.stages[t].rear_left
        if left is not None:
            moments = {
                (k, r.room.index): members[k][0].proof_g[t] * (r.room.low[0] + _shortest(members[k][0]) / 2) / KILO**2
                for r in rooms
                for k in r.kinds
            }
            found.append((moments, (left + PROOF_SPARE_G * problem.constants.wheelbase) / KILO**2))
    return found


def _shortest(piece: Piece) -> int:
    """Least side along in mm that a lawful plan may give a piece."""
    return LEAST_SOFT_SIDE_MM if poured([piece]) else min((shape.size[0] for shape in piece.shapes), default=0)
