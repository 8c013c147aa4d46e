"""rack: all that hangs on a rack is within its limit for the ground at every stage."""

from solver.build import Build
from solver.lanes import lane
from solver.rows import at_most, inside_g


def add(build: Build) -> None:
    """One row a rack and a stage."""
    problem = build.problem
    for bearer, loading in enumerate(problem.rooms_on):
        rooms = [index for index in build.rooms if index in loading]
        for t, stage in enumerate(problem.constants.stages):
            limit = stage.bearers_left_g[bearer]
            if limit is not None and rooms:
                load = sum(inside_g(build, r, lambda piece, t=t: piece.most_g[t]) for r in rooms)  # type: ignore[misc]
                at_most(build, load, limit - lane(build.fixed.sums.bearer_g[bearer], t))
