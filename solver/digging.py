"""What must be moved before a piece in a room comes to hand, and whether all of it still does in time."""

from collections.abc import Sequence
from math import inf

from solver.state import Lying, State

FACES = {"front": (0, -1), "rear": (0, 1), "left": (1, -1), "right": (1, 1), "top": (2, 1)}
"""Axis and direction of the face through which a space is reached."""

Ahead = dict[int, list[Lying]]
"""By piece: what must be moved directly before it."""


def in_reach(state: State, it: Lying) -> bool:
    """Whether everything in the room, the new piece included, is still in hand in time."""
    problem = state.problem
    everything = [*(o for o in state.inside[it.room] if o.piece != it.piece), it]
    whole_s = sum([problem.pieces[o.piece].handling_s for o in everything])
    ahead: Ahead = {}
    for o in everything:
        piece = problem.pieces[o.piece]
        here, known = (everything, ahead) if piece.wanted.minds_all else (minded(state, everything, o), Ahead())
        slack = problem.fits[o.piece][o.room].dig_s if o.room in problem.fits[o.piece] else inf
        if slack < whole_s - piece.handling_s and dig_seconds(state, here, o, slack, known) > slack:
            return False
        if piece.kept_free and _ahead_of(state, here, o, known):
            return False
    return True


def minded(state: State, everything: Sequence[Lying], it: Lying) -> list[Lying]:
    """A piece, and of some others those that are there at a stage at which they may be in its way."""
    pieces = state.problem.pieces
    return [o for o in everything if o.piece == it.piece or pieces[it.piece].minds(pieces[o.piece])]


def in_front(state: State, everything: Sequence[Lying], it: Lying) -> list[Lying]:
    """What must be moved directly before a piece: in its way out through the face, or resting on it."""
    room = state.problem.rooms[it.room]
    axis, way = FACES[room.space.face]
    # Written out, as this is asked of each in a full room again and again.
    ax, ay, az, bx, by, bz = it.box
    low, high = [ax, ay, az], [bx, by, bz]
    if way > 0:
        high[axis] = room.high[axis]
    else:
        low[axis] = room.low[axis]
    (px, py, pz), (qx, qy, qz) = low, high
    return [
        o
        for o in everything
        for cx, cy, cz, dx, dy, dz in (o.box,)
        if (
            (px < dx and cx < qx and py < dy and cy < qy and pz < dz and cz < qz)
            or (cz == bz and ax < dx and cx < bx and ay < dy and cy < by)
        )
        and o.piece != it.piece
    ]


def dig_seconds(
    state: State, everything: Sequence[Lying], it: Lying, stop_above: float = inf, ahead: Ahead | None = None
) -> float:
    """Seconds to move all that must be moved before a piece, each once; `ahead` is kept from one to the next."""
    pieces, known = state.problem.pieces, {} if ahead is None else ahead
    seen = {it.piece}
    waiting, seconds = [it], 0.0
    while waiting:
        for o in _ahead_of(state, everything, waiting.pop(), known):
            if o.piece not in seen:
                seen.add(o.piece)
                waiting.append(o)
                seconds += pieces[o.piece].handling_s
                if seconds > stop_above:
                    return seconds
    return seconds


def _ahead_of(state: State, everything: Sequence[Lying], it: Lying, ahead: Ahead) -> list[Lying]:
    found = ahead.get(it.piece)
    if found is None:
        found = ahead[it.piece] = in_front(state, everything, it)
    return found
