"""incident: static exclusions copy by copy; against fire one from a belted seat and another from outside."""

from models.rules import Rule
from solver.blocks import Literal, opposite
from solver.build import Build
from solver.exclusions import exclude
from solver.pieces import Piece


def add(build: Build) -> None:
    """Exclusions, and two copies against fire. That nothing lies on or before such a thing is rule `reach`."""
    exclude(build, Rule.INCIDENT)
    things = [p for p in _known(build) if "fire" in p.thing.needed_when]
    if things:
        _fire(build, things)


def _known(build: Build) -> list[Piece]:
    return [*build.free, *(build.problem.pieces[index] for index in sorted(build.fixed.at))]


def _fire(build: Build, things: list[Piece]) -> None:
    """Where any is carried: one at a belted seat, one outside, two copies of these, and not all in one room."""
    problem = build.problem
    in_hand = [piece for piece in things if not piece.beyond_fire]
    belted = [room for room, good in enumerate(problem.fire_belted) if good]
    outside = [room for room, good in enumerate(problem.fire_outside) if good]
    either = sorted({*belted, *outside})
    used = {room: _used(build, things, room) for room in range(len(problem.rooms))}
    for piece in things:
        absent = opposite(build.carried(piece))
        others = [other for other in in_hand if other is not piece]
        for near, rooms in ((in_hand, belted), (in_hand, outside), (others, either)):
            build.clause(absent, *(build.inside(one, room) for one in near for room in rooms))
        for room in used:
            elsewhere = (flag for other, flag in used.items() if other != room)
            build.clause(opposite(build.inside(piece, room)), *elsewhere)


def _used(build: Build, things: list[Piece], room: int) -> Literal:
    """True only where one of the things is in a room."""
    inside = [build.inside(piece, room) for piece in things]
    if all(one is False for one in inside):
        return False
    flag = build.flag(("fire", room), lambda s: any(s.at[p.index].room == room for p in things if p.index in s.at))
    build.clause(opposite(flag), *inside)
    return flag
