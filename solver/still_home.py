"""Why things stay at home once the layout is settled: what bars them in any plan, else what the last look ran into."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from random import Random

from models.case import Copy
from models.locks import locks_on
from solver.bars import Bars
from solver.choose import units
from solver.clock import Budget, Clock
from solver.coming import copies_of
from solver.heights import every_reason
from solver.insert import put
from solver.pieces import Piece
from solver.repack import Repacker
from solver.state import State
from solver.staying import KEPT_OUT, NO_ROOM, behind_words, led, lifted_words, no_room

CORNERS = 0.6e6
"""Corners looked at in all to see whether there is room where the height does not matter, at effort 1."""
STEPS = 40
"""Steps of repacking for each thing at most."""
MOST_LATE = 12
"""So many are looked at when the time is over: some 10 ms each."""
LATE = "room was found for it only after the search was done; more effort (--effort) may bring it along"

NOT_NEAR = "no room was found for it near this plan"
IN_TIME = " in the time given"
NOWHERE = "no space of this vehicle may hold it"
LOCKED_OUT = "its locks leave no space open that may hold it"


def reasons_at_last(
    state: State, must: Sequence[Piece], highest_mm: float, said: Mapping[Copy, str], clock: Clock, effort: float
) -> dict[Copy, str]:
    """Why each copy stays at home; where no room was found for it, whether there is room at a greater height."""
    problem, found, late = state.problem, {**said, **dict(_homeless(state))}, 0
    budget, bars = Budget(problem, clock, CORNERS * effort), Bars(problem)
    for unit in units(problem, must):
        extra = [problem.pieces[index] for index in unit.pieces if index not in state.at]
        if not extra or extra[0].copy not in said:
            continue
        why = _barred(bars, state, extra)
        if why is None and said[extra[0].copy].startswith((NO_ROOM, KEPT_OUT)):
            # The layout that it was said of may not be this one; late, it is put there as the rest lies, or nowhere.
            late += budget.over()
            why = (_lifted(state, extra, highest_mm, budget) if late <= MOST_LATE else None) or no_room(state, extra)
        found |= {} if why is None else {piece.copy: why for piece in led(extra)}
    return found


def reasons_behind(state: State, aboard: Collection[Copy], *, cut_short: bool = False) -> dict[Copy, str]:
    """What stands against each copy that was aboard and that a layout leaves behind, the rest as it lies.

    `cut_short` is whether the clock ended the search, so that longer may find room.
    """
    problem, found = state.problem, dict(_homeless(state))
    gone = [p for p in problem.pieces if p.index not in state.at and not problem.fixed[p.index].at_home]
    for piece in gone:
        if piece.copy not in aboard or piece.copy in found:
            continue
        group = [one for one in gone if one.kind == piece.kind] if piece.thing.all_or_none else [piece]
        alone = [name for name in piece.thing.with_ if not any(i in state.at for i in copies_of(problem, name))]
        why = f"it does not come without {' and '.join(alone)}" if alone else behind_words(state, group) or NOT_NEAR
        late = IN_TIME if cut_short and why in {NO_ROOM, NOT_NEAR} else ""
        found |= {one.copy: f"{why}{late}" for one in group}
    return {copy: why for copy, why in found.items() if copy in aboard}


def _homeless(state: State) -> Iterator[tuple[Copy, str]]:
    """Copies at home that nothing was tried with, as by itself no space takes them, or none that a lock leaves open."""
    problem, open_to = state.problem, dict[str, bool]()
    for piece in problem.pieces:
        if piece.index in state.at or problem.fits[piece.index] or problem.fixed[piece.index].at_home:
            continue
        name = piece.thing.name
        if name not in open_to:
            open_to[name] = not all(every_reason(problem.case, piece.thing, room.space) for room in problem.rooms)
        if not open_to[name]:
            yield piece.copy, NOWHERE
        elif any(one.in_ or one.not_in for one in locks_on(problem.locks, piece.copy)):
            yield piece.copy, LOCKED_OUT


def _barred(bars: Bars, state: State, extra: Sequence[Piece]) -> str | None:
    for piece in extra:
        found = bars.of(piece, state.problem.fits[piece.index])
        if found:
            mine = "" if piece is extra[0] else f"it does not come without {piece.name}, and "
            what = "it" if piece is extra[0] else piece.name
            return f"{mine}no plan with what must come takes {what}: {'; '.join(found)}"
    return None


def _lifted(state: State, extra: Sequence[Piece], highest_mm: float, budget: Budget) -> str | None:
    """By how much it would lift the layout, where room for it was found at any height."""
    trial, wanted = state.copy(), [*state.carried(), *extra]
    for piece in extra:
        put(trial, piece)
    work = Repacker(trial, wanted, State.height_mm, Random(0), 0.0)
    work.run(STEPS, budget.over, lambda found: found.holds and found.cost <= highest_mm)
    if not work.best_score.holds:
        return None
    over_mm = work.best_score.cost - highest_mm
    return LATE if over_mm <= 0 else lifted_words(over_mm, extra)
