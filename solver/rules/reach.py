"""reach: what must be in hand in time is not buried; some things have nothing in their way at all."""

from models.rules import Rule
from solver.blocks import Body, Literal, opposite
from solver.build import Build
from solver.digging import FACES, in_front, minded
from solver.exclusions import exclude
from solver.in_hand import digging_s
from solver.rules.support import no_contact
from solver.state import State

MOST_TRIPLES = 60_000
"""Triples of pieces up to which a model counts what must be moved first; above, a layout is judged when found."""


def add(build: Build) -> None:
    """Exclusions by opening; nothing before what lets nothing be moved; seconds of digging where they are tight."""
    exclude(build, Rule.REACH)
    tight = []
    for body in build.bodies:
        if body.piece.kept_free:
            for other in _beside(build, body):
                _free(build, body, other, False)
        else:
            tight += [(body, room) for room in body.rooms if _tight(build, body, room)]
    if len(tight) * len(build.bodies) ** 2 <= MOST_TRIPLES:
        for body, room in tight:
            _dig(build, body, room)


def _beside(build: Build, body: Body) -> list[Body]:
    return [o for o in build.bodies if _minds(body, o) and not o.rooms.keys().isdisjoint(body.rooms)]


def _minds(body: Body, other: Body) -> bool:
    return other is not body and body.piece.minds(other.piece)


def slack_s(build: Build, body: Body, room: int) -> float:
    """Seconds left for moving other things, once the way is open."""
    return digging_s(build.problem.case, body.piece.thing, build.problem.rooms[room].chain_s)


def _tight(build: Build, body: Body, room: int) -> bool:
    others = sum(o.piece.handling_s for o in build.bodies if _minds(body, o) and room in o.rooms)
    return 0 <= slack_s(build, body, room) < others


def _free(build: Build, body: Body, other: Body, before: Literal) -> None:
    """Unless told that it must be moved first, another piece is neither in the way out nor on top, in every room."""
    for room in body.rooms:
        if room in other.rooms:
            _free_in(build, body, other, room, before)


def _free_in(build: Build, body: Body, other: Body, room: int, before: Literal) -> None:
    here, there = opposite(body.rooms[room]), opposite(other.rooms[room])
    if body.still is not None and other.still is not None:
        blocked = bool(in_front(build.fixed, [other.still], body.still))
        build.clause(before, not blocked)
        return
    axis, way = FACES[build.problem.rooms[room].space.face]
    beyond = (other.box, body.box) if way < 0 else (body.box, other.box)
    out = [
        build.before(one, two, k)
        for k in range(3)
        for one, two in ((body.box, other.box), (other.box, body.box))
        if (k, one is beyond[0]) != (axis, True)
    ]
    build.clause(before, here, there, *out)
    build.clause(before, here, there, *no_contact(build, other, body))


def _dig(build: Build, body: Body, room: int) -> None:
    """All that must be moved first, and what must be moved before that, each once, within the seconds left."""
    others = [o for o in build.bodies if _minds(body, o) and room in o.rooms]
    flags = {o.piece.index: _moved(build, body, o) for o in others}
    for other in others:
        _free_in(build, body, other, room, flags[other.piece.index])
        for first in others:
            if first is not other:
                via = flags[other.piece.index], _before(build, other, first, room)
                build.clause(flags[first.piece.index], *(opposite(literal) for literal in via))
    seconds = sum(o.piece.handling_s * flags[o.piece.index] for o in others)
    build.when([body.rooms[room]], seconds <= int(slack_s(build, body, room)))


def _moved(build: Build, body: Body, other: Body) -> Literal:
    """True where another piece must be moved before one, at once or in turn."""
    a, b = body.piece.index, other.piece.index

    def meaning(state: State) -> bool:
        if a not in state.at or b not in state.at or state.at[a].room != state.at[b].room:
            return False
        here = minded(state, state.inside[state.at[a].room], state.at[a])
        seen, waiting = {a}, [state.at[a]]
        while waiting:
            for it in in_front(state, here, waiting.pop()):
                if it.piece not in seen:
                    seen.add(it.piece)
                    waiting.append(it)
        return b in seen

    return build.flag(("moved first", a, b), meaning)


def _before(build: Build, body: Body, other: Body, room: int) -> Literal:
    """True where another piece is in the way of one, or on it."""
    a, b = body.piece.index, other.piece.index

    def meaning(state: State) -> bool:
        return (
            a in state.at
            and b in state.at
            and bool(in_front(state, [state.at[b]], state.at[a]))
            and (state.at[a].room == state.at[b].room)
        )

    name = ("in the way", a, b, room)
    known = build.knows(name)
    flag = build.flag(name, meaning)
    if not known:
        _free_in(build, body, other, room, flag)
    return flag
