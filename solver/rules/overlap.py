"""overlap: no two pieces share room, none stands in another's air, and slides run free."""

from solver.blocks import Body, fixed_block, opposite
from solver.build import Build


def add(build: Build) -> None:
    """Part every pair that is in one room, and keep the ways of slides and of drawers in things empty."""
    parted(build)
    for body in build.moving:
        for index, here in body.rooms.items():
            for number, way in enumerate(build.problem.drawn_through(body.piece, index)):
                block = fixed_block(f"drawer {index} {number} {body.piece.kind}", way)
                build.clause(opposite(here), *build.clear(body.box, block))


def parted(build: Build) -> None:
    """What one room asks whatever else comes: pairs, and the ways of spaces of the vehicle that slide."""
    for one, other in build.pairs():
        apart = opposite(build.together(one, other))
        build.clause(apart, *build.clear(one.big, other.box))
        if other.airy:
            build.clause(apart, *build.clear(one.box, other.big))
    for body in build.moving:
        _slides(build, body)


def _slides(build: Build, body: Body) -> None:
    for index, here in body.rooms.items():
        for number, way in enumerate(build.problem.rooms[index].keep_out):
            block = fixed_block(f"way {index} {number}", way)
            build.clause(opposite(here), *build.clear(body.box, block))
