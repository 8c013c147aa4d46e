"""A thing at the corner where a lock wants it, not the plan: tried there, or what stands in the way."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from models.geometry import Point
from models.locks import locks_on
from models.rules import Rule
from solver.against import company, mass, whole
from solver.clock import Clock
from solver.contrast import Against
from solver.footing import floating, held
from solver.geometry import clear
from solver.insert import put
from solver.limits import room_for_company, room_for_mass
from solver.passing import above
from solver.pieces import Piece, meet
from solver.pins import fits_there, may_lie
from solver.problem import Problem
from solver.state import Lying, State, lying
from solver.trying import Trial

SHARE = 0.15
"""Share of the time for the tries at corners, and of what is left of it after the other tries to bring them low."""


@dataclass
class Cornered:
    """A piece at the corner where a lock wants it, tried."""

    room: int
    corner: Point
    problem: Problem
    """The problem with the piece in that room."""
    few: State | None = None
    """A layout with few moves; None when none was found."""
    against: Against = ()
    """What stands in the way where none was found, as far as one look shows."""

    def lowest(self, trial: Trial, index: int, bases: Sequence[State], seconds: float) -> State | None:
        """The lowest layout found with it there, begun at the one with few moves and at some others."""
        if self.few is None:
            return None
        there = (next(at_corner(self.problem, base, index, self.room, self.corner), None) for base in bases)
        starts = [self.few, *(state for state in there if state is not None)]
        low = trial.lower(starts, seconds)
        return self.few if low is None or self.few.height_mm() < low.height_mm() else low


def cornered(trial: Trial, index: int, rooms: Collection[int], clock: Clock) -> dict[int, Cornered]:
    """By room: a piece tried at the corner where a lock wants it, in those rooms where the plan has it elsewhere."""
    made = {room: corner for room, corner in wanted_corners(trial, index).items() if room in rooms}
    found, part = dict[int, Cornered](), clock.part(SHARE)
    for n, (room, corner) in enumerate(made.items()):
        it = Cornered(room, corner, trial.bound_to(index, [room], one_more=True))
        starts = list(at_corner(it.problem, trial.now, index, room, corner))
        it.few = first_lawful(trial, starts, trial.wanted, part.left() / (len(made) - n))
        it.against = () if it.few is not None else against_corner(it.problem, trial.now, index, room, corner)
        found[room] = it
    return found


def wanted_corners(trial: Trial, index: int) -> dict[int, Point]:
    """By room: the corner where a lock wants a piece, where the layout does not have it so."""
    now, found = trial.now.at.get(index), dict[int, Point]()
    for lock in locks_on(trial.problem.locks, trial.problem.pieces[index].copy):
        room = trial.problem.room_of.get(lock.in_ or "")
        if room is not None and lock.at_mm is not None and (now is None or _elsewhere(now, room, lock.at_mm)):
            found.setdefault(room, lock.at_mm)
    return found


def _elsewhere(it: Lying, room: int, corner: Point) -> bool:
    return (it.room, it.box[:3]) != (room, corner)


def at_corner(problem: Problem, base: State, index: int, room: int, corner: Point) -> Iterator[State]:
    """Layouts with a piece kept at a corner, one for each shape that may lie there; what was in its way has moved."""
    for it in _lying_there(problem, index, room, corner):
        state, out = _made_free(problem, base, it)
        if not may_lie(state, problem.pieces[index], it):
            out += _emptied(state, room)
        if may_lie(state, problem.pieces[index], it):
            state.add(it)
            state.locked |= {index}
            for piece in sorted(out, key=lambda i: -problem.pieces[i].heaviest_g):
                put(state, problem.pieces[piece])
            yield state


def _lying_there(problem: Problem, index: int, room: int, corner: Point) -> list[Lying]:
    """A piece at a corner in each shape that stays within the walls there."""
    fit, piece = problem.fits[index].get(room), problem.pieces[index]
    found = [lying(problem, index, room, shape, *corner) for shape in (fit.shapes if fit else ())]
    return [it for it in found if fits_there(problem, piece, it)]


def _made_free(problem: Problem, base: State, it: Lying) -> tuple[State, list[int]]:
    """A layout without a piece and without what it would meet that may move, and what that is."""
    state, out = base.copy(), list[int]()
    state.problem, state.locked = problem, base.locked - {it.piece}
    if it.piece in state.at:
        out = above(state, it.piece)
        for piece in [it.piece, *out]:
            state.remove(piece)
    stays = held(state)
    for other in _met(state, it):
        if other.piece in state.at and other.piece not in stays:
            gone = [other.piece, *above(state, other.piece)]
            out += gone
            for piece in gone:
                state.remove(piece)
    return state, out


def _met(state: State, it: Lying) -> list[Lying]:
    """What lies where a piece would."""
    return [o for o in state.inside[it.room] if meet(it.box, o.big) or meet(it.big, o.box)]


def _emptied(state: State, room: int) -> list[int]:
    """Take all that may move out of a room."""
    stays = held(state)
    gone = [o.piece for o in state.inside[room] if o.piece not in stays]
    for piece in gone:
        state.remove(piece)
    return gone


def against_corner(problem: Problem, base: State, index: int, room: int, corner: Point) -> Against:
    """What stands against a piece at a corner, as far as one look shows, whatever may move having moved."""
    there = _lying_there(problem, index, room, corner)
    name = problem.rooms[room].space.name
    if not there:
        return ((Rule.INSIDE, f"at {list(corner)} it does not lie within what is allowed in {name}"),)
    found = next(at_corner(problem, base, index, room, corner), None)
    if found is not None:
        shows = tuple(_missed(base, found, index))
        return shows or ((Rule.LOCK, f"no plan was found with it at {list(corner)}"),)
    state, _ = _made_free(problem, base, there[0])
    _emptied(state, room)
    return tuple(_refused(state, problem.pieces[index], there[0])) or (
        (Rule.SUPPORT, f"at {list(corner)} it would not be borne, or not be in hand in time"),
    )


def _refused(state: State, piece: Piece, it: Lying) -> Iterator[tuple[Rule, str]]:
    """What keeps a piece from a corner in a room where nothing is left that may move."""
    name, corner = state.problem.rooms[it.room].space.name, list(it.box[:3])
    for other in _met(state, it):
        called = state.problem.pieces[other.piece].name
        yield Rule.OVERLAP, f"{called}, which stays where it is for a lock, lies at {corner}"
    if not _met(state, it) and not clear(state, it):
        yield Rule.OVERLAP, f"at {corner} it would meet a solid part of {name} or what slides through it"
    if not room_for_mass(state, piece, it.room):
        yield from mass(state, piece, it.room)
    if not room_for_company(state, piece, it.room):
        yield from company(state, piece, it.room)


def _missed(base: State, state: State, index: int) -> Iterator[tuple[Rule, str]]:
    """What a layout misses with a piece at its corner: something under it, room for others, a limit of the whole."""
    corner = list(state.at[index].box[:3])
    if any(it.piece == index for it in floating(state)):
        yield Rule.SUPPORT, f"at {corner} too little would be under it"
    gone = [state.problem.pieces[i].name for i in sorted(base.at) if i not in state.at]
    if gone:
        yield Rule.OVERLAP, f"with it at {corner} no place was found for {', '.join(gone)}"
    yield from whole(state)


def first_lawful(trial: Trial, starts: Sequence[State], wanted: Sequence[Piece], seconds: float) -> State | None:
    """A lawful layout with few moves near the first of some that is near one; None when none was found."""
    tries = (trial.few_moves(start, wanted, seconds / len(starts)) for start in starts)
    return next((found for found in tries if found is not None), None)
