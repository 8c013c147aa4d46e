"""What a way out means besides what it gives up: what nothing is aboard for then, and whether the reserve is kept."""

from collections.abc import Iterable
from dataclasses import replace

from solver.answers import WayOut
from solver.asking import Asked
from solver.limits import excess
from solver.plans import from_plan
from solver.problem import Problem
from solver.wording import nothing_for_words


def whole(asked: Asked, ways: Iterable[WayOut]) -> tuple[WayOut, ...]:
    """Ways out that say what nothing is aboard for where they are taken, and where they do not keep the reserve."""
    given_up = not asked.use_reserve and asked.case.trip.reserve_kg > 0
    kept = (_with_reserve(way) if given_up else way for way in ways)
    return tuple(replace(way, says=way.says + nothing_for_words(asked.case, way.plan)) for way in kept)


def _with_reserve(way: WayOut) -> WayOut:
    """A way out whose plan keeps the whole reserve where that is free; else it says that it does not."""
    if way.case is None or way.plan is None:
        return way
    problem = Problem(way.case)
    if excess(from_plan(problem, way.plan)) > 0:
        return replace(way, says=f"{way.says} The reserve is given up then.")
    return replace(way, plan=way.plan.model_copy(update={"reserve_kept_kg": way.case.trip.reserve_kg}))
