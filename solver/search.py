"""The search for a layout, told from above: start, the choice of what comes, height, handling, tidiness, bound."""

from dataclasses import replace
from random import Random

from models.case import Case
from models.plan import Plan, less_kept
from models.trip import Lock
from solver.answers import SILENT, Conflict, Options, Progress, Proposal, Status
from solver.asking import Asked
from solver.attempt import FIRST_STEPS, Attempt
from solver.beginning import begun, first
from solver.clock import Clock
from solver.conflict import why_none
from solver.keeping import Keeper, kept
from solver.pieces import Piece
from solver.pins import needed, pinned
from solver.plain import plain_conflict
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.repack import Cost, Repacker
from solver.state import State

FULL_SIZE = 25
"""So many copies get the whole effort, fewer a share of it."""
LEAST_BY_SIZE = 0.2
"""The smallest trips get this share."""
QUICK_STEPS = 250
"""Steps of repacking to try a way out."""
BEGINNINGS = 2
"""So many times as many more, in other orders, where nothing comes of it."""
LESS_STEPS = 500
"""Steps of repacking to pass a limit by less."""


def propose(
    case: Case,
    options: Options = Options(),
    progress: Progress = SILENT,
    locks: tuple[Lock, ...] = (),
    before: Plan | None = None,
) -> Proposal:
    """A layout that holds every limit and how good it is, or why there is none.

    `locks` are added to the trip's; `before` gives the lie of things that locks keep where they are.
    The same case, seed and effort give the same plan, unless the clock or a key cuts in.
    """
    clock, asked = Clock(options.seconds, progress), Asked(case, locks, options.use_reserve, before)
    options = replace(options, effort=options.effort * by_size(len(case.copies)))
    found = Attempt(asked, options, clock).proposal()
    if found.plan is not None or found.interrupted:
        return found
    if case.reserve_kg > 0 and options.use_reserve and not impossible_anyhow(found.conflict):
        without = Attempt(replace(asked, use_reserve=False), options, clock, keeps_most=True).proposal()
        if without.plan is not None:
            return replace(without, reserve_given_up=less_kept(without.plan, case.reserve_kg))
        # What cannot be without the reserve is told rather than what the reserve forbids; that alone is no proof.
        reserve_alone = replace(found, status=Status.NOT_FOUND, closest=without.closest)
        told = without if without.conflict or not found.conflict else reserve_alone
        found = replace(told, interrupted=without.interrupted)
    return _explained(found, asked, clock)


def by_size(copies: int) -> float:
    """The share of the usual effort that a small trip needs."""
    return min(1.0, max(LEAST_BY_SIZE, copies / FULL_SIZE))


def _explained(proposal: Proposal, asked: Asked, clock: Clock) -> Proposal:
    """The same with what stands in the way, unless someone cut in or cuts in now."""
    if proposal.interrupted:
        return proposal
    try:
        return with_ways_out(proposal, asked, clock)
    except KeyboardInterrupt:
        return replace(proposal, interrupted=True)


def with_ways_out(proposal: Proposal, asked: Asked, clock: Clock) -> Proposal:
    """The same with what stands in the way, each member tried in the time that is left."""

    def quickly(
        problem: Problem, clock: Clock, near: Plan | None = None, cost: Cost | None = None, *, keenly: bool = False
    ) -> Plan | None:
        return quick_plan(problem, asked.before, clock, near, cost, keenly=keenly)

    conflict = why_none(asked, proposal.conflict, clock, quickly, proposal.nearest)
    return replace(proposal, conflict=conflict, seconds=clock.elapsed(), cut_short=clock.cut_in)


def impossible_anyhow(conflict: Conflict | None) -> bool:
    """Whether it is proven that there is no plan, the reserve kept or not."""
    return conflict is not None and all(one.kind != "reserve" for one in conflict.demands)


def quick_plan(
    problem: Problem,
    before: Plan | None,
    clock: Clock,
    near: Plan | None = None,
    cost: Cost | None = None,
    *,
    keenly: bool = False,
) -> Plan | None:
    """A plan that is soon found, all that may stay at home left there; None when none is.

    It is looked for near a plan where one is given, else near the plan before, then from nothing; with a cost, that
    is made small as far as the time goes. `keenly`: it is given up no sooner than a first layout is.
    """
    if plain_conflict(problem) is not None:
        return None
    base = pinned(problem, before)
    must = [piece for piece in problem.pieces if needed(problem, piece)]
    known = near or before
    found = None if known is None else _from_before(problem, known, base, must, clock)
    found = found or first(problem, must, base, Random(0), clock, QUICK_STEPS)
    if found is None and not clock.late():
        steps = FIRST_STEPS if keenly else QUICK_STEPS * BEGINNINGS
        found = begun(problem, must, base, Random(0), clock, steps)
    if found is not None and cost is not None:
        work = Repacker(found, must, cost, Random(0), 0.0)
        work.run(LESS_STEPS, clock.late, lambda score: score.cost <= 0)
        found = work.best
    kept_kg = problem.case.reserve_kg if problem.use_reserve else 0.0
    own = problem.locks[len(problem.case.trip.locks) :]
    return None if found is None else to_plan(found, reserve_kept_kg=kept_kg, locks=own)


def _from_before(problem: Problem, before: Plan, base: State, must: list[Piece], clock: Clock) -> State | None:
    """A layout of what has to come, begun at how things lay before."""
    work = Keeper(kept(base, must, whole := from_plan(problem, before)), must, whole, Random(0))
    work.run(QUICK_STEPS, clock.late, lambda found: found.holds)
    return work.best if work.best_score.holds else None
