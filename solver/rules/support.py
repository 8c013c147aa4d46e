"""support: floor, a solid, or one supporter with most of each side on it; nothing bears more than it may.

Stricter than the verifier: no two supporters, and what moves once for each way down.
"""

from solver.blocks import Block, Body, Expr, Literal, fixed_block, opposite
from solver.build import Build
from solver.geometry import carried_lanes, held_up
from solver.lanes import lane
from solver.state import Lying, State

HUNDREDTHS = 84
"""Hundredths of each side of a base that must be over one supporter: 0.84² is over the 70 % that the rule asks for."""


def add(build: Build) -> None:
    """Hold up every piece that may move or that stands on one that may, and count loads."""
    alone = State(build.problem)
    for it in build.fixed.at.values():
        alone.add(it)
    for body in build.bodies:
        if body.still is None or not _stands_alone(alone, body.still):
            _hold(build, body)
    _bearing(build)


def _stands_alone(state: State, it: Lying) -> bool:
    """Whether a piece that lies still is held up by what lies still."""
    state.remove(it.piece)
    held = held_up(state, it)
    state.add(it)
    return held


def _hold(build: Build, body: Body) -> None:
    options: list[Literal] = [opposite(build.carried(body.piece))]
    options.append(_floor(build, body))
    for index, here in body.rooms.items():
        for number, solid in enumerate(build.problem.rooms[index].solids):
            block = fixed_block(f"solid {index} {number}", solid)
            flag = _on(build, body, block)
            build.clause(opposite(flag), here)
            options.append(flag)
    for other in build.bodies:
        if other is not body and other.piece.bears_g != 0 and not body.rooms.keys().isdisjoint(other.rooms):
            flag = _on(build, body, other.box)
            _same_room(build, flag, body, other)
            options.append(flag)
    build.clause(*options)


def _floor(build: Build, body: Body) -> Literal:
    index = body.piece.index
    rooms = build.problem.rooms
    flag = build.flag(
        ("on the floor", index), lambda s: index in s.at and s.at[index].box[2] == rooms[s.at[index].room].low[2]
    )
    for room, here in body.rooms.items():
        build.when([flag, here], body.box.low[2] == rooms[room].low[2])
    return flag


def _on(build: Build, body: Body, under: Block) -> Literal:
    """True only where a piece stands on a block with enough of both sides of its base."""
    name = ("on", body.box.name, under.name)

    def meaning(state: State) -> bool:
        own, base = body.box.seen(state), under.seen(state)
        if own is None or base is None or own[2] != base[5]:
            return False
        over = [min(own[k + 3], base[k + 3]) - max(own[k], base[k]) for k in (0, 1)]
        return all(100 * over[k] >= HUNDREDTHS * (own[k + 3] - own[k]) for k in (0, 1))

    flag = build.flag(name, meaning)
    own = body.box
    build.when([flag], own.low[2] == under.high[2])
    for axis in (0, 1):
        side = own.high[axis] - own.low[axis]
        build.when([flag], 100 * (own.high[axis] - under.low[axis]) >= HUNDREDTHS * side)
        build.when([flag], 100 * (under.high[axis] - own.low[axis]) >= HUNDREDTHS * side)
        build.when([flag], 100 * (under.high[axis] - under.low[axis]) >= HUNDREDTHS * side)
    return flag


def _same_room(build: Build, flag: Literal, body: Body, other: Body) -> None:
    for room, here in body.rooms.items():
        build.clause(opposite(flag), opposite(here), other.rooms.get(room, False))


def _bearing(build: Build) -> None:
    """Nothing at all on what bears nothing; loads added up where something bears so much and no more.

    What lies still on what lies still counts once however many ways lead down, and what moves once for each way.
    """
    for below in build.bodies:
        if below.piece.bears_g == 0:
            for above in _others(build, below):
                _rests(build, above, below, False)
    if any(body.piece.bears_g for body in build.bodies):
        for t in _stages(build):
            _loads(build, t)


def _others(build: Build, below: Body) -> list[Body]:
    """Bodies that may be in one room with another."""
    return [body for body in build.bodies if body is not below and not body.rooms.keys().isdisjoint(below.rooms)]


def _stages(build: Build) -> list[int]:
    """The stages to be counted: each at which something is heavier than at another one of them."""
    columns = list(zip(*(body.piece.full_g for body in build.bodies), strict=True))
    kept: list[int] = []
    for t in sorted(range(len(columns)), key=lambda t: -sum(columns[t])):
        if not any(all(a <= b for a, b in zip(columns[t], columns[u], strict=True)) for u in kept):
            kept.append(t)
    return kept


def _loads(build: Build, t: int) -> None:
    """Loads at a stage, within what bears them."""
    loads = {body.piece.index: _load(build, body, t) for body in build.bodies}
    resting = {body.piece.index: _still_g(build, body, t) for body in build.bodies}
    for below in build.bodies:
        parts = []
        for above in _others(build, below) if below.piece.bears_g != 0 else ():
            both = above.still is not None and below.still is not None
            mine_g = -resting[above.piece.index] if both else above.piece.full_g[t]
            parts.append(_part(build, above, below, t, loads[above.piece.index] + mine_g))
        if parts:
            build.when((), loads[below.piece.index] >= resting[below.piece.index] + sum(parts))


def _still_g(build: Build, body: Body, t: int) -> int:
    """Grams at a stage of all that lies still on a piece that lies still, directly or through more of it, each once."""
    if body.still is None:
        return 0
    here = build.fixed.inside[body.still.room]
    return lane(carried_lanes(build.problem.pieces, body.still, [o for o in here if o.piece != body.still.piece]), t)


def _carried_g(build: Build, t: int) -> int:
    return sum(body.piece.full_g[t] for body in build.bodies) * max(1, len(build.bodies))


def _load(build: Build, body: Body, t: int) -> Expr:
    limit = body.piece.bears_g
    most = _carried_g(build, t) if limit is None else limit
    return build.number(f"load {body.piece.index} {t}", (0, most), lambda _: 0)


def _part(build: Build, above: Body, below: Body, t: int, grams: Expr) -> Expr:
    """Grams that one piece puts on another at a stage, so many where it rests on it; 0 where it does not."""
    name = ("rests", above.piece.index, below.piece.index)
    made = build.knows(name)
    rests = build.flag(name, lambda s: _contact(s, above, below))
    if not made:
        _rests(build, above, below, rests)
    part = build.number(f"part {above.piece.index} {below.piece.index} {t}", (0, _carried_g(build, t)), lambda _: 0)
    build.when([rests], part >= grams)
    return part


def _contact(state: State, above: Body, below: Body) -> bool:
    own, base = above.box.seen(state), below.box.seen(state)
    if own is None or base is None or own[2] != base[5]:
        return False
    return all(min(own[k + 3], base[k + 3]) > max(own[k], base[k]) for k in (0, 1))


def _rests(build: Build, above: Body, below: Body, rests: Literal) -> None:
    """Unless told that it rests there, a piece does not touch the top of another."""
    if above.still is not None and below.still is not None:
        touching = _contact(build.fixed, above, below)
        build.clause(rests, not touching)
        return
    build.clause(rests, opposite(build.together(above, below)), *no_contact(build, above, below))


def no_contact(build: Build, above: Body, below: Body) -> list[Literal]:
    """Literals of which one must be true for a piece not to stand on another."""
    a, b = above.box, below.box
    beside = [build.before(one, other, axis) for axis in (0, 1) for one, other in ((a, b), (b, a))]
    return [*beside, build.before(a, b, 2), build.before(b, a, 2, 1)]
