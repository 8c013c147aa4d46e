"""What breaks a limit whatever is loaded: the ball's download, people on a rack while driving, a rack by itself."""

from collections.abc import Iterator

from models.case import Case
from models.stages import trailer_at
from solver.answers import Conflict
from solver.problem import Problem
from solver.wording import limit_holds


def given_conflict(problem: Problem) -> Conflict | None:
    """A conflict in what the trip itself says, or None."""
    case, riding = problem.case, tuple(_riding(problem.case))
    over = ball_over_kg(case)
    if over > 0:
        at, ball = max(_balls(case), key=lambda one: one[1])
        limit = limit_holds(case, "tow ball")
        where = f" at {at}" if len({kg for _, kg in _balls(case)}) > 1 else ""
        says = f"The trailer puts {ball:g} kg on the tow ball{where}, which may carry {ball - over:g} kg."
        return Conflict((limit,), (says, *riding))
    return Conflict((), riding) if riding else _rack(problem)


def ball_over_kg(case: Case) -> float:
    """By how many kg the trailer's download passes what the tow ball may carry while driving; 0 where it does not."""
    limit = case.vehicle.limits.tow_ball_kg.kg
    most = max((kg for _, kg in _balls(case)), default=0.0)
    return 0.0 if limit is None or most <= limit * (1 + 1e-9) else most - limit


def _balls(case: Case) -> list[tuple[str, float]]:
    """Driving stages with the trailer on, each with what it then puts on the ball in kg."""
    towed = [(stage, trailer_at(case.trip, stage)) for stage in case.trip.stages if stage.driving]
    return [(stage.name, trailer.ball_kg) for stage, trailer in towed if trailer is not None]


def _riding(case: Case) -> Iterator[str]:
    for stage in case.trip.stages:
        racks = [name for name, kg in stage.on_racks.items() if kg > 0 and stage.driving]
        if racks:
            yield (
                f"People are on {', '.join(racks)} at {stage.name}, while the vehicle moves: "
                "they have to come down there, or that stage has to be a parked one."
            )


def _rack(problem: Problem) -> Conflict | None:
    """A rack over its limit with nothing loaded: its own mass, what is bolted to it or hangs on it, people on it."""
    for stage, constants in zip(problem.stages, problem.constants.stages, strict=True):
        for bearer, left in zip(problem.bearers, constants.bearers_proof_g, strict=True):
            if left is not None and left < 0:
                says = f"{bearer.name} is {-left / 1000:.1f} kg over its limit at {stage.name} with nothing loaded."
                return Conflict((limit_holds(problem.case, bearer.limit),), (says,))
    return None
