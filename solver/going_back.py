"""A plan made anew with what it moves to no purpose back in its old place."""

from collections.abc import Sequence
from dataclasses import replace

from models.case import Case
from models.plan import Plan
from solver.answers import Level, Proposal
from solver.asking import as_kept
from solver.few import back_where_it_was
from solver.handling import handling_seconds, tidiness
from solver.pins import pinned
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.state import State

ROUNDS = 3
"""So often it is gone through at most: what has gone back may make room for another."""
ROUNDING = 1e-9
"""What two sums of the same may differ by, in mm and in seconds a day."""


def gone_back(case: Case, before: Plan, proposal: Proposal, *, use_reserve: bool) -> Proposal:
    """The same with each copy back that is no lower, and no sooner at hand, where it is now.

    All limits hold as before, with as much reserve, and neither the height nor the seconds a day are more.
    """
    if proposal.plan is None:
        return proposal
    kept, locks = as_kept(case, proposal.plan), proposal.plan.locks
    problem = Problem(kept, use_reserve=use_reserve, locks=locks, before=before)
    state = from_plan(problem, proposal.plan, pinned(problem, before).locked)
    most = _costs(state)

    def no_worse(trial: State) -> bool:
        return all(now <= then + ROUNDING for now, then in zip(_costs(trial), most, strict=True))

    old, found = from_plan(problem, before), state
    for _ in range(ROUNDS):
        last, found = found, back_where_it_was(found, found.carried(), old, no_worse)
        if found.at == last.at:
            break
    if found.at == state.at:
        return proposal
    made = to_plan(found, reserve_kept_kg=proposal.plan.reserve_kept_kg or 0.0, locks=locks)
    plan = proposal.plan.model_copy(update={"placements": made.placements, "claims": made.claims})
    return replace(proposal, plan=plan, levels=tuple(_levels(proposal.levels, found)))


def _costs(state: State) -> tuple[float, float]:
    return state.height_mm(), handling_seconds(state)


def _levels(levels: Sequence[Level], state: State) -> list[Level]:
    """The levels as they are now; the height was settled before some of it was given for handling."""
    now = {"handling": handling_seconds(state), "tidiness": tidiness(state)}
    now |= {one.name: min(one.value, state.height_mm()) for one in levels if one.name == "height"}
    return [replace(one, value=now.get(one.name, one.value)) for one in levels]
