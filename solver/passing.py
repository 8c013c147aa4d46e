"""By how much a layout passes a limit, and which things bring it back within when they stay at home."""

from collections.abc import Sequence

from solver.footing import held
from solver.given import ball_over_kg
from solver.lanes import lane
from solver.limits import over_g
from solver.problem import Problem
from solver.shifting import SHARES
from solver.state import State


def over_kg(state: State, limits: Problem, subject: str) -> float:
    """By how many kilograms a layout passes a limit at its worst stage; below 0 where it does not.

    `limits` is the problem whose limits and reserve are meant; the layout may be of one with the limit lifted.
    """
    if subject == "tow ball":
        return ball_over_kg(limits.case)
    kind, _, name = subject.partition(" ")
    sums, k, over = state.sums, limits.constants, list[float]()
    shared = next((n for n, bearer in enumerate(limits.bearers) if bearer.limit == subject), None)
    for t, stage in enumerate(k.stages):
        if shared is not None:
            left = stage.bearers_left_g[shared]
            over += [] if left is None else [lane(sums.bearer_g[shared], t) - left]
        elif kind == "space":
            room = limits.rooms[limits.room_of[name]]
            over.append(lane(sums.room_g[room.index], t) - (room.limit_g or 0))
        elif kind == "tie-downs":
            room = limits.rooms[limits.room_of[name]]
            over.append(lane(sums.tied_g[room.index], t) - (room.tied_g or 0))
        elif t in limits.driving:
            # Shares are of rounded masses, so that a gram for each piece is kept.
            more = len(limits.pieces) if subject in SHARES else 0
            over += [grams + more for name, grams in over_g(state, t, k) if name == subject]
    return max(over, default=0.0) / 1000


def lightened(state: State, limits: Problem, subject: str, names: Sequence[str], times: float = 1.0) -> tuple[str, ...]:
    """Things without which a layout is within a limit: each time the one that takes most off, at last the lightest.

    `times` as much as the limit is passed by comes off. Empty where not so much can.
    """
    state, gone = state.copy(), list[str]()
    most = (1 - times) * over_kg(state, limits, subject)
    while over_kg(state, limits, subject) > most:
        left = {name: _over_without(state, limits, subject, name) for name in names if name not in gone}
        left = {name: over for name, over in left.items() if over < over_kg(state, limits, subject)}
        if not left:
            return ()
        named = limits.case.thing_named
        enough = [name for name, over in left.items() if over <= most]
        mass = {name: named[name].mass_kg.most * named[name].count for name in left}
        chosen = min(enough, key=lambda name: (mass[name], name)) if enough else min(left, key=lambda n: (left[n], n))
        gone.append(chosen)
        for index in _copies(state, chosen):
            state.remove(index)
    return tuple(gone)


def above(state: State, index: int) -> list[int]:
    """What may stand on a piece and may move."""
    it, stays = state.at[index], held(state)
    return [
        o.piece for o in state.inside[it.room] if o.piece != index and o.box[2] >= it.box[5] and o.piece not in stays
    ]


def _copies(state: State, name: str) -> list[int]:
    return [index for index in sorted(state.at) if state.problem.pieces[index].thing.name == name]


def _over_without(state: State, limits: Problem, subject: str, name: str) -> float:
    taken = [state.remove(index) for index in _copies(state, name)]
    over = over_kg(state, limits, subject)
    for it in taken:
        state.add(it)
    return over
