"""One model of everything, for comparison: all things, spaces and corners decided at once in the same time."""

from models.case import Case, copy_of
from models.plan import Plan
from solver.plans import to_plan
from solver.problem import Problem
from solver.whole import whole_model


def whole_plan(case: Case, plan: Plan, seconds: float) -> Plan | None:
    """The plan that one model finds for the things of another plan; None when it found none in time."""
    problem = Problem(case)
    copies = {copy_of(placement) for placement in plan.placements}
    wanted = [piece for piece in problem.pieces if piece.copy in copies]
    state = whole_model(problem, wanted, seconds)
    return None if state is None else to_plan(state, reserve_kept_kg=case.reserve_kg)
