"""incident: what is needed is reachable in that condition."""

from collections.abc import Callable, Iterator

from models.case import Case
from models.rules import Rule
from models.spaces import Space
from models.stages import opening_chain, present, tent_up, towed
from verifier.access import most_moved_first, not_opened, opening_time_s
from verifier.finding import Finding, against, at_most, or_held, plain
from verifier.layout import Layout, Placed

Judge = Callable[[Layout, Placed, Space], str | None]
"""Says why a copy is not reachable in an incident; None: it is."""


def _hooked(case: Case) -> tuple[str, ...]:
    return ("trailer on",) if towed(case.trip) else ()


def _in_camp(case: Case) -> tuple[str, ...]:
    """What may keep an opening shut in an incident that happens at a camp as well as on the road."""
    return ("tent up",) if tent_up(case.trip) else ()


def _stuck(layout: Layout, space: Space, *conditions: str) -> str | None:
    return not_opened(layout.case, space, (*conditions, *_hooked(layout.case)))


def _in_hand(layout: Layout, one: Placed, space: Space, limit_s: float, *conditions: str) -> str | None:
    """Say why a copy is not in hand within so many seconds with nothing moved, in some conditions."""
    with_it = [stage for stage in layout.case.trip.stages if present(one.thing, stage)]
    before = most_moved_first(layout, one, space, with_it or [None])
    if before:
        return f"{before[0].name} must be moved first"
    seconds = opening_time_s(layout.case, space)
    too_long = f"it takes {against(seconds, limit_s, 's', 0)}"
    return _stuck(layout, space, *conditions) if at_most(seconds, limit_s) else too_long


def _rolled_over(layout: Layout, _one: Placed, space: Space) -> str | None:
    return _stuck(layout, space, "on left side") or _stuck(layout, space, "on right side")


def _bogged(layout: Layout, _one: Placed, space: Space) -> str | None:
    return _stuck(layout, space, "sills down", "tail blocked")


def _injury(layout: Layout, one: Placed, space: Space) -> str | None:
    return _in_hand(layout, one, space, layout.case.rulebook.at_once_s.value, *_in_camp(layout.case))


def _roadside(layout: Layout, _one: Placed, space: Space) -> str | None:
    away = "right" if layout.case.trip.traffic_on == "left" else "left"
    chain = opening_chain(layout.case.vehicle, space.opening)
    for opening in chain:
        if opening.side == layout.case.trip.traffic_on:
            return f"{opening.name} is at the {opening.side}, and traffic passes on the {layout.case.trip.traffic_on}"
        if opening.side not in {"inside", "rear", away}:
            return f"{opening.name} is at the {opening.side}; safe from traffic are the cabin, the rear and the {away}"
    if (
        all(opening.side == "inside" for opening in chain)
        and not space.in_reach_when
        and _beside_traffic(layout, space)
    ):
        return f"nobody reaches {space.name} from a seat, and its cabin door is on the side of traffic"
    return _stuck(layout, space)


def _beside_traffic(layout: Layout, space: Space) -> bool:
    """Whether a space is wholly on the side of the vehicle's middle on which traffic passes."""
    near, far = space.corner_mm[1], space.corner_mm[1] + space.size_mm[1]
    return far <= 0 if layout.case.trip.traffic_on == "left" else near >= 0


JUDGES: dict[str, Judge] = {
    "rolled over": _rolled_over,
    "bogged": _bogged,
    "injury": _injury,
    "roadside at night": _roadside,
}
"""How each incident is judged copy by copy; fire is judged over all its things together."""


def _copies(layout: Layout) -> Iterator[Finding]:
    for one, space in layout.located:
        for need in one.thing.needed_when:
            if need not in JUDGES:
                continue
            why = JUDGES[need](layout, one, space)
            says = f"{one.name} is reachable: {need}." if why is None else f"{one.name} is out of reach, {need}: {why}."
            yield plain(Rule.INCIDENT, f"{one.name}, {need}", why is None, says, source="rule book")


def _from_belt(layout: Layout, one: Placed, space: Space) -> bool:
    return bool(space.in_reach_when) and _in_hand(layout, one, space, layout.case.rulebook.belted_s.value) is None


def _from_outside(layout: Layout, one: Placed, space: Space, *conditions: str) -> bool:
    chain = opening_chain(layout.case.vehicle, space.opening)
    inside = any(opening.side == "inside" for opening in chain)
    return not inside and _in_hand(layout, one, space, layout.case.rulebook.at_once_s.value, *conditions) is None


def _fire_faults(layout: Layout) -> Iterator[str]:
    things = [(one, space) for one, space in layout.located if "fire" in one.thing.needed_when]
    belt = [one for one, space in things if _from_belt(layout, one, space)]
    outside = [one for one, space in things if _from_outside(layout, one, space, *_in_camp(layout.case))]
    if not belt:
        yield "none is in reach from a belted seat"
    if not outside:
        but_for_the_tent = any(_from_outside(layout, one, space) for one, space in things)
        yield f"none is in reach from outside{' with the tent up' if but_for_the_tent else ''}"
    if belt and outside and len({*belt, *outside}) < 2:
        yield "the one from a belted seat is the only one from outside as well"
    if len({space.name for _, space in things}) == 1:
        yield f"all are in {things[0][1].name}"


def _fire(layout: Layout) -> Iterator[Finding]:
    if any("fire" in one.thing.needed_when for one in layout.placed):
        faults = list(_fire_faults(layout))
        says = f"For a fire: {'; '.join(faults)}." if faults else "For a fire, one is at a belted seat and one outside."
        yield plain(Rule.INCIDENT, "fire", not faults, says, source="rule book")


def _all(layout: Layout) -> Iterator[Finding]:
    yield from _fire(layout)
    yield from _copies(layout)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge what incidents ask for."""
    return or_held(_all(layout), Rule.INCIDENT, "Nothing that comes along is marked as needed in an incident.")
