"""space_mass: what is in a room is within its limit at every stage."""

from solver.build import Build
from solver.lanes import lane
from solver.rows import at_most, inside_g


def add(build: Build) -> None:
    """One row a room and a stage."""
    for index in build.rooms:
        limit = build.problem.rooms[index].limit_g
        if limit is None:
            continue
        for t in range(len(build.problem.stages)):
            load = inside_g(build, index, lambda piece, t=t: piece.most_g[t])  # type: ignore[misc]
            at_most(build, load, limit - lane(build.fixed.sums.room_g[index], t))
