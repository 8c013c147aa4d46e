"""The limits that many rooms share, each as a sum over the things carried: what is used and what is left."""

from collections.abc import Iterator

from models.gear import Thing
from solver.limits import lean_g, over_g
from solver.problem import Problem
from solver.state import State


class Loads:
    """Sums over a layout that must not pass zero. Grams, litres and kilograms; rounding of lean and share included."""

    def __init__(self, problem: Problem) -> None:
        self._amounts = tuple(amounts(problem))
        self._none = tuple(self._over(State(problem)))

    @property
    def left(self) -> tuple[float, ...]:
        """By limit: what may still be added to a vehicle with nothing in it."""
        return tuple(-value for value in self._none)

    def added(self, state: State) -> tuple[float, ...]:
        """By limit: what a layout adds."""
        return tuple(value - none for value, none in zip(self._over(state), self._none, strict=True))

    def _over(self, state: State) -> Iterator[float]:
        """By how much a layout passes each shared limit; every value is linear in what is carried."""
        yield from _masses(state)
        sums = state.sums
        for (word, air), of, limit in self._amounts:
            used = sums.hazard.get(word, (0, 0.0, 0.0)) if air is None else sums.amount.get((word, air), (0.0, 0.0))
            yield used[of] - limit


def _masses(state: State) -> Iterator[float]:
    """Grams over what the vehicle, its axles and its racks may carry, and left against right."""
    problem, sums = state.problem, state.sums
    rounding_g = len(problem.pieces)
    for t in problem.driving:
        k = problem.constants.stages[t]
        for subject, grams in over_g(state, t):
            if subject != "side":
                yield grams + (rounding_g if subject == "front share" else 0)
        allowed_g = problem.constants.side_share * (k.mass_g + sums.likely_g[t]) - rounding_g
        yield lean_g(state, t) - allowed_g
        yield -lean_g(state, t) - allowed_g
    for t, stage in enumerate(problem.constants.stages):
        for rack, left in enumerate(stage.racks_left_g):
            if left is not None:
                yield sums.rack_g[rack][t] - left


def amounts(problem: Problem) -> Iterator[tuple[tuple[str, str | None], int, float]]:
    """What one air and the vehicle may hold of each hazard: word and air, which of its sums, and how much."""
    case = problem.case
    for word in sorted({thing.hazard for thing in problem.things if thing.hazard}):
        hazard = case.rulebook.hazards[word]
        for air, kind in sorted(case.vehicle.air.items()):
            bound = hazard.air.get(kind)
            limits = (None, None) if bound is None else (bound.up_to_l, bound.up_to_kg)
            yield from (((word, air), of, limit) for of, limit in enumerate(limits) if limit is not None)
        totals = ((1, hazard.totals.total_l), (2, hazard.totals.total_kg), (0, hazard.totals.total_count))
        yield from (((word, None), of, limit) for of, limit in totals if limit is not None)


def amount(thing: Thing, air: str | None, of: int) -> float:
    """What one copy adds to such a sum: of one air litres and kilograms are kept, of the vehicle copies too."""
    litres, kilos = thing.holds_l or 0.0, thing.net_kg or 0.0
    return (litres, kilos)[of] if air is not None else (1.0, litres, kilos)[of]
