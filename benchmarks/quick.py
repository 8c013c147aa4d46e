"""The careful packer alone: hardest first, lowest place first, limits respected; no search beyond a few orders."""

from random import Random

from models.case import Case
from models.plan import Plan
from solver.pieces import Piece
from solver.pins import needed
from solver.plans import to_plan
from solver.problem import Problem
from solver.repack import Repacker, start
from solver.state import State


def first_plan(case: Case, tries: int = 25, repacks: int = 300) -> Plan | None:
    """A plan of what must come; None where some orders and some repacking bring none. The clock decides nothing."""
    problem = Problem(case)
    must = [piece for piece in problem.pieces if needed(problem, piece)]
    state = packed(problem, must, tries)
    work = Repacker(state, must, State.height_mm, Random(0), 0.3)  # noqa: S311
    work.run(repacks, lambda: False, lambda found: found.holds)
    return to_plan(work.best, reserve_kept_kg=case.reserve_kg) if work.best_score.holds else None


def packed(problem: Problem, wanted: list[Piece], tries: int = 1) -> State:
    """The layout of some orders at most; some pieces may have found no place."""
    return start(problem, wanted, State(problem), Random(0), tries)  # noqa: S311
