"""By how much a layout misses each limit of the whole vehicle, in words; a layout of nothing is the vehicle itself."""

from collections.abc import Iterator
from dataclasses import dataclass

from solver.limits import unmet
from solver.problem import Piece, Problem
from solver.state import State

NAMED = 5
"""So many things without a place are named."""


@dataclass(frozen=True)
class Miss:
    """A limit of the whole vehicle that is missed, at the stage where it is missed most."""

    subject: str
    """total, with trailer, rear axle, front axle, front share or side."""
    stage: int
    kg: float
    """Above 0."""


def misses(state: State) -> tuple[Miss, ...]:
    """Every limit of the whole vehicle that a layout misses."""
    worst: dict[str, Miss] = {}
    for t in state.problem.driving:
        for subject, grams in _over_g(state, t):
            if grams > 0 and (subject not in worst or grams / 1000 > worst[subject].kg):
                worst[subject] = Miss(subject, t, grams / 1000)
    return tuple(worst.values())


def _over_g(state: State, t: int) -> Iterator[tuple[str, float]]:
    whole, sums = state.problem.constants, state.sums
    k, base2 = whole.stages[t], 2 * whole.wheelbase
    for subject, left in (("total", k.total_left_g), ("with trailer", k.train_left_g)):
        if left is not None:
            yield subject, sums.most_g[t] - left
    if k.rear_left is not None:
        yield "rear axle", (sums.rear[t] - 2 * k.rear_left) / base2
    if k.front_left is not None:
        yield "front axle", (sums.front[t] - 2 * k.front_left) / base2
    mass = k.mass_g + sums.likely_g[t]
    if whole.axles_known:
        behind = state.problem.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
        lifted = k.moment[0] + sums.likely_x[t] / 2 + k.ball_g * behind
        yield "front share", whole.front_share * (mass + k.ball_g) - mass + lifted / whole.wheelbase
    yield "side", abs(2 * (k.moment[1] + sums.likely_y[t] / 2) / whole.track) - whole.side_share * mass


def miss_words(problem: Problem, miss: Miss, kg: float) -> str:
    """A miss of so many kilograms as what follows "it"."""
    limits, whole, at = problem.case.vehicle.limits, problem.constants, problem.stages[miss.stage].name
    if miss.subject == "total":
        return f"is {kg:.1f} kg over the total allowed at {at}"
    if miss.subject == "with trailer":
        return f"is {kg:.1f} kg over the total allowed of vehicle and trailer together at {at}"
    if miss.subject == "rear axle":
        return f"puts {kg:.1f} kg too much on the rear axle at {at}, which may carry {limits.rear_axle_kg.kg:g} kg"
    if miss.subject == "front axle":
        return f"puts {kg:.1f} kg too much on the front axle at {at}, which may carry {limits.front_axle_kg.kg:g} kg"
    if miss.subject == "front share":
        return f"has {kg:.1f} kg too little on the front axle at {at}, which has to carry {whole.front_share:.0%} of it"
    return f"differs by {kg:.1f} kg too much between its left and right wheels at {at}"


def closest_words(state: State, wanted: list[Piece]) -> tuple[str, ...]:
    """By how much the layout that came closest misses what is asked."""
    problem = state.problem
    homeless = [str(piece.copy) for piece in wanted if piece.index not in state.at]
    found = [miss_words(problem, miss, miss.kg) for miss in misses(state) if miss.kg >= 0.05]
    if homeless:
        more = f" and {len(homeless) - NAMED} more" if len(homeless) > NAMED else ""
        found.insert(0, f"has no place left for {', '.join(homeless[:NAMED])}{more}")
    if unmet(state):
        found.append("breaks up a kit, keeps copies too near each other or leaves nothing to reach in a fire")
    return (f"The layout that came closest {'; it '.join(found)}.",) if found else ()
