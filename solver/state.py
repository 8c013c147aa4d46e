"""A layout under construction: what lies where, and the sums that the limits look at.

Sums are integers: grams, and grams times half millimetres for moments (a centre may lie on half a millimetre).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from solver.held import hold_of
from solver.lanes import lane
from solver.pieces import Piece, Room, Six
from solver.problem import Problem


class Lying(NamedTuple):
    """A piece where it lies: its box, and its box with air gaps, as (x, y, z, x, y, z) in mm."""

    piece: int
    room: int
    shape: int
    box: Six
    big: Six


def laid(problem: Problem, things: Iterable[Lying], locked: frozenset[int] = frozenset()) -> State:
    """A layout of some pieces as they lie, whether or not they may."""
    state = State(problem)
    state.locked = locked
    for it in things:
        state.add(it)
    return state


def lying(problem: Problem, piece: int, room: int, shape: int, x: int, y: int, z: int) -> Lying:
    """A piece with a shape and its least corner."""
    form = problem.pieces[piece].shapes[shape]
    sx, sy, sz = form.size
    own = (x, y, z, x + sx, y + sy, z + sz)
    (ax, ay, az), (bx, by, bz) = form.before, form.behind
    if not (ax or ay or az or bx or by or bz):
        return Lying(piece, room, shape, own, own)
    return Lying(piece, room, shape, own, (x - ax, y - ay, z - az, x + sx + bx, y + sy + by, z + sz + bz))


class Sums:
    """What the limits look at; what hangs on the stage is a lane for each (`lanes.py`)."""

    def __init__(self, problem: Problem) -> None:
        rooms = len(problem.rooms)
        self.most_g = self.rear = self.front = 0
        self.likely_g = self.likely_x = self.likely_y = self.likely_z = 0
        self.room_g = [0] * rooms
        self.tied_g = [0] * rooms
        self.bearer_g = [0] * len(problem.bearers)
        self.amount: dict[tuple[str, str], tuple[float, float]] = {}
        self.hazard: dict[str, tuple[int, float, float]] = {}

    def copy(self) -> Sums:
        """An independent copy."""
        other = object.__new__(Sums)
        other.__dict__.update(self.__dict__)
        for name in ("room_g", "tied_g", "bearer_g", "amount", "hazard"):
            other.__dict__[name] = other.__dict__[name].copy()
        return other


class State:
    """A layout under construction."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.at: dict[int, Lying] = {}
        self.inside: list[list[Lying]] = [[] for _ in problem.rooms]
        self.content = [0] * len(problem.rooms)
        """By room: a number that stands for what lies there and where."""
        self.rooms_of = [0] * len(problem.things)
        """By kind: a number whose bytes count the copies in each room."""
        self.sums = Sums(problem)
        self.locked: frozenset[int] = frozenset()

    def copy(self) -> State:
        """An independent copy."""
        other = State.__new__(State)
        other.problem = self.problem
        other.at = dict(self.at)
        other.inside = [list(row) for row in self.inside]
        other.content = list(self.content)
        other.rooms_of = list(self.rooms_of)
        other.sums = self.sums.copy()
        other.locked = self.locked
        return other

    def add(self, it: Lying) -> None:
        """Put a piece down; whether it may lie there has been asked before."""
        self.at[it.piece] = it
        self.inside[it.room].append(it)
        self._mark(it)
        self._count(it, 1)
        self.rooms_of[self.problem.pieces[it.piece].kind] += 1 << 8 * it.room

    def remove(self, piece: int) -> Lying:
        """Take a piece away."""
        it = self.at.pop(piece)
        self.inside[it.room].remove(it)
        self._mark(it)
        self._count(it, -1)
        self.rooms_of[self.problem.pieces[it.piece].kind] -= 1 << 8 * it.room
        return it

    def _mark(self, it: Lying) -> None:
        kind = self.problem.pieces[it.piece].kind
        self.content[it.room] ^= hash((kind, it.shape, it.box, it.big))  # by the shape too: -1 and -2 hash alike

    def _count(self, it: Lying, sign: int) -> None:
        piece, sums = self.problem.pieces[it.piece], self.sums
        room = self.problem.rooms[it.room]
        box = it.box
        cx, cy, cz = box[0] + box[3], box[1] + box[4], box[2] + box[5]
        ahead = 2 * self.problem.constants.wheelbase - cx
        most, likely = sign * piece.most_lanes, sign * piece.likely_lanes
        sums.most_g += most
        sums.rear += cx * (most if cx >= 0 else sign * piece.least_lanes)
        sums.front += ahead * (most if ahead >= 0 else sign * piece.least_lanes)
        sums.likely_g += likely
        sums.likely_x += likely * cx
        sums.likely_y += likely * cy
        sums.likely_z += likely * cz
        sums.room_g[it.room] += most
        for bearer in room.bearers:
            sums.bearer_g[bearer] += most
        if is_tied(piece, room):
            sums.tied_g[it.room] += sign * tied_lanes(piece, room)
        if piece.thing.hazard:
            self._count_hazard(piece, room, sign)

    def _count_hazard(self, piece: Piece, room: Room, sign: int) -> None:
        thing, sums = piece.thing, self.sums
        word = thing.hazard or ""
        litres, kilos = (thing.holds_l or 0.0) * sign, (thing.net_kg or 0.0) * sign
        a, b = sums.amount.get((word, room.space.air), (0.0, 0.0))
        sums.amount[(word, room.space.air)] = (a + litres, b + kilos)
        n, x, y = sums.hazard.get(word, (0, 0.0, 0.0))
        sums.hazard[word] = (n + sign, x + litres, y + kilos)

    def height2(self, stage: int) -> float:
        """Height of the vehicle's centre of gravity at a stage in mm."""
        k = self.problem.constants.stages[stage]
        return (k.moment[2] + lane(self.sums.likely_z, stage) / 2) / (k.mass_g + lane(self.sums.likely_g, stage))

    def height_mm(self) -> float:
        """Height at the highest driving stage in mm; at the first stage where nothing drives."""
        return max((self.height2(t) for t in self.problem.driving), default=self.height2(0))

    def top(self) -> int:
        """The number, among the driving stages, of the one at which the middle is highest; of like ones the first."""
        driving = self.problem.driving
        return max(range(len(driving)), key=lambda n: (self.height2(driving[n]), -n))

    def carried(self) -> list[Piece]:
        """The pieces of the layout in the canonical order."""
        return [self.problem.pieces[index] for index in sorted(self.at)]

    def rooms_with(self, kinds: Iterable[int]) -> set[int]:
        """The rooms in which copies of some kinds lie."""
        rooms = len(self.inside)
        counts = (self.rooms_of[kind].to_bytes(rooms, "little") for kind in kinds)
        return {room for here in counts for room, count in enumerate(here) if count}

    def value(self) -> int:
        """What all that is carried is worth together."""
        return sum(self.problem.pieces[index].thing.carry or 0 for index in self.at)


def tied_lanes(piece: Piece, room: Room) -> int:
    """What a tied piece asks of the tie-downs of its room, a lane for every stage.

    Where all is tied, what lies in it is counted by itself; elsewhere it may be full.
    """
    return piece.most_lanes if room.space.holds == "tie_downs" else piece.full_lanes


def is_tied(piece: Piece, room: Room) -> bool:
    """Whether a piece is tied down in a room."""
    held = hold_of(piece.thing, room.space)
    return held == "tie_downs" or (piece.thing.asks_for_ties and held in ("enclosed", "barrier", "none"))
