"""Where a piece can lie in a room: clear of all others, held up, and in nobody's way."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from models.geometry import Point
from solver.digging import in_reach
from solver.drawers import out_of_ways_around, ways_barred
from solver.pieces import Fit, Piece, Room, Six, meet
from solver.shapes import Shape
from solver.state import Lying, State, lying

MOST_REMEMBERED = 60_000
"""Contents of rooms remembered before all are forgotten, so that a long search keeps within memory."""
OPENED = 15
"""Corners that it counts to ask whether a room is open to a piece."""
TRIED = 40
"""Corners that it counts to gather what lies around one height."""
CONTACT_SHARE = (7, 10)
"""Share of the base that must stand on something: 7 of 10 (rule `support`)."""


def spots(state: State, piece: Piece, room: Room, fit: Fit, rank: int = 0, only: int | None = None) -> Iterator[Lying]:
    """Places in a room by rising centre of mass; `rank` turns the order of corners at one height.

    `only`: the one shape in which it may lie, where the room takes it so.
    """
    drawn = only if only in fit.shapes else None
    problem = state.problem
    key = (room.index, state.content[room.index], problem.alike[piece.index])
    levels = problem.levels.get(key)
    if levels is None:
        if len(problem.levels) >= MOST_REMEMBERED:
            problem.levels.clear()
            problem.remembered_s.clear()
        levels = problem.levels[key] = _levels(state, piece, room, fit)
        problem.work += TRIED
    problem.work += OPENED
    for level in list(levels):
        if drawn is not None and level[2] != drawn:
            continue
        found = _first_at(state, piece, room, level[2], level[3], rank)
        if found is not None:
            yield found
        elif state.content[room.index] == key[1]:
            levels.remove(level)


def _levels(state: State, piece: Piece, room: Room, fit: Fit) -> list[tuple[int, int, int, int]]:
    """Heights at which a piece may stand, the lowest centre first: twice its middle, -base, shape, bottom.

    Left out are heights at which too little of the floor is free, or too little is there to stand on.
    """
    pieces, floor = state.problem.pieces, room.low[2]
    wide = (room.high[0] - room.low[0]) * (room.high[1] - room.low[1])
    tops: dict[int, int] = {floor: wide}
    for solid in room.solids:
        tops[solid[5]] = tops.get(solid[5], 0) + (solid[3] - solid[0]) * (solid[4] - solid[1])
    here = []
    for it in state.inside[room.index]:
        box = it.box
        area = (box[3] - box[0]) * (box[4] - box[1])
        here.append((box, area))
        if pieces[it.piece].bears_g != 0:
            tops[box[5]] = tops.get(box[5], 0) + area
    options: list[tuple[int, int, int, int]] = []
    shapes = [(index, *piece.shapes[index].size, piece.shapes[index].behind[2]) for index in fit.shapes]
    sides = [(index, sx * sy, sz, min(room.high[2] - gap, fit.greatest_top) - sz) for index, sx, sy, sz, gap in shapes]
    least = min((base for _, base, _, _ in sides), default=0)
    for z, held in tops.items():
        if z < fit.least_z or least * CONTACT_SHARE[0] > held * CONTACT_SHARE[1]:
            continue
        free = wide - sum([area for box, area in here if box[2] <= z < box[5]])
        options += [
            (2 * z + sz, -base, index, z)
            for index, base, sz, highest in sides
            if z <= highest and base <= free and base * CONTACT_SHARE[0] <= held * CONTACT_SHARE[1]
        ]
    options.sort()
    return options


def _first_at(state: State, piece: Piece, room: Room, index: int, z: int, rank: int) -> Lying | None:
    """The first corner at a height, in the order that `rank` asks for, where a piece may lie."""
    shape = piece.shapes[index]
    (sx, sy, sz), (_, _, az), (_, _, bz) = shape.size, shape.before, shape.behind
    blocks, floor = _around(state, room, z, z - az, z + sz + bz)
    ways = [*room.keep_out, *ways_barred(state.problem, piece, room.index)]
    ways = [b for b in ways if b[2] < z + sz and z < b[5]]
    on_floor = z == room.low[2]
    state.problem.work += TRIED + (1 + len(blocks) + len(ways)) ** 2
    if not on_floor and not floor:
        return None
    barred, (least_x, least_y), (most_x, most_y) = barred_corners(room.low, room.high, blocks, shape)
    barred += [(b[0] - sx, b[3], b[1] - sy, b[4]) for b in ways]
    if not free_somewhere(barred, (least_x, least_y), (most_x, most_y)):
        return None
    starts_x, starts_y = {least_x, most_x}, {least_y, most_y}
    for left, right, near, far in barred:
        starts_x |= {left, right}
        starts_y |= {near, far}
    for b in floor:
        starts_x |= {b[0], b[3] - sx}
        starts_y |= {b[1], b[4] - sy}
    good_x = sorted([x for x in starts_x if least_x <= x <= most_x], reverse=bool(rank & 1))
    good_y = sorted([y for y in starts_y if least_y <= y <= most_y], reverse=bool(rank & 2))
    state.problem.work += 2 * len(good_x) + len(good_x) * len(good_y)
    for x, y in _free_corners(good_x, good_y, barred):
        if on_floor or stands((x, y, z, x + sx, y + sy, z + sz), floor):
            it = lying(state.problem, piece.index, room.index, index, x, y, z)
            # Clear of all others and on enough it is: the rest of `allowed`.
            if out_of_ways_around(state.problem, it) and borne(state, it) and in_reach(state, it):
                return it
    return None


Bar = tuple[int, int, int, int]
"""Between the first two along the vehicle and the last two across it, a corner would put a shape into a block."""


def barred_corners(
    low: Point, high: Point, blocks: list[Six], shape: Shape
) -> tuple[list[Bar], tuple[int, int], tuple[int, int]]:
    """What bars corners of a shape, and the least and the greatest corner within the walls."""
    (sx, sy, _), (ax, ay, _), (bx, by, _) = shape.size, shape.before, shape.behind
    length, width = sx + bx, sy + by
    barred = [(b[0] - length, b[3] + ax, b[1] - width, b[4] + ay) for b in blocks]
    return barred, (low[0] + ax, low[1] + ay), (high[0] - length, high[1] - width)


def _free_corners(
    starts_x: Iterable[int], starts_y: Collection[int], barred: Iterable[Bar]
) -> Iterator[tuple[int, int]]:
    """The corners at which a shape is clear of all blocks, row by row."""
    for x in starts_x:
        in_line = [(near, far) for left, right, near, far in barred if left < x < right]
        for y in starts_y:
            for near, far in in_line:
                if near < y < far:
                    break
            else:
                yield x, y


def free_somewhere(barred: list[Bar], least: tuple[int, int], most: tuple[int, int]) -> bool:
    """Whether a shape is clear of all blocks anywhere: if so, then also where it can be pushed no further."""
    if not barred:
        return least[0] <= most[0] and least[1] <= most[1]
    starts_x = [x for x in {least[0], *(right for _, right, _, _ in barred)} if x <= most[0]]
    starts_y = [y for y in {least[1], *(far for _, _, _, far in barred)} if y <= most[1]]
    return next(_free_corners(starts_x, starts_y, barred), None) is not None


def _around(state: State, room: Room, z: int, low: int, high: int) -> tuple[list[Six], list[Six]]:
    """Boxes that a piece between two heights, with its air, may not meet, and those with their tops at its bottom."""
    blocks, floor = [], []
    for it in state.inside[room.index]:
        if it.big[2] < high and low < it.big[5]:
            blocks.append(it.big)
        if it.box[5] == z:
            floor.append(it.box)
    blocks += [b for b in room.solids if b[2] < high and low < b[5]]
    floor += [b for b in room.solids if b[5] == z]
    return blocks, floor


def allowed(state: State, it: Lying) -> bool:
    """Whether a piece may lie there: clear, held up, bearing within limits, nothing quick buried."""
    return clear(state, it) and held_up(state, it) and in_reach(state, it)


def clear(state: State, it: Lying) -> bool:
    """Whether no box meets another, air gaps included; into the way of a slide air may reach."""
    problem, room = state.problem, state.problem.rooms[it.room]
    ways = (*room.keep_out, *ways_barred(problem, problem.pieces[it.piece], it.room))
    if any(meet(it.big, block) for block in room.solids) or any(meet(it.box, way) for way in ways):
        return False
    if not out_of_ways_around(problem, it):
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
    """Whether it stands on enough, its centre over something, and it and all under it bear what is on them."""
    return on_enough(state, it) and borne(state, it)


def on_enough(state: State, it: Lying) -> bool:
    """Whether enough of its base is on the floor, on a solid or on others, its centre over one of them."""
    room = state.problem.rooms[it.room]
    if it.box[2] == room.low[2]:
        return True
    return stands(it.box, [*(o.box for o in state.inside[it.room] if o.piece != it.piece), *room.solids])


def borne(state: State, it: Lying) -> bool:
    """Whether what is under it bears it, and it bears what it then touches from below where it is slid in."""
    pieces = state.problem.pieces
    others = [o for o in state.inside[it.room] if o.piece != it.piece]
    below = [o for o in others if contact(it.box, o.box)]
    if any(pieces[o.piece].bears_g == 0 for o in below):
        return False
    if pieces[it.piece].bears_g is None:
        if not below:
            return True
        limited = [o for o in under(below, others) if pieces[o.piece].bears_g is not None]
    else:
        limited = [it, *(o for o in under(below, others) if pieces[o.piece].bears_g is not None)]
    others.append(it)
    signs = state.problem.constants.signs
    return not any((pieces[o.piece].bears_lanes - carried_lanes(pieces, o, others)) & signs for o in limited)


def stands(own: Six, under: list[Six]) -> bool:
    """Whether enough of the base rests on boxes below, the middle over one of them."""
    area = (own[3] - own[0]) * (own[4] - own[1])
    under = [b for b in under if b[5] == own[2]]
    if sum(contact(own, b) for b in under) * CONTACT_SHARE[1] < area * CONTACT_SHARE[0]:
        return False
    cx, cy = own[0] + own[3], own[1] + own[4]
    return any(2 * b[0] <= cx <= 2 * b[3] and 2 * b[1] <= cy <= 2 * b[4] for b in under)


def under(below: list[Lying], others: list[Lying]) -> list[Lying]:
    """Some pieces and all of the others that they stand on, directly or through more of them, each once."""
    found = list(below)
    for one in found:
        box = one.box
        bottom = box[2]
        found += [o for o in others if o.box[5] == bottom and contact(box, o.box) and o not in found]
    return found


def carried_lanes(pieces: Sequence[Piece], it: Lying, others: list[Lying]) -> int:
    """Grams at every stage of all others that stand on a piece, directly or through more of them, each once."""
    found, total = [it], 0
    for one in found:
        box = one.box
        top = box[5]
        for o in others:
            if o.box[2] == top and contact(o.box, box) and o not in found:
                found.append(o)
                total += pieces[o.piece].full_lanes
    return total
