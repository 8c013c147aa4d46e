"""What the vehicle with its people, fluids and fittings misses with nothing loaded, and whether a load could mend it.

A load mends an axle only where it lies beyond the other one, and at most with all its mass at the farthest wall: where
that is not enough, no plan exists.
"""

from collections.abc import Sequence

from solver.answers import Conflict, Demand
from solver.bare import RESERVED, constants
from solver.misses import Miss, miss_words, misses
from solver.pieces import PROOF_SPARE_G
from solver.problem import Problem
from solver.state import State
from solver.wording import limit_holds, reserve_kept

BARE = "The vehicle with its people, fluids and fittings, nothing loaded,"


def unloaded_conflict(problem: Problem) -> Conflict | None:
    """A limit that is missed whatever is loaded, the reserve kept or not; or None."""
    found = misses(State(problem))
    missed = [one for one in found if one.kg - reserve_of(problem, one) > _mended_kg(problem, one, reserve=False)]
    return _conflict(problem, missed, [])


def reserve_conflict(problem: Problem) -> Conflict | None:
    """A limit of which the reserve is not kept free whatever is loaded, or None."""
    found = misses(State(problem))
    missed = [miss for miss in found if miss.kg > _mended_kg(problem, miss, reserve=True)]
    return _conflict(problem, missed, [reserve_kept(problem.case)])


def _conflict(problem: Problem, missed: Sequence[Miss], demands: Sequence[Demand]) -> Conflict | None:
    """Limits that are missed, each with its figures; a single one also as a demand."""
    reserve = bool(demands)
    told = tuple(f"{_told(problem, one, reserve=reserve)}{_at_most(problem, one, reserve=reserve)}." for one in missed)
    own = [limit_holds(problem.case, missed[0].subject)] if len(missed) == 1 else []
    return Conflict((*demands, *own), told) if missed else None


def unloaded_words(problem: Problem) -> tuple[str, ...]:
    """What is missed with nothing loaded, where loads might mend it."""
    return tuple(f"{_told(problem, one)}: what is loaded has to make up for that." for one in misses(State(problem)))


def _told(problem: Problem, miss: Miss, *, reserve: bool = False) -> str:
    """The miss without the reserve, where it is there without it; with it where that is what cannot be kept."""
    reserve_kg = reserve_of(problem, miss)
    without = 0.0 if reserve else miss.kg - reserve_kg
    kept = f", {reserve_kg:g} kg of reserve kept" if reserve_kg and without <= 0 else ""
    return f"{BARE} {miss_words(problem, miss, without if without > 0 else miss.kg)}{kept}"


def _at_most(problem: Problem, miss: Miss, *, reserve: bool) -> str:
    kg = _mended_kg(problem, miss, reserve=reserve)
    # Of a limit that has a reserve itself it has been told.
    also = reserve and not reserve_of(problem, miss) and problem.case.reserve_kg
    kept = f", {problem.case.reserve_kg:g} kg of reserve kept" if also else ""
    return f"; what is loaded can take at most {kg:.1f} kg of that off{kept}" if kg >= 0.05 else ", whatever is loaded"


def reserve_of(problem: Problem, miss: Miss) -> float:
    """Kilograms that are kept free of a limit, and so are part of its miss."""
    return problem.case.reserve_kg if problem.use_reserve and miss.subject in RESERVED else 0.0


def reserve_words(problem: Problem, miss: Miss) -> str:
    """What follows a miss where a reserve is part of it."""
    reserve_kg = reserve_of(problem, miss)
    return f", {reserve_kg:g} kg of reserve kept" if reserve_kg else ""


def _mended_kg(problem: Problem, miss: Miss, *, reserve: bool) -> float:
    """More than any load could take off a miss: all that may come, at the wall where it helps most.

    `reserve`: with the reserve kept, which leaves less of the total to be loaded.
    """
    per_kg = _mended_by_each(problem, miss)
    whole = problem.constants if reserve or not problem.use_reserve else constants(problem.case, use_reserve=False)
    left_g = whole.stages[miss.stage].gross_left_g
    load_g = sum(piece.most_g[miss.stage] for piece in problem.pieces)
    if left_g is not None:
        load_g = min(load_g, max(0, left_g + PROOF_SPARE_G))
    rounding_g = PROOF_SPARE_G + (len(problem.pieces) + 1 if miss.subject in ("front share", "side") else 0)
    return (load_g * per_kg + rounding_g) / 1000


def _mended_by_each(problem: Problem, miss: Miss) -> float:
    """Kilograms of a miss that a kilogram of load takes off at most."""
    whole, rooms = problem.constants, problem.rooms
    front = min((room.low[0] for room in rooms), default=0)
    rear = max((room.high[0] for room in rooms), default=0)
    if miss.subject == "rear axle":
        return max(0.0, -front / whole.wheelbase)
    if miss.subject == "front axle":
        return max(0.0, rear / whole.wheelbase - 1)
    if miss.subject == "front share":
        return max(0.0, 1 - whole.front_share - front / whole.wheelbase)
    if miss.subject == "side":
        right = whole.stages[miss.stage].moment[1] > 0
        out = -min((r.low[1] for r in rooms), default=0) if right else max((r.high[1] for r in rooms), default=0)
        return max(0.0, 2 * out / whole.track + whole.side_share)
    return 0.0
