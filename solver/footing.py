"""What locks keep where it is: the things that they keep at a corner, and all that these stand on."""

from collections.abc import Iterable

from solver.geometry import contact, on_enough
from solver.state import Lying, State


def held(state: State) -> set[int]:
    """Pieces that stay where they are: those that are locked, and all that stands under them."""
    return standing_under(state, state.locked) if state.locked else set()


def standing_under(state: State, pieces: Iterable[int]) -> set[int]:
    """Pieces, all that they stand on, directly or not, and the things in whose rooms they lie."""
    found = {index for index in pieces if index in state.at}
    waiting = [state.at[index] for index in sorted(found)]
    while waiting:
        it = waiting.pop()
        under = [o for o in state.inside[it.room] if contact(it.box, o.box)]
        host = state.problem.host.get(it.room)
        under += [state.at[host]] if host in state.at else []
        for o in under:
            if o.piece not in found:
                found.add(o.piece)
                waiting.append(o)
    return found


def floating(state: State) -> list[Lying]:
    """Pieces that stay where they are and stand on too little: whatever else is put down has been asked before."""
    return [it for it in (state.at[index] for index in sorted(held(state))) if not on_enough(state, it)]
