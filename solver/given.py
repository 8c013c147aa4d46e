"""What breaks a limit whatever is loaded: the ball's download, people on a rack while driving, a rack by itself."""

from collections.abc import Iterator

from models.case import Case
from models.stages import towing
from solver.answers import Conflict, Demand
from solver.problem import Problem
from solver.wording import limit_words


def given_conflict(problem: Problem) -> Conflict | None:
    """A conflict in what the trip itself says, or None."""
    says = (*_ball(problem.case), *_riding(problem.case))
    return Conflict((), says) if says else _rack(problem)


def _ball(case: Case) -> Iterator[str]:
    tow, limit = case.trip.towing, case.vehicle.limits.tow_ball_kg.kg
    pulled = any(stage.driving and towing(case.trip, stage) for stage in case.trip.stages)
    if tow is not None and pulled and limit is not None and tow.ball_kg > limit * (1 + 1e-9):
        yield f"The trailer puts {tow.ball_kg:g} kg on the tow ball, which may carry {limit:g} kg."


def _riding(case: Case) -> Iterator[str]:
    for stage in case.trip.stages:
        racks = [name for name, kg in stage.on_racks.items() if kg > 0 and stage.driving]
        if racks:
            yield f"People are on {', '.join(racks)} at {stage.name}, while the vehicle moves."


def _rack(problem: Problem) -> Conflict | None:
    """A rack that is over its limit with nothing loaded: its own mass, racks that hang on it, people on it."""
    for stage, constants in zip(problem.stages, problem.constants.stages, strict=True):
        for rack, left in zip(problem.racks, constants.racks_left_g, strict=True):
            if left is not None and left < 0:
                says = f"{rack} is {-left / 1000:.1f} kg over its limit at {stage.name} with nothing loaded."
                subject = f"rack {rack}"
                return Conflict((Demand("limit", subject, limit_words(problem.case, subject)),), (says,))
    return None
