"""What a refusal tells besides: spaces that take nothing for a while; what a way out means beyond what it gives up."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from models.case import Case
from models.stages import tent_up, towed
from solver.answers import Conflict, Demand, WayOut
from solver.asking import OF_THE_VEHICLE, Asked
from solver.core import bearer
from solver.eligible import not_opened
from solver.limits import excess
from solver.plans import from_plan
from solver.problem import Problem
from solver.ways import NAMED
from solver.wording import lowered, nothing_for_words, some_of

OTHER_SHARE = {
    "front share": "a smaller share asked of the front axle",
    "side": "a greater difference allowed between left and right",
}
"""Limits that are shares of the mass, lifted, in words."""


def shut_words(case: Case, demands: Sequence[Demand]) -> Iterator[str]:
    """Spaces closed at a stage or kept shut by trailer or tent, where no limit of the whole vehicle decides."""
    if any(one.kind == "limit" and one.subject in OF_THE_VEHICLE for one in demands):
        return
    closed = {name: stage.name for stage in reversed(case.trip.stages) for name in stage.closed}
    if closed:
        names = ", ".join(f"{name} (at {stage})" for name, stage in sorted(closed.items()))
        yield f"Closed for a while, and so open to nothing that is aboard then: {names}."
    for condition, so in (("trailer on", towed(case.trip)), ("tent up", tent_up(case.trip))):
        on = frozenset({condition})
        shut = [space.name for space in case.vehicle.spaces if so and not_opened(case, space, on) is not None]
        if shut:
            yield f"With the {condition} nobody gets at: {', '.join(shut)}."


def even_higher(limit: Demand, seen: Conflict) -> str:
    """What is proven to be in the way also with a limit lifted, as a sentence."""
    higher = f"a higher limit of {bearer(limit.subject).replace('The ', 'the ')}"
    return f"Even with {OTHER_SHARE.get(limit.subject, higher)}: {lowered(seen.says[0])}"


def even_without(member: Demand, seen: Conflict) -> tuple[str, ...]:
    """What is seen without a member, as it is to be told beside what is told of all that is asked."""
    first, *more = seen.says
    if not limits_of(seen.demands):
        return seen.says
    gone = some_of(member.things, NAMED) if member.things else "what is locked so"
    return f"Even without {gone}: {lowered(first)}", *more


def limits_of(demands: Iterable[Demand]) -> set[str]:
    """What the limits among some demands are of."""
    return {one.subject for one in demands if one.kind == "limit"}


def with_consequences(asked: Asked, ways: Iterable[WayOut]) -> tuple[WayOut, ...]:
    """Ways out that say what nothing is aboard for where they are taken, and where they do not keep the reserve."""
    given_up = not asked.use_reserve and asked.case.reserve_kg > 0
    kept = (_with_reserve(way) if given_up else way for way in ways)
    return tuple(replace(way, says=way.says + nothing_for_words(asked.case, way.plan)) for way in kept)


def _with_reserve(way: WayOut) -> WayOut:
    """A way out whose plan keeps the whole reserve where that is free; else it says that it does not."""
    if way.case is None or way.plan is None:
        return way
    problem = Problem(way.case)
    if excess(from_plan(problem, way.plan)) > 0:
        return replace(way, says=f"{way.says} The reserve is given up then.")
    return replace(way, plan=way.plan.model_copy(update={"reserve_kept_kg": way.case.reserve_kg}))
