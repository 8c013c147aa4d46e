"""axle: each axle with its reserve within its limit, and enough of the mass on the front wheels.

Moments are in grams times half millimetres: a middle may lie on half a millimetre.
"""

from collections.abc import Callable
from math import floor

from solver.blocks import Expr
from solver.build import Build
from solver.lanes import lane
from solver.pieces import Piece
from solver.rows import at_most
from solver.state import State

FAR2_MM = 400_000
"""Half millimetres: twice as far as any place in a file may be."""


def add(build: Build) -> None:
    """Three rows a driving stage."""
    whole = build.problem.constants
    for t in build.problem.driving:
        stage = whole.stages[t]
        if stage.rear_left is not None:
            load = sum(_rear(build, piece, t) for piece in build.free)
            at_most(build, load, 2 * stage.rear_left - lane(build.fixed.sums.rear, t))
        if stage.front_left is not None:
            front = sum(_front(build, piece, t) for piece in build.free)
            at_most(build, front, 2 * stage.front_left - lane(build.fixed.sums.front, t))
        if whole.axles_known:
            _share(build, t)


def _front(build: Build, piece: Piece, t: int) -> Expr:
    """Moment about the rear axle: with the least mass for what hangs behind it, with the most for all else."""
    base2 = 2 * build.problem.constants.wheelbase
    ahead = base2 * build.carried(piece) - build.middle2(piece, 0)
    return _worst(build, f"front {piece.index} {t}", piece, t, ahead, lambda middle2: base2 - middle2)


def _rear(build: Build, piece: Piece, t: int) -> Expr:
    """Moment about the front axle: with the least mass for what lies ahead of it, with the most for all else."""
    behind = build.middle2(piece, 0)
    if all(build.problem.rooms[room].low[0] >= 0 for room in build.problem.fits[piece.index]):
        return piece.most_g[t] * behind
    return _worst(build, f"rear {piece.index} {t}", piece, t, behind, lambda middle2: middle2)


def _worst(build: Build, name: str, piece: Piece, t: int, lever: Expr, lever_at: Callable[[int], int]) -> Expr:
    """A mass between its least and its most times a lever, at the worse end; `lever_at` twice a middle, where it is."""
    most, least = piece.most_g[t], piece.least_g[t]
    if most == least:
        return most * lever

    def meaning(state: State) -> int:
        it = state.at.get(piece.index)
        arm = 0 if it is None else lever_at(it.box[0] + it.box[3])
        return max(most * arm, least * arm)

    worst = build.number(name, (-most * FAR2_MM, most * FAR2_MM), meaning)
    build.when((), worst >= most * lever)
    build.when((), worst >= least * lever)
    return worst


def _share(build: Build, t: int) -> None:
    """The front axle's share: 2·L·(1 − share)·mass − moment stays above what the vehicle itself lacks."""
    whole, sums = build.problem.constants, build.fixed.sums
    stage, base2 = whole.stages[t], 2 * whole.wheelbase
    behind = build.problem.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
    rounding = len(build.problem.pieces)
    per_gram = base2 * (1 - whole.front_share)
    still = per_gram * (stage.mass_g + lane(sums.likely_g, t)) - 2 * stage.moment[0] - lane(sums.likely_x, t)
    still -= stage.ball_g * (2 * behind + base2 * whole.front_share) + rounding * base2
    free = sum(
        piece.likely_g[t] * build.middle2(piece, 0) - floor(per_gram * piece.likely_g[t]) * build.carried(piece)
        for piece in build.free
    )
    at_most(build, free, floor(still))
