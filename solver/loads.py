"""The limits that many rooms share, each as a sum over the things carried: what is used and what is left."""

from collections.abc import Iterator

from solver.limits import lean_g, over_g
from solver.problem import Problem
from solver.state import State


class Loads:
    """Sums over a layout that must not pass zero. Grams, litres and kilograms; rounding of lean and share included."""

    def __init__(self, problem: Problem) -> None:
        self._none = tuple(_over(State(problem)))

    @property
    def left(self) -> tuple[float, ...]:
        """By limit: what may still be added to a vehicle with nothing in it."""
        return tuple(-value for value in self._none)

    def added(self, state: State) -> tuple[float, ...]:
        """By limit: what a layout adds."""
        return tuple(value - none for value, none in zip(_over(state), self._none, strict=True))


def _over(state: State) -> Iterator[float]:
    """By how much a layout passes each shared limit; every value is linear in what is carried."""
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
    yield from _hazards(state)


def _hazards(state: State) -> Iterator[float]:
    """Litres and kilograms of each hazard over what one air and the vehicle may hold, and pieces over their number."""
    problem, sums = state.problem, state.sums
    case = problem.case
    for word in sorted({thing.hazard for thing in problem.things if thing.hazard}):
        hazard = case.rulebook.hazards[word]
        for air, kind in sorted(case.vehicle.air.items()):
            bound = hazard.air.get(kind)
            litres, kilos = sums.amount.get((word, air), (0.0, 0.0))
            if bound is not None and bound.up_to_l is not None:
                yield litres - bound.up_to_l
            if bound is not None and bound.up_to_kg is not None:
                yield kilos - bound.up_to_kg
        count, litres, kilos = sums.hazard.get(word, (0, 0.0, 0.0))
        totals = ((litres, hazard.totals.total_l), (kilos, hazard.totals.total_kg), (count, hazard.totals.total_count))
        yield from (value - limit for value, limit in totals if limit is not None)
