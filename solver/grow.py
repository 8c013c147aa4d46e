"""New patterns near good ones: one thing is left out, one comes in, where the relaxed choice would pay for it."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from math import prod
from random import Random
from typing import NamedTuple

from solver.clock import Budget, Clock
from solver.drawn import Drawn, drawn
from solver.geometry import contact
from solver.halves import Half
from solver.insert import put
from solver.patterns import Pattern, Patterns
from solver.pieces import Fit, Piece
from solver.recombine import Relaxed
from solver.state import Lying, lying

FRONT = 80
"""Patterns that new ones are grown from: those that cost the relaxed choice the least."""
MOST_OUT = 2
"""So many things may go at once: one, and what stands on it."""
SHAKEN = 0.5
"""How far the order in which a room is filled anew is shaken."""
BY_VOLUME = 0.5
"""How often that order is by volume, the largest first, and not by mass, the heaviest first."""
AS_BEFORE = 0.5
"""Share of the kinds that a room is filled with anew that take the shape which they had there."""
DRAWN_KINDS = 0.2
"""Share of the others for which a shape is drawn by chance."""
NEW_DRAWN = 0.5
"""How often one is drawn for the newcomer."""


class Graft(NamedTuple):
    """A content to try: what stays in a room, and a class that comes in."""

    cost: float
    """What the pattern would cost if the newcomer found the lowest place of the room."""
    tie: float
    room: int
    stays: tuple[Lying, ...]
    comes: int


def grow(
    relaxed: Relaxed,
    most: float,
    random: Random,
    clock: Clock,
    corners: float,
    front: int = FRONT,
    half: Half = Half(),
) -> None:
    """Add patterns that a relaxed choice would take for less than so much, as far as a budget of corners goes."""
    patterns = relaxed.master.patterns
    budget = Budget(patterns.problem, clock, corners)
    for graft in half.mine(sorted(_grafts(relaxed, most, random, front, clock))):
        if budget.over():
            break
        key = patterns.key(graft.room, graft.stays, graft.comes)
        if not patterns.tried(key):
            found = _grown(patterns, graft, random)
            if found is None:
                patterns.fail(key)
            else:
                patterns.add(graft.room, found)


def _grafts(relaxed: Relaxed, most: float, random: Random, front: int, clock: Clock) -> Iterator[Graft]:
    """Every class into every good pattern, whole or with something left out; none where it is late."""
    patterns, asked = relaxed.master.patterns, relaxed.master.counts.most
    alone = [{} if clock.late() else costs_alone(relaxed, room.index) for room in patterns.problem.rooms]
    for cost, room, stays in _stocks(relaxed, most, front):
        here = Counter(patterns.classes[it.piece] for it in stays)
        for number, more in alone[room].items():
            if cost + more < most and here[number] < asked[number]:
                yield Graft(cost + more, random.random(), room, stays, number)


def _stocks(relaxed: Relaxed, most: float, front: int) -> Iterator[tuple[float, int, tuple[Lying, ...]]]:
    """Good patterns, the same with something left out, and empty rooms: each with its cost."""
    patterns, columns = relaxed.master.patterns, relaxed.master.columns
    costs, used = relaxed.prices.cost, {column.room for column in columns}
    for j in sorted(range(len(columns)), key=lambda j: (costs[j], j))[:front]:
        column = columns[j]
        yield costs[j], column.room, column.lying
        for stays, gone in _without(patterns, column.lying):
            cost = costs[j] - relaxed.prices.of(patterns.weighed(column.room, gone), relaxed.aim)
            if stays and cost < most:
                patterns.add(column.room, stays)
            yield cost, column.room, stays
    yield from ((0.0, room.index, ()) for room in patterns.problem.rooms if room.index not in used)


def _without(patterns: Patterns, here: Sequence[Lying]) -> Iterator[tuple[tuple[Lying, ...], tuple[Lying, ...]]]:
    """What is left when one thing goes and what stands on it with it, and what goes."""
    for it in here:
        out = {it.piece}
        for other in sorted(here, key=lambda o: o.box[2]):
            if any(contact(other.box, below.box) for below in here if below.piece in out):
                out.add(other.piece)
        if len(out) <= MOST_OUT and not out & patterns.locked:
            yield tuple(o for o in here if o.piece not in out), tuple(o for o in here if o.piece in out)


def costs_alone(relaxed: Relaxed, room: int) -> dict[int, float]:
    """Every class that may come into a room, and what one of it would cost by itself at the lowest place."""
    if room in relaxed.alone:
        return relaxed.alone[room]
    patterns, found = relaxed.master.patterns, relaxed.alone.setdefault(room, {})
    for number in relaxed.master.counts.most:
        piece = patterns.members[number][0]
        fit = patterns.problem.fits[piece.index].get(room)
        if fit is not None and piece.index not in patterns.locked:
            found[number] = relaxed.prices.of(alone_in(patterns, piece, room, fit), relaxed.aim)
    return found


def alone_in(patterns: Patterns, piece: Piece, room: int, fit: Fit) -> Pattern:
    """A piece by itself at the lowest place of a room; made once."""
    key = (patterns.classes[piece.index], room)
    if key not in patterns.alone:
        patterns.alone[key] = patterns.weighed(room, (_lowest(patterns, piece, room, fit),))
    return patterns.alone[key]


def _lowest(patterns: Patterns, piece: Piece, room: int, fit: Fit) -> Lying:
    """A piece in the front left corner of a room, as low as it may be."""
    low = patterns.problem.rooms[room].low
    shape = min(fit.shapes, key=lambda i: (piece.shapes[i].size[2], i))
    return lying(patterns.problem, piece.index, room, shape, low[0], low[1], fit.least_z)


def _grown(patterns: Patterns, graft: Graft, random: Random) -> list[Lying] | None:
    """The content lying in its room: the newcomer put down beside the rest, or all put down anew."""
    state = patterns.empty(graft.room)
    for it in graft.stays:
        state.add(it)
    piece = next(p for p in patterns.members[graft.comes] if p.index not in state.at)
    if put(state, piece, [graft.room], random):
        return state.inside[graft.room]
    if any(it.piece in patterns.locked for it in graft.stays):
        return None
    anew = patterns.empty(graft.room)
    pieces = [patterns.problem.pieces[it.piece] for it in graft.stays] + [piece]
    largest_first(pieces, volume if random.random() < BY_VOLUME else grams, SHAKEN, random)
    shapes = _shapes(patterns, graft, piece, random)
    return anew.inside[graft.room] if all(put(anew, p, [graft.room], random, shapes) for p in pieces) else None


def _shapes(patterns: Patterns, graft: Graft, newcomer: Piece, random: Random) -> Drawn:
    """Shapes for a content that is put down anew: many as they were, some by chance, the newcomer's often."""
    problem, room = patterns.problem, graft.room
    here = [problem.pieces[it.piece] for it in graft.stays]
    found = drawn(problem, here, DRAWN_KINDS, random, room)
    found |= {problem.pieces[it.piece].kind: it.shape for it in graft.stays if random.random() < AS_BEFORE}
    return found | drawn(problem, [newcomer], NEW_DRAWN, random, room)


def grams(piece: Piece) -> int:
    """Mass of a piece at its heaviest stage in grams."""
    return piece.heaviest_g


def volume(piece: Piece) -> int:
    """Volume of the first shape of a piece in mm³."""
    return prod(piece.shapes[0].size)


def largest_first(pieces: list[Piece], size: Callable[[Piece], int], shaken: float, random: Random) -> None:
    """Put pieces in order by mass or by volume, the largest first, each shaken by so great a share."""
    pieces.sort(key=lambda piece: -size(piece) * random.uniform(1 - shaken, 1 + shaken))
