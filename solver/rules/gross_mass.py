"""gross_mass: the total, and vehicle with trailer, within their limits at every driving stage."""

from solver.build import Build
from solver.lanes import lane
from solver.rows import at_most, mass_g


def add(build: Build) -> None:
    """One row a driving stage; the ball alone is told before any search."""
    for t in build.problem.driving:
        limit = build.problem.constants.stages[t].gross_left_g
        if limit is not None:
            load = mass_g(build, lambda piece, t=t: piece.most_g[t])  # type: ignore[misc]
            at_most(build, load, limit - lane(build.fixed.sums.most_g, t))
