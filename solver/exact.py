"""Small exact models one after the other, two side by side, for as long as they bring the load down."""

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from random import Random

from solver.clock import Clock
from solver.neighbourhood import Effort, accepted, better, freed, promising
from solver.problem import Piece
from solver.repack import score
from solver.state import State

SIDE_BY_SIDE = 2
"""Models at a time. Applied in a fixed order, so that the answer does not depend on which ends first."""
SIZES = (7, 9, 11, 14)
"""Pieces decided together: few are settled at once, many find what few cannot."""
WORK = 0.1
"""Work of one model in the library's own unit: about a tenth of a second."""
TRIES = 12
"""Draws for rooms that have not been looked at as they are now."""


@dataclass(frozen=True)
class Ask:
    """One model to be made: which rooms, and how many pieces."""

    rooms: tuple[int, ...]
    free: int


def settle(state: State, wanted: Sequence[Piece], random: Random, clock: Clock, models: int) -> State:
    """The lowest layout that so many models find; never a higher one than it was given."""
    seen: set[tuple[Ask, tuple[int, ...]]] = set()
    pool = ThreadPoolExecutor(SIDE_BY_SIDE)
    try:
        for n in range(0, models, SIDE_BY_SIDE):
            asked = _asks(state, random, seen)
            if clock.late() or not asked:
                break
            efforts = [Effort(WORK, min(5.0, clock.left()), n, ask.free) for ask in asked]
            jobs = [pool.submit(better, state, wanted, a.rooms, e) for a, e in zip(asked, efforts, strict=True)]
            state = _applied(state, wanted, asked, [job.result() for job in jobs])
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
    return state


def _asks(state: State, random: Random, seen: set[tuple[Ask, tuple[int, ...]]]) -> list[Ask]:
    """Rooms that have not been looked at with what is in them now; those side by side have no room in common."""
    found: list[Ask] = []
    for _ in range(TRIES * SIDE_BY_SIDE):
        ask = Ask(promising(state, random), random.choice(SIZES))
        key = (ask, tuple(state.content[room] for room in ask.rooms))
        taken = {room for other in found for room in other.rooms}
        if ask.rooms and key not in seen and taken.isdisjoint(ask.rooms):
            seen.add(key)
            found.append(ask)
        if len(found) == SIDE_BY_SIDE:
            break
    return found


def _applied(state: State, wanted: Sequence[Piece], asked: Sequence[Ask], found: Sequence[State | None]) -> State:
    """The layout with all finds made from it, each only if all still holds and is lower."""
    start = state
    for ask, new in zip(asked, found, strict=True):
        if new is None:
            continue
        if state is start:
            state = new
            continue
        merged = state.copy()
        moved = [piece.index for piece in freed(start, ask.rooms, ask.free)]
        for index in moved:
            merged.remove(index)
        for index in moved:
            merged.add(new.at[index])
        if accepted(merged, wanted, score(state, wanted, State.height_mm)):
            state = merged
    return state
