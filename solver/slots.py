"""Where a kind of thing may be in the bound: a room, the height of its box, and a level to stand on.

Soft things given by volume take any lawful shape, so they are poured: each layer of a room holds a part of them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from models.geometry import LEAST_SOFT_SIDE_MM
from solver.pieces import Fit, Piece, Room
from solver.problem import Problem

GRAMS_OF_ROUNDING = 2
"""Masses are rounded up and what a thing bears down, each by less than a gram."""
ANY_SHAPE = ((0, 0),)
"""Sides of a soft thing given by volume: nothing is known of them."""

GRID_MM = 40
"""Least distance of the levels in mm; a finer grid is tighter and slower."""
MOST_SLOTS = 9000
"""About how many slots there may be; more of them take a coarser grid."""
Members = Mapping[int, Sequence[Piece]]
"""The carried pieces of each kind."""


@dataclass(frozen=True)
class Slot:
    """Pieces of a kind in a room with the same box height on the same level; or what of them is in one layer."""

    kind: int
    room: int
    dz: int
    area: int
    """Least footprint in mm²; 0 for what is poured."""
    ways: tuple[tuple[int, int], ...]
    """Sides along and across of every box of this height in mm."""
    floor: int
    """Least height of the bottom above the floor of the room in mm."""
    top_of_cell: int
    """Greatest height of the bottom above the floor of the room in mm."""
    column: bool
    """No thing may lie above it; a fixed box may be there."""
    poured_mm3: int = 0
    """Volume of a poured piece in mm³; 0 for one with sides."""

    @property
    def middle_mm(self) -> float:
        """A height above the floor of the room that its middle is never below."""
        # A box of height h fills its uppermost layer, of thickness g, in part only: that lowers its middle by at
        # most u · (g - u) / 2h for a part u, which is g² / 8h at u = g / 2.
        lower = self.dz * self.dz / (8 * LEAST_SOFT_SIDE_MM) if self.poured_mm3 else 0.0
        return self.floor + self.dz / 2 - lower

    @property
    def most_share(self) -> float:
        """The greatest share of a piece that is in the slot."""
        return min(1.0, self.dz / LEAST_SOFT_SIDE_MM) if self.poured_mm3 else 1.0

    def crosses(self, plane: int) -> bool:
        """Whether its box certainly crosses a plane so many mm above the floor, or nothing may lie there."""
        if self.poured_mm3:
            return False
        return self.top_of_cell <= plane and (self.column or self.floor + self.dz > plane)

    def layer_mm3(self, low: int, high: int) -> int:
        """Volume in mm³ that it certainly has, or keeps empty, between two heights above the floor."""
        if self.poured_mm3:
            return self.poured_mm3 if low == self.floor else 0
        top = high if self.column else min(high, self.floor + self.dz)
        return self.area * max(0, top - max(low, self.top_of_cell))


def box_heights(problem: Problem, members: Sequence[Piece], room: Room) -> dict[int, tuple[tuple[int, int], ...]]:
    """Sides along and across in mm by height of the box, air gaps left out, of what has sides."""
    found: dict[int, dict[tuple[int, int], None]] = {}
    for piece in members:
        fit = problem.fits[piece.index].get(room.index)
        for index in fit.shapes if fit else ():
            x, y, z = piece.shapes[index].size
            found.setdefault(z, {})[(x, y)] = None
    return {z: tuple(sides) for z, sides in found.items()}


def poured(members: Sequence[Piece]) -> bool:
    """Whether a kind may take any shape of its volume."""
    return members[0].thing.size_mm is None


def fit_in(problem: Problem, piece: Piece, room: Room) -> Fit | None:
    """How a piece may be in a room; what is poured needs none of the few shapes that the search tries."""
    if piece.thing.size_mm is None:
        return problem.fit_by_itself(piece, room)
    return problem.fits[piece.index].get(room.index)


def grid_for(problem: Problem, members: Members) -> int:
    """Distance of the levels in mm with which there are not too many slots."""
    count = 0
    for pieces in members.values():
        heights = len({shape.size[2] for shape in pieces[0].shapes})
        for room in problem.fits[pieces[0].index]:
            layers = problem.rooms[room].size[2] // GRID_MM
            count += 1 + layers * (1 if poured(pieces) else heights)
    return GRID_MM * max(1, -(-count // MOST_SLOTS))


def slots_of(problem: Problem, members: Members, room: Room, grid_mm: int) -> list[Slot]:
    """Every slot of a room, by kind."""
    options = {k: {} if poured(m) else box_heights(problem, m, room) for k, m in sorted(members.items())}
    here = [(m[0], options[k]) for k, m in sorted(members.items()) if any(fit_in(problem, p, room) for p in m)]
    found: list[Slot] = []
    for kind, sizes in options.items():
        fit = next((f for p in members[kind] if (f := fit_in(problem, p, room))), None)
        if fit is None:
            continue
        if poured(members[kind]):
            found += _layers(members[kind][0], room, fit, grid_mm)
        column = members[kind][0].wanted.never_under and room.space.face == "top"
        bottoms = _bottoms(members[kind][0].heaviest_g, here, room)
        for dz, ways in sizes.items():
            area = min(x * y for x, y in ways)
            slot = Slot(kind, room.index, dz, area, ways, 0, 0, column)
            found += _cells(slot, room, fit, bottoms, grid_mm)
    return found


def _layers(piece: Piece, room: Room, fit: Fit, grid_mm: int) -> list[Slot]:
    """The layers of a room that a poured piece may reach into."""
    volume = int((piece.thing.volume_l or 0) * 1e6)
    least, most = fit.least_z - room.low[2], fit.greatest_top - room.low[2]
    return [
        Slot(piece.kind, room.index, min(grid_mm, room.size[2] - low), 0, ANY_SHAPE, low, low, False, volume)
        for low in range(0, room.size[2], grid_mm)
        if low + grid_mm > least and low < most
    ]


def _bottoms(grams: int, here: Sequence[tuple[Piece, Mapping[int, object]]], room: Room) -> NDArray[np.int64]:
    """Heights above the floor, upwards, on which a thing of a mass may stand: the floor, solids, and what bears it.

    Whatever it touches bears it whole; what stands lower bears more still, and so bears this mass as well.
    """
    # Heights are bits of one number.
    every = (1 << room.size[2] + 1) - 1
    held = 1 | sum(1 << top for s in room.solids if 0 < (top := s[5] - room.low[2]) <= room.size[2])
    bearing = [sizes for p, sizes in here if p.bears_g is None or p.bears_g + GRAMS_OF_ROUNDING >= grams]
    if not all(bearing):
        held |= every >> LEAST_SOFT_SIDE_MM << LEAST_SOFT_SIDE_MM
    steps = {step for sizes in bearing for step in sizes}
    before = 0
    while before != held:
        before = held
        for step in steps:
            held |= held << step & every
    return np.array([z for z, bit in enumerate(reversed(f"{held:b}")) if bit == "1"], dtype=np.int64)


def _cells(slot: Slot, room: Room, fit: Fit, bottoms: NDArray[np.int64], grid_mm: int) -> list[Slot]:
    """The levels on which a box may stand: the floor, and cells of the grid from their least bottom on."""
    least, most = fit.least_z - room.low[2], fit.greatest_top - room.low[2] - slot.dz
    able = bottoms[(bottoms >= least) & (bottoms <= most)]
    found = [slot] if len(able) and able[0] == 0 else []
    for high in range(grid_mm, most + grid_mm, grid_mm):
        mine = able[(able > high - grid_mm) & (able <= high)]
        if len(mine):
            found.append(replace(slot, floor=int(mine[0]), top_of_cell=int(mine[-1])))
    return found
