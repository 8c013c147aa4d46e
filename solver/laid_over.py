"""What lay in one room laid into another as it was: rooms are often alike, left and right, and so is what fits them."""

from collections.abc import Sequence

from solver.geometry import allowed
from solver.limits import room_for_company, room_for_mass
from solver.patterns import Patterns
from solver.state import Lying, State, lying


def laid_over(patterns: Patterns, here: Sequence[Lying], room: int) -> list[Lying] | None:
    """Things as they lie to each other, in another room, else mirrored left to right; None where neither may be."""
    plain = _lawful(patterns, _shifted(patterns, here, room, mirrored=False), room)
    return plain or _lawful(patterns, _shifted(patterns, here, room, mirrored=True), room)


def _lawful(patterns: Patterns, found: Sequence[Lying] | None, room: int) -> list[Lying] | None:
    if found is None:
        return None
    state = State(patterns.problem)
    for it in sorted(found, key=lambda it: it.box[2]):
        piece = patterns.problem.pieces[it.piece]
        if not (room_for_mass(state, piece, room) and room_for_company(state, piece, room) and allowed(state, it)):
            return None
        state.add(it)
    return state.inside[room]


def _shifted(patterns: Patterns, here: Sequence[Lying], room: int, *, mirrored: bool) -> list[Lying] | None:
    """The same boxes as far from the least corner, or from the right wall as from the left, where all stay within."""
    problem, found = patterns.problem, []
    to, old = problem.rooms[room], problem.rooms[here[0].room]
    for it in here:
        fit = problem.fits[it.piece].get(room)
        if fit is None or it.shape not in fit.shapes or it.piece in patterns.locked:
            return None
        x, y, z = (it.box[k] - old.low[k] + to.low[k] for k in range(3))
        if mirrored:
            y = to.low[1] + old.high[1] - it.box[4]
        new = lying(problem, it.piece, room, it.shape, x, y, z)
        if (
            any(new.big[k] < to.low[k] or new.big[k + 3] > to.high[k] for k in range(3))
            or z < fit.least_z
            or new.box[5] > fit.greatest_top
        ):
            return None
        found.append(new)
    return found
