"""The choice of one pattern for each room, as rows: the restricted master of column generation.

A column is a pattern. Rows: every class comes as often as asked, a room takes one pattern, and the limits and wishes
that rooms share hold. What has to hold within a room holds in its pattern already.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import floor

import numpy as np

from solver.coming import copies_of
from solver.hosts import held_by
from solver.patterns import MILLI, Ints, Pattern, Patterns
from solver.problem import Problem


@dataclass(frozen=True)
class Row:
    """A sum over columns between two whole numbers; None: no limit on that side."""

    columns: tuple[int, ...]
    shares: tuple[int, ...]
    least: int | None
    most: int | None


@dataclass(frozen=True)
class Counts:
    """How many of every class come: at least, at most."""

    least: Mapping[int, int]
    most: Mapping[int, int]
    whole: tuple[tuple[int, ...], ...] = ()
    """Classes that go together: the least of each of them comes or the most of each, and nothing between."""

    @property
    def settled(self) -> bool:
        """Whether it is settled what comes."""
        return self.least == self.most


@dataclass(frozen=True)
class Master:
    """Columns and the rows over them."""

    patterns: Patterns
    counts: Counts
    columns: tuple[Pattern, ...]
    comes: Mapping[int, Row]
    """By class: how many come."""
    loads: Ints
    """By column, and by limit that rooms share: what it adds to totals, axles, racks, lean and amounts in one air, in
    thousandths."""
    most: Ints
    """By limit that rooms share: how much of it is left, in thousandths."""
    others: tuple[Row, ...]
    """One pattern for each room, kits, spread, fire, rooms that are part of a thing, and company."""

    def shared(self, limit: int) -> Row:
        """The row of a limit that rooms share."""
        used = np.flatnonzero(self.loads[:, limit])
        return Row(tuple(used.tolist()), tuple(self.loads[used, limit].tolist()), None, int(self.most[limit]))

    def rows(self, columns: Sequence[int]) -> Iterator[Row]:
        """The rows that a choice among these columns may break."""
        yield from self.comes.values()
        yield from (self.shared(limit) for limit in self._may_pass(columns))
        yield from self.others

    def _may_pass(self, columns: Sequence[int]) -> list[int]:
        """The limits that rooms share and that the heaviest of these columns of every room would pass together."""
        most: dict[int, Ints] = {}
        for j in columns:
            room, load = self.columns[j].room, self.loads[j]
            most[room] = np.maximum(most[room], load) if room in most else np.maximum(load, 0)
        found: list[int] = np.flatnonzero(sum(most.values(), np.zeros_like(self.most)) > self.most).tolist()
        return found


def master(patterns: Patterns, counts: Counts) -> Master:
    """The master of layouts that carry what is asked, made of the patterns seen so far."""
    columns = tuple(patterns.within(counts.most, counts.settled))
    others = [
        *_one_a_room(columns),
        *_kits(patterns.problem, columns),
        *_spread(patterns, columns, counts),
        *_fire(patterns, columns, counts),
        *_hosted(patterns.problem, columns),
        *_company(patterns.problem, columns),
        *_companions(patterns, columns, counts),
    ]
    left = [floor(MILLI * left + 1e-6) for left in patterns.loads.left]
    loads = np.array([column.load for column in columns], dtype=np.int64).reshape(len(columns), len(left))
    comes, most = _comes(columns, counts), np.array(left, dtype=np.int64)
    return Master(patterns, counts, columns, comes, loads, most, tuple(others))


def exactly(patterns: Patterns, pieces: Iterable[int]) -> Counts:
    """Just these pieces."""
    counts = Counter(patterns.classes[index] for index in pieces)
    return Counts(counts, counts)


def holding(whole: Master, room: int, counts: Mapping[int, int]) -> list[int]:
    """The columns of a room that hold so many of some classes, at least."""
    held = ((j, dict(column.counts)) for j, column in enumerate(whole.columns) if column.room == room)
    return [j for j, n in held if all(n.get(number, 0) >= least for number, least in counts.items())]


def with_one_of(whole: Master, columns: Sequence[int]) -> Master:
    """The same where one of some columns is taken."""
    return replace(whole, others=(*whole.others, one_of(columns)))


def one_of(columns: Sequence[int]) -> Row:
    """One of some columns is taken."""
    return _row(dict.fromkeys(columns, 1), 1, None)


def _row(shares: Mapping[int, int], least: int | None, most: int | None) -> Row:
    return Row(tuple(shares), tuple(shares.values()), least, most)


def _comes(columns: Sequence[Pattern], counts: Counts) -> dict[int, Row]:
    holding: dict[int, dict[int, int]] = {number: {} for number in counts.most}
    for j, column in enumerate(columns):
        for number, count in column.counts:
            holding[number][j] = count
    return {number: _row(holding[number], counts.least.get(number, 0), most) for number, most in counts.most.items()}


def _one_a_room(columns: Sequence[Pattern]) -> Iterator[Row]:
    rooms: dict[int, dict[int, int]] = defaultdict(dict)
    for j, column in enumerate(columns):
        rooms[column.room][j] = 1
    yield from (_row(shares, None, 1) for shares in rooms.values())


def _kits(problem: Problem, columns: Sequence[Pattern]) -> Iterator[Row]:
    """A kit that stays together is in one room."""
    kits: dict[str, dict[int, int]] = defaultdict(dict)
    for j, column in enumerate(columns):
        for kind in column.kinds:
            thing = problem.things[kind]
            if thing.together and thing.kit:
                kits[thing.kit][j] = 1
    yield from (_row(shares, None, 1) for shares in kits.values())


def _spread(patterns: Patterns, columns: Sequence[Pattern], counts: Counts) -> Iterator[Row]:
    """Copies are in as many rooms as asked; where they need not come, in as many a copy on average."""
    problem = patterns.problem
    for kind, thing in enumerate(problem.things):
        numbers = {patterns.classes[p.index] for p in problem.pieces if p.kind == kind} & set(counts.most)
        if thing.spread < 2 or not numbers:
            continue
        comes = any(counts.least.get(number, 0) for number in numbers)
        shares = {}
        for j, column in enumerate(columns):
            count = sum(n for number, n in column.counts if number in numbers)
            if count:
                shares[j] = 1 if comes else thing.count - thing.spread * count
        yield _row(shares, thing.spread if comes else 0, None)


def _fire(patterns: Patterns, columns: Sequence[Pattern], counts: Counts) -> Iterator[Row]:
    """Against fire one copy in reach of a belted person, another from outside, not all in one room, where any comes."""
    problem = patterns.problem
    kinds = set(problem.fire_kinds)
    if not any(least and patterns.members[number][0].kind in kinds for number, least in counts.least.items()):
        return
    of_fire = {number for number, (piece, *_) in patterns.members.items() if piece.kind in kinds}
    in_hand = {number for number in of_fire if not patterns.members[number][0].beyond_fire}
    mine = {j: c for j, c in enumerate(columns) if kinds & c.kinds}
    copies = {j: sum(n for number, n in column.counts if number in in_hand) for j, column in mine.items()}
    belted = {j: n for j, n in copies.items() if problem.fire_belted[mine[j].room]}
    outside = {j: n for j, n in copies.items() if problem.fire_outside[mine[j].room]}
    yield _row(belted, 1, None)
    yield _row(outside, 1, None)
    yield _row(belted | outside, 2, None)
    yield _row(dict.fromkeys(mine, 1), 2, None)


def _hosted(problem: Problem, columns: Sequence[Pattern]) -> Iterator[Row]:
    """A room that is part of a thing is in use only where that thing lies around it."""
    for room, host in problem.host.items():
        shares = {j: 1 for j, column in enumerate(columns) if column.room == room}
        for j, column in enumerate(columns):
            if any(it.piece == host and held_by(it, problem.rooms[room]) for it in column.lying):
                shares[j] = shares.get(j, 0) - 1
        if shares:
            yield _row(shares, None, 0)


def _company(problem: Problem, columns: Sequence[Pattern]) -> Iterator[Row]:
    """What may not ride in two rooms with one air or one wall."""
    holding: dict[tuple[int, int], list[int]] = defaultdict(list)
    for j, column in enumerate(columns):
        for kind in column.kinds:
            holding[kind, column.room].append(j)
    for (kind, room), mine in holding.items():
        for other, rooms in problem.vetoes.forbidden[kind]:
            if other >= kind:
                against = (o for o in _rooms_in(rooms[room]) if o != room and (other, o) in holding)
                yield from (_row(dict.fromkeys([*mine, *holding[other, o]], 1), None, 1) for o in against)


def _companions(patterns: Patterns, columns: Sequence[Pattern], counts: Counts) -> Iterator[Row]:
    """What may come only with another thing, any copy of it."""
    problem = patterns.problem
    for number, most in counts.most.items():
        for name in patterns.members[number][0].thing.with_:
            others = {patterns.classes[index] for index in copies_of(problem, name)}
            if not any(counts.least.get(other, 0) for other in others):
                held = ((j, dict(column.counts)) for j, column in enumerate(columns))
                shares = {j: n.get(number, 0) - most * sum(n.get(other, 0) for other in others) for j, n in held}
                yield _row({j: share for j, share in shares.items() if share}, None, 0)


def _rooms_in(number: int) -> Iterator[int]:
    """The rooms that a number with a byte for each room names."""
    return (room for room in range((number.bit_length() + 7) // 8) if number >> 8 * room & 0xFF)
