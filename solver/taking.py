"""Why a thing stays at home, and the cheapest ways to take it that were found, each tried."""

import time
from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from models.case import Case, Copy
from models.plan import Plan
from solver.answers import Options
from solver.asking import with_more
from solver.contrast import HomeExplanation, WayToTake
from solver.eligible import reasons
from solver.explain import locks_on
from solver.footing import held
from solver.insert import put
from solver.problem import Piece
from solver.trying import Trial, taken_out
from solver.wording import lock_words

WAYS = 3
"""How many ways are looked for."""
TRY_S = 0.35
"""Seconds for each thing that might stay at home instead."""
MORE_KG = (5.0, 10.0, 20.0, 40.0)
"""How much more of the total or the rear axle is tried."""


def why_home(case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=4.0)) -> HomeExplanation:
    """Why a copy stays at home, and the cheapest ways to take it that were found, each tried."""
    trial = Trial(case, plan, options)
    piece = trial.problem.pieces[trial.problem.piece_of[wanted]]
    against = ((room.space.name, reasons(case, piece.thing, room.space)) for room in trial.problem.rooms)
    told = tuple((name, tuple((r.rule, r.says) for r in why)) for name, why in against if why)
    lawful = tuple(trial.problem.rooms[r].space.name for r in sorted(trial.free_fits(piece.index)))
    ways = tuple(islice(_ways(trial, piece), WAYS)) if lawful else ()
    locks = tuple(lock_words(lock) for lock in locks_on(trial, wanted) if lock.at_home)
    return HomeExplanation(wanted, told, lawful, ways, locks)


def _ways(trial: Trial, piece: Piece) -> Iterator[WayToTake]:
    """As it is; else what is worth least stays instead; else more of a limit."""
    ends = time.monotonic() + trial.options.seconds
    as_it_is = _with(trial, piece, None)
    if as_it_is is not None:
        yield WayToTake(None, None, 0.0, as_it_is)
        return
    stays = held(trial.now)
    optional = [one for one in trial.wanted if not one.thing.must and one.index not in stays]
    optional.sort(key=lambda one: (one.thing.carry or 0, -one.heaviest_g, one.index))
    half = time.monotonic() + trial.options.seconds * 0.6
    found = 0
    for gone in optional:
        if time.monotonic() > half or found >= WAYS - 1:
            break
        plan = _with(trial, piece, gone)
        if plan is not None:
            found += 1
            yield WayToTake(gone.copy, None, 0.0, plan)
    yield from _with_more(trial, piece, ends)


def _with_more(trial: Trial, piece: Piece, ends: float) -> Iterator[WayToTake]:
    for limit in ("total", "rear axle"):
        for more in MORE_KG:
            if time.monotonic() > ends:
                return
            options = replace(trial.options, seconds=ends - time.monotonic())
            other = Trial(with_more(trial.case, limit, more), trial.plan, options)
            plan = _with(other, piece, None)
            if plan is not None:
                yield WayToTake(None, limit, more, plan)
                break


def _with(trial: Trial, piece: Piece, gone: Piece | None) -> Plan | None:
    """The plan with a piece added and another gone, few things moved; None when none was found."""
    problem = trial.bound_to(piece.index, sorted(trial.free_fits(piece.index)))
    state = trial.now.copy() if gone is None else taken_out(trial.now, gone.index)
    state.problem = problem
    put(state, piece)
    wanted = [one for one in [*trial.wanted, piece] if gone is None or one.index != gone.index]
    found = trial.few_moves(state, wanted, TRY_S)
    mine = [lock for lock in locks_on(trial, piece.copy) if lock.at_home]
    return None if found is None else trial.told(found, mine)
