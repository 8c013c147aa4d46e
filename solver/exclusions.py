"""What keeps a piece out of a room whatever else is carried, and what keeps two pieces apart."""

from collections.abc import Iterable

from models.rules import Rule
from solver.blocks import opposite
from solver.build import Build
from solver.eligible import reasons
from solver.pieces import Piece


def exclude(build: Build, rule: Rule) -> None:
    """Keep every free piece out of the rooms that a rule by itself forbids it."""
    if not build.every_room:
        return  # only lawful rooms have a literal
    problem = build.problem
    for body in build.moving:
        for room, literal in body.rooms.items():
            why = reasons(problem.case, body.piece.thing, problem.rooms[room].space)
            if any(reason.rule == rule for reason in why):
                build.clause(opposite(literal))


def separate(build: Build, rule: Rule) -> None:
    """Keep pairs apart that a rule forbids one space, one air or one wall."""
    pieces = [*build.free, *(build.problem.pieces[index] for index in sorted(build.fixed.at))]
    for i, one in enumerate(build.free):
        against = build.problem.vetoes.of[one.kind]
        if against:
            for other in pieces[i + 1 :]:
                levels = [veto.level for veto in against.get(other.kind, ()) if veto.rule == rule]
                if levels:
                    _separate(build, one, other, levels)


def _separate(build: Build, one: Piece, other: Piece, levels: Iterable[str]) -> None:
    vetoes = [veto for veto in build.problem.vetoes.of[one.kind][other.kind] if veto.level in set(levels)]
    for here in build.body(one).rooms:
        for there in rooms_of(build, other):
            if any(build.problem.vetoes.apart(veto, here, there) for veto in vetoes):
                build.clause(opposite(build.inside(one, here)), opposite(build.inside(other, there)))


def rooms_of(build: Build, piece: Piece) -> tuple[int, ...]:
    """Rooms where a piece may be, the one where it lies still included."""
    it = build.fixed.at.get(piece.index)
    return tuple(build.body(piece).rooms) if it is None else (it.room,)
