"""Why a thing is here and not there: rules that forbid it, or what it would cost, found by trying."""

from collections.abc import Iterator, Sequence

from models.case import Case, Copy
from models.locks import left_of, locks_on, without
from models.plan import Plan
from models.rules import Rule
from models.trip import Lock
from solver.answers import SILENT, Conflict, Options
from solver.asking import Asked, fresh
from solver.clock import Clock
from solver.contrast import Against, Explanation, Row
from solver.demands import forbids
from solver.eligible import reasons
from solver.elsewhere import Target
from solver.footing import floating
from solver.handling import handling_seconds
from solver.insert import put
from solver.limits import excess, room_for_company, room_for_mass, room_on_axles, unmet
from solver.pricing import priced
from solver.problem import Piece
from solver.seen import seen_conflict
from solver.state import State, lying
from solver.trying import Trial
from solver.wording import fixed_words


def why_not(
    case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=2.3), only: str | None = None
) -> Explanation:
    """For every other space: forbidden, or at what price. `only` looks at one space, with more effort.

    Raises KeyError when the plan does not carry the copy.
    """
    clock = Clock(options.seconds, SILENT)
    trial = Trial(case, plan, options)
    index = trial.problem.piece_of[wanted]
    here = trial.now.at[index].room
    rooms = [r.index for r in trial.problem.rooms if r.index != here and only in (None, r.space.name)]
    lawful = trial.free_fits(index)
    open_rooms = [room for room in rooms if room in lawful]
    rows = {room: _forbidden(trial, index, room) for room in rooms if room not in open_rooms}
    for target in priced(trial, index, open_rooms, clock):
        rows[target.room] = _price(trial, index, target, deep=only is not None)
    return Explanation(
        wanted,
        trial.problem.rooms[here].space.name,
        tuple(rows[room] for room in rooms),
        plan if trial.lowest is trial.now else trial.told(trial.lowest),
        tuple(lock for lock in locks_on(trial.problem.locks, wanted) if not lock.carried),
    )


def _forbidden(trial: Trial, index: int, room: int) -> Row:
    space, thing = trial.problem.rooms[room].space, trial.problem.pieces[index].thing
    why = tuple((reason.rule, reason.says) for reason in reasons(trial.case, thing, space))
    shapeless: Against = ((Rule.INSIDE, "no way it may lie stays within what is allowed there"),)
    return Row(space.name, "cannot", why or shapeless, in_any_plan=True)


def _price(trial: Trial, index: int, target: Target, deep: bool) -> Row:
    """What it costs to have a piece in a room."""
    room = target.room
    space = trial.problem.rooms[room].space
    if target.few is not None and target.lowest is not None:
        return _row(trial, index, space.name, target.few, target.lowest)
    conflict = _proof(trial, index, room) if deep else None
    on_it = locks_on(trial.problem.locks, trial.problem.pieces[index].copy)
    lifted = tuple(lock for lock in on_it if forbids(trial.case, lock, space))
    locked = tuple((Rule.LOCK, f"it {fixed_words(lock)}") for lock in lifted)
    why = (*locked, *_blocks(trial, index, room))
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


def _blocks(trial: Trial, index: int, room: int) -> Against:
    """What stands against a room as this plan stands, as far as one look shows."""
    piece, name = trial.problem.pieces[index], trial.problem.rooms[room].space.name
    state = trial.now.copy()
    state.problem = trial.bound_to(index, [room], one_more=True)
    state.remove(index)
    found: list[tuple[Rule, str]] = []
    if not room_for_mass(state, piece, room):
        found += _mass(state, piece, room)
    if not room_for_company(state, piece, room):
        found += _company(state, piece, room)
    if not found:
        found += _whole(state) if put(state, piece) else _room(state, piece, room, name)
    return (*_in_the_air(state), *found)


def _in_the_air(state: State) -> Iterator[tuple[Rule, str]]:
    """What stays where it is for a lock at a corner, and would have too little under it."""
    for it in floating(state):
        name = state.problem.pieces[it.piece].copy
        yield Rule.SUPPORT, f"{name}, which stays where it is for a lock, would have too little under it"


def _whole(state: State) -> list[tuple[Rule, str]]:
    """What the layout as a whole would miss with a thing that found a place."""
    over, found = excess(state), list[tuple[Rule, str]]()
    if over > 0:
        found.append((Rule.AXLE, f"axles, total or left and right would be {over:.1f} kg beyond what is allowed"))
    if unmet(state) > len(floating(state)):
        found.append((Rule.KIT, "a kit that stays together, copies apart or what a fire asks for would be broken"))
    return found


def _mass(state: State, piece: Piece, room: int) -> list[tuple[Rule, str]]:
    """The space, rack or tie-downs that have no mass left, with their figures."""
    place, sums, found = state.problem.rooms[room], state.sums, list[tuple[Rule, str]]()
    need = max(piece.most_g) / 1000
    if place.limit_g is not None:
        left = min(place.limit_g - used for used in sums.room_g[room]) / 1000
        if left < need:
            found.append((Rule.SPACE_MASS, f"{place.space.name} has {left:.1f} kg left and it weighs {need:.1f} kg"))
    for rack in place.racks:
        limits = [stage.racks_left_g[rack] for stage in state.problem.constants.stages]
        lefts = [limit - used for limit, used in zip(limits, sums.rack_g[rack], strict=True) if limit is not None]
        if lefts and min(lefts) / 1000 < need:
            told = f"{state.problem.racks[rack]} has {min(lefts) / 1000:.1f} kg left and it weighs {need:.1f} kg"
            found.append((Rule.RACK, told))
    return found or [(Rule.RESTRAINT, f"the tie-downs of {place.space.name} hold no more")]


def _company(state: State, piece: Piece, room: int) -> list[tuple[Rule, str]]:
    """The things a piece may not ride with, where they are in this plan."""
    vetoes, found = state.problem.vetoes, []
    for it in state.at.values():
        other = state.problem.pieces[it.piece]
        for veto in vetoes.of[piece.kind].get(other.kind, ()):
            if vetoes.apart(veto, room, it.room):
                name = state.problem.rooms[it.room].space.name
                found.append((veto.rule, f"it may not ride with {other.copy}, which is in {name}"))
    word = piece.thing.hazard
    return list(dict.fromkeys(found)) or [(Rule.HAZARD, f"no more {word} may ride in that air")]


def _room(state: State, piece: Piece, room: int, name: str) -> Sequence[tuple[Rule, str]]:
    """Why it found no place: the rear axle or the total, else the things that lie there."""
    low = state.problem.rooms[room].low
    shape = state.problem.fits[piece.index][room].shapes[0]
    if not room_on_axles(state, piece, lying(state.problem, piece.index, room, shape, *low)):
        return [(Rule.AXLE, "the rear axle or the total has nothing left for it there")]
    there = [str(state.problem.pieces[it.piece].copy) for it in state.inside[room]]
    if not there:
        return []
    more = f" and {len(there) - 3} more" if len(there) > 3 else ""
    return [(Rule.OVERLAP, f"{', '.join(there[:3])}{more} lie in {name} and leave no room for it")]
