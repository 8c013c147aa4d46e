"""spread: copies are in as many rooms as asked."""

from collections.abc import Callable

from solver.blocks import opposite
from solver.build import Build
from solver.exclusions import rooms_of
from solver.pieces import Piece
from solver.state import State


def add(build: Build) -> None:
    """Count the rooms in use for every kind of which a copy comes."""
    kinds = sorted({piece.kind for piece in build.free if piece.thing.spread > 1})
    for kind in kinds:
        _spread(build, kind)


def _spread(build: Build, kind: int) -> None:
    still = [build.problem.pieces[index] for index in sorted(build.fixed.at)]
    copies = [piece for piece in (*build.free, *still) if piece.kind == kind]
    rooms = sorted({room for piece in copies for room in rooms_of(build, piece)})
    used = []
    for room in rooms:
        flag = build.flag(("spread", kind, room), _used_in(copies, room))
        build.clause(opposite(flag), *(build.inside(piece, room) for piece in copies))
        used.append(flag)
    for piece in copies:
        build.when([build.carried(piece)], sum(used) >= piece.thing.spread)


def _used_in(copies: list[Piece], room: int) -> Callable[[State], bool]:
    return lambda state: any(state.at[p.index].room == room for p in copies if p.index in state.at)
