"""What the relaxed choice of patterns would pay: for one more of a class, for a limit, for a millimetre of height."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from solver.library import model_builder as mb
from solver.library import model_builder_helper as helper
from solver.master import Master, Row, one_of
from solver.patterns import MILLI, Pattern

Floats = NDArray[np.float64]
WHOLE = 1e-6
"""A share of a column that is this near to none or all is taken as such."""


@dataclass(frozen=True)
class Aim:
    """What is asked of the whole: as low as can be, or as much value as can be below a height."""

    mass_g: tuple[float, ...]
    """By driving stage: likely mass of vehicle and load in grams; of the vehicle alone where a height is given."""
    moment: tuple[float, ...]
    """By driving stage: moment of the vehicle alone above the ground in grams times millimetres."""
    highest_mm: float | None = None
    value: Mapping[int, int] | None = None
    """By class: what one copy is worth."""

    def up2(self, column: Pattern) -> Floats:
        """By driving stage: what a column adds to the moment that counts, in grams times half millimetres."""
        return column.height2 - 2 * (self.highest_mm or 0.0) * column.mass_g

    def all_up2(self, columns: Sequence[Pattern]) -> Floats:
        """The same of many columns, a row for each."""
        many = len(columns), len(self.mass_g)
        height2 = np.array([column.height2 for column in columns]).reshape(many)
        mass_g = np.array([column.mass_g for column in columns]).reshape(many)
        return height2 - 2 * (self.highest_mm or 0.0) * mass_g

    def worth(self, column: Pattern) -> int:
        """Value of what a column holds."""
        return 0 if self.value is None else sum(self.value.get(number, 0) * n for number, n in column.counts)


@dataclass(frozen=True)
class Prices:
    """Duals of the relaxed master. A column is worth taking where its cost is below 0."""

    least: float
    """The least height in mm, or minus the most value, of any relaxed choice."""
    cost: tuple[float, ...]
    """By column: how much more than that a choice costs at least that takes the whole of it."""
    comes: Mapping[int, float]
    """By class."""
    shared: Floats
    """By limit that rooms share, for a thousandth."""
    up: Floats
    """By driving stage, for a gram times half a millimetre."""

    chosen: tuple[int, ...] | None = None
    """The columns of the relaxed choice, where it takes none of them in part."""

    def of(self, column: Pattern, aim: Aim) -> float:
        """Cost of a column by itself, the price of its room and of what it may not ride with left out."""
        cost = -float(aim.worth(column))
        cost -= sum(self.comes[number] * count for number, count in column.counts)
        return cost - float(self.shared @ column.load) - float(self.up @ aim.up2(column))


def prices(whole: Master, aim: Aim) -> Prices | None:
    """The prices; None where no choice of the columns holds all rows, even a relaxed one."""
    return Pricing(whole, aim).prices()


class Pricing:
    """A relaxed master that is asked again and again, each time with another row beside its own."""

    def __init__(self, whole: Master, aim: Aim, how: str = "") -> None:
        """`how`: parameters of the search library."""
        self._whole, self._how = whole, how
        self._model = mb.Model()  # type: ignore[no-untyped-call]
        self._taken = [self._model.new_num_var(0, 1, "") for _ in whole.columns]
        self._comes = {number: _added(self._model, row, self._taken) for number, row in whole.comes.items()}
        self._shared = {n: _added(self._model, whole.shared(n), self._taken) for n in sorted(whole.patterns.tight)}
        for row in whole.others:
            _added(self._model, row, self._taken)
        self._up = _height(self._model, whole, aim, self._taken)

    def prices(self, columns: Sequence[int] | None = None) -> Prices | None:
        """The prices where one of some columns is taken; None where no choice holds all rows."""
        if columns is None:
            return self._solved()
        if not columns:
            return None
        row = _added(self._model, one_of(columns), self._taken)
        try:
            return self._solved()
        finally:
            row.lower_bound = 0.0  # holds always: the row is out of the way

    def _solved(self) -> Prices | None:
        # Asked by `mb.Solver` for its variables one by one, an answer takes longer to read than to find.
        solver = helper.ModelSolverHelper("GLOP")
        if self._how:
            solver.set_solver_specific_parameters(self._how)
        passed = True
        while passed:
            solver.solve(self._model.helper)
            if solver.status() != helper.SolveStatus.OPTIMAL:
                return None
            shares = solver.variable_values()[: len(self._taken)]
            passed = self._more_limits(shares)
        dual = solver.dual_values()
        asked = np.zeros(len(self._whole.most))
        for n, limit in self._shared.items():
            asked[n] = dual[limit.index]
        return Prices(
            solver.objective_value(),
            tuple(solver.reduced_costs()[: len(self._taken)].tolist()),
            {number: float(dual[row.index]) for number, row in self._comes.items()},
            asked,
            np.array([dual[row.index] for row in self._up]),
            _whole(shares),
        )

    def _more_limits(self, shares: Floats) -> bool:
        """Add the rows of limits that a choice passes; whether there are any. Most limits are never met."""
        over = np.flatnonzero(shares @ self._whole.loads > self._whole.most + MILLI)
        found = [n for n in over.tolist() if n not in self._shared]
        for n in found:
            self._shared[n] = _added(self._model, self._whole.shared(n), self._taken)
        self._whole.patterns.tight.update(found)
        return bool(found)


def _whole(shares: Floats) -> tuple[int, ...] | None:
    if np.any((shares > WHOLE) & (shares < 1 - WHOLE)):
        return None
    return tuple(np.flatnonzero(shares > WHOLE).tolist())


def _added(model: mb.Model, row: Row, taken: Sequence[mb.Variable]) -> mb.LinearConstraint:
    total = mb.LinearExpr.weighted_sum([taken[j] for j in row.columns], [float(share) for share in row.shares])
    least, most = (-inf if row.least is None else row.least), (inf if row.most is None else row.most)
    return model.add_linear_constraint(total, least, most)


def _height(model: mb.Model, whole: Master, aim: Aim, taken: Sequence[mb.Variable]) -> list[mb.LinearConstraint]:
    """The height's rows and what is made small."""
    rows = []
    loads = aim.all_up2(whole.columns)
    height = model.new_num_var(0, 100_000, "") if aim.highest_mm is None else None
    for n, (mass, moment) in enumerate(zip(aim.mass_g, aim.moment, strict=True)):
        total = mb.LinearExpr.weighted_sum(taken, loads[:, n].tolist())
        if height is not None:
            rows.append(model.add(total - 2 * mass * height <= -2 * moment))
        else:
            rows.append(model.add(total <= 2 * ((aim.highest_mm or 0.0) * mass - moment)))
    if height is not None:
        model.minimize(height)
    else:
        model.minimize(mb.LinearExpr.weighted_sum(taken, [-aim.worth(column) for column in whole.columns]))
    return rows
