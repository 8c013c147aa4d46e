"""Few minutes of re-packing from a layout that holds, and the same looked for again: where a search ends is chance."""

from collections.abc import Callable, Sequence
from functools import partial
from random import Random

from solver.clock import Clock
from solver.halves import HALVES, Half, Search, at_once, in_halves
from solver.insert import put
from solver.keeping import Keeper, all_back, back, lowest_first, moving_and_copies
from solver.passing import above
from solver.pieces import Piece, meet
from solver.repack import score
from solver.state import Lying, State, laid

STEPS = 260
"""Steps of moving little at effort 1: a round."""
ROUNDS = 12
"""Rounds of steps to save minutes, at most."""
LEAST_SAVED_S = 1.0
"""Seconds that a round has to save to count as one that does."""
PATIENCE = 3
"""Rounds in a row that save nothing, after which there are no more."""
AGAIN = 4
"""So many searches more, of other chances, where a first one moves anything."""
BACK = 800_000_000
"""How many copies are tried in their old places, times the cube of the copies carried, which is how long each takes:
a hundred of 200, in a quarter of a second."""
HOLDING_ROUNDS = 3
"""Rounds that each of them has to hold all limits."""


def fewer(work: Keeper, steps: int, late: Callable[[], bool]) -> None:
    """Rounds of steps on a layout that holds as long as one of them still saves minutes."""
    idle = 0
    for _ in range(ROUNDS):
        cost = work.best_score.cost
        work.run(steps, late, lambda score: score.cost <= 0)
        idle = 0 if work.best_score.cost <= cost - LEAST_SAVED_S else idle + 1
        if work.best_score.cost <= 0 or idle >= PATIENCE or late():
            break


def back_where_it_was(
    state: State, wanted: Sequence[Piece], before: State, allowed: Callable[[State], bool] = lambda _: True
) -> State:
    """The same with each copy back in its old place where that may be, by itself or in exchange with what lies there.

    `allowed` is what is asked of a layout beside its limits.
    Where the clock cuts in early, steps by chance have not tried each of them.
    """
    pieces = state.problem.pieces
    moved = [pieces[i] for i, it in state.at.items() if i in before.at and before.at[i].box != it.box]
    cost = partial(moving_and_copies, before)
    least = score(state, wanted, cost)
    for piece in lowest_first(state.problem, moved, before)[: BACK // max(1, len(state.at)) ** 3]:
        trial = _exchanged(state, piece, before)
        if trial is not None and (less := score(trial, wanted, cost)) < least and allowed(trial):
            state, least = trial, less
    return state


def _exchanged(state: State, piece: Piece, before: State) -> State | None:
    """A piece where it was, what lay in its place where that was or elsewhere; None where something is left over."""
    old = before.at[piece.index]
    if state.at[piece.index].box == old.box:
        return None
    there = [it.piece for it in state.inside[old.room] if meet(it.big, old.big)]
    out = list(dict.fromkeys(i for one in (piece.index, *there) for i in (*above(state, one), one)))
    if state.locked.intersection(out):
        return None
    trial, pieces = state.copy(), [state.problem.pieces[i] for i in out]
    for index in out:
        trial.remove(index)
    all_back(trial, [one for one in pieces if one.index in before.at], before)
    for one in lowest_first(state.problem, [p for p in pieces if p.index not in trial.at], state):
        if not back(trial, one, state.at[one.index]) and not put(trial, one):
            return None
    return trial


def again(
    begin: State, wanted: Sequence[Piece], before: State, random: Random, clock: Clock, steps: int, effort: float
) -> list[State]:
    """Layouts of the same things from the same beginning, each of another search with few minutes."""
    seeds = [random.random() for _ in range(AGAIN)]

    def search(half: Half) -> Search[None, list[tuple[Lying, ...]]]:
        mine = half.own((begin, before))
        return at_once(partial(_searched, *mine, wanted, half.mine(seeds), half.told(clock), steps))

    found = in_halves(search, search if effort >= HALVES else None, clock.left())
    return [laid(begin.problem, things, begin.locked) for answers in found for things in answers]


def _searched(
    begin: State, before: State, wanted: Sequence[Piece], seeds: Sequence[float], clock: Clock, steps: int
) -> list[tuple[Lying, ...]]:
    found = []
    for seed in seeds:
        if clock.late():
            break
        work = Keeper(begin, wanted, before, Random(seed))
        work.run(HOLDING_ROUNDS * steps, clock.late, lambda score: score.holds)
        if work.best_score.holds:
            fewer(work, steps, clock.late)
            found.append(tuple(work.best.at.values()))
    return found
