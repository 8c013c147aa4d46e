"""A plan changed as little as possible: the fewest minutes of re-packing after trip, gear or locks changed."""

from dataclasses import dataclass, replace
from math import inf

from models.case import Case, Copy, copy_of
from models.plan import Claims, LeftAtHome, Placement, Plan, less_kept, reserve_of
from models.trip import Lock
from packing import MoveList, easiest_gone, known_in, moves_between, numbered_as_before, renumbered
from solver.answers import SILENT, Options, Progress, Proposal, Status
from solver.asking import Asked, as_kept, with_reserve
from solver.clock import Clock
from solver.further import FurtherMove, further_moves
from solver.going_back import gone_back
from solver.near import NearPlan, near_levels
from solver.pins import pinned
from solver.plain import plain_conflict
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.reserve import Reserve, most_kept
from solver.search import impossible_anyhow, propose, quick_plan, with_ways_out
from solver.seen import seen_conflict

NO_MOVES = MoveList((), 0.0)
SEARCH_SHARE = 0.55
"""Share of the time left for the search, and for that with less reserve; the rest is for what is told where nothing
is found. A safety net: the corners are counted."""
HELD_S = 0.5
"""Longest that it is asked in seconds whether the plan in hand holds as it is."""


@dataclass(frozen=True)
class Revision:
    """A changed plan, or why there is none."""

    proposal: Proposal
    moves: MoveList = NO_MOVES
    """What is moved, in an order that works at the roadside."""
    left_behind: tuple[Copy, ...] = ()
    """Copies carried before that stay at home now."""
    added: tuple[Copy, ...] = ()
    """Copies that come now and did not before."""
    further: tuple[FurtherMove, ...] = ()

    @property
    def moved(self) -> tuple[Copy, ...]:
        """Copies that lie elsewhere than before, in both plans."""
        return tuple(c for c in self.moves.moved if c not in self.left_behind and c not in self.added)

    @property
    def minutes(self) -> float:
        """Minutes of re-packing."""
        return self.moves.minutes


@dataclass(frozen=True)
class _Change:
    """What has changed, and the plan it is to be made to."""

    case: Case
    plan: Plan
    locks: tuple[Lock, ...]
    options: Options
    vacated: tuple[Placement, ...]


def revise(
    case: Case,
    plan: Plan,
    options: Options = Options(seconds=5.0),
    progress: Progress = SILENT,
    *,
    extra_locks: tuple[Lock, ...] = (),
    vacated: tuple[Placement, ...] = (),
) -> Revision:
    """The plan that holds all limits with the fewest minutes of re-packing that were found.

    What was carried stays carried where it can, what stayed at home stays there unless it must come now. `vacated` is
    where things lay that the case no longer has: what comes anew is tried there first.
    """
    clock, plan = Clock(options.seconds, progress), easiest_gone(case, plan, extra_locks)
    change = _Change(case, plan, (*plan.locks, *extra_locks), options, vacated)
    found = _attempt(change, clock.part(SEARCH_SHARE))
    if found.proposal.plan is not None:
        return found
    if options.use_reserve and case.reserve_kg > 0 and not impossible_anyhow(found.proposal.conflict):
        without = _with_less_reserve(change, clock.part(SEARCH_SHARE), looked=found.proposal.conflict is None)
        if (plan_now := without.proposal.plan) is not None:
            # Where the clock cut in before, the reserve might have been kept.
            late = found.proposal.cut_short or without.proposal.cut_short
            given_up = less_kept(plan_now, case.reserve_kg)
            return replace(without, proposal=replace(without.proposal, reserve_given_up=given_up, cut_short=late))
        if without.proposal.conflict is not None:
            # What cannot be without the reserve is told rather than what the reserve forbids.
            found = without
        else:  # What the reserve alone forbids is no proof.
            found = replace(found, proposal=replace(found.proposal, status=Status.NOT_FOUND))
    asked = Asked(case, change.locks, options.use_reserve, plan)
    return replace(found, proposal=with_ways_out(found.proposal, asked, clock))


def as_it_is(case: Case, plan: Plan) -> Revision:
    """The plan in hand without what is off the list, and nothing else moved, whether it holds or not.

    The search asks more of a plan than the rules do; this is for who can tell otherwise that it holds.
    """
    plan = easiest_gone(case, plan)
    listed, numbered = set(case.copies), known_in(case, plan)
    places = tuple(place for place in numbered.placements if copy_of(place) in listed)
    state = from_plan(Problem(as_kept(case, plan), locks=plan.locks, before=plan), numbered)
    same = to_plan(state, reserve_kept_kg=reserve_of(plan, case.reserve_kg), locks=plan.locks)
    whole, here = len(state.at) == len(places), {copy_of(place) for place in places}
    home = (LeftAtHome.model_validate({"thing": c.thing, "copy": c.number}) for c in case.copies if c not in here)
    claims = same.claims if whole else Claims()  # of what has sides that it may not have nothing is claimed
    same = same.model_copy(update={"placements": places, "left_at_home": tuple(home), "claims": claims})
    levels = near_levels(state) if whole else ()
    proposal = Proposal(Status.FOUND, plan=same, levels=levels, reserve_given_up=less_kept(plan, case.reserve_kg))
    return _compared(case, plan, proposal, ())


def made_anew(case: Case, plan: Plan, options: Options, progress: Progress = SILENT) -> Revision:
    """A plan made anew around the locks, height before few moves.

    What was moved to no purpose goes back where it was. A search may come less far than the one that made the plan in
    hand, with less effort, less time or other chances: where that holds as it is and is the better one, it stays.
    """
    plan = easiest_gone(case, plan)
    proposal = propose(case, options, progress, locks=plan.locks, before=plan)
    anew = _compared(case, plan, proposal, ())
    if proposal.plan is None:
        return anew
    try:
        stays = _in_hand(case, plan, options, proposal)
        if stays is not None:
            return stays
        fewer = gone_back(case, plan, anew.proposal, use_reserve=options.use_reserve)
        if fewer is anew.proposal:
            return anew
        return min(anew, _compared(case, plan, fewer, ()), key=lambda one: one.minutes)
    except KeyboardInterrupt:
        return replace(anew, proposal=replace(anew.proposal, interrupted=True))


def _in_hand(case: Case, plan: Plan, options: Options, found: Proposal) -> Revision | None:
    """The plan in hand as it is; None where it does not hold so, or is no better than the one made anew."""
    if not better_in_hand(case, plan, found):
        return None
    near = _attempt(_Change(as_kept(case, plan), plan, plan.locks, options, ()), Clock(HELD_S, SILENT))
    if near.proposal.plan is None or near.moves.moves or near.left_behind or near.added:
        return None
    told = replace(
        near.proposal,
        reserve_given_up=less_kept(near.proposal.plan, case.reserve_kg),
        seconds=found.seconds + near.proposal.seconds,
        interrupted=found.interrupted,
        cut_short=found.cut_short,
    )
    return replace(near, proposal=told, further=())


def better_in_hand(case: Case, plan: Plan, found: Proposal) -> bool:
    """Whether a plan in hand keeps more reserve than one made anew, or is worth more, or is lower; also where none is.

    As much more height as the trip allows for handling counts for nothing, and more value only up to the height to
    which optional things may come.
    """
    if (anew := found.plan) is None:
        return True
    problem, trip = Problem(case, before=plan), case.trip
    mine, other = from_plan(problem, plan), from_plan(problem, anew)
    kept, kept_anew = reserve_of(plan, case.reserve_kg), reserve_of(anew, case.reserve_kg)
    if kept != kept_anew:
        return kept > kept_anew
    if mine.value() != other.value():
        highest = inf if found.must_only_height_mm is None else found.must_only_height_mm + trip.choose_within_mm
        return mine.value() > other.value() and mine.height_mm() <= highest + trip.allow_mm
    return mine.height_mm() < other.height_mm() - trip.allow_mm


def _attempt(change: _Change, clock: Clock, *, looked: bool = False, most: Reserve | None = None) -> Revision:
    """An attempt; `looked` when it is known that no proof against it is seen; `most`: a layout of what has to come."""
    case, plan, locks, options = change.case, change.plan, change.locks, change.options
    asked = Asked(case, locks, options.use_reserve, plan)
    conflict = plain_conflict(asked.problem())
    work = NearPlan(asked, plan, clock, options, looked=looked, most=most, vacated=change.vacated)
    state = None if conflict else work.search()
    if state is not None:
        further = () if work.interrupted else further_moves(state, work.wanted, clock, lambda s: work.plan(s, locks))
        return _compared(case, plan, work.proposal(state, locks), further)
    conflict = conflict or work.proof()
    status = Status.NOT_FOUND if conflict is None else Status.IMPOSSIBLE
    closest = () if conflict else work.closest()
    cut_short = conflict is None and clock.late()
    found = Proposal(status, conflict=conflict, seconds=clock.elapsed(), closest=closest, cut_short=cut_short)
    return Revision(found)


def _with_less_reserve(change: _Change, clock: Clock, *, looked: bool) -> Revision:
    """An attempt with as much of the reserve as was found for what has to come, else without any.

    `looked` as for an attempt. Where the reserve was proven to be too much, the proof may have looked no further.
    """
    case, plan, options = change.case, change.plan, change.options
    conflict = None if looked else seen_conflict(Asked(case, change.locks, use_reserve=False, before=plan), clock)
    if conflict is not None:
        return Revision(Proposal(Status.IMPOSSIBLE, conflict=conflict, seconds=clock.elapsed()))
    problem = Problem(case, use_reserve=False, locks=change.locks, before=plan)
    near = quick_plan(problem, plan, clock)
    if near is not None:
        state = from_plan(problem, near, pinned(problem, plan).locked)
        kept_now = most_kept(state, clock, max(1.0, options.effort), options.seed, plan)
        less = replace(change, case=with_reserve(case, kept_now.kg))
        found = _attempt(less, clock, looked=True, most=kept_now)
        if found.proposal.plan is not None:
            levels = (kept_now.level, *found.proposal.levels)
            return replace(found, proposal=replace(found.proposal, levels=levels))
    return _attempt(replace(change, options=replace(options, use_reserve=False)), clock, looked=True)


def _compared(case: Case, plan: Plan, proposal: Proposal, further: tuple[FurtherMove, ...]) -> Revision:
    """A proposal with what changes; like copies keep the numbers that they have in the plan before."""
    if proposal.plan is None:
        return Revision(proposal)
    before = known_in(case, plan)
    number = numbered_as_before(case, before, proposal.plan)
    after = renumbered(case, proposal.plan, number)
    reasons = {number(copy): why for copy, why in proposal.home_reasons.items()}
    proposal = replace(proposal, plan=after, home_reasons=reasons)
    further = tuple(replace(one, copy=number(one.copy), plan=renumbered(case, one.plan, number)) for one in further)
    old, new = ({copy_of(one) for one in of.placements} for of in (before, after))
    return Revision(
        proposal,
        moves_between(case, before, after),
        tuple(copy for copy in case.copies if copy in old - new),
        tuple(copy for copy in case.copies if copy in new - old),
        further,
    )
