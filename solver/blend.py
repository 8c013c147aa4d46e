"""Which tolls to try next: a view of the bound from above, made of the fillings seen, trusted near the best tolls."""

import numpy as np

from solver.fillings import Filling
from solver.levels import Tolls
from solver.library import model_builder as mb
from solver.links import Links

MOST_MM = 1e5
"""No height and no worth comes near this."""
STAGES_A_REACH = 0.02
"""By how much the share of a stage may change where heights are trusted to a millimetre."""


class Blend:
    """Fillings seen so far: each says that its room comes to no more than it does."""

    def __init__(self, links: Links, rooms: list[int]) -> None:
        """`rooms`: the room of every number in the list of rooms."""
        self.links, self.rooms = links, rooms
        self.model = mb.Model()  # type: ignore[no-untyped-call]
        new = self.model.new_num_var
        self.copies = {kind: new(-MOST_MM, MOST_MM, "") for kind in links.copies}
        self.stages = [new(0, 1, "") for _ in links.still_mm]
        self.loads = [new(0, MOST_MM, "") for _ in links.loads]
        self.least = [new(-MOST_MM, 0, "") for _ in rooms]
        self.model.add(sum(self.stages) == 1)
        gain = sum(n * self.copies[kind] for kind, n in links.copies.items())
        gain += sum(mm * v for mm, v in zip(links.still_mm.tolist(), self.stages, strict=True))
        gain -= sum(limit * v for (_, limit), v in zip(links.loads, self.loads, strict=True))
        self.model.maximize(gain + sum(self.least))
        self.seen: set[tuple[object, ...]] = set()

    def add(self, filling: Filling) -> None:
        """One more filling."""
        if filling.name in self.seen or not filling.copies:
            return
        self.seen.add(filling.name)
        room = self.rooms[filling.room]
        terms = [mm * v for mm, v in zip(filling.lift_mm.tolist(), self.stages, strict=True)]
        terms += [-n * self.copies[kind] for kind, n in filling.copies.items()]
        for (shares, _), toll in zip(self.links.loads, self.loads, strict=True):
            share = sum(shares.get((kind, room), 0.0) * n for kind, n in filling.copies.items())
            if share:
                terms.append(share * toll)
        self.model.add(self.least[filling.room] - sum(terms) <= 0)

    def next(self, near: Tolls, reach_mm: float, seconds: float) -> tuple[float, Tolls] | None:
        """The most in mm that the bound can be near some tolls, as far as seen, and where; None when time ran out.

        `reach_mm`: by how much the height of each thing may be thought better or worse.
        """
        for kind, variable in self.copies.items():
            _within(variable, near.copies[kind], reach_mm * self.links.scale[kind], -MOST_MM)
        for stage, share in zip(self.stages, near.stages.tolist(), strict=True):
            _within(stage, share, reach_mm * STAGES_A_REACH, most=1.0)
        for load, toll in zip(self.loads, near.loads.tolist(), strict=True):
            _within(load, toll, reach_mm * self.links.scale_of_loads)
        solver = mb.Solver("GLOP")
        solver.set_time_limit_in_seconds(seconds)
        if solver.solve(self.model) != mb.SolveStatus.OPTIMAL:
            return None
        stages = np.array([max(0.0, solver.value(v)) for v in self.stages])
        loads = np.array([max(0.0, solver.value(v)) for v in self.loads])
        copies = {kind: float(solver.value(v)) for kind, v in self.copies.items()}
        return solver.objective_value, Tolls(copies, stages / stages.sum(), loads)


def _within(variable: mb.Variable, middle: float, reach: float, least: float = 0.0, most: float = MOST_MM) -> None:
    """Keep a variable near a value, and between what its meaning allows."""
    variable.lower_bound = max(least, middle - reach)
    variable.upper_bound = min(most, middle + reach)
