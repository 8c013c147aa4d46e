"""New patterns of one room: what is asked first, then whatever a relaxed choice would pay for, as long as it fits."""

from collections import Counter
from collections.abc import Mapping, Set
from random import Random

from solver.drawn import Drawn, drawn
from solver.grow import costs_alone, volume
from solver.insert import put
from solver.patterns import Patterns
from solver.recombine import Relaxed
from solver.state import State, laid

DRAWN_SHARE = 0.7
"""How often a room is filled with shapes drawn by chance."""
DRAWN_KINDS = 0.5
"""For how many of the kinds one is drawn then."""
SHAKEN = 0.6
"""How far the order by what is paid is shaken."""
BY_VOLUME = (0.0, 0.5, 1.0)
"""Powers of the volume by which what is paid is divided: the dearest first, or the dearest for its size."""


def stays_in(state: State, room: int, stays: Set[int]) -> State:
    """A room with nothing in it but what stays there, and the thing that the room is part of."""
    host = state.problem.host.get(room)
    here = (it for it in state.at.values() if (it.room == room and it.piece in stays) or it.piece == host)
    return laid(state.problem, here)


def fill(relaxed: Relaxed, room: int, asked: Mapping[int, int], base: State, random: Random) -> None:
    """Fill a room once, in an order by chance, and keep all that lay in it on the way.

    `base`: the room with what is locked there, and the thing that the room is part of.
    """
    patterns = relaxed.master.patterns
    state, paid = base.copy(), _paid(relaxed, room)
    held = Counter(patterns.classes[it.piece] for it in state.inside[room])
    first = [number for number in asked for _ in range(asked[number] - held[number])]
    random.shuffle(first)
    power: float = random.choice(BY_VOLUME)

    def rank(number: int) -> float:
        size: float = volume(patterns.members[number][0]) ** power
        return -paid[number] / size * random.uniform(1 - SHAKEN, 1 + SHAKEN)

    share = DRAWN_KINDS if random.random() < DRAWN_SHARE else 0.0
    kinds = (patterns.members[number][0] for number in [*asked, *paid])
    shapes = drawn(patterns.problem, kinds, share, random, room)
    for number in first:
        if not _put(state, patterns, number, room, random, shapes):
            return
    if state.inside[room]:
        patterns.add(room, state.inside[room])
    for number in sorted(paid, key=rank):
        while _left(relaxed, state, number) and _put(state, patterns, number, room, random, shapes):
            patterns.add(room, state.inside[room])


def _paid(relaxed: Relaxed, room: int) -> dict[int, float]:
    """By class: what one more of it in a room is worth to a relaxed choice, where it is worth anything."""
    return {number: -cost for number, cost in costs_alone(relaxed, room).items() if cost < 0}


def _left(relaxed: Relaxed, state: State, number: int) -> bool:
    """Whether there is one more of a class."""
    members = relaxed.master.patterns.members[number]
    return sum(piece.index in state.at for piece in members) < relaxed.master.counts.most[number]


def _put(state: State, patterns: Patterns, number: int, room: int, random: Random, shapes: Drawn) -> bool:
    piece = next((piece for piece in patterns.members[number] if piece.index not in state.at), None)
    return piece is not None and put(state, piece, [room], random, shapes)
