"""balance: left wheels against right at every driving stage."""

from math import floor

from solver.build import Build
from solver.lanes import lane
from solver.rows import at_most


def add(build: Build) -> None:
    """Two rows a driving stage: |2·(moment of the vehicle) + moment of the load| ≤ track · (share · mass)."""
    whole, sums = build.problem.constants, build.fixed.sums
    rounding = len(build.problem.pieces)
    per_gram = whole.track * whole.side_share
    for t in build.problem.driving:
        stage = whole.stages[t]
        allowed = per_gram * (stage.mass_g + lane(sums.likely_g, t)) - whole.track * rounding
        still = 2 * stage.moment[1] + lane(sums.likely_y, t)
        for way in (1, -1):
            load = sum(
                way * piece.likely_g[t] * build.middle2(piece, 1)
                - floor(per_gram * piece.likely_g[t]) * build.carried(piece)
                for piece in build.free
            )
            at_most(build, load, floor(allowed - way * still))
