"""One heavy thing brought to where a limit of the whole vehicle that is missed wants mass: forward, back or across."""

from itertools import islice
from random import Random

from solver.bring_down import cleared
from solver.geometry import spots
from solver.insert import open_to
from solver.limits import lean_g, over_g, room_on_axles
from solver.state import Lying, State

PLACES = 30
"""So many places in a room are looked at for the farthest, one for each height and shape."""
FORWARD, BACK = (0, -1), (0, 1)
"""Axis, and the sign of the way along it."""
WAYS = {"front share": FORWARD, "rear axle": FORWARD, "front axle": BACK}

Way = tuple[int, int]


def brought_over(state: State, random: Random) -> bool:
    """Put one thing into a room where it helps what is missed the most; False where nothing came of it.

    The state is changed; what made way is left out of it. Drawn by how much of the moment could go over.
    """
    way = missed_way(state)
    drawn = None if way is None else _drawn(state, way, random)
    if way is None or drawn is None:
        return False
    piece, room = drawn
    return cleared(state, piece, room, random) and _put_far(state, piece, room, way, random)


def _put_far(state: State, piece: int, room: int, way: Way, random: Random) -> bool:
    """Put a piece at the farthest that way of its lowest places in a room."""
    problem, it = state.problem, state.problem.pieces[piece]
    if not open_to(state, it, room):
        return False
    axis, sign = way
    rank = (sign > 0) << axis | random.randrange(2) << 1 - axis
    found = islice(spots(state, it, problem.rooms[room], problem.fits[piece][room], rank), PLACES)
    far = sorted(found, key=lambda one: -sign * (one.box[axis] + one.box[axis + 3]))
    lies = next((one for one in far if room_on_axles(state, it, one)), None)
    if lies is not None:
        state.add(lies)
    return lies is not None


def missed_way(state: State) -> Way | None:
    """Where mass has to go for the limit that is missed the most; None where no place helps."""
    over = ((grams, subject, t) for t in state.problem.driving for subject, grams in over_g(state, t))
    grams, subject, t = max(over, default=(0.0, "", 0))
    if grams <= 0:
        return None
    return (1, -1 if lean_g(state, t) > 0 else 1) if subject == "side" else WAYS.get(subject)


def _drawn(state: State, way: Way, random: Random) -> tuple[int, int] | None:
    """A piece that is not locked and a room in which it could lie farther that way."""
    fits = state.problem.fits
    free = [it for it in state.at.values() if it.piece not in state.locked]
    able = ((it, room) for it in free for room in fits[it.piece])
    gains = {(it.piece, room): gain for it, room in able if (gain := _over(state, it, room, way)) > 0}
    return random.choices(list(gains), list(gains.values()))[0] if gains else None


def _over(state: State, it: Lying, room: int, way: Way) -> int:
    """Grams times half millimetres that a piece could go over in a room; 0 or less where it could not."""
    axis, sign = way
    piece, walls = state.problem.pieces[it.piece], state.problem.rooms[room]
    side = min(piece.shapes[shape].size[axis] for shape in state.problem.fits[it.piece][room].shapes)
    farthest2 = 2 * walls.high[axis] - side if sign > 0 else 2 * walls.low[axis] + side
    return piece.heaviest_g * sign * (farthest2 - it.box[axis] - it.box[axis + 3])
