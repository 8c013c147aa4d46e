"""The linear form of the bound: things shared out in fractions over the slots of all rooms at once."""

import time
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.cuts import clique, violated
from solver.library import model_builder as mb
from solver.links import Links
from solver.room_rows import PLACES, RoomRows, Row

CUTS_A_ROOM = 4
"""Cuts added for one room in one round."""
MM2_A_UNIT = 1e4
"""Areas in the linear form are in dm², volumes in litres: numbers of one size."""
MOST_HEIGHT_MM = 100_000


@dataclass(frozen=True)
class Tolls:
    """What the links cost: any figures give a bound, good ones a high one."""

    copies: dict[int, float]
    """By kind: mm that a copy is worth wherever it is put."""
    stages: NDArray[np.float64]
    """By driving stage: its share, not below 0; they add up to 1."""
    loads: NDArray[np.float64]
    """By row of loads: mm that a unit of it costs, not below 0."""


class Levels:
    """The linear form, row by row."""

    def __init__(self, rooms: Sequence[RoomRows], links: Links, ends: float) -> None:
        """`ends`: the moment by the monotonic clock after which building stops.

        Raises TimeoutError when the time is over before the form is whole.
        """
        self.rooms, self.links = rooms, links
        self.model = mb.Model()  # type: ignore[no-untyped-call]
        self.slots: list[list[mb.Variable]] = []
        self.counts: dict[tuple[int, int], mb.Variable] = {}
        for rows in rooms:
            self._room(rows)
            if time.monotonic() > ends:
                raise TimeoutError
        self._links()

    def solve(self, seconds: float) -> tuple[float, Tolls, list[NDArray[np.float64]]] | None:
        """Least height in mm, tolls, and by room the values of the slots; None without an answer in time."""
        solver = mb.Solver("GLOP")
        solver.set_time_limit_in_seconds(seconds)
        if solver.solve(self.model) != mb.SolveStatus.OPTIMAL:
            return None
        shares = np.array([max(0.0, solver.dual_value(row)) for row in self.by_stage])
        tolls = Tolls(
            {kind: solver.dual_value(row) for kind, row in self.by_kind.items()},
            shares / shares.sum() if shares.sum() > 0 else np.full(len(shares), 1 / len(shares)),
            np.array([max(0.0, -solver.dual_value(row)) for row in self.by_load]),
        )
        return solver.objective_value, tolls, [np.array([solver.value(v) for v in slots]) for slots in self.slots]

    def sharpen(self, values: list[NDArray[np.float64]]) -> bool:
        """Add cuts that the values of the slots break; whether there were any. Cuts on boxes join the rooms' rows."""
        added = False
        for rows, mine, slots in zip(self.rooms, values, self.slots, strict=True):
            for cut in violated(rows.boxes, mine, CUTS_A_ROOM):
                shares = np.zeros(len(slots), dtype=np.int64)
                shares[cut.slots] = np.floor(cut.shares * PLACES)
                rows.floors.append(Row(shares, PLACES))
                self._row(slots, rows.floors[-1], PLACES)
                added = True
            added |= self._apart(rows, mine)
        return added

    def _apart(self, rows: RoomRows, values: NDArray[np.float64]) -> bool:
        of_kind = np.zeros(len(rows.kinds))
        for slot, value in zip(rows.slots, values.tolist(), strict=True):
            of_kind[rows.kinds.index(slot.kind)] += value
        chosen = [self.counts[rows.kinds[n], rows.room.index] for n in clique(rows.clash, of_kind)]
        if chosen:
            self.model.add(sum(chosen) <= 1)
        return bool(chosen)

    def _room(self, rows: RoomRows) -> None:
        new = self.model.new_num_var
        slots = [new(0, rows.most[slot.kind] * slot.most_share, "") for slot in rows.slots]
        self.slots.append(slots)
        for kind in rows.kinds:
            count = self.counts[kind, rows.room.index] = new(0, rows.most[kind], "")
            mine = [v for slot, v in zip(rows.slots, slots, strict=True) if slot.kind == kind]
            self.model.add(sum(mine) == count)
        for row in rows.floors:
            self._row(slots, row, MM2_A_UNIT)
        for row in rows.layers:
            self._row(slots, row, 1000)
        counts = [self.counts[kind, rows.room.index] for kind in rows.kinds]
        for row in rows.masses:
            self._row(counts, row, 1000)
        self._pairs(rows)

    def _row(self, variables: list[mb.Variable], row: Row, unit: float) -> None:
        held = np.flatnonzero(row.shares)
        if len(held):
            self.model.add(sum(float(row.shares[i]) / unit * variables[i] for i in held) <= row.limit / unit)

    def _pairs(self, rows: RoomRows) -> None:
        room = rows.room.index
        for i, kind in enumerate(rows.kinds):
            for j in range(i + 1, len(rows.kinds)):
                a, b = rows.most[kind], rows.most[rows.kinds[j]]
                if rows.clash[i, j] and a and b:
                    one, two = self.counts[kind, room], self.counts[rows.kinds[j], room]
                    self.model.add(one * (1 / a) + two * (1 / b) <= 1)
        for kit in rows.kits:
            for kind in kit[1:]:
                a, b = rows.most[kit[0]], rows.most[kind]
                self.model.add(b * self.counts[kit[0], room] == a * self.counts[kind, room])

    def _links(self) -> None:
        places: dict[int, list[mb.Variable]] = {kind: [] for kind in self.links.copies}
        for (kind, _), count in self.counts.items():
            places[kind].append(count)
        self.by_kind = {kind: self.model.add(sum(places[kind]) == n) for kind, n in self.links.copies.items()}
        self.by_load = [
            self.model.add(sum(share * self.counts[at] for at, share in shares.items()) <= limit)
            for shares, limit in self.links.loads
        ]
        height = self.model.new_num_var(0, MOST_HEIGHT_MM, "height")
        self.by_stage = []
        for t, still in enumerate(self.links.still_mm.tolist()):
            lifts = zip(self.links.lifts, self.slots, strict=True)
            terms = [mm * v for lift, slots in lifts for mm, v in zip(lift[t].tolist(), slots, strict=True) if mm]
            self.by_stage.append(self.model.add(height - sum(terms) >= still))
        self.model.minimize(height)
