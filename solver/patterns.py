"""What has lain in one space, kept: a layout is made of one such pattern for each space, whoever found it."""

from __future__ import annotations

import copy
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Any

import numpy as np
from numpy.typing import NDArray

from solver.footing import floating
from solver.loads import Loads
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import Lying, State, laid

MOST_PATTERNS = 20_000
"""Patterns kept; after so many no new ones are taken, so that a long search keeps within memory."""
MOST_REMEMBERED = 100_000
"""So much is remembered of what needs no second look; then all of that is forgotten."""
MOST_COLUMNS = 1200
"""Patterns that a relaxed choice is made of."""
FIRST_CHANGES = 8
"""So many copies may change their space the first time that all are assigned at once."""
MILLI = 1000
"""Loads are whole thousandths of a gram, a litre or a kilogram, rounded up."""

Key = tuple[int, tuple[tuple[int, int], ...]]
"""A room, and how many of each class lie in it."""


Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Pattern:
    """Things lying in one room in a lawful way."""

    room: int
    lying: tuple[Lying, ...]
    counts: tuple[tuple[int, int], ...]
    """Class and number of its copies."""
    kinds: frozenset[int]
    mass_g: Ints
    """By driving stage: likely mass in grams."""
    height2: Ints
    """By driving stage: its moment above the ground in grams times half millimetres."""
    load: Ints
    """By limit that rooms share: what it adds, in thousandths, rounded up for each thing."""


class Patterns:
    """The lowest pattern seen for every room and what it holds."""

    def __init__(self, problem: Problem, locked: frozenset[int]) -> None:
        self.problem = problem
        self.locked = locked
        self.loads = Loads(problem)
        self.classes = _classes(problem, locked)
        """By piece: a number that interchangeable pieces share."""
        self.members: dict[int, list[Piece]] = {}
        for piece in problem.pieces:
            self.members.setdefault(self.classes[piece.index], []).append(piece)
        self.may_change = FIRST_CHANGES
        """So many copies may change their space at once the next time that all are assigned."""
        self.hosts: dict[int, Lying] = {}
        """By room that is part of a thing: that thing where it was last seen."""
        self.tight: set[int] = set()
        """The limits that rooms share and that a relaxed choice has passed before."""
        self._failed: set[Key] = set()
        self.alone: dict[tuple[int, int], Pattern] = {}
        """By class and room: one of it by itself at the lowest place, where a search asked for it."""
        self._seen: set[tuple[int, int]] = set()
        self._lowest: dict[Key, tuple[int, tuple[Lying, ...]]] = {}
        self._made: dict[Key, Pattern] = {}
        self._cost: dict[bool, dict[Key, float]] = {True: {}, False: {}}
        """By whether it is settled what comes."""
        self._asked: Mapping[int, int] = {}
        """How many of every class were asked for last."""
        self._may_come: dict[Key, bool] = {}
        """The patterns that were compared with that."""
        self._weights: dict[tuple[int, Lying], Ints] = {}

    def __deepcopy__(self, memo: dict[int, Any]) -> Patterns:
        """Patterns that remember by themselves; what is remembered never changes, and is shared."""
        other = memo[id(self)] = copy.copy(self)
        own: dict[str, Any] = {"problem": copy.deepcopy(self.problem, memo)}
        for name in ("hosts", "tight", "_failed", "alone", "_seen", "_lowest", "_made", "_may_come", "_weights"):
            own[name] = copy.copy(getattr(self, name))
        own["_cost"] = {settled: dict(costs) for settled, costs in self._cost.items()}
        vars(other).update(own)
        return other

    def gather(self, state: State) -> None:
        """Keep what lies in every room of a layout, whether or not the whole holds its limits."""
        self.hosts.update((room, state.at[host]) for room, host in self.problem.host.items() if host in state.at)
        in_the_air = {it.room for it in floating(state)}
        for room, content in enumerate(state.content):
            if content and (room, content) not in self._seen:
                _remember(self._seen, (room, content))
                if room not in in_the_air:
                    self.add(room, state.inside[room])

    def empty(self, room: int) -> State:
        """A room with nothing in it, and the thing that it is part of where that was last seen."""
        return laid(self.problem, [self.hosts[room]] if room in self.hosts else [])

    def add(self, room: int, lying: Iterable[Lying]) -> None:
        """Keep a pattern, unless one as low is known or there are too many."""
        here = tuple(lying)
        key = self.key(room, here)
        pieces = self.problem.pieces
        height2 = sum(pieces[it.piece].heaviest_g * (it.box[2] + it.box[5]) for it in here)
        known = self._lowest.get(key)
        if known[0] > height2 if known else len(self._lowest) < MOST_PATTERNS:
            self._lowest[key] = (height2, here)
            self._made.pop(key, None)

    def heights(self) -> dict[Key, int]:
        """How high every pattern lies: twice its moment above the ground in gram millimetres."""
        return {key: height2 for key, (height2, _) in self._lowest.items()}

    def newer(self, than: Mapping[Key, int]) -> list[tuple[int, tuple[Lying, ...]]]:
        """The patterns that were not there, or not as low, when heights were taken."""
        return [(key[0], here) for key, (height2, here) in self._lowest.items() if than.get(key) != height2]

    def key(self, room: int, lying: Iterable[Lying], *more: int) -> Key:
        """The room and how many of each class lie there, with `more` of some classes."""
        return room, tuple(sorted(Counter([*(self.classes[it.piece] for it in lying), *more]).items()))

    def tried(self, key: Key) -> bool:
        """Whether there is a pattern of a room and a content, or was none when it was tried."""
        return key in self._lowest or key in self._failed

    def lowest(self, key: Key) -> tuple[Lying, ...] | None:
        """The lowest pattern of a room and a content; None where none is known."""
        known = self._lowest.get(key)
        return None if known is None else known[1]

    def fail(self, key: Key) -> None:
        """Remember that a content was tried to lie in a room and did not."""
        _remember(self._failed, key)

    def try_again(self) -> None:
        """Forget what did not lie in a room: few orders were tried each time, and others may do."""
        self._failed.clear()

    def within(self, most: Mapping[int, int], settled: bool = True) -> Iterator[Pattern]:
        """Patterns that hold no more of any class than so many, in the order in which they were first seen.

        Of too many those come that no relaxed choice has looked at, then those that cost the last one the least.
        `settled`: it is settled what comes, and costs are in mm; else they are in value.
        """
        if most != self._asked:
            self._asked, self._may_come = dict(most), {}
        keys = [key for key in self._lowest if self._fits(key)]
        if len(keys) > MOST_COLUMNS:
            known = self._cost[settled]
            costs = {key: known.get(key, -inf) for key in keys}
            dearest = sorted(costs.values())[MOST_COLUMNS - 1]
            keys = [key for key in keys if costs[key] <= dearest]
        return (self._pattern(key) for key in keys)

    def _fits(self, key: Key) -> bool:
        """Whether a pattern holds no more of any class than was asked for last."""
        known = self._may_come.get(key)
        if known is None:
            known = self._may_come[key] = all(count <= self._asked.get(number, 0) for number, count in key[1])
        return known

    def rate(self, columns: Iterable[Pattern], costs: Iterable[float], settled: bool = True) -> None:
        """Remember what patterns cost a relaxed choice, in mm where it is settled what comes, else in value."""
        known = self._cost[settled]
        for column, cost in zip(columns, costs, strict=True):
            known[column.room, column.counts] = cost

    def _pattern(self, key: Key) -> Pattern:
        made = self._made.get(key)
        if made is None:
            made = self._made[key] = self.weighed(key[0], self._lowest[key][1])
        return made

    def weighed(self, room: int, lying: tuple[Lying, ...]) -> Pattern:
        """Things in a room with their masses and moments."""
        weights = [self._weight(it) for it in lying]
        total, stages = sum(weights[1:], weights[0]), len(self.problem.driving)
        mass_g, height2, load = total[:stages], total[stages : 2 * stages], total[2 * stages :]
        kinds = frozenset(self.problem.pieces[it.piece].kind for it in lying)
        return Pattern(room, lying, self.key(room, lying)[1], kinds, mass_g, height2, load)

    def _weight(self, it: Lying) -> Ints:
        """Masses, moments and loads of one thing where it lies, one after the other."""
        key = (self.classes[it.piece], it._replace(piece=0))
        known = self._weights.get(key)
        if known is None:
            if len(self._weights) >= MOST_REMEMBERED:
                self._weights.clear()
            likely_g = self.problem.pieces[it.piece].likely_g
            mass_g = np.array([likely_g[t] for t in self.problem.driving], dtype=np.int64)
            load = np.ceil(MILLI * self.loads.added(it) - 1e-6).astype(np.int64)
            known = self._weights[key] = np.concatenate([mass_g, mass_g * (it.box[2] + it.box[5]), load])
        return known


def patterns_of(state: State) -> Patterns:
    """The patterns that searches of its problem have seen so far, this layout's own among them."""
    problem = state.problem
    if problem.patterns is None or problem.patterns.locked != state.locked:
        problem.patterns = Patterns(problem, state.locked)
    problem.patterns.gather(state)
    return problem.patterns


def _remember(known: set[Any], one: object) -> None:
    if len(known) >= MOST_REMEMBERED:
        known.clear()
    known.add(one)


def _classes(problem: Problem, locked: frozenset[int]) -> tuple[int, ...]:
    """Copies of a thing that may be in the same rooms are one class.

    What is locked, a host or beyond what a fire needs is a class of its own.
    """
    numbers: dict[tuple[object, ...], int] = {}
    found = []
    alone = locked.union(problem.host.values(), (piece.index for piece in problem.pieces if piece.beyond_fire))
    for piece in problem.pieces:
        alike = (piece.kind, tuple(problem.fits[piece.index]), problem.fixed[piece.index])
        key = ("alone", piece.index) if piece.index in alone else alike
        found.append(numbers.setdefault(key, len(numbers)))
    return tuple(found)
