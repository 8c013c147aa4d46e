"""Why a thing stays at home, and the cheapest ways to take it that were found, each tried."""

import time
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice

from models.case import Case, Copy
from models.locks import locks_on, without
from models.plan import Plan
from models.trip import Lock
from solver.against import mass
from solver.answers import Options
from solver.asking import with_more
from solver.bars import Bars
from solver.contrast import Against, HomeExplanation, WayToTake
from solver.cornered import against_corner, at_corner, first_lawful, wanted_corners
from solver.demands import forbids
from solver.explain import not_kept
from solver.footing import held
from solver.heights import every_reason
from solver.insert import put_all
from solver.leaving import without_company
from solver.limits import room_for_mass
from solver.pieces import Piece, Room
from solver.pins import needed
from solver.plans import from_plan
from solver.raises import STEP_KG, in_steps
from solver.state import State
from solver.trying import Trial, taken_out

WAYS = 3
"""How many ways are looked for."""
TRY_S = 0.35
"""Seconds for each thing that might stay at home instead."""
MORE_KG = (5.0, 10.0, 20.0, 40.0)
"""How much more of the total or the rear axle is tried first."""


def why_home(
    case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=4.0), space: str | None = None
) -> HomeExplanation:
    """Why a copy stays at home, and the cheapest ways to take it that were found, each tried.

    With a `space`, ways to take it there alone.
    """
    ends, trial = time.monotonic() + options.seconds, Trial(case, plan, options)
    piece = trial.problem.pieces[trial.problem.piece_of[wanted]]
    against = {room.space.name: _by_itself(trial, piece, room) for room in trial.problem.rooms}
    told = tuple((name, why) for name, why in against.items() if why)
    named = [room.space.name for room in trial.problem.rooms]
    lawful = tuple(named[r] for r in _open_to(trial, piece) if not against[named[r]])
    open_to = _open_to(trial, piece, space)
    possible = any(not against[named[r]] for r in open_to)
    group, lacks = _group(trial, piece)
    ways = tuple(islice(_ways(trial, group, open_to), WAYS)) if possible and group else ()
    locks = tuple(lock for lock in locks_on(trial.problem.locks, wanted) if not lock.carried)
    barred = () if ways or (space and not possible) else Bars(trial.problem).of(piece, open_to)
    alone, lowest = _heights(trial, piece, ways, ends)
    without = None if lacks is None else lacks.copy
    return HomeExplanation(wanted, told, lawful, ways, locks, without, barred, alone, lowest)


def _heights(
    trial: Trial, piece: Piece, ways: Sequence[WayToTake], ends: float
) -> tuple[Plan, Plan] | tuple[None, None]:
    """The lowest plans found of what must come alone, and with a piece where there is room for it as it is."""
    if piece.thing.must or not ways or not ways[0].as_it_is or not any(s.driving for s in trial.case.trip.stages):
        return None, None
    must = [one for one in trial.problem.pieces if needed(trial.problem, one)]
    alone = trial.now.copy()
    for index in [index for index in alone.at if not needed(trial.problem, trial.problem.pieces[index])]:
        alone.remove(index)
    begin = from_plan(trial.bound_to(piece.index, range(len(trial.problem.rooms))), ways[0].plan)
    with_it = [one for one in trial.problem.pieces if one.index in begin.at]
    half = max(0.1, (ends - time.monotonic()) / 2)
    lowest = [trial.lower([alone], half, must), trial.lower([begin], half, with_it)]
    plans = [trial.told(state) for state in lowest if state is not None]
    return (plans[0], plans[1]) if len(plans) == len(lowest) else (None, None)


def _by_itself(trial: Trial, piece: Piece, room: Room) -> Against:
    """What stands against a piece in a room with nothing else aboard."""
    why = tuple((reason.rule, reason.says) for reason in every_reason(trial.case, piece.thing, room.space))
    alone = State(trial.problem)
    return why or (() if room_for_mass(alone, piece, room.index) else tuple(mass(alone, piece, room.index)))


def _group(trial: Trial, piece: Piece) -> tuple[tuple[Piece, ...], Piece | None]:
    """A piece, then what it does not come without and is at home; nothing, and which one, where one cannot come."""
    pieces, fits, group = trial.problem.pieces, trial.problem.fits, [piece.index]
    while (more := _lacking(trial, group)) is not None:
        if not fits[more]:
            return (), pieces[more]
        group.append(more)
    return tuple(pieces[index] for index in group), None


def _lacking(trial: Trial, group: Sequence[int]) -> int | None:
    """A piece that a layout with a group lacks, of several that would do one that has a place; None: it is whole."""
    pieces, carried = trial.problem.pieces, {*trial.now.at, *group}
    for index in group:
        thing = pieces[index].thing
        here = {pieces[i].thing.name for i in carried}
        names = [name for name in thing.with_ if name not in here] + [thing.name] * thing.all_or_none
        for name in names:
            copies = [p.index for p in pieces if p.thing.name == name and p.index not in carried]
            if copies:
                return next((i for i in copies if trial.problem.fits[i]), copies[0])
    return None


def _ways(trial: Trial, group: Sequence[Piece], open_to: Sequence[int]) -> Iterator[WayToTake]:
    """As it is; else what is worth least stays instead; else more of a limit. The first of a group to some rooms."""
    ends = time.monotonic() + trial.options.seconds
    as_it_is = _with(trial, group, open_to)
    if as_it_is is not None:
        yield as_it_is
        return
    stays = held(trial.now)
    mine = {piece.thing.name for piece in group}  # one copy for another is no way to have more of them
    optional = [one for one in trial.wanted if not needed(trial.problem, one) and one.index not in stays]
    optional = [one for one in optional if one.thing.name not in mine]
    optional.sort(key=lambda one: (one.thing.carry or 0, -one.heaviest_g, one.index))
    half = time.monotonic() + trial.options.seconds * 0.6
    found = 0
    for gone in optional:
        if time.monotonic() > half or found >= WAYS - 1:
            break
        way = _with(trial, group, open_to, gone)
        if way is not None:
            found += 1
            yield way
    yield from _with_more(trial, group, open_to, ends)


def _with_more(trial: Trial, group: Sequence[Piece], open_to: Sequence[int], ends: float) -> Iterator[WayToTake]:
    for limit in ("total", "rear axle"):
        least, way = 0.0, None
        for more in MORE_KG:
            if time.monotonic() > ends:
                return
            way = _with_so_much(trial, group, open_to, limit, more, ends)
            if way is not None:
                break
            least = more
        if way is not None:
            yield _least_more(trial, group, open_to, way, least, ends)


def _least_more(
    trial: Trial, group: Sequence[Piece], open_to: Sequence[int], way: WayToTake, least: float, ends: float
) -> WayToTake:
    """As little more of a way's limit as was found, halving what lies above so many kg with which none was found."""
    while way.limit is not None and way.more_kg - least > STEP_KG and time.monotonic() < ends:
        middle = in_steps((least + way.more_kg) / 2)
        found = _with_so_much(trial, group, open_to, way.limit, middle, ends)
        if found is None:
            least = middle
        else:
            way = found
    return way


def _with_so_much(
    trial: Trial, group: Sequence[Piece], open_to: Sequence[int], limit: str, more_kg: float, ends: float
) -> WayToTake | None:
    """A way with so much more of a limit; None when none was found."""
    options = replace(trial.options, seconds=max(0.0, ends - time.monotonic()))
    way = _with(Trial(with_more(trial.case, limit, more_kg), trial.plan, options), group, open_to)
    return None if way is None else replace(way, limit=limit, more_kg=more_kg)


def _with(trial: Trial, group: Sequence[Piece], open_to: Sequence[int], gone: Piece | None = None) -> WayToTake | None:
    """A way with a piece and what comes along, another gone, few things moved; None when none was found."""
    piece, *along = group
    wanted = [one for one in [*trial.wanted, *group] if gone is None or one.index != gone.index]
    if without_company(trial.problem, {one.index for one in wanted}):
        return None
    base = trial.now.copy() if gone is None else taken_out(trial.now, gone.index)
    base.problem = trial.bound_to(piece.index, open_to)
    found = _at_its_corner(trial, group, wanted, base)
    if found is None:
        state = base.copy()
        put_all(state, group)
        found = trial.few_moves(state, wanted, TRY_S)
    if found is None:
        return None
    lifted = not_kept(trial, piece.index, found)
    plan = trial.told(found, without(trial.case, trial.plan.locks, lifted, [piece.copy]))
    leave, comes = None if gone is None else gone.copy, tuple(one.copy for one in along)
    return WayToTake(leave, None, 0.0, plan, lifted, _against(base, trial, piece, lifted), comes)


def _at_its_corner(trial: Trial, group: Sequence[Piece], wanted: Sequence[Piece], base: State) -> State | None:
    """A lawful layout with a piece at a corner where a lock wants it and what comes along; None when none was found."""
    piece, *along = group
    corners = wanted_corners(trial, piece.index)
    starts = [state for at in corners.items() for state in at_corner(base.problem, base, piece.index, *at)]
    for state in starts:
        put_all(state, along)
    return first_lawful(trial, starts, wanted, TRY_S)


def _against(base: State, trial: Trial, piece: Piece, lifted: Sequence[Lock]) -> Against:
    """What stands against the corners where lifted locks want a piece."""
    corners = wanted_corners(trial, piece.index).items() if any(lock.at_mm for lock in lifted) else ()
    tried = [at for at in corners if at[0] in base.problem.fits[piece.index]]
    return tuple(why for at in tried for why in against_corner(base.problem, base, piece.index, *at))


def _open_to(trial: Trial, piece: Piece, space: str | None = None) -> list[int]:
    """Where a piece may be by itself: where no lock keeps it out if there is such a place, else wherever it may.

    With a `space`, that alone whatever its locks say.
    """
    lawful = sorted(trial.free_fits(piece.index))
    if space is not None:
        return [r for r in lawful if trial.problem.rooms[r].space.name == space]
    locks = [lock for lock in locks_on(trial.problem.locks, piece.copy) if not lock.at_home]
    rooms = trial.problem.rooms
    kept = [r for r in lawful if not any(forbids(trial.case, lock, rooms[r].space) for lock in locks)]
    return kept or lawful
