"""Why a thing is here and not there: rules that forbid it, or what it would cost, found by trying."""

from collections.abc import Sequence
from dataclasses import replace

from models.case import Case, Copy, fresh
from models.locks import left_of, locks_on, without
from models.plan import Plan
from models.rules import Rule
from models.trip import Lock
from solver.against import against_space
from solver.answers import SILENT, Conflict, Options
from solver.asking import Asked
from solver.clock import Clock
from solver.contrast import Against, Explanation, OtherSidesError, Row, about
from solver.cornered import SHARE, Cornered, cornered, wanted_corners
from solver.demands import forbids
from solver.handling import handling_seconds
from solver.heights import every_reason
from solver.pricing import priced
from solver.seen import seen_conflict
from solver.state import State
from solver.target import Target
from solver.trying import Trial
from solver.wording import fixed_words


def why_not(
    case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=2.3), only: str | None = None
) -> Explanation:
    """For every other space: forbidden, or at what price. `only` looks at one space, with more effort.

    Raises
    ------
    KeyError
        The trip has no such copy.
    OtherSidesError
        The plan does not have it, or not with sides that it may have.
    """
    clock = Clock(options.seconds, SILENT)
    trial = Trial(case, plan, options)
    index = trial.problem.piece_of[wanted]
    if index not in trial.now.at:
        raise OtherSidesError(str(wanted))
    here, corners = trial.now.at[index].room, wanted_corners(trial, index)
    asked = [r.index for r in trial.problem.rooms if only in (None, r.space.name)]
    rooms = [room for room in asked if room != here or room in corners]
    lawful = trial.free_fits(index)
    open_rooms = [room for room in rooms if room in lawful]
    rows = {room: _forbidden(trial, index, room) for room in rooms if room not in open_rooms}
    rows |= _rows(trial, index, open_rooms, clock, deep=only is not None)
    return Explanation(
        wanted,
        trial.problem.rooms[here].space.name,
        tuple(rows[room] for room in rooms),
        plan if trial.lowest is trial.now else trial.told(trial.lowest),
        tuple(lock for lock in locks_on(trial.problem.locks, wanted) if not lock.carried),
    )


def _rows(trial: Trial, index: int, rooms: Sequence[int], clock: Clock, deep: bool) -> dict[int, Row]:
    """What it costs to have a piece in each of some rooms, at the corner first where a lock wants it so."""
    at_corners, here = cornered(trial, index, rooms, clock), trial.now.at[index].room
    others = [room for room in rooms if room != here]
    targets = {it.room: it for it in priced(trial, index, others, clock.part(1 - SHARE) if at_corners else clock)}
    trial.let_stay(index)
    rows = {}
    for n, room in enumerate(at_corners):
        low = targets[room].lowest if room in targets else None
        bases = [trial.lowest] if low is None else [low, trial.lowest]
        lowest = at_corners[room].lowest(trial, index, bases, clock.left() / (len(at_corners) - n))
        if lowest is not None or room == here:
            rows[room] = _at_its_corner(trial, index, at_corners[room], lowest)
    for room, target in targets.items():
        if room not in rows:
            against = at_corners[room].against if room in at_corners else ()
            rows[room] = _price(trial, index, target, against, deep=deep)
    return rows


def _at_its_corner(trial: Trial, index: int, it: Cornered, lowest: State | None) -> Row:
    """What it costs to have a piece at the corner where a lock wants it; of its own room there is no other row."""
    name = trial.problem.rooms[it.room].space.name
    if it.few is None or lowest is None:
        return Row(name, "none found", it.against, corner_mm=it.corner)
    return replace(_row(trial, index, name, it.few, lowest), corner_mm=it.corner)


def _forbidden(trial: Trial, index: int, room: int) -> Row:
    space, thing = trial.problem.rooms[room].space, trial.problem.pieces[index].thing
    why = tuple((reason.rule, reason.says) for reason in every_reason(trial.case, thing, space))
    shapeless: Against = ((Rule.INSIDE, "no way it may lie stays within what is allowed there"),)
    return Row(space.name, "cannot", why or shapeless, in_any_plan=True)


def _price(trial: Trial, index: int, target: Target, against: Against, deep: bool) -> Row:
    """What it costs to have a piece in a room; `against` is what keeps it from the corner where a lock wants it."""
    room = target.room
    space = trial.problem.rooms[room].space
    if target.few is not None and target.lowest is not None:
        row = _row(trial, index, space.name, target.few, target.lowest)
        kept = against if any(lock.at_mm for lock in row.lifted) else ()
        relaxed_mm = None if target.about_mm is None else target.about_mm - trial.stays_mm
        return replace(row, about_mm=about(row.higher_mm or 0.0, relaxed_mm), against_corner=kept)
    conflict = _proof(trial, index, room) if deep else None
    on_it = locks_on(trial.problem.locks, trial.problem.pieces[index].copy)
    corner = wanted_corners(trial, index).get(room)
    lifted = tuple(lock for lock in on_it if forbids(trial.case, lock, space) or (corner and lock.at_mm == corner))
    locked = tuple((Rule.LOCK, f"it {fixed_words(lock)}") for lock in lifted)
    why = (*locked, *against, *against_space(trial, index, room))
    if conflict is not None:
        return Row(space.name, "cannot", why, in_any_plan=True, conflict=conflict, lifted=lifted)
    return Row(space.name, "none found", why, lifted=lifted)


def _proof(trial: Trial, index: int, room: int) -> Conflict | None:
    """Demands that are proven not to hold together with a piece in a room, free of all locks on it."""
    piece, case = trial.problem.pieces[index], trial.case
    kept = tuple(one for lock in trial.problem.locks for one in left_of(case, lock, [piece.copy]))
    there = Lock.model_validate(
        {"thing": piece.copy.thing, "copy": piece.copy.number, "in": trial.problem.rooms[room].space.name}
    )
    moved = fresh(case, trip=case.trip.model_copy(update={"locks": (*kept, there)}))
    asked = Asked(moved, (), trial.problem.use_reserve, trial.plan)
    return seen_conflict(asked, Clock(trial.options.seconds, SILENT))


def _row(trial: Trial, index: int, name: str, few: State, lowest: State) -> Row:
    now, problem, copy = trial.now, trial.problem, trial.problem.pieces[index].copy
    moved = [i for i in sorted(few.at) if i != index and few.at[i].box != now.at[i].box]

    def space(state: State, piece: int) -> str:
        return problem.rooms[state.at[piece].room].space.name

    lifted = not_kept(trial, index, few, lowest)
    locks = without(trial.case, trial.plan.locks, lifted, [copy])
    return Row(
        name,
        "could",
        higher_mm=lowest.height_mm() - trial.lowest.height_mm(),
        more_s=handling_seconds(few) - handling_seconds(now),
        moves=tuple((problem.pieces[i].copy, space(now, i), space(few, i)) for i in moved),
        plan=trial.told(few, locks),
        lowest=trial.told(lowest, locks),
        lifted=lifted,
    )


def not_kept(trial: Trial, index: int, *states: State) -> tuple[Lock, ...]:
    """Locks on a piece that any of some layouts does not keep."""
    lying = [state.at[index] for state in states]
    where = [(trial.problem.rooms[it.room].space, it.box[:3]) for it in lying]
    on_it = locks_on(trial.problem.locks, trial.problem.pieces[index].copy)
    return tuple(lock for lock in on_it if any(forbids(trial.case, lock, *place) for place in where))
