"""Moves that nobody asked for and that would be worth their minutes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf

from models.case import Copy
from models.plan import Plan
from solver.clock import Clock
from solver.handling import handling_seconds
from solver.insert import put
from solver.keeping import moving_seconds
from solver.pieces import Piece
from solver.repack import score
from solver.state import State

WORTH_MM = 1.0
WORTH_S = 10.0
"""A further move is told when it gains so many mm, or seconds a day, for each minute it takes."""
MOST_TOLD = 5


@dataclass(frozen=True)
class FurtherMove:
    """A move that was not asked for and would gain something."""

    copy: Copy
    to_space: str
    lower_mm: float
    """By how much the height at the highest driving stage falls."""
    fewer_s: float
    """Seconds a day of getting at things that are saved."""
    minutes: float
    plan: Plan
    """The plan with that move."""


Telling = Callable[[State], Plan]
"""Makes the plan of a layout."""


def further_moves(state: State, wanted: Sequence[Piece], clock: Clock, told: Telling) -> tuple[FurtherMove, ...]:
    """Single moves worth their minutes, the most worth first; each tried alone."""
    found: list[tuple[float, FurtherMove]] = []
    now = state.height_mm(), handling_seconds(state)
    for index in sorted(state.at):
        if clock.late():
            break
        if index in state.locked or index in state.problem.host.values():
            continue
        move = _one(state, wanted, index, now, told)
        if move is not None and _worth(move) >= 1:
            found.append((-_worth(move), move))
    return tuple(move for _, move in sorted(found, key=lambda pair: (pair[0], pair[1].copy))[:MOST_TOLD])


def _worth(move: FurtherMove) -> float:
    return worth_a_minute(move.lower_mm, move.fewer_s, move.minutes)


def worth_a_minute(lower_mm: float, fewer_s: float, minutes: float) -> float:
    """What a move gains a minute, 1 being just worth it; nothing where it costs half as much in the other coin."""
    if lower_mm <= -WORTH_MM / 2 or fewer_s <= -WORTH_S / 2:
        return 0.0
    gain = max(lower_mm / WORTH_MM, fewer_s / WORTH_S)
    if minutes > 0:
        return gain / minutes
    return inf if gain > 0 else 0.0  # a rule book may say that lifting and opening take no time


def _one(
    state: State, wanted: Sequence[Piece], index: int, now: tuple[float, float], told: Telling
) -> FurtherMove | None:
    old = state.at[index]
    if any(o.piece != index and o.box[2] >= old.box[5] for o in state.inside[old.room]):
        return None
    trial = state.copy()
    trial.remove(index)
    piece = state.problem.pieces[index]
    if not put(trial, piece) or trial.at[index].room == old.room:
        return None
    if not score(trial, wanted, State.height_mm).holds:
        return None
    new = trial.at[index]
    return FurtherMove(
        piece.copy,
        state.problem.rooms[new.room].space.name,
        now[0] - trial.height_mm(),
        now[1] - handling_seconds(trial),
        moving_seconds(state.problem, old, new) / 60,
        told(trial),
    )
