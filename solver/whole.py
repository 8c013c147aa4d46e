"""One exact model of everything at once: slower than the search by neighbourhoods, kept to compare with."""

from collections.abc import Sequence

from solver.build import Build
from solver.library import cp_model
from solver.neighbourhood import Effort, height_moment, solver_with
from solver.pieces import Piece
from solver.problem import Problem
from solver.rules import RULES
from solver.state import State


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
