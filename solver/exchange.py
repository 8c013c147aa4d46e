"""Optional things that gave way too early: one that is worth more comes in their place."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from random import Random

from solver.bring_down import with_all_above
from solver.choose import Choice, Unit, take
from solver.clock import Clock
from solver.problem import Piece
from solver.state import State

MOST_LEFT = 2
"""Units that may be left for one that is worth more."""
TRIES = 8
"""Exchanges tried at effort 1."""


def exchanged(
    choice: Choice, state: State, must: Sequence[Piece], highest_mm: float, random: Random, clock: Clock, effort: float
) -> State:
    """A layout that carries more value by exchanging optional units; the same one where no exchange was found."""
    tries = max(1, round(TRIES * effort))
    while tries > 0 and not clock.late():
        for unit, left in _promising(choice, state, must):
            tries -= 1
            found = _instead(state, unit, left, highest_mm, random, clock, effort)
            if found is not None:
                clock.tell("what comes", found.height_mm(), None)
                state = found
                break
            if tries <= 0 or clock.late():
                return state
        else:
            return state
    return state


def _promising(choice: Choice, state: State, must: Sequence[Piece]) -> Iterator[tuple[Unit, tuple[Unit, ...]]]:
    """Exchanges that gain value and that the total allows, the greatest gain first."""
    needed = {piece.index for piece in must}
    here = [unit for unit in choice.offered if all(index in state.at for index in unit.pieces)]
    away = [unit for unit in choice.offered if any(index not in state.at for index in unit.pieces)]
    found = [
        (left_value - unit.value, unit, left)
        for unit in away
        for count in range(1, MOST_LEFT + 1)
        for left in combinations(here, count)
        if (left_value := sum(one.value for one in left)) < unit.value
        and _parts(state, unit, left, needed)
        and _total_holds(state, unit, left)
    ]
    found.sort(key=lambda one: (one[0], one[1].pieces, [unit.pieces for unit in one[2]]))
    for _, unit, left in found:
        yield unit, left


def _parts(state: State, unit: Unit, left: tuple[Unit, ...], needed: set[int]) -> bool:
    """Whether what is left is not needed by what stays or comes, and is neither a must nor locked."""
    pieces = state.problem.pieces
    gone = {index for one in left for index in one.pieces}
    stays = (set(state.at) | set(unit.pieces)) - gone
    asked = {name for index in stays for name in pieces[index].thing.with_}
    alike = {pieces[index].kind for index in gone} & {pieces[index].kind for index in stays}
    names = {pieces[index].thing.name for index in gone}
    return not (gone & (needed | state.locked | set(unit.pieces)) or names & asked or (alike and _whole(state, gone)))


def _whole(state: State, gone: set[int]) -> bool:
    """Whether a copy would go without the others of its thing that come all or not at all."""
    return any(state.problem.pieces[index].thing.all_or_none for index in gone)


def _total_holds(state: State, unit: Unit, left: tuple[Unit, ...]) -> bool:
    problem = state.problem
    comes = [problem.pieces[index] for index in unit.pieces if index not in state.at]
    goes = [problem.pieces[index] for one in left for index in one.pieces]
    for t in problem.driving:
        most = problem.constants.stages[t].gross_left_g
        more = sum(p.most_g[t] for p in comes) - sum(p.most_g[t] for p in goes)
        if most is not None and state.sums.most_g[t] + more > most:
            return False
    return True


def _instead(
    state: State,
    unit: Unit,
    left: tuple[Unit, ...],
    highest_mm: float,
    random: Random,
    clock: Clock,
    effort: float,
) -> State | None:
    """The layout with one unit in place of others, when one was found."""
    pieces = state.problem.pieces
    gone = {index for one in left for index in one.pieces}
    wanted = [pieces[index] for index in sorted(state.at) if index not in gone]
    changed = state.copy()
    for index in sorted(with_all_above(state, gone)):
        changed.remove(index)
    if any(index in state.locked for index in state.at if index not in changed.at):
        return None
    extra = [pieces[index] for index in unit.pieces if index not in gone and index not in state.at]
    found = take(changed, wanted, extra, highest_mm, random, clock, effort)
    return found if isinstance(found, State) else None
