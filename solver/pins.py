"""What has to come, and where things lie that locks keep at a corner."""

from models.plan import Plan
from solver.digging import in_reach
from solver.geometry import borne, clear, contact
from solver.limits import room_for_company, room_for_mass
from solver.pieces import Piece
from solver.plans import from_plan
from solver.problem import Problem
from solver.state import Lying, State, lying


def needed(problem: Problem, piece: Piece) -> bool:
    """Whether a piece has to come."""
    return piece.index in problem.coming


def pinned(problem: Problem, before: Plan | None) -> State:
    """A layout with the things that locks keep at a corner, and what they stand on in the plan before.

    A thing that does not go where its lock wants it has no room at all, so that no plan is found with it.
    """
    state, whole = State(problem), State(problem) if before is None else from_plan(problem, before)
    corners = [piece for piece in problem.pieces if problem.fixed[piece.index].corner_mm is not None]
    corners.sort(key=lambda piece: not _was_there(whole, piece))  # of two that want one place, who has it stays
    for piece in corners:
        it = _at_its_corner(state, piece, whole)
        if it is not None:
            state.add(it)
    state.locked = frozenset(state.at)
    problem.allow(
        {} if piece in corners and piece.index not in state.at else problem.fits[piece.index]
        for piece in problem.pieces
    )
    for index in sorted(state.locked):
        _supporters(state, state.at[index], whole)
    return state


def _was_there(whole: State, piece: Piece) -> bool:
    """Whether a piece lay at its corner in the plan before."""
    old = whole.at.get(piece.index)
    return old is not None and old.box[:3] == whole.problem.fixed[piece.index].corner_mm


def _at_its_corner(state: State, piece: Piece, whole: State) -> Lying | None:
    """As it lies in the plan before, else in the first shape that may lie beside the others."""
    problem = state.problem
    corner = problem.fixed[piece.index].corner_mm
    old = whole.at.get(piece.index)
    if corner is None:
        return None
    found = [old] if old is not None and _was_there(whole, piece) else []
    for room, fit in problem.fits[piece.index].items():
        found += [lying(problem, piece.index, room, shape, *corner) for shape in fit.shapes]
    return next((it for it in found if may_lie(state, piece, it)), None)


def may_lie(state: State, piece: Piece, it: Lying) -> bool:
    """Whether a piece may lie so beside what is there, but for what it stands on: that may come later."""
    lies = fits_there(state.problem, piece, it) and clear(state, it) and borne(state, it) and in_reach(state, it)
    return lies and room_for_mass(state, piece, it.room) and room_for_company(state, piece, it.room)


def fits_there(problem: Problem, piece: Piece, it: Lying) -> bool:
    """Whether a piece may lie so within the walls of a room that takes it."""
    fit = problem.fits[piece.index].get(it.room)
    if fit is None or it.box[2] < fit.least_z or it.box[5] > fit.greatest_top:
        return False
    sides = tuple(it.box[k + 3] - it.box[k] for k in range(3))
    shape_ok = it.shape in fit.shapes and piece.shapes[it.shape].size == sides
    room = problem.rooms[it.room]
    walls = all(room.low[k] <= it.big[k] and it.big[k + 3] <= room.high[k] for k in range(3))
    return shape_ok and walls


def _supporters(state: State, it: Lying, whole: State) -> None:
    """Put under a locked thing what it stands on in the plan before, and what that stands on."""
    for under in whole.inside[it.room]:
        if under.piece in state.at or not contact(it.box, under.box):
            continue
        piece = state.problem.pieces[under.piece]
        if may_lie(state, piece, under):
            state.add(under)
            _supporters(state, under, whole)
