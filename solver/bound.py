"""A height that no layout of a set of things can beat: spaces cut into levels, things poured in by footprint.

Each kind of thing takes places (room, height of its box, level of its bottom). At every level the footprints that
certainly cross it fit on the floor; spaces, racks and the rear axle hold; pairs that may not ride together share no
space. Support, access and the exact lie of things are left out, so the answer is a bound for every lawful layout.
"""

import time
from collections import defaultdict
from dataclasses import dataclass, replace

import numpy as np
from ortools.linear_solver.python import model_builder as mb

from solver.cuts import Boxes, clashes, clique, violated
from solver.problem import Piece, Problem, Room

GRID_MM = 25
"""Distance of the levels in mm; a finer grid is tighter and slower."""
MOST_ROUNDS = 40
"""Rounds of cuts."""
CUTS_A_ROOM = 4
"""Cuts added for one room in one round."""
SAFETY_MM = 1e-3
"""Taken off the bound for the rounding of the linear solver in mm."""


@dataclass(frozen=True)
class Bound:
    """A proven bound on the height at the highest driving stage in mm; None when there was no time for one."""

    height_mm: float | None


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


def height_bound(problem: Problem, carried: frozenset[int], seconds: float) -> Bound:
    """The bound for a set of pieces: the linear form, made sharper by cuts as long as time allows."""
    ends = time.monotonic() + seconds
    build = _Build(problem, [problem.pieces[i] for i in sorted(carried)], mb.Model())  # type: ignore[no-untyped-call]
    build.all()
    best: float | None = None
    for _ in range(MOST_ROUNDS):
        left = ends - time.monotonic()
        solver = _solve(build.model, max(0.05, left))
        if solver is None:
            break
        best = solver.objective_value - SAFETY_MM
        if left < 0.2 or not build.sharpen(np.array([solver.value(v) for v in build.integers])):
            break
    return Bound(best)


def _solve(model: mb.Model, seconds: float) -> mb.Solver | None:
    """A solver that has solved the linear form to the end, or None."""
    solver = mb.Solver("GLOP")
    solver.set_time_limit_in_seconds(seconds)
    return solver if solver.solve(model) == mb.SolveStatus.OPTIMAL else None


class _Build:
    """The bound's model, row by row."""

    def __init__(self, problem: Problem, pieces: list[Piece], model: mb.Model) -> None:
        self.problem = problem
        self.pieces = pieces
        self.model = model
        self.members: dict[int, list[Piece]] = defaultdict(list)
        for piece in pieces:
            self.members[piece.kind].append(piece)
        self.slots: list[Slot] = []
        self.integers: list[mb.Variable] = []
        self.of_room: dict[int, list[int]] = {}
        self.boxes: dict[int, Boxes] = {}
        self.clash: dict[int, tuple[list[int], np.ndarray[tuple[int, int], np.dtype[np.bool_]]]] = {}
        self.count_in: dict[tuple[int, int], list[mb.Variable]] = defaultdict(list)
        self.height = model.new_num_var(0, 100_000, "height")

    def all(self) -> None:
        """Every row of the model."""
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
        self._masses()
        self._pairs()
        self._heights()
        self.model.minimize(self.height)

    def _options(self, kind: int, room: Room) -> dict[int, tuple[tuple[int, int], ...]]:
        """Sides along and across by height of the box, air gaps left out."""
        found: dict[int, dict[tuple[int, int], None]] = {}
        for piece in self.members[kind]:
            fit = self.problem.fits[piece.index].get(room.index)
            for index in fit.shapes if fit else ():
                x, y, z = piece.shapes[index].size
                found.setdefault(z, {})[(x, y)] = None
        return {z: tuple(sides) for z, sides in found.items()}

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
                column = member.nothing_first and room.space.face == "top"
                area = min(x * y for x, y in ways)
                self._cells(Slot(kind, room.index, dz, area, ways, 0, 0, column), least, most, lowest)

    def _cells(self, slot: Slot, least: int, most: int, lowest: int) -> None:
        if least <= 0 <= most:
            self.slots.append(slot)
        k = 1
        while (k - 1) * GRID_MM + 1 <= most:
            low, high = (k - 1) * GRID_MM + 1, k * GRID_MM
            if high >= max(lowest, least):
                bottom = max(low, lowest, least)
                if bottom <= most:
                    self.slots.append(replace(slot, floor=bottom, top_of_cell=min(high, most)))
            k += 1

    def sharpen(self, values: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> bool:
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

    def _apart(self, room: int, values: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> bool:
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
        planes = range(0, room.size[2], GRID_MM)
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
        top = [room.space.face == "top" and self.members[kind][0].nothing_first for kind in kinds]
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
        for plane in range(0, z, GRID_MM):
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
