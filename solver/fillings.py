"""One room of the bound in whole things: the least that any content of it comes to, at any tolls, exact in integers."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from solver.library import cp_model
from solver.room_rows import RoomRows, Row
from solver.steady import steady

Floats = NDArray[np.float64]
PARTS = 1000
"""A poured piece is shared out over layers in so many parts."""
UNITS_A_MM = 10**8
"""Prices are whole numbers of this part of a mm, rounded so that the bound only falls."""


@dataclass(frozen=True)
class Filling:
    """What a room holds in one answer: copies by kind, and by driving stage the mm by which they lift the whole."""

    room: int
    """Number in the list of rooms."""
    copies: dict[int, int]
    lift_mm: Floats

    @property
    def name(self) -> tuple[object, ...]:
        """Two fillings of one name say the same."""
        return (self.room, tuple(sorted(self.copies.items())), tuple(np.round(self.lift_mm, 6).tolist()))


class Filler:
    """The program of one room; only its prices change."""

    def __init__(self, number: int, rows: RoomRows, lift_mm: Floats) -> None:
        """`lift_mm`: by driving stage and slot, by how many mm a piece there lifts the whole."""
        self.number, self.rows, self.lift_mm = number, rows, lift_mm
        self.parts = np.array([PARTS if s.poured_mm3 else 1 for s in rows.slots])
        self.kind_of = np.array([rows.kinds.index(s.kind) for s in rows.slots])
        self.model = cp_model.CpModel()
        self.slots = [self.model.new_int_var(0, self._most(n), "") for n in range(len(rows.slots))]
        self.counts = [self.model.new_int_var(0, rows.most[kind], "") for kind in rows.kinds]
        for n, count in enumerate(self.counts):
            mine = np.flatnonzero(self.kind_of == n)
            self.model.add(sum(self.slots[i] for i in mine) == int(self.parts[mine[0]]) * count)
        for row in rows.floors:
            self._row(self.slots, row)
        for row in rows.layers:
            self._layer(row)
        for row in rows.masses:
            self._row(self.counts, row)
        self._pairs()
        # An empty room is always lawful, so there is an answer from the start.
        for variable in (*self.slots, *self.counts):
            self.model.add_hint(variable, 0)

    def least(self, worth_mm: Floats, stages: Floats, seconds: float) -> tuple[float, Filling | None]:
        """A proven least of lift less worth in mm over every content, and the best content found; None: none found.

        `worth_mm`: of a copy, by kind of the room; `stages`: shares of the driving stages.
        """
        price = stages @ self.lift_mm - worth_mm[self.kind_of]
        units = np.floor(price * UNITS_A_MM / self.parts).astype(np.int64).tolist()
        self.model.minimize(sum(u * v for u, v in zip(units, self.slots, strict=True)))
        solver = _solver(seconds)
        if solver.solve(self.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return self._apart(price), None
        values = np.array([solver.value(v) for v in self.slots]) / self.parts
        copies = {k: n for k, v in zip(self.rows.kinds, self.counts, strict=True) if (n := solver.value(v))}
        proven = max(solver.best_objective_bound / UNITS_A_MM, self._apart(price))
        return min(0.0, proven), Filling(self.number, copies, self.lift_mm @ values)

    def _apart(self, price: Floats) -> float:
        """The least when every kind may take its best slot as often as it comes."""
        best = [min(0.0, float(price[self.kind_of == n].min())) for n in range(len(self.rows.kinds))]
        return sum(b * self.rows.most[kind] for b, kind in zip(best, self.rows.kinds, strict=True))

    def _most(self, n: int) -> int:
        slot = self.rows.slots[n]
        most = self.rows.most[slot.kind]
        return math.ceil(most * PARTS * slot.most_share) + 1 if slot.poured_mm3 else most

    def _row(self, variables: list[cp_model.IntVar], row: Row) -> None:
        held = np.flatnonzero(row.shares)
        if len(held):
            self.model.add(sum(int(row.shares[i]) * variables[i] for i in held) <= row.limit)

    def _layer(self, row: Row) -> None:
        held = np.flatnonzero(row.shares)
        # Rounding to parts from the floor up puts at most one part of each kind too much into a layer.
        over = sum(int(row.shares[i]) for i in held if self.parts[i] > 1)
        shares = row.shares * (PARTS // self.parts)
        if len(held):
            self.model.add(sum(int(shares[i]) * self.slots[i] for i in held) <= PARTS * row.limit + over)

    def _pairs(self) -> None:
        rows, numbers = self.rows, range(len(self.rows.kinds))
        used = [self._used(n) for n in numbers]
        for i in numbers:
            if rows.clash[i, i]:
                self.model.add(self.counts[i] <= 1)
            for j in range(i + 1, len(rows.kinds)):
                if rows.clash[i, j]:
                    self.model.add_bool_or([~used[i], ~used[j]])
        for kit in rows.kits:
            for kind in kit:
                n = rows.kinds.index(kind)
                self.model.add(self.counts[n] == rows.most[kind] * used[rows.kinds.index(kit[0])])

    def _used(self, n: int) -> cp_model.IntVar:
        flag = self.model.new_bool_var("")
        self.model.add(self.counts[n] <= self.rows.most[self.rows.kinds[n]] * flag)
        return flag


def _solver(seconds: float) -> cp_model.CpSolver:
    """The linear form first, as it gives the bound."""
    solver = steady(seconds)
    p = solver.parameters
    p.linearization_level, p.add_lp_constraints_lazily, p.exploit_all_lp_solution = 2, False, True
    p.cp_model_probing_level, p.symmetry_level = 0, 0
    return solver
