"""What it costs to have a thing in each of some rooms: tried room by room, then put together from all tries."""

from collections.abc import Sequence
from functools import partial

from solver.answers import SILENT
from solver.clock import Clock
from solver.elsewhere import Elsewhere
from solver.halves import Half, Search, in_halves
from solver.target import Heard, Swaps, Target
from solver.trying import Trial

SETTLE_SHARE = 0.05
"""Share of the time in which the plan is brought to its own lowest."""
FIRST_SHARE = 0.3
"""Share of the time left after that for the tries of single rooms."""
FEW_SHARE = 0.4
"""Share of a try's time for the fewest moves; the rest is for the lowest plan."""
LEAST_S = 0.04
"""Seconds that each room gets at least."""
GROW_SHARE = 0.7
"""Share of the time left after that for growing patterns."""
LEAST_CHOICE_S = 0.3
"""Seconds that the choices at the end get at least."""
MOST_ROUNDS = 30
"""Rounds for a room."""


def priced(trial: Trial, index: int, rooms: Sequence[int], clock: Clock) -> list[Target]:
    """What was found with a piece in each of some rooms; the trial's own lowest is brought down on the way."""
    work = Elsewhere(trial, index)
    trial.settle(clock.left() * SETTLE_SHARE)
    targets = [work.target(room) for room in rooms]
    twin = work.twin(targets) if len(targets) > 1 else None
    second = None if twin is None else partial(_searched, *twin, clock)
    answers = in_halves(partial(_searched, work, targets, clock), second, clock.left())
    for heard in answers[1:]:
        work.hear(heard, targets)
    for target in targets:
        if target.lowest is not None:
            trial.lower_still(target.lowest, index)  # what may lie there anyway costs nothing there
    return targets


def _searched(work: Elsewhere, targets: Sequence[Target], clock: Clock, half: Half) -> Search[Heard, Heard]:
    """What one half of the search finds for its rooms."""
    work.begin(half)
    mine = half.mine(targets)
    first = half.part(clock, FIRST_SHARE)
    for n, target in enumerate(mine):
        _first(work, target, max(LEAST_S, first.left() / (len(mine) - n)))
    if work.trial.problem.driving:
        yield from _together(work, mine, clock)
    last = half.part(clock, 1)
    for n, target in enumerate(mine):
        _few(work, target, max(LEAST_S, last.left() / (len(mine) - n)))
    return work.tell(mine)


def _together(work: Elsewhere, targets: Sequence[Target], clock: Clock) -> Swaps:
    """New patterns for all rooms, and the lowest that can be put together from them and from all tries."""
    yield from work.swap()
    growing, rounds = clock.part(GROW_SHARE), max(1, round(MOST_ROUNDS * work.trial.options.effort))
    _grown(work, targets, work.half.part(growing, 1), rounds)
    yield from work.swap()
    last = Clock(max(LEAST_CHOICE_S, clock.left()), SILENT)
    work.choose(targets, work.half.part(last, 1))


def _grown(work: Elsewhere, targets: Sequence[Target], clock: Clock, rounds: int) -> None:
    for _ in range(rounds):
        if clock.late() or not work.grow(targets, clock):
            break


def _first(work: Elsewhere, target: Target, seconds: float) -> None:
    """The fewest moves and a low plan, by repacking."""
    trial, index, room = work.trial, work.index, target.room
    problem = work.bound(room)
    target.few = trial.few_moves(trial.forced(problem, trial.now, index, room), trial.wanted, seconds * FEW_SHARE)
    starts = [trial.forced(problem, base, index, room) for base in (target.few or trial.now, trial.lowest)]
    starts = [state for state in starts if trial.one_more(state, index, room)]
    target.keep(target.few)
    target.keep(trial.lower(starts, seconds * (1 - FEW_SHARE)))


def _few(work: Elsewhere, target: Target, seconds: float) -> None:
    """The fewest moves, begun at a low plan where no other was found."""
    if target.few is None and target.lowest is not None:
        base = target.lowest.copy()
        base.problem = work.bound(target.room)
        target.few = work.trial.few_moves(base, work.trial.wanted, seconds)
        target.keep(target.few)
