"""One heavy thing brought down into a room of its choice; what was in its way finds another place afterwards."""

from random import Random

from solver.geometry import contact
from solver.insert import put
from solver.state import State

SOME_SHARE = 0.5
"""How often only some things make way, and not all that lie in the room."""


def brought_down(state: State, random: Random) -> bool:
    """Take things out of a room for one that lies higher elsewhere and put it there; False where nothing came of it.

    The state is changed; what made way is left out of it. Drawn by how much the load could go down.
    """
    drawn = _drawn(state, random)
    if drawn is None:
        return False
    piece, room = drawn
    return cleared(state, piece, room, random) and put(state, state.problem.pieces[piece], [room], random)


def _drawn(state: State, random: Random) -> tuple[int, int] | None:
    """A piece that is not locked and a room in which it could lie lower."""
    problem = state.problem
    free = [it for it in state.at.values() if it.piece not in state.locked]
    could = [_down(state, it.piece, problem.lowest2[it.piece]) for it in free]
    if not any(gain > 0 for gain in could):
        return None
    it = random.choices(free, could)[0]
    gains = {
        room: _down(state, it.piece, fit.lowest2)
        for room, fit in problem.fits[it.piece].items()
        if room != it.room and _down(state, it.piece, fit.lowest2) > 0
    }
    return (it.piece, random.choices(list(gains), list(gains.values()))[0]) if gains else None


def _down(state: State, piece: int, lowest2: int) -> float:
    """Grams times half millimetres that a piece could go down; 0 where it could not."""
    box = state.at[piece].box
    return max(0, state.problem.pieces[piece].heaviest_g * (box[2] + box[5] - lowest2))


def cleared(state: State, piece: int, room: int, random: Random) -> bool:
    """Take out a piece and what makes way for it in a room; False, and nothing changed, where a lock is against it."""
    out = with_all_above(state, {piece, *_making_way(state, room, random)})
    if out & state.locked:
        return False
    for index in sorted(out):
        state.remove(index)
    return True


def _making_way(state: State, room: int, random: Random) -> list[int]:
    here = [it.piece for it in state.inside[room] if it.piece not in state.locked]
    if len(here) > 1 and random.random() < SOME_SHARE:
        return random.sample(here, random.randint(1, len(here) - 1))
    return here


def with_all_above(state: State, pieces: set[int]) -> set[int]:
    """The pieces, all that rests on them, and all that lies inside them."""
    out, waiting = set(pieces), list(pieces)
    while waiting:
        it = state.at[waiting.pop()]
        near = [o for o in state.inside[it.room] if contact(o.box, it.box)]
        near += [o for room, host in state.problem.host.items() if host == it.piece for o in state.inside[room]]
        for o in near:
            if o.piece not in out:
                out.add(o.piece)
                waiting.append(o.piece)
    return out
