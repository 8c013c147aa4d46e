"""For each worked trip: time to a first plan, time and memory of a whole suggestion, its height against others.

Run: python -m benchmarks.scenarios [--cap 13] [--long 60]. `--long 600` gives a ten-minute run;
`--cap 60` lets the default effort come to its end on a machine that is busy with other work.
"""

from itertools import count
from random import Random
from typing import NamedTuple

from benchmarks.apart import Measured, in_own_process
from benchmarks.table import arguments, heading, scenarios, table
from benchmarks.whole import whole_plan
from models.case import Case
from models.plan import Plan
from solver import SILENT, Options, Proposal, propose
from solver.beginning import first
from solver.clock import Clock
from solver.improve import improve
from solver.plans import from_plan
from solver.problem import Problem
from solver.state import State
from verifier import check

LONG_EFFORT = 2.0
"""Effort of one round of the long run."""


class Run(NamedTuple):
    """What one search came to."""

    plan: Plan
    height_mm: float
    bound_mm: float | None
    first_s: float | None
    holds: bool | None


def highest_mm(case: Case, plan: Plan) -> float:
    """Height of the laden vehicle's centre of gravity in mm at its highest driving stage, as the verifier finds it."""
    totals = check(case, plan).totals
    return max(totals[stage.name].cg_height_mm or 0.0 for stage in case.trip.stages if stage.driving)


def suggested(case: Case, cap_s: float) -> Run:
    """The suggestion with the default effort."""
    return _run(case, propose(case, Options(seconds=cap_s)))


def long_run(case: Case, plan: Plan, seconds: float) -> float:
    """Lowest height in mm of a long search for the same things, begun at the plan, seed after seed."""
    problem = Problem(case, before=plan)
    state = from_plan(problem, plan)
    wanted = [piece for piece in problem.pieces if piece.index in state.at]
    clock = Clock(seconds, SILENT)
    best = state
    for seed in count(1):
        if clock.late():
            break
        # Every third round begins at the best, the others go on from where the last one ended.
        found = improve(best if seed % 3 == 1 else state, wanted, Random(seed), clock, LONG_EFFORT, "height")  # noqa: S311
        state = found
        best = min(best, found, key=State.height_mm)
    return best.height_mm()


def _run(case: Case, proposal: Proposal) -> Run:
    level = proposal.height
    if proposal.plan is None or level is None:
        message = f"no plan for {case.trip.name}: {proposal.status}"
        raise RuntimeError(message)
    holds = check(case, proposal.plan).holds
    return Run(proposal.plan, level.value, level.bound, proposal.first_plan_seconds, holds)


def first_layout_mm(case: Case, plan: Plan) -> float | None:
    """Height in mm of the first layout that is found for the same things, before anything is improved.

    Where the usual order comes to none, orders by chance are tried until one does.
    """
    problem, clock = Problem(case, before=plan), Clock(60, SILENT)
    carried = from_plan(problem, plan).at
    wanted = [piece for piece in problem.pieces if piece.index in carried]
    found = first(problem, wanted, State(problem), Random(0), clock, 3000)  # noqa: S311
    for seed in count(1):
        if found is not None or clock.late():
            break
        found = first(problem, wanted, State(problem), Random(seed), clock, 300, mixed=True)  # noqa: S311
    return None if found is None else found.height_mm()


def one_model_mm(case: Case, plan: Plan, seconds: float) -> float | None:
    """Height in mm that one model of everything reaches in a time."""
    found = whole_plan(case, plan, seconds)
    return None if found is None or check(case, found).holds is False else highest_mm(case, found)


def row(name: str, case: Case, cap_s: float, long_s: float) -> list[object]:
    """The figures of one trip."""
    run, took = in_own_process(suggested, case, cap_s)
    start_mm, _ = in_own_process(first_layout_mm, case, run.plan)
    one, _ = in_own_process(one_model_mm, case, run.plan, took.seconds)
    best_mm, _ = in_own_process(long_run, case, run.plan, long_s)
    best_mm = min(best_mm, run.height_mm)
    return [
        name,
        *_figures(run, took),
        start_mm,
        run.height_mm,
        one,
        best_mm,
        run.height_mm - best_mm,
        *_gap(run, start_mm),
    ]


def _figures(run: Run, took: Measured) -> list[object]:
    return [run.holds, run.first_s, took.seconds, took.busy_s, round(took.peak_mb)]


def _gap(run: Run, start_mm: float | None) -> list[object]:
    if run.bound_mm is None:
        return [None, None, None]
    if start_mm is None:
        return [run.bound_mm, run.height_mm - run.bound_mm, None]
    share = (run.height_mm - run.bound_mm) / max(1e-9, start_mm - run.bound_mm)
    return [run.bound_mm, run.height_mm - run.bound_mm, share]


COLUMNS = (
    "trip", "verified", "first plan s", "whole s", "processor s", "peak MB", "start mm", "found mm", "one model mm",
    "long run mm", "above long run mm", "bound mm", "at most lower mm", "share of span",
)  # fmt: skip


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, cap=Options().seconds, long=60.0)
    print(heading())
    rows = [row(name, case, given.cap, given.long) for name, case in scenarios().items()]
    print(table(COLUMNS, rows))


if __name__ == "__main__":
    main()
