"""inside: within the walls of a room that takes it, clear of its solids, in a shape that it may have."""

from models.rules import Rule
from solver.blocks import Body, fixed_block, opposite
from solver.build import Build
from solver.exclusions import exclude
from solver.hosts import held_by
from solver.pieces import Room


def add(build: Build) -> None:
    """Walls, solids, words, and rooms that exist only with the thing that they are part of."""
    exclude(build, Rule.INSIDE)
    walls(build)
    for index in build.problem.host:
        _host(build, index)


def walls(build: Build) -> None:
    """What one room asks by itself, wherever the thing is that it may be part of: walls and solids."""
    for body in build.moving:
        for index in body.rooms:
            _walls(build, body, build.problem.rooms[index])
            _solids(build, body, build.problem.rooms[index])


def _walls(build: Build, body: Body, room: Room) -> None:
    here = body.rooms[room.index]
    for axis in range(3):
        build.when([here], body.big.low[axis] >= room.low[axis])
        build.when([here], body.big.high[axis] <= room.high[axis])
    for number, shape in enumerate(body.piece.shapes):
        if any(shape.size[k] + shape.before[k] + shape.behind[k] > room.size[k] for k in range(3)):
            build.clause(opposite(here), opposite(build.form(body.piece, number)))


def _solids(build: Build, body: Body, room: Room) -> None:
    for number, solid in enumerate(room.solids):
        block = fixed_block(f"solid {room.index} {number}", solid)
        build.clause(opposite(body.rooms[room.index]), *build.clear(body.big, block))


def _host(build: Build, index: int) -> None:
    room, host = build.problem.rooms[index], build.problem.pieces[build.problem.host[index]]
    users = [build.inside(body.piece, index) for body in build.moving if index in body.rooms]
    users += [True for _ in build.fixed.inside[index]]
    if host in build.free:
        box = build.body(host).box
        for here in users:
            build.clause(opposite(here), build.carried(host))
            for axis in range(3):
                build.when([here], box.low[axis] <= room.low[axis])
                build.when([here], box.high[axis] >= room.high[axis])
        return
    it = build.fixed.at.get(host.index)
    if it is None or not held_by(it, room):
        for here in users:
            build.clause(opposite(here))
