"""Drawers that are part of a thing: what their way is kept free of, copy by copy and by where it lies."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from solver.clear import drawers_through
from solver.hosts import held_by
from solver.pieces import meet

if TYPE_CHECKING:
    from solver.pieces import Piece, Six
    from solver.problem import Problem
    from solver.state import Lying


class Drawn(NamedTuple):
    """A drawer whose way meets a room."""

    way: Six
    host: int
    """The piece that has to lie around the drawer: it moves with none of it and is in no way of it."""
    outer: tuple[tuple[int, int], ...]
    """Pieces in whose spaces that one may lie, each with the room: not in its way where they lie around that room."""


def drawers(problem: Problem) -> tuple[tuple[Drawn, ...], ...]:
    """By room: drawers of things that may come.

    The search leaves their ways empty whether or not the thing comes: no proof looks at them.
    """
    come = {p.thing.name for p in problem.pieces if not problem.fixed[p.index].at_home} - problem.at_home
    found = list[tuple[Drawn, ...]]()
    for room in problem.rooms:
        here = [one for one in drawers_through(problem.case, room.space) if one.space.inside_of in come]
        found.append(tuple(_drawn(problem, (*one.way.low, *one.way.high), one.space.name) for one in here))
    return tuple(found)


def _drawn(problem: Problem, way: Six, drawer: str) -> Drawn:
    around = (problem.room_of[outer.name] for outer in problem.case.around(problem.case.space_named[drawer]))
    outer = tuple((problem.host[room], room) for room in around if room in problem.host)
    return Drawn(way, problem.host[problem.room_of[drawer]], outer)


def alike(problem: Problem) -> tuple[int, ...]:
    """By piece: its kind, or a number of its own where a place may be free to it alone of its kind."""
    own = {piece.index for piece in problem.pieces if piece.beyond_fire}
    own |= {index for here in problem.drawers for one in here for index in (one.host, *(out for out, _ in one.outer))}
    return tuple(len(problem.things) + p.index if p.index in own else p.kind for p in problem.pieces)


def ways_barred(problem: Problem, piece: Piece, room: int) -> list[Six]:
    """Ways of drawers in which a piece lies nowhere in a room."""
    return [
        one.way
        for one in problem.drawers[room]
        if piece.index != one.host and all(piece.index != index for index, _ in one.outer)
    ]


def ways_around(problem: Problem, piece: Piece, room: int) -> list[tuple[Six, int]]:
    """Ways of drawers that a piece meets in a room only where it lies around another room, each with that one."""
    return [
        (one.way, inner)
        for one in problem.drawers[room]
        for index, inner in one.outer
        if index == piece.index != one.host
    ]


def out_of_ways_around(problem: Problem, it: Lying) -> bool:
    """Whether a piece as it lies meets no way of a drawer but of one that is in it."""
    return not any(
        meet(it.box, way) and not held_by(it, problem.rooms[inner])
        for way, inner in ways_around(problem, problem.pieces[it.piece], it.room)
    )
