"""The limits that many rooms share, each as a sum over the things carried: what is used and what is left."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from models.gear import Thing
from solver.lanes import WIDTH, lane
from solver.limits import lean_g, over_g
from solver.problem import Problem
from solver.state import Lying, State

Floats = NDArray[np.float64]
UNIT = 1 << 40
"""So much of a sum shows by how much a limit's load rises with it: a power of two, so that no digit is lost."""


class _Rises(NamedTuple):
    """By limit: what a thing in a room adds, and how that rises with where it lies."""

    anywhere: Floats
    along: Floats
    """For half a millimetre towards the rear."""
    across: Floats
    """For half a millimetre to the right."""
    ahead: Floats
    """For half a millimetre that its middle lies ahead of the rear axle."""
    behind: Floats
    """The same where it lies behind that."""
    before: Floats
    """What half a millimetre towards the rear adds beside `along` where its middle lies ahead of the front axle."""


class Loads:
    """Sums over a layout that must not pass zero. Grams, litres and kilograms; rounding of lean and share included."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._amounts = tuple(amounts(problem))
        nothing = State(problem)
        none = np.array(list(masses_over(nothing)))
        self._rises = np.array([np.array(list(masses_over(one))) - none for one in _one_by_one(nothing)]).T / UNIT
        """By limit on masses and by sum and stage, in the order of `_one_by_one`: how the load rises with it."""
        self._of: dict[tuple[int, int], _Rises] = {}
        """By kind and room."""
        self.left = (*(-none).tolist(), *(limit for _, _, limit in self._amounts))
        """By limit: what may still be added to a vehicle with nothing in it."""

    def added(self, it: Lying) -> Floats:
        """By limit: what a piece adds where it lies."""
        key = (self._problem.pieces[it.piece].kind, it.room)
        of = self._of.get(key)
        if of is None:
            of = self._of[key] = self._rises_of(it)
        box = it.box
        cx, cy = box[0] + box[3], box[1] + box[4]
        ahead = 2 * self._problem.constants.wheelbase - cx
        found = of.anywhere + cx * of.along + cy * of.across + ahead * (of.ahead if ahead >= 0 else of.behind)
        return found if cx >= 0 else found + cx * of.before

    def _rises_of(self, it: Lying) -> _Rises:
        problem, piece = self._problem, self._problem.pieces[it.piece]
        most, least, likely = (np.array(g, dtype=float) for g in (piece.most_g, piece.least_g, piece.likely_g))
        total, rear, front, share, lengthways, sideways, *bearers = np.split(
            self._rises, self._rises.shape[1] // len(most), axis=1
        )
        room = problem.rooms[it.room]
        held = [
            amount(piece.thing, of_air, of) if piece.thing.hazard in words and of_air in (None, room.space.air) else 0.0
            for (words, of_air), of, _ in self._amounts
        ]
        none = np.zeros(len(held))
        anywhere = total @ most + share @ likely + sum(bearers[bearer] @ most for bearer in room.bearers)
        of_place = (
            rear @ most + lengthways @ likely,
            sideways @ likely,
            front @ most,
            front @ least,
            rear @ (least - most),
        )
        return _Rises(np.concatenate([anywhere, held]), *(np.concatenate([rises, none]) for rises in of_place))


def _one_by_one(nothing: State) -> Iterator[State]:
    """Layouts in which one sum that limits look at (`state.Sums`) has one unit at one stage: each sum, then bearers."""
    stages = range(len(nothing.problem.stages))
    for name in ("most_g", "rear", "front", "likely_g", "likely_x", "likely_y"):
        for t in stages:
            state = nothing.copy()
            setattr(state.sums, name, UNIT << WIDTH * t)
            yield state
    for bearer in range(len(nothing.problem.bearers)):
        for t in stages:
            state = nothing.copy()
            state.sums.bearer_g[bearer] = UNIT << WIDTH * t
            yield state


def masses_over(state: State) -> Iterator[float]:
    """Grams over what the vehicle, its axles and its racks may carry, and left against right."""
    problem, sums = state.problem, state.sums
    rounding_g = len(problem.pieces)
    for t in problem.driving:
        k = problem.constants.stages[t]
        for subject, grams in over_g(state, t):
            if subject != "side":
                yield grams + (rounding_g if subject == "front share" else 0)
        allowed_g = problem.constants.side_share * (k.mass_g + lane(sums.likely_g, t)) - rounding_g
        yield lean_g(state, t) - allowed_g
        yield -lean_g(state, t) - allowed_g
    for t, stage in enumerate(problem.constants.stages):
        for bearer, left in enumerate(stage.bearers_left_g):
            if left is not None:
                yield lane(sums.bearer_g[bearer], t) - left


def amounts(problem: Problem) -> Iterator[tuple[tuple[tuple[str, ...], str | None], int, float]]:
    """What one air and the vehicle may hold of hazards: words and air, which of their sums, and how much."""
    case, listed = problem.case, {thing.hazard for thing in problem.things if thing.hazard}
    for word in sorted(listed):
        hazard = case.rulebook.hazards[word]
        for air, kind in sorted(case.vehicle.air.items()):
            bound = hazard.air.get(kind)
            limits = (None, None) if bound is None else (bound.up_to_l, bound.up_to_kg)
            yield from ((((word,), air), of, limit) for of, limit in enumerate(limits) if limit is not None)
    for word in sorted(problem.totals):
        words, most = problem.totals[word]
        if listed & set(words):
            bounds = ((1, most.total_l), (2, most.total_kg), (0, most.total_count))
            yield from (((words, None), of, limit) for of, limit in bounds if limit is not None)


def amount(thing: Thing, air: str | None, of: int) -> float:
    """What one copy adds to such a sum: of one air litres and kilograms are kept, of the vehicle copies too."""
    litres, kilos = thing.holds_l or 0.0, thing.net_kg or 0.0
    return (litres, kilos)[of] if air is not None else (1.0, litres, kilos)[of]
