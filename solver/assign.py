"""Which space each thing goes to, decided for all at once by volume and mass; then every space is really packed.

Where lengths, volumes and masses decide, this finds in one step what many small ones do not. Where shape decides, what
it finds does not fit, and after a few tries it is left alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import floor, prod
from random import Random

import numpy as np

from solver.clock import Clock
from solver.footing import standing_under
from solver.geometry import held_up
from solver.grow import alone_in, grams, largest_first
from solver.insert import put
from solver.library import cp_model
from solver.neighbourhood import Effort, solver_with
from solver.patterns import MILLI, Pattern, Patterns, patterns_of
from solver.pieces import Piece, Room
from solver.recombine import lawful, layout
from solver.repack import score
from solver.shapes import Shape
from solver.state import Lying, State

WORK = 0.1
"""Work of one choice in the library's own unit."""
MORE, LESS = 2, 4
"""So many times more copies may change their space the next time where a lower layout came of it, so many times fewer
where none did; below one it is over."""
CHOICES = 3
"""Choices in a row, each without the contents that did not fit before."""
MOST_PAIRS = 2500
"""So many pairs of a class and a room are decided at once at most: with more, the model takes longer than it gains."""
SHAKEN = (None, 0.0, 0.5)
"""How far the order by mass is shaken each time that a content is put down; the first time what is there is kept."""
MM3_A_CM3 = 1000

Pair = tuple[int, int]
"""A class and a room."""


def assigned(state: State, wanted: Sequence[Piece], random: Random, clock: Clock) -> State:
    """A lower layout in which some things changed their space; the same one where none was found."""
    if clock.late() or not may_assign(state):
        return state
    patterns = patterns_of(state)
    found = _Choice(state, patterns, clock).made(random)
    before = score(state, wanted, State.height_mm)
    if found is None or not lawful(found) or score(found, wanted, State.height_mm) >= before:
        patterns.may_change //= LESS
        return state
    patterns.may_change *= MORE
    return found


def may_assign(state: State) -> bool:
    """Whether all things are assigned the next time: something came of it lately, and they are not too many."""
    patterns = patterns_of(state)
    return patterns.may_change >= 1 and bool(state.problem.driving) and _pairs(patterns, state) <= MOST_PAIRS


def _pairs(patterns: Patterns, state: State) -> int:
    classes = {patterns.classes[index] for index in state.at}
    return sum(len(state.problem.fits[patterns.members[number][0].index]) for number in classes)


class _Choice:
    """The model of who goes where, and the rooms packed from it."""

    def __init__(self, state: State, patterns: Patterns, clock: Clock) -> None:
        self.state, self.patterns, self.problem, self.clock = state, patterns, state.problem, clock
        self.now = Counter(self._pair(it) for it in state.at.values())
        hosts = self.problem.host
        self.stays = standing_under(state, state.locked.union(hosts.values()))
        """What is locked, what has rooms in it, and all that these stand on."""
        self.count = Counter(patterns.classes[it.piece] for it in state.at.values())
        self.model = cp_model.CpModel()
        self.alone: dict[Pair, Pattern] = {}
        """What one of a class would add to the sums in a room, at its lowest place."""
        self.taken: dict[Pair, cp_model.IntVar] = {}
        for number, most in self.count.items():
            piece = patterns.members[number][0]
            for room, fit in self.problem.fits[piece.index].items():
                if room in hosts and hosts[room] not in state.at:
                    continue
                self.alone[number, room] = alone_in(patterns, piece, room, fit)
                self.taken[number, room] = self.model.new_int_var(0, most, "")
        self._rows()

    def _pair(self, it: Lying) -> Pair:
        return self.patterns.classes[it.piece], it.room

    def made(self, random: Random) -> State | None:
        """The layout of the first choice whose rooms could all be packed; None when none could."""
        for _ in range(CHOICES):
            solver = solver_with(Effort(WORK, min(5.0, self.clock.left())))
            solver.parameters.linearization_level = 2
            if solver.solve(self.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
                return None
            chosen = {pair: solver.value(taken) for pair, taken in self.taken.items()}
            packed = [self._packed(room, chosen, random) for room in self.problem.rooms]
            whole = [one for one in packed if one is not None]
            if len(whole) == len(packed):
                return layout(self.patterns, [self.patterns.weighed(h[0].room, h) for h in whole if h], self.state)
        return None

    def _rows(self) -> None:
        for number, most in self.count.items():
            self.model.add(sum(t for (n, _), t in self.taken.items() if n == number) == most)
        for pair, least in Counter(self._pair(self.state.at[index]) for index in self.stays).items():
            self.model.add(self.taken[pair] >= least)
        for room in self.problem.rooms:
            self._room_rows(room)
        self._shared_rows()
        self._few_changes()
        self._lower()

    def _room_rows(self, room: Room) -> None:
        """What a room holds by volume and by mass; what is in it now is let be."""
        mine = {number: taken for (number, r), taken in self.taken.items() if r == room.index}
        volumes = {number: self._volume(self.patterns.members[number][0], room) for number in mine}
        now = sum(volume * self.now[number, room.index] for number, volume in volumes.items())
        self._at_most(mine, volumes, max(now, prod(room.size) // MM3_A_CM3))
        if room.limit_g is not None:
            masses = {number: self.patterns.members[number][0].heaviest_g for number in mine}
            now = sum(mass * self.now[number, room.index] for number, mass in masses.items())
            self._at_most(mine, masses, max(now, room.limit_g))

    def _at_most(self, mine: Mapping[int, cp_model.IntVar], shares: Mapping[int, int], most: int) -> None:
        self.model.add(cp_model.LinearExpr.weighted_sum(list(mine.values()), list(shares.values())) <= most)

    def _shared_rows(self) -> None:
        """Totals, axles, racks and amounts, reckoned from what is left of them now."""
        loads = self.patterns.loads
        lefts = np.array(loads.left) - sum(map(loads.added, self.state.at.values()))
        for n, left in enumerate(lefts.tolist()):
            shares = [int(self.alone[pair].load[n]) for pair in self.taken]
            if any(shares):
                now = self._now(shares)
                self.model.add(self._sum(shares) <= now + max(0, floor(MILLI * left)))

    def _few_changes(self) -> None:
        changed = []
        for pair, taken in self.taken.items():
            if self.now[pair]:
                gone = self.model.new_int_var(0, self.now[pair], "")
                self.model.add(gone >= self.now[pair] - taken)
                changed.append(gone)
        self.model.add(sum(changed) <= self.patterns.may_change)

    def _lower(self) -> None:
        """As low as can be at the highest stage, as if all lay on the floor of its room."""
        top = self.state.top()
        cost = [int(self.alone[pair].height2[top]) for pair in self.taken]
        self.model.add(self._sum(cost) < self._now(cost))
        self.model.minimize(self._sum(cost))

    def _sum(self, shares: Sequence[int]) -> cp_model.LinearExprT:
        return cp_model.LinearExpr.weighted_sum(list(self.taken.values()), shares)

    def _now(self, shares: Sequence[int]) -> int:
        return sum(share * self.now[pair] for pair, share in zip(self.taken, shares, strict=True))

    def _volume(self, piece: Piece, room: Room) -> int:
        """What a piece takes of a room in cm³; a side beside which no other like it has room counts as the room's."""
        shapes = self.problem.fits[piece.index][room.index].shapes
        return -(-min(prod(_sides(piece.shapes[i], room)) for i in shapes) // MM3_A_CM3)

    def _packed(self, room: Room, chosen: Mapping[Pair, int], random: Random) -> tuple[Lying, ...] | None:
        """A room with what was chosen for it; None where it could not be packed, and it is not chosen again."""
        content = {n: count for (n, r), count in chosen.items() if r == room.index and count}
        if all(self.now[n, room.index] == chosen[n, r] for n, r in chosen if r == room.index):
            return tuple(self.state.inside[room.index])
        if not content:
            return ()
        key = self.patterns.key(room.index, (), *(n for n, count in content.items() for _ in range(count)))
        found = self.patterns.lowest(key)
        if found is None and not self.patterns.tried(key):
            found = self._put_down(room.index, content, random)
        if found is None:
            self.patterns.fail(key)
            self._never_again(room.index, content)
        return found

    def _put_down(self, room: int, content: Mapping[int, int], random: Random) -> tuple[Lying, ...] | None:
        """A content in its room: what is there stays and the rest comes to it, else all is put down anew."""
        for shaken in SHAKEN:
            state, left = State(self.problem), Counter(content)
            host = self.state.at.get(self.problem.host.get(room, -1))
            if host is not None and host.room != room:
                state.add(host)
            self._keep(state, room, left, everything=shaken is None)
            pieces = [piece for number, count in left.items() for piece in self._free(state, number)[:count]]
            largest_first(pieces, grams, shaken or 0.0, random)
            whole = all(put(state, piece, [room], random) for piece in pieces)
            if state.inside[room]:
                self.patterns.add(room, state.inside[room])
            if whole:
                return tuple(state.inside[room])
        return None

    def _keep(self, state: State, room: int, left: Counter[int], *, everything: bool) -> None:
        """What stays in a room, then what else is chosen for it still, from the floor up; taken off what is left."""
        here = self.state.inside[room]
        for it in sorted(here, key=lambda it: (it.piece not in self.stays, it.box[2], it.piece)):
            number, stays = self.patterns.classes[it.piece], it.piece in self.stays
            if stays or (everything and left[number] > 0 and held_up(state, it)):
                state.add(it)
                left[number] -= 1

    def _free(self, state: State, number: int) -> list[Piece]:
        """Copies of a class that are not put down yet."""
        return [piece for piece in self.patterns.members[number] if piece.index not in state.at]

    def _never_again(self, room: int, content: Mapping[int, int]) -> None:
        """Neither this content nor one with more in it."""
        fewer = []
        for number, count in content.items():
            taken = self.taken[number, room]
            fewer.append(literal := self.model.new_bool_var(""))
            self.model.add(taken < count).only_enforce_if(literal)
        self.model.add_bool_or(fewer)


def _sides(shape: Shape, room: Room) -> Iterator[int]:
    for size, before, behind, whole in zip(shape.size, shape.before, shape.behind, room.size, strict=True):
        side = size + before + behind
        yield whole if 2 * side > whole else side
