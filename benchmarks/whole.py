"""One model of everything, for comparison: all things, spaces and corners decided at once in the same time."""

import importlib
from collections.abc import Callable
from typing import Any

from models.case import Case, copy_of
from models.plan import Plan
from solver.plans import to_plan
from solver.problem import Problem


def whole_model() -> Callable[..., Any] | None:
    """`solver.build.whole_model`; None where it is not there."""
    try:
        found: Callable[..., Any] = importlib.import_module("solver.build").whole_model
    except (ImportError, AttributeError):
        return None
    return found


def whole_plan(case: Case, plan: Plan, seconds: float) -> Plan | None:
    """The plan that one model finds for the things of another plan; None when it found none in time."""
    solve = whole_model()
    if solve is None:
        return None
    problem = Problem(case)
    copies = {copy_of(placement) for placement in plan.placements}
    wanted = [piece for piece in problem.pieces if piece.copy in copies]
    state = solve(problem, wanted, seconds)
    return None if state is None else to_plan(state, reserve_kept_kg=case.trip.reserve_kg)
