"""The rows of the bound: every kind of thing in every room, by the height of its box and the level it stands on."""

import time
from collections import defaultdict
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from ortools.linear_solver.python import model_builder as mb

from models.geometry import LEAST_SOFT_SIDE_MM
from solver.cuts import Boxes, clashes, clique, violated
from solver.problem import Piece, Problem, Room
from solver.slots import ANY_SHAPE, Slot, quick

LEAST_SHARE = 1e-6
"""Copies under this are rounding."""
CUTS_A_ROOM = 4
"""Cuts added for one room in one round."""
GRID_MM = 25
"""Least distance of the levels in mm; a finer grid is tighter and slower."""
MOST_SLOTS = 9000
"""About how many slots a model may have; more of them take a coarser grid."""


class Levels:
    """The bound's model, row by row."""

    def __init__(self, problem: Problem, pieces: list[Piece], model: mb.Model, ends: float) -> None:
        self.problem = problem
        self.ends = ends
        """The moment by the monotonic clock after which building stops."""
        self.pieces = pieces
        self.model = model
        self.members: dict[int, list[Piece]] = defaultdict(list)
        for piece in pieces:
            self.members[piece.kind].append(piece)
        self.slots: list[Slot] = []
        self.grid_mm = GRID_MM
        self.integers: list[mb.Variable] = []
        self.of_room: dict[int, list[int]] = {}
        self.boxes: dict[int, Boxes] = {}
        self.clash: dict[int, tuple[list[int], NDArray[np.bool_]]] = {}
        self.count_in: dict[tuple[int, int], list[mb.Variable]] = defaultdict(list)
        self.height = model.new_num_var(0, 100_000, "height")

    def all(self) -> None:
        """Every row of the model.

        Raises TimeoutError when the time is over before it is whole.
        """
        self.grid_mm = GRID_MM * max(1, -(-self._fine_slots() // MOST_SLOTS))
        for room in self.problem.rooms:
            self._slots(room)
        for slot in self.slots:
            variable = self.model.new_num_var(0, len(self.members[slot.kind]), "")
            self.integers.append(variable)
            self.count_in[(slot.kind, slot.room)].append(variable)
        self._everything_comes()
        for room in self.problem.rooms:
            self._levels(room)
            self._arrays(room)
            if time.monotonic() > self.ends:
                raise TimeoutError
        self._masses()
        self._pairs()
        self._heights()
        self.model.minimize(self.height)

    def _fine_slots(self) -> int:
        """About how many slots the finest grid would have."""
        count = 0
        for kind, members in self.members.items():
            for room in self.problem.fits[members[0].index]:
                size_z = self.problem.rooms[room].size[2]
                count += sum(1 + (size_z - dz) // GRID_MM for dz in self._options(kind, self.problem.rooms[room]))
        return count

    def _options(self, kind: int, room: Room) -> dict[int, tuple[tuple[int, int], ...]]:
        """Sides along and across by height of the box, air gaps left out; no sides for what takes any shape."""
        if self.members[kind][0].thing.size_mm is None:
            fits = any(room.index in self.problem.fits[piece.index] for piece in self.members[kind])
            heights = range(LEAST_SOFT_SIDE_MM, room.size[2] + 1, self.grid_mm) if fits else ()
            return dict.fromkeys(heights, ANY_SHAPE)
        found: dict[int, dict[tuple[int, int], None]] = {}
        for piece in self.members[kind]:
            fit = self.problem.fits[piece.index].get(room.index)
            for index in fit.shapes if fit else ():
                x, y, z = piece.shapes[index].size
                found.setdefault(z, {})[(x, y)] = None
        return {z: tuple(sides) for z, sides in found.items()}

    def _area(self, kind: int, dz: int, ways: tuple[tuple[int, int], ...]) -> int:
        """Least footprint in mm² of a box whose height is dz; a soft one may be up to a step higher."""
        if ways is not ANY_SHAPE:
            return min(x * y for x, y in ways)
        return int((self.members[kind][0].thing.volume_l or 0) * 1e6 / (dz + self.grid_mm))

    def _slots(self, room: Room) -> None:
        options = {kind: self._options(kind, room) for kind in sorted(self.members)}
        lowest = min((z for sizes in options.values() for z in sizes), default=0)
        lowest = min([lowest, *(s[5] - room.low[2] for s in room.solids)])
        for kind, sizes in options.items():
            member = self.members[kind][0]
            fit = self.problem.fits[member.index].get(room.index) or next(
                (f for p in self.members[kind] if (f := self.problem.fits[p.index].get(room.index))), None
            )
            for dz, ways in sizes.items():
                if fit is None:
                    continue
                least = fit.least_z - room.low[2]
                most = fit.greatest_top - room.low[2] - dz
                column = quick(member) and room.space.face == "top"
                area = self._area(kind, dz, ways)
                self._cells(Slot(kind, room.index, dz, area, ways, 0, 0, column), least, most, lowest)

    def _cells(self, slot: Slot, least: int, most: int, lowest: int) -> None:
        if least <= 0 <= most:
            self.slots.append(slot)
        k = 1
        while (k - 1) * self.grid_mm + 1 <= most:
            low, high = (k - 1) * self.grid_mm + 1, k * self.grid_mm
            if high >= max(lowest, least):
                bottom = max(low, lowest, least)
                if bottom <= most:
                    self.slots.append(replace(slot, floor=bottom, top_of_cell=min(high, most)))
            k += 1

    def shares(self, values: NDArray[np.float64]) -> dict[tuple[int, int], float]:
        """By kind and room: the share of its copies that the values of the slots put there."""
        found: dict[tuple[int, int], float] = defaultdict(float)
        for slot, value in zip(self.slots, values.tolist(), strict=True):
            if value > LEAST_SHARE:
                found[slot.kind, slot.room] += value / len(self.members[slot.kind])
        return dict(found)

    def sharpen(self, values: NDArray[np.float64]) -> bool:
        """Add cuts that the values of the slots break; whether there were any."""
        added = False
        for room, boxes in self.boxes.items():
            mine = self.of_room[room]
            for cut in violated(boxes, values[mine], CUTS_A_ROOM):
                terms = [float(s) * self.integers[mine[i]] for i, s in zip(cut.slots, cut.shares, strict=True)]
                self.model.add(sum(terms) <= 1)
                added = True
            added |= self._apart(room, values)
        return added

    def _apart(self, room: int, values: NDArray[np.float64]) -> bool:
        kinds, clash = self.clash[room]
        of_kind = np.zeros(len(kinds))
        for i in self.of_room[room]:
            of_kind[kinds.index(self.slots[i].kind)] += values[i]
        chosen = {kinds[n] for n in clique(clash, of_kind)}
        if not chosen:
            return False
        terms = [self.integers[i] for i in self.of_room[room] if self.slots[i].kind in chosen]
        self.model.add(sum(terms) <= 1)
        return True

    def _arrays(self, room: Room) -> None:
        """What the cuts look at in a room."""
        mine = [i for i, slot in enumerate(self.slots) if slot.room == room.index]
        if not mine:
            return
        slots = [self.slots[i] for i in mine]
        ways = max(len(slot.ways) for slot in slots)
        along = np.array([[w[0] for w in (s.ways * ways)[:ways]] for s in slots])
        across = np.array([[w[1] for w in (s.ways * ways)[:ways]] for s in slots])
        planes = range(0, room.size[2], self.grid_mm)
        crossing = np.array(
            [[s.top_of_cell <= p and (s.column or s.floor + s.dz > p) for s in slots] for p in planes], dtype=bool
        )
        self.of_room[room.index] = mine
        self.boxes[room.index] = Boxes(room.index, room.size, along, across, np.array([s.dz for s in slots]), crossing)
        kinds = sorted({slot.kind for slot in slots})
        sizes = []
        for kind in kinds:
            rows = {(*way, s.dz) for s in slots if s.kind == kind for way in s.ways}
            sizes.append(np.array(sorted(rows)))
        top = [room.space.face == "top" and quick(self.members[kind][0]) for kind in kinds]
        self.clash[room.index] = (kinds, clashes(sizes, room.size, top))

    def _everything_comes(self) -> None:
        for kind, members in self.members.items():
            every = [v for (k, _), found in self.count_in.items() if k == kind for v in found]
            self.model.add(sum(every) == len(members))
        host = set(self.problem.host.items())
        for room, piece in host:
            if self.problem.pieces[piece] not in self.pieces:
                for (_, r), found in self.count_in.items():
                    if r == room:
                        self.model.add(sum(found) == 0)

    def _levels(self, room: Room) -> None:
        mine = [(s, v) for s, v in zip(self.slots, self.integers, strict=True) if s.room == room.index]
        if not mine:
            return
        x, y, z = room.size
        for plane in range(0, z, self.grid_mm):
            crossing = [s.area * v for s, v in mine if s.top_of_cell <= plane and (s.column or s.floor + s.dz > plane)]
            if len(crossing) > 1 or (crossing and plane == 0):
                level = room.low[2] + plane
                solid = sum(
                    (b[3] - b[0]) * (b[4] - b[1])
                    for b in (*room.solids, *room.keep_out)
                    if b[2] <= level < b[5] and not _overlapping(room)
                )
                self.model.add(sum(crossing) <= x * y - solid)

    def _masses(self) -> None:
        problem = self.problem
        for t, stage in enumerate(problem.constants.stages):
            for room in problem.rooms:
                if room.limit_g is not None:
                    self._row(t, {room.index}, room.limit_g)
                if room.tied_g is not None and room.space.holds == "tie_downs":
                    self._row(t, {room.index}, room.tied_g)
            for rack, left in enumerate(stage.racks_left_g):
                if left is not None:
                    self._row(t, {r.index for r in problem.rooms if rack in r.racks}, left)
            if stage.rear_left is not None and t in problem.driving:
                self._rear(t, stage.rear_left)

    def _row(self, t: int, rooms: set[int], limit_g: int) -> None:
        terms = [
            self.members[kind][0].most_g[t] / 1000 * v
            for (kind, room), found in self.count_in.items()
            if room in rooms
            for v in found
        ]
        if terms:
            self.model.add(sum(terms) <= limit_g / 1000)

    def _rear(self, t: int, left: int) -> None:
        terms = []
        for (kind, room), found in self.count_in.items():
            piece = self.members[kind][0]
            shortest = min((shape.size[0] for shape in piece.shapes), default=0)
            least_x = self.problem.rooms[room].low[0] + shortest / 2
            terms += [piece.most_g[t] / 1000 * least_x / 1000 * v for v in found]
        self.model.add(sum(terms) <= left / 1e6)

    def _pairs(self) -> None:
        vetoes = self.problem.vetoes
        for kind in self.members:
            for other, found in vetoes.of[kind].items():
                if other <= kind or other not in self.members:
                    continue
                for room in self.problem.rooms:
                    one, two = self.count_in.get((kind, room.index)), self.count_in.get((other, room.index))
                    if one and two and found:
                        a, b = len(self.members[kind]), len(self.members[other])
                        self.model.add(sum(one) * (1 / a) + sum(two) * (1 / b) <= 1)

    def _heights(self) -> None:
        problem = self.problem
        for t in problem.driving:
            stage = problem.constants.stages[t]
            mass = stage.mass_g + sum(piece.likely_g[t] for piece in self.pieces)
            terms = []
            for slot, variable in zip(self.slots, self.integers, strict=True):
                grams = self.members[slot.kind][0].likely_g[t]
                if grams:
                    centre = problem.rooms[slot.room].low[2] + slot.floor + slot.dz / 2
                    terms.append(grams * centre / mass * variable)
            self.model.add(self.height >= stage.moment[2] / mass + sum(terms))


def _overlapping(room: Room) -> bool:
    """Whether fixed boxes of a room overlap each other; their areas then do not add up."""
    boxes = (*room.solids, *room.keep_out)
    return any(
        all(a[i] < b[i + 3] and b[i] < a[i + 3] for i in range(3)) for n, a in enumerate(boxes) for b in boxes[n + 1 :]
    )
