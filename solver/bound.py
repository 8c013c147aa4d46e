"""A height that no layout of a set of things can beat: spaces cut into levels, things poured in by footprint.

Each kind of thing takes places (room, height of its box, level of its bottom). At every level the footprints that
certainly cross it fit on the floor; spaces, racks and the rear axle hold; pairs that may not ride together share no
space. Support, access and the exact lie of things are left out, so the answer is a bound for every lawful layout.
"""

import time
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from ortools.linear_solver.python import model_builder as mb

from solver.levels import Levels
from solver.problem import Problem

MOST_ROUNDS = 6
"""Rounds of cuts."""
SAFETY_MM = 1e-3
"""Taken off the bound for the rounding of the linear solver in mm."""


@dataclass(frozen=True)
class Bound:
    """A proven bound on the height at the highest driving stage in mm; None when there was no time for one."""

    height_mm: float | None
    shares: Mapping[tuple[int, int], float] = field(default_factory=dict)
    """By kind and room: the share of its copies that the relaxed answer puts there; what is not named is 0."""


def height_bound(problem: Problem, carried: frozenset[int], seconds: float) -> Bound:
    """The bound for a set of pieces: the linear form, made sharper by cuts as long as time allows."""
    ends = time.monotonic() + seconds
    build = Levels(problem, [problem.pieces[i] for i in sorted(carried)], mb.Model(), ends)  # type: ignore[no-untyped-call]
    try:
        build.all()
    except TimeoutError:
        return Bound(None)
    best, values = None, None
    for _ in range(MOST_ROUNDS):
        left = ends - time.monotonic()
        if left <= 0:
            break
        solver = _solve(build.model, max(0.05, left))
        if solver is None:
            break
        best = solver.objective_value - SAFETY_MM
        values = np.array([solver.value(v) for v in build.integers])
        if left < 0.2 or not build.sharpen(values):
            break
    return Bound(best) if values is None else Bound(best, build.shares(values))


def _solve(model: mb.Model, seconds: float) -> mb.Solver | None:
    """A solver that has solved the linear form to the end, or None."""
    solver = mb.Solver("GLOP")
    solver.set_time_limit_in_seconds(seconds)
    return solver if solver.solve(model) == mb.SolveStatus.OPTIMAL else None
