"""Repacking that leaves as much as it can where it was."""

from collections.abc import Sequence
from random import Random

from models.plan import Placement
from solver.geometry import allowed
from solver.insert import put, put_all
from solver.limits import room_for_company, room_for_mass, room_on_axles
from solver.pieces import Piece
from solver.pins import fits_there
from solver.problem import Problem
from solver.repack import Repacker
from solver.state import Lying, State, lying

COPY_S = 0.01
"""Seconds that each moved copy counts beside its minutes, so that fewer copies break a tie."""
CLEAR_FIRST = 0.5
"""Chance that movers find their place before the rest goes back."""


def moving_seconds(problem: Problem, old: Lying, new: Lying) -> float:
    """Seconds to move a copy: the openings at both places and handling it once."""
    if old.box == new.box:
        return 0.0
    ways = problem.rooms[old.room].chain_s + (problem.rooms[new.room].chain_s if new.room != old.room else 0.0)
    return ways + problem.pieces[old.piece].handling_s


def moving_and_copies(before: State, state: State) -> float:
    """Seconds of moving from one layout to another, each moved copy a hundredth of a second more."""
    old = before.at
    return sum(
        moving_seconds(state.problem, old[i], it) + COPY_S
        for i, it in state.at.items()
        if i in old and old[i].box != it.box
    )


def back(state: State, piece: Piece, old: Lying) -> bool:
    """Put a piece where it was, if that is lawful now."""
    if piece.index in state.at or not fits_there(state.problem, piece, old):
        return False
    if not (room_for_mass(state, piece, old.room) and room_for_company(state, piece, old.room)):
        return False
    if not (allowed(state, old) and room_on_axles(state, piece, old)):
        return False
    state.add(old)
    return True


def lowest_first(problem: Problem, pieces: Sequence[Piece], before: State) -> list[Piece]:
    """Pieces in an order in which each finds under it what it stood on: things with rooms in them, then upwards."""
    hosts = set(problem.host.values())
    return sorted(pieces, key=lambda p: (p.index not in hosts, before.at[p.index].box[2], p.index))


def kept(base: State, wanted: Sequence[Piece], before: State, vacated: Sequence[Placement] = ()) -> State:
    """What may stay where it was, from below, then the rest where there is room, in places left empty first."""
    state = base.copy()
    known = [piece for piece in wanted if piece.index in before.at]
    all_back(state, known, before)
    for place in vacated:
        if _taken(state, wanted, before, place):
            all_back(state, known, before)  # what stood on what lay there
    fits = state.problem.fits
    for piece in sorted(wanted, key=lambda p: (len(fits[p.index]), -p.heaviest_g, p.index)):
        if piece.index not in state.at:
            put(state, piece)
    return state


def all_back(state: State, known: Sequence[Piece], before: State) -> None:
    """Put down where it was what may stay there, from below."""
    for piece in lowest_first(state.problem, known, before):
        back(state, piece, before.at[piece.index])


def _taken(state: State, wanted: Sequence[Piece], before: State, place: Placement) -> bool:
    """Whether something that was nowhere before is put into a place that was left empty."""
    room = state.problem.room_of.get(place.space)
    new = (piece for piece in wanted if piece.index not in before.at and piece.index not in state.at)
    return room is not None and any(_in_the_place(state, piece, room, place) for piece in new)


def _in_the_place(state: State, piece: Piece, room: int, place: Placement) -> bool:
    """Put a piece at the corner of a place, as it lay there if that fits it, else in the first shape that may lie."""
    problem, fit = state.problem, state.problem.fits[piece.index].get(room)
    shapes = [] if fit is None else sorted(fit.shapes, key=lambda s: piece.shapes[s].size != place.size_mm)
    return any(back(state, piece, lying(problem, piece.index, room, s, *place.corner_mm)) for s in shapes)


class Keeper(Repacker):
    """Repacks so that few minutes are spent: what was taken out goes back to its place where it can."""

    def __init__(self, state: State, wanted: Sequence[Piece], before: State, random: Random) -> None:
        self.before = before
        super().__init__(state, wanted, self.minutes_and_copies, random, 0.0)

    def minutes_and_copies(self, state: State) -> float:
        """Seconds of moving, each moved copy a hundredth of a second more."""
        return moving_and_copies(self.before, state)

    def fill(self, state: State, order: list[Piece]) -> None:
        """Movers are chosen by chance and by what has no place yet; everything else goes back first."""
        known = [piece for piece in order if piece.index in self.before.at]
        count = self.random.choice((0, 1, 1, 2, 3))
        movers = {piece.index for piece in self.random.sample(known, min(count, len(known)))}
        late = [piece for piece in order if piece.index not in self.before.at or piece.index in movers]
        stay = [piece for piece in known if piece.index not in movers]
        if self.random.random() < CLEAR_FIRST:
            self._put(state, late)
        all_back(state, stay, self.before)
        self._put(state, order)

    def _put(self, state: State, pieces: Sequence[Piece]) -> None:
        put_all(state, [piece for piece in pieces if piece.index not in state.at], self.random)
