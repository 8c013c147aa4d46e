"""incident: static exclusions copy by copy; against fire one from a belted seat and another from outside."""

from models.rules import Rule
from solver.blocks import Literal, opposite
from solver.build import Build
from solver.exclusions import exclude
from solver.pieces import Piece


def add(build: Build) -> None:
    """Exclusions, and two rooms against fire. That nothing lies on or before such a thing is rule `reach`."""
    exclude(build, Rule.INCIDENT)
    things = [p for p in _known(build) if "fire" in p.thing.needed_when]
    if things:
        _fire(build, things)


def _known(build: Build) -> list[Piece]:
    return [*build.free, *(build.problem.pieces[index] for index in sorted(build.fixed.at))]


def _fire(build: Build, things: list[Piece]) -> None:
    problem = build.problem
    in_hand = [piece for piece in things if not piece.beyond_fire]
    belted = {r: _used(build, in_hand, r, "belt") for r, good in enumerate(problem.fire_belted) if good}
    outside = {r: _used(build, in_hand, r, "outside") for r, good in enumerate(problem.fire_outside) if good}
    for piece in things:
        build.clause(opposite(build.carried(piece)), *belted.values())
        build.clause(opposite(build.carried(piece)), *outside.values())
    for room, flag in belted.items():
        others = [far for r, far in outside.items() if r != room]
        build.clause(opposite(flag), *others)


def _used(build: Build, things: list[Piece], room: int, way: str) -> Literal:
    """True only where one of the things is in a room, and the room was chosen for a way of reaching it."""
    flag = build.flag(("fire", way, room), lambda s: any(s.at[p.index].room == room for p in things if p.index in s.at))
    build.clause(opposite(flag), *(build.inside(piece, room) for piece in things))
    return flag
