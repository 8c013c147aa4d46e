"""Where a piece can lie in a room: clear of all others, held up, and in nobody's way."""

from collections.abc import Iterator

from solver.problem import Fit, Piece, Room
from solver.state import Lying, Six, State, lying

FACES = {"front": (0, -1), "rear": (0, 1), "left": (1, -1), "right": (1, 1), "top": (2, 1)}
CONTACT_SHARE = (7, 10)
"""Share of the base that must stand on something: 7 of 10 (rule `support`)."""


def meet(a: Six, b: Six) -> bool:
    """Whether two boxes share room."""
    return a[0] < b[3] and b[0] < a[3] and a[1] < b[4] and b[1] < a[4] and a[2] < b[5] and b[2] < a[5]


def spots(state: State, piece: Piece, room: Room, fit: Fit, rank: int = 0) -> Iterator[Lying]:
    """Places in a room by rising centre of mass; `rank` turns the order of corners at one height."""
    others = state.inside[room.index]
    levels = {max(room.low[2], fit.least_z)} if fit.least_z > room.low[2] else {room.low[2]}
    levels.update(it.box[5] for it in others if state.problem.pieces[it.piece].bears_g != 0)
    levels.update(solid[5] for solid in room.solids)
    options = []
    for index in fit.shapes:
        shape = piece.shapes[index]
        for level in levels:
            z = level + (shape.before[2] if level == room.low[2] and not shape.before[2] else 0)
            if (
                z >= fit.least_z
                and z + shape.size[2] + shape.behind[2] <= room.high[2]
                and z + shape.size[2] <= fit.greatest_top
            ):
                options.append((2 * z + shape.size[2], -shape.size[0] * shape.size[1], index, z))
    for _, _, index, z in sorted(options):
        found = _first_at(state, piece, room, index, z, rank)
        if found is not None:
            yield found


def _first_at(state: State, piece: Piece, room: Room, index: int, z: int, rank: int) -> Lying | None:
    shape = piece.shapes[index]
    (sx, sy, sz), (ax, ay, az), (bx, by, bz) = shape.size, shape.before, shape.behind
    low, high = z - az, z + sz + bz
    near = [it for it in state.inside[room.index] if it.big[2] < high and low < it.big[5]]
    blocks = [it.big for it in near]
    blocks += [b for b in (*room.solids, *room.keep_out) if b[2] < high and low < b[5]]  # type: ignore[misc]
    floor = [it.box for it in state.inside[room.index] if it.box[5] == z] if z > room.low[2] else []
    floor += [b for b in room.solids if b[5] == z]  # type: ignore[misc]
    xs = {room.low[0] + ax, room.high[0] - sx - bx}
    ys = {room.low[1] + ay, room.high[1] - sy - by}
    for b in blocks:
        xs.update((b[3] + ax, b[0] - sx - bx))
        ys.update((b[4] + ay, b[1] - sy - by))
    for b in floor:
        xs.update((b[0], b[3] - sx))
        ys.update((b[1], b[4] - sy))
    good_x = [x for x in xs if room.low[0] + ax <= x <= room.high[0] - sx - bx]
    good_y = [y for y in ys if room.low[1] + ay <= y <= room.high[1] - sy - by]
    for x in sorted(good_x, reverse=bool(rank & 1)):
        for y in sorted(good_y, reverse=bool(rank & 2)):
            big = (x - ax, y - ay, low, x + sx + bx, y + sy + by, high)
            if any(b[0] < big[3] and big[0] < b[3] and b[1] < big[4] and big[1] < b[4] for b in blocks):
                continue
            it = lying(state.problem, piece.index, room.index, index, x, y, z)
            if allowed(state, it):
                return it
    return None


def allowed(state: State, it: Lying) -> bool:
    """Whether a piece may lie there: clear, held up, bearing within limits, nothing quick buried."""
    return clear(state, it) and held_up(state, it) and in_reach(state, it)


def clear(state: State, it: Lying) -> bool:
    """Whether no box meets another, air gaps included."""
    room = state.problem.rooms[it.room]
    for block in (*room.solids, *room.keep_out):
        if meet(it.big, block):  # type: ignore[arg-type]
            return False
    return not any(meet(it.box, o.big) or meet(it.big, o.box) for o in state.inside[it.room] if o.piece != it.piece)


def contact(above: Six, below: Six) -> int:
    """Area in mm² of one box on another, 0 when their levels differ."""
    if above[2] != below[5]:
        return 0
    x = min(above[3], below[3]) - max(above[0], below[0])
    y = min(above[4], below[4]) - max(above[1], below[1])
    return x * y if x > 0 and y > 0 else 0


def held_up(state: State, it: Lying) -> bool:
    """Whether it stands on enough, its centre over something, and everything under it bears it."""
    room, pieces = state.problem.rooms[it.room], state.problem.pieces
    below = [o for o in state.inside[it.room] if o.piece != it.piece and contact(it.box, o.box)]
    if any(pieces[o.piece].bears_g == 0 for o in below):
        return False
    if it.box[2] != room.low[2]:
        solids = [s for s in room.solids if contact(it.box, s)]  # type: ignore[arg-type]
        if not _stands(it.box, [o.box for o in below] + solids):  # type: ignore[operator]
            return False
    return all(bears(state, o, it) for o in below)


def _stands(own: Six, under: list[Six]) -> bool:
    area = (own[3] - own[0]) * (own[4] - own[1])
    if sum(contact(own, b) for b in under) * CONTACT_SHARE[1] < area * CONTACT_SHARE[0]:
        return False
    cx, cy = own[0] + own[3], own[1] + own[4]
    return any(2 * b[0] <= cx <= 2 * b[3] and 2 * b[1] <= cy <= 2 * b[4] for b in under)


def bears(state: State, below: Lying, extra: Lying) -> bool:
    """Whether a piece and all under it bear one more piece on top, at its heaviest."""
    pieces = state.problem.pieces
    limit = pieces[below.piece].bears_g
    if limit is not None and carried_g(state, below) + pieces[extra.piece].heaviest_g > limit:
        return False
    return all(
        bears(state, o, extra)
        for o in state.inside[below.room]
        if o.piece not in (below.piece, extra.piece) and contact(below.box, o.box)
    )


def carried_g(state: State, it: Lying) -> int:
    """Grams standing on a piece, each thing with all it carries counted whole, all at their heaviest."""
    total = 0
    for o in state.inside[it.room]:
        if o.piece != it.piece and contact(o.box, it.box):
            total += state.problem.pieces[o.piece].heaviest_g + carried_g(state, o)
    return total


def in_reach(state: State, it: Lying) -> bool:
    """Whether everything in the room, the new piece included, is still in hand in time."""
    problem = state.problem
    here = [o for o in state.inside[it.room] if o.piece != it.piece]
    everything = [*here, it]
    for o in everything:
        piece = problem.pieces[o.piece]
        slack = problem.fits[o.piece][o.room].dig_s if o.room in problem.fits[o.piece] else 1e9
        if slack >= 20 * len(everything):
            continue
        if dig_seconds(state, everything, o, stop_above=slack) > slack:
            return False
        if piece.nothing_first and in_front(state, everything, o):
            return False
    return True


def in_front(state: State, everything: list[Lying], it: Lying) -> list[Lying]:
    """What must be moved directly before a piece: in its way out through the face, or resting on it."""
    room = state.problem.rooms[it.room]
    axis, way = FACES[room.space.face]
    low, high = list(it.box[:3]), list(it.box[3:])
    if way > 0:
        high[axis] = room.high[axis]
    else:
        low[axis] = room.low[axis]
    path = (*low, *high)
    return [o for o in everything if o.piece != it.piece and (meet(path, o.box) or contact(o.box, it.box))]  # type: ignore[arg-type]


def dig_seconds(state: State, everything: list[Lying], it: Lying, stop_above: float = 1e9) -> float:
    """Seconds to move all that must be moved before a piece, each once."""
    pieces = state.problem.pieces
    seen = {it.piece}
    waiting, seconds = [it], 0.0
    while waiting:
        for o in in_front(state, everything, waiting.pop()):
            if o.piece not in seen:
                seen.add(o.piece)
                waiting.append(o)
                seconds += pieces[o.piece].handling_s
                if seconds > stop_above:
                    return seconds
    return seconds
