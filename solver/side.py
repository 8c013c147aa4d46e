"""One of two searches of the same problem, what it may be asked, and how layouts travel between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import NamedTuple, Protocol

from solver.answers import SILENT
from solver.bound import Bound, height_bound
from solver.choose import Unit
from solver.clock import Clock
from solver.improve import improve
from solver.patterns import patterns_of
from solver.problem import Problem
from solver.state import Lying, State
from solver.worthiest import worthiest

Content = tuple[Lying, ...]
"""What lies in one room."""


@dataclass(frozen=True)
class Wish:
    """More value below a height: what has to come, what may, and the effort to look for it."""

    must: tuple[int, ...]
    offered: tuple[Unit, ...]
    highest_mm: float
    effort: float


def brought_on(state: State, wish: Wish | None, random: Random, clock: Clock, effort: float, phase: str) -> State:
    """A layout that is worth more where one is wished for, then brought down."""
    if wish is not None:
        must = [state.problem.pieces[index] for index in wish.must]
        state = worthiest(state, must, wish.offered, wish.highest_mm, random, clock, wish.effort)
    return improve(state, state.carried(), random, clock, effort, phase)


def best_of(states: Sequence[State]) -> State:
    """The layout that is worth the most; of these the lowest, and of these the first."""
    return min(states, key=lambda state: (-state.value(), state.height_mm()))


class Layout(NamedTuple):
    """A layout as it travels, and patterns that the other side may not know."""

    lying: Content
    locked: frozenset[int]
    patterns: tuple[Content, ...]


class Side:
    """A problem that is searched, and the patterns of it that the other side knows."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self._known: set[Content] = set()

    def packed(self, state: State) -> Layout:
        """A layout, and what was seen since the other side was last told."""
        new = tuple(one for one in patterns_of(state).contents() if one not in self._known)
        self._known.update(new)
        return Layout(tuple(state.at.values()), state.locked, new)

    def unpacked(self, layout: Layout) -> State:
        """The layout in this side's problem; what the other has seen is known here from then on."""
        state = State(self.problem)
        for it in layout.lying:
            state.add(it)
        state.locked = layout.locked
        patterns = patterns_of(state)
        for one in layout.patterns:
            patterns.add(one[0].room, one)
        self._known.update(layout.patterns)
        return state


class Job(Protocol):
    """What a side may be asked."""

    def run(self, side: Side) -> Layout | Bound:
        """Do it."""
        ...


@dataclass(frozen=True)
class BringOn:
    """Bring a layout on."""

    layout: Layout
    wish: Wish | None
    seed: float
    seconds: float
    effort: float

    def run(self, side: Side) -> Layout:
        """The layout brought on, and what was seen."""
        clock = Clock(self.seconds, SILENT)
        found = brought_on(side.unpacked(self.layout), self.wish, Random(self.seed), clock, self.effort, "height")
        return side.packed(found)


@dataclass(frozen=True)
class ProveBound:
    """Prove how low a set of pieces can come at most."""

    carried: frozenset[int]
    seconds: float

    def run(self, side: Side) -> Bound:
        """The bound."""
        return height_bound(side.problem, self.carried, self.seconds)
