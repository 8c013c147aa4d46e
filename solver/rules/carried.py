"""carried: every must copy comes, and what comes has its companions."""

from solver.blocks import Literal, opposite
from solver.build import Build
from solver.pieces import Piece


def add(build: Build) -> None:
    """What must come comes; companions come along; all copies or none where asked."""
    for piece in build.free:
        if piece.thing.must:
            build.hold(build.carried(piece))
        for name in piece.thing.with_:
            build.clause(opposite(build.carried(piece)), *_copies(build, name))
        if piece.thing.all_or_none and not piece.thing.must:
            _all_or_none(build, piece)


def _copies(build: Build, name: str) -> list[Literal]:
    return [build.carried(piece) for piece in build.problem.pieces if piece.thing.name == name]


def _all_or_none(build: Build, piece: Piece) -> None:
    for copy in _copies(build, piece.thing.name):
        build.clause(opposite(build.carried(piece)), copy)
        build.clause(build.carried(piece), opposite(copy))
