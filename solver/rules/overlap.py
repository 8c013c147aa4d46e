"""overlap: no two pieces share room, none stands in another's air, and slides run free."""

from solver.blocks import Body, Literal, fixed_block, opposite
from solver.build import Build
from solver.drawers import ways_around, ways_barred
from solver.hosts import held_by


def add(build: Build) -> None:
    """Part every pair that is in one room, and keep the ways of slides and of drawers in things empty."""
    parted(build)
    for body in build.moving:
        for index, here in body.rooms.items():
            for number, way in enumerate(ways_barred(build.problem, body.piece, index)):
                block = fixed_block(f"drawer {index} {number} {build.problem.alike[body.piece.index]}", way)
                build.clause(opposite(here), *build.clear(body.box, block))
            for number, (way, inner) in enumerate(ways_around(build.problem, body.piece, index)):
                block = fixed_block(f"drawer around {index} {number} {body.piece.index}", way)
                build.clause(opposite(here), _lies_around(build, body, inner), *build.clear(body.box, block))


def _lies_around(build: Build, body: Body, inner: int) -> Literal:
    """True only where a body lies around a room that is part of it."""
    piece, room = body.piece, build.problem.rooms[inner]
    name = ("around", piece.index, inner)
    made = build.knows(name)
    flag = build.flag(name, lambda s: piece.index in s.at and held_by(s.at[piece.index], room))
    if not made:
        for axis in range(3):
            build.when([flag], body.box.low[axis] <= room.low[axis])
            build.when([flag], body.box.high[axis] >= room.high[axis])
    return flag


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
