"""restraint: enclosed, behind a barrier, in a holder or tied; tops below the barrier's and the seat backs'."""

from models.rules import Rule
from solver.build import Build
from solver.exclusions import exclude
from solver.heights import highest_top
from solver.lanes import lane
from solver.pieces import Piece, Room
from solver.rows import at_most, inside_g
from solver.state import is_tied, tied_lanes


def add(build: Build) -> None:
    """Exclusions, tops, and what the tie-downs of each room hold."""
    exclude(build, Rule.RESTRAINT)
    for body in build.moving:
        for index, here in body.rooms.items():
            highest = highest_top(build.problem.case, body.piece.thing, build.problem.rooms[index].space)
            if highest is not None:
                build.when([here], body.box.high[2] <= highest)
    for index in build.rooms:
        _ties(build, build.problem.rooms[index])


def _ties(build: Build, room: Room) -> None:
    if room.tied_g is None:
        return
    for t in range(len(build.problem.stages)):
        tied = inside_g(build, room.index, lambda piece, t=t: _tied_g(piece, room, t))  # type: ignore[misc]
        at_most(build, tied, room.tied_g - lane(build.fixed.sums.tied_g[room.index], t))


def _tied_g(piece: Piece, room: Room, t: int) -> int:
    """Grams that a piece asks of the tie-downs at a stage (`state.tied_lanes`)."""
    return lane(tied_lanes(piece, room), t) if is_tied(piece, room) else 0
