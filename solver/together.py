"""Things that have only one space to be in and do not fit into it: proven by the exact model of that space."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from models.locks import locks_on
from models.spaces import Space
from solver.answers import Conflict, Demand
from solver.asking import Asked
from solver.build import Build
from solver.clear import ways_through
from solver.clock import Clock
from solver.company import causes
from solver.library import cp_model
from solver.pieces import PROOF_SPARE_G, Piece
from solver.problem import Problem
from solver.rules import inside, lock, overlap
from solver.steady import steady
from solver.wording import limit_words, lock_demand

MOST = 14
"""So many things in one space are looked at; more are not decided in a second (measured: 12 to 15)."""
WORK = 1.0
"""Work of one look, in the unit of `steady`."""


def too_full(asked: Asked, clock: Clock) -> Conflict | None:
    """Locks and musts that send more into one space than goes into it; None where none is seen."""
    problem = asked.problem()
    for room, pieces in crowded(problem, clock):
        few = _smallest(problem, pieces, room, clock)
        return _told(asked, problem, few, room, _how(problem, few, room, clock))
    return None


def crowded(problem: Problem, clock: Clock) -> Iterator[tuple[int, list[Piece]]]:
    """Rooms into which more is sent than goes in, with what is sent there."""
    for room, pieces in sorted(_sent(problem).items()):
        if 2 <= len(pieces) <= MOST and not clock.late() and cannot_lie(problem, pieces, room, clock):
            yield room, pieces


def _sent(problem: Problem) -> dict[int, list[Piece]]:
    """By room: pieces of fixed size that have to come and may be nowhere else."""
    found: dict[int, list[Piece]] = defaultdict(list)
    for piece in problem.pieces:
        fixed, fits = problem.fixed[piece.index], problem.fits[piece.index]
        comes = piece.index in problem.coming and (piece.thing.must or fixed.carried)
        # A thing given by volume has more shapes than the model tries, so it is no part of a proof.
        if comes and len(fits) == 1 and piece.thing.size_mm is not None:
            found[next(iter(fits))].append(piece)
    return found


def cannot_lie(problem: Problem, pieces: Sequence[Piece], room: int, clock: Clock, locked: bool = True) -> bool:
    """Whether it is proven that pieces do not lie in a room together, whatever holds them up.

    `locked` keeps those that are locked at a corner there.
    """
    build = Build(problem, pieces, [room], all_come=True)
    # The thing around a room that is part of it lies elsewhere: a model of this room alone knows nothing of it.
    for add in (inside.walls, overlap.parted, *((lock.add,) if locked else ())):
        add(build)
    return steady(clock.left(), WORK).solve(build.model) == cp_model.INFEASIBLE


def _smallest(problem: Problem, pieces: Sequence[Piece], room: int, clock: Clock) -> list[Piece]:
    """Drop pieces one at a time, those nobody locked first, while the rest stays impossible."""
    kept = list(pieces)
    for piece in sorted(pieces, key=lambda one: (bool(problem.fixed[one.index].spaces), one.index)):
        rest = [one for one in kept if one.index != piece.index]
        if rest and not clock.late() and cannot_lie(problem, rest, room, clock):
            kept = rest
    return kept


def _how(problem: Problem, pieces: Sequence[Piece], room: int, clock: Clock) -> str:
    """How pieces do not go into a room: however they lie, or with some of them where locks keep them."""
    corners = ((one.name, problem.fixed[one.index].corner_mm) for one in pieces)
    kept = [f"{name} at {list(corner)}" for name, corner in corners if corner is not None]
    if not kept or cannot_lie(problem, pieces, room, clock, locked=False):
        return "however they lie"
    return f"with {' and '.join(kept)} where {'its lock keeps it' if len(kept) == 1 else 'their locks keep them'}"


def _told(asked: Asked, problem: Problem, pieces: Sequence[Piece], room: int, how: str) -> Conflict:
    space = problem.rooms[room].space
    demands = dict.fromkeys(one for piece in pieces for one in _demands(asked, problem, piece))
    size = " x ".join(f"{side}" for side in space.size_mm)
    names = ", ".join(f"{one.name} {' x '.join(map(str, one.thing.size_mm or ()))} mm" for one in pieces)
    air = " with the free air they need" if any(one.thing.air_gap_mm for one in pieces) else ""
    says = f"{space.name} is {size} mm{_less(problem, space)}; together these do not go into it{air}, {how}: {names}."
    told = tuple(sorted(demands, key=lambda one: one.kind != "lock"))
    return Conflict(told, (says, *_too_heavy(problem, pieces, room)))


def _less(problem: Problem, space: Space) -> str:
    """What of a space is not free: what is built into it, and what slides through it."""
    ways = " and ".join(ways_through(problem.case, space))
    parts = [*(["what is built into it"] if space.solid else []), *([f"the way of {ways}"] if ways else [])]
    return f" less {' and '.join(parts)}" if parts else ""


def _too_heavy(problem: Problem, pieces: Sequence[Piece], room: int) -> Iterator[str]:
    """The racks under a room that could not bear the pieces either, each at its worst stage."""
    for bearer in problem.rooms[room].bearers:
        lefts = [stage.bearers_proof_g[bearer] for stage in problem.constants.stages]
        over = [(sum(p.proof_g[t] for p in pieces) - left, t) for t, left in enumerate(lefts) if left is not None]
        if over and max(over)[0] > PROOF_SPARE_G:
            grams, t = max(over)
            limit = limit_words(problem.case, problem.bearers[bearer].limit)
            yield f"Together they are {grams / 1000:.1f} kg too much for it at {problem.stages[t].name} too: {limit}."


def _demands(asked: Asked, problem: Problem, piece: Piece) -> Iterator[Demand]:
    """What sends a piece to its one room: its locks, else that it must come."""
    locks = [one for one in locks_on(asked.every_lock, piece.copy) if one.in_ or one.not_in]
    for one in locks:
        yield lock_demand(one)
    if not any(one.in_ for one in locks):
        yield from causes(problem, piece)
