"""When no plan exists: demands that cannot hold together, none of which can be dropped, and ways out, tried."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from models.plan import Plan
from solver.answers import KINDS, Conflict, Demand, WayOut
from solver.asking import Asked, dropped
from solver.clock import Clock
from solver.company import company_asked
from solver.consequences import even_higher, even_without, limits_of, shut_words, with_consequences
from solver.feasible import TRY_SHARE, Feasible
from solver.members import alike, all_of, as_one, unrelated
from solver.raises import Raise, together
from solver.seen import cannot_be, seen_conflict
from solver.several import several
from solver.shifting import SHARES
from solver.ways import Ways, joined
from solver.wording import limit_holds, lock_demand, nothing_for, reserve_kept

WAYS_OUT = 3
"""How many ways out are told."""
OF_A_KIND = 2
"""So many of them at most give up the same kind of demand, so that there is a choice."""
JOINED = 12
"""So many conflicts at most are told as one, where each of them has to be resolved."""
GLANCE_SHARE = 0.07
"""Share of the time left for a first look at each of what is asked; who finds nothing looks longer."""
SPARE = 2
"""Shares of the time that are kept for what comes after."""
SHOW_SHARE = 0.55
"""Share of the time left to show the members of a conflict; the rest is for the ways out."""

Plans = dict[Demand, Plan | None]
"""By demand: a plan that was found without it, all else asked as before."""


def why_none(
    asked: Asked, seen: Conflict | None, clock: Clock, feasible: Feasible, nearest: Plan | None = None
) -> Conflict:
    """What stands in the way where there is no plan, and ways out; `seen` is what is proven, None: nothing is.

    `nearest` is the layout that came closest, without what found no place in it.
    The reserve is given up before anything else: where it takes no part, ways out need not keep it either.
    """
    if seen is None or all(one.kind != "reserve" for one in seen.demands):
        asked = replace(asked, use_reserve=False)
    if seen is None:
        found = not_brought_together(asked, clock, feasible, nearest)
    else:
        found = tried(asked, seen, clock, feasible)
    return replace(found, says=(*found.says, *shut_words(asked.case, found.demands)))


def tried(asked: Asked, conflict: Conflict, clock: Clock, feasible: Feasible) -> Conflict:
    """A conflict whose members are dropped one at a time to see whether a plan is found then; and the ways out.

    Locks, or things that must come, of which no single one is enough are told as one member.
    """
    showing = clock.part(SHOW_SHARE)
    plans = _each_dropped(asked, conflict.demands, showing, feasible)
    says = list(conflict.says)
    for kind in ("lock", "must come"):
        plans = _joined(asked, kind, plans, says, showing, clock, feasible)
    besides = _besides(asked, plans, clock)
    says += [even_higher(one, seen) for one, seen in besides.items()]
    work = Ways(asked, clock, feasible)
    found = _ways_out(work, plans)
    if not found and all(one.kind != "lock" for one in plans):
        found = list(_raised(asked, _all_raised(work)))
    found = found or several(asked, tuple(plans)[:WAYS_OUT], clock, feasible)
    demands = (
        replace(one, shown=False, not_enough=True) if one in besides else _told(asked, one, plan, clock)
        for one, plan in plans.items()
    )
    ways = with_consequences(asked, found[:WAYS_OUT])
    demands = (unrelated(asked, one) for one in demands)
    return replace(conflict, demands=tuple(demands), says=tuple(dict.fromkeys(says)), ways_out=ways)


def _besides(asked: Asked, plans: Plans, clock: Clock) -> dict[Demand, Conflict]:
    """By limit that takes part: what is proven to be in the way also with it lifted."""
    found = dict[Demand, Conflict]()
    for one in plans:
        if one.kind == "limit" and plans[one] is None and not clock.late():
            seen = seen_conflict(dropped(asked, one), clock)
            found |= {} if seen is None else {one: seen}
    return found


def _told(asked: Asked, one: Demand, plan: Plan | None, clock: Clock) -> Demand:
    """A member with what was shown of it, and whether giving it up alone is proven not to be enough."""
    never = plan is None and not clock.late() and cannot_be(dropped(asked, one), clock)
    return replace(one, shown=plan is not None, not_enough=never)


def _each_dropped(asked: Asked, demands: Sequence[Demand], clock: Clock, feasible: Feasible) -> Plans:
    """Limits are dropped first, as a plan is soonest found without them; each gets a share of the time that is left."""
    plans: Plans = dict.fromkeys(demands)
    for n, one in enumerate(reversed(demands)):
        share = clock.part(1 / (len(demands) - n + SPARE))
        plans[one] = _without(asked, one, share, clock, feasible)
    return plans


def _without(asked: Asked, one: Demand, share: Clock, clock: Clock, feasible: Feasible) -> Plan | None:
    now = dropped(asked, one)
    # Without a limit a plan is soon found, so that no proof is looked for.
    if clock.late() or (one.kind != "limit" and cannot_be(now, share)):
        return None
    return feasible(now.problem(), share)


def _joined(
    asked: Asked, kind: str, plans: Plans, says: list[str], showing: Clock, clock: Clock, feasible: Feasible
) -> Plans:
    """The same with the members of a kind that are not enough by themselves told as one, where that is enough.

    What else cannot be, even without them, is added to them; at last, or when showing takes too long, all of the kind.
    """
    group = [one for one, plan in plans.items() if one.kind == kind and plan is None]
    rest = {one: plan for one, plan in plans.items() if one not in group}
    told, every = list[str](), all_of(asked, kind)
    if not group or clock.late() or cannot_be(dropped(asked, every[0]), clock):
        return plans
    for _ in range(JOINED):
        (member,) = as_one(asked, kind, group)
        if showing.late():
            member = (alike(asked, member) or every)[0]
        last = member.says == every[0].says
        seen = None if last or clock.late() else seen_conflict(dropped(asked, member), clock)
        plan = None if seen else _without(asked, member, clock.part(TRY_SHARE), clock, feasible)
        if plan is not None:
            says += told
            return {**rest, member: plan}
        more = as_one(asked, kind, seen.demands, rest) if seen else alike(asked, member) or every
        if clock.late() or not more or last:
            break
        # What a limit that takes part gets too much of has been told of all that is asked.
        new = even_without(member, seen) if seen and limits_of(seen.demands).isdisjoint(limits_of(plans)) else ()
        group, told = [*group, *more], [*told, *new]
    return plans


def _ways_out(work: Ways, plans: Plans, more: Iterable[WayOut] = ()) -> list[WayOut]:
    """Ways out in the order of what a person can change; more of a limit is looked for first, as it helps the rest.

    `more` are ways that raise several limits.
    """
    found: dict[Demand, list[WayOut]] = {}
    ordered = sorted(plans, key=lambda one: KINDS.index(one.kind))
    for one in [*(n for n in ordered if n.kind == "limit"), *(n for n in ordered if n.kind != "limit")]:
        plan = plans[one]
        found[one] = [] if plan is None else list(work.of(one, plan))
    of_kind = {kind: [way for one in ordered if one.kind == kind for way in found[one]] for kind in KINDS}
    of_kind["must come"].sort(key=lambda way: way.plan is not None and len(nothing_for(work.asked.case, way.plan)))
    if work.loaded and not any(one.kind == "must come" and plans[one] for one in ordered):
        of_kind["must come"] = list(_left(work))
    of_kind["limit"] += more
    return [way for some in of_kind.values() for way in some[:OF_A_KIND]][:WAYS_OUT] or work.last[:1]


def _left(work: Ways) -> Iterator[WayOut]:
    """Few things at home of all that must come, where it was not shown which of them take part."""
    for every in all_of(work.asked, "must come"):
        problem, near = dropped(work.asked, every).problem(), work.loaded[-1][1]
        plan = None if work.clock.late() else work.feasible(problem, work.clock.part(TRY_SHARE), near)
        if plan is not None:
            yield from work.of(every, plan)


Raises = tuple[tuple[Raise, ...], Plan] | None
"""More of some limits, with a plan that holds then; None where none was found."""


def _all_raised(work: Ways, near: Plan | None = None) -> Raises:
    """More of whichever limits of the whole vehicle need it."""
    subjects = [one.subject for one in _whole_limits(work.asked)]
    return together(work.asked, subjects, near, work.clock, work.feasible)


def _raised(asked: Asked, raises: Raises) -> Iterator[WayOut]:
    if raises is not None:
        now = asked
        for one in raises[0]:
            now = one.of(now)
        yield WayOut(joined(one.says(asked.case) for one in raises[0]), raises[1], now.case)


def not_brought_together(asked: Asked, clock: Clock, feasible: Feasible, nearest: Plan | None = None) -> Conflict:
    """Where nothing is proven and nothing was found: what is asked, each dropped to see whether a plan comes."""
    work = Ways(asked, clock, feasible, nearest)
    plans = _each_tried(work)
    raises = _all_raised(work, next((plan for one, plan in plans.items() if one.kind == "must come"), None))
    if raises is not None:
        work.loaded.append((raises[0][0].subject, raises[1]))
    if raises is not None and len(raises[0]) == 1:
        plans[limit_holds(asked.case, raises[0][0].subject)] = raises[1]
    several = () if raises is None or len(raises[0]) == 1 else _raised(asked, raises)
    ways = _ways_out(work, plans, several)
    single = {way.without for way in ways if len(way.without) == 1}
    demands = [replace(one, shown=plan is not None) for one, plan in plans.items()]
    if single:
        # A lock that is shown by itself is told by itself, and so are the others.
        locks = [replace(lock_demand(lock), shown=(lock,) in single) for lock in asked.every_lock]
        demands = [*locks, *(one for one in demands if one.kind != "lock")]
    says = ["No layout was found in the effort given; whether one exists is unknown."]
    if not ways:
        says.append("More effort (--effort), fewer locks or fewer things may help.")
    told = tuple(one for one in demands if one.shown or one.kind == "lock")
    return Conflict(told, tuple(says), with_consequences(asked, ways), proven=False)


def _each_tried(work: Ways) -> Plans:
    """What is asked but for the limits, each with a plan without it where one was found."""
    plans: Plans = dict.fromkeys(_asked_for(work.asked))
    for share in (GLANCE_SHARE, TRY_SHARE):
        for one in plans if not any(plans.values()) else ():
            # What is asked is not proven impossible, so that less of it is not either.
            if one.kind == "must come" or not work.clock.late():
                plans[one] = work.feasible(dropped(work.asked, one).problem(), work.clock.part(share))
    must = {one: plan for one, plan in plans.items() if plan is not None and one.kind == "must come"}
    return plans | {one: work.filled(one.things, plan) for one, plan in must.items()}


def _asked_for(asked: Asked) -> Iterator[Demand]:
    """What is asked but for the limits: the locks as one, the things that must come, the reserve."""
    yield from all_of(asked, "must come")  # first, as a plan is soonest found without it
    yield from all_of(asked, "lock")
    yield from company_asked(asked.problem())
    if asked.use_reserve and asked.case.reserve_kg:
        yield reserve_kept(asked.case)


def _whole_limits(asked: Asked) -> list[Demand]:
    """The known limits of the whole vehicle."""
    limits = asked.case.vehicle.limits
    whole = {"total": limits.gvm_kg, "rear axle": limits.rear_axle_kg, "front axle": limits.front_axle_kg}
    if asked.case.trip.towing:
        whole["with trailer"] = limits.gcm_kg
    known = [subject for subject, limit in whole.items() if limit.kg is not None]
    return [limit_holds(asked.case, subject) for subject in (*known, *SHARES)]
