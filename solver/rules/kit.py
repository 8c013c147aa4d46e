"""kit: things of a kit that are marked together are in one room."""

from collections.abc import Sequence

from solver.blocks import opposite
from solver.build import Build
from solver.exclusions import rooms_of
from solver.pieces import Piece


def add(build: Build) -> None:
    """No two pieces of such a kit in two rooms."""
    known = [*build.free, *(build.problem.pieces[index] for index in sorted(build.fixed.at))]
    kits: dict[str, list[Piece]] = {}
    for piece in known:
        if piece.thing.together and piece.thing.kit:
            kits.setdefault(piece.thing.kit, []).append(piece)
    for pieces in kits.values():
        _together(build, pieces)


def _together(build: Build, pieces: Sequence[Piece]) -> None:
    for one in pieces:
        for other in pieces:
            if one.index != other.index:
                for room in rooms_of(build, one):
                    here = build.inside(one, room)
                    build.clause(opposite(here), opposite(build.carried(other)), build.inside(other, room))
