"""One model of everything, for comparison: all things, spaces and corners decided at once in the same time."""

from collections.abc import Sequence

from models.case import Case, copy_of
from models.plan import Plan
from solver.build import Build
from solver.library import cp_model
from solver.neighbourhood import Effort, height_moment, solver_with
from solver.pieces import Piece
from solver.plans import to_plan
from solver.problem import Problem
from solver.rules import RULES
from solver.state import State


def whole_plan(case: Case, plan: Plan, seconds: float) -> Plan | None:
    """The plan that one model finds for the things of another plan; None when it found none in time."""
    problem = Problem(case)
    copies = {copy_of(placement) for placement in plan.placements}
    wanted = [piece for piece in problem.pieces if piece.copy in copies]
    state = whole_model(problem, wanted, seconds)
    return None if state is None else to_plan(state, reserve_kept_kg=case.reserve_kg)


def whole_model(problem: Problem, wanted: Sequence[Piece], seconds: float) -> State | None:
    """A layout of all things wanted, as low as one model brings it in the time; None when it found none."""
    build = Build(problem, wanted, range(len(problem.rooms)), all_come=True)
    for add in RULES:
        add(build)
    empty = State(problem)
    top = max(problem.driving or (0,), key=lambda t: (empty.height2(t), -t))
    build.model.minimize(height_moment(build, top))
    solver = solver_with(Effort(float("inf"), seconds))
    found = solver.solve(build.model)
    return build.read(solver) if found in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
