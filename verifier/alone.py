"""Whether one thing in one place breaks a rule by itself, whatever else is aboard."""

from collections.abc import Iterator
from itertools import combinations, product
from math import ceil

from models.case import Case, Copy
from models.gear import Thing
from models.geometry import (
    LEAST_SOFT_SIDE_MM,
    TURNS,
    Box,
    Point,
    box,
    contains,
    facings,
    gaps_as_placed,
    meets,
    placed_box,
    slid,
    turned,
)
from models.plan import Facing, Placement, Plan, Turn
from models.rules import Rule
from models.spaces import Space
from verifier.finding import ROUNDING, Finding
from verifier.layout import layout_of
from verifier.rules import FIND

BY_ITSELF = (
    Rule.INSIDE, Rule.OVERLAP, Rule.SPACE_MASS, Rule.RACK, Rule.HAZARD, Rule.REACH, Rule.INCIDENT, Rule.RESTRAINT,
    Rule.WEATHER, Rule.AVAILABLE,
)  # fmt: skip
"""Rules that one thing in one space can break without any other: what breaks one of them is locked nowhere."""
WITH_OTHERS = (
    Rule.CARRIED, Rule.SUPPORT, Rule.GROSS_MASS, Rule.AXLE, Rule.BALANCE, Rule.SEGREGATION, Rule.APART, Rule.KIT,
    Rule.SPREAD, Rule.LOCK,
)  # fmt: skip
"""All others, of which one thing alone says nothing yet."""


def broken_at(case: Case, plan: Plan, placement: Placement) -> tuple[Finding, ...]:
    """What one placement breaks with nothing else aboard but the things that its space is part of."""
    return _Beside(case, plan, placement.space).broken_with(placement)


def broken_in(case: Case, plan: Plan, copy: Copy, space: str) -> tuple[Finding, ...]:
    """What a copy breaks wherever and however it is put into a space; nothing if one way in holds every rule.

    Raises
    ------
    KeyError
        The case has no such thing or space.
    """
    best: tuple[Finding, ...] | None = None
    beside = _Beside(case, plan, space)
    for placement in _ways(case, case.thing_named[copy.thing], copy, case.space_named[space]):
        found = beside.broken_with(placement)
        if not found:
            return ()
        if best is None or _weight(found) < _weight(best):
            best = found
    return best or ()


class _Beside:
    """The things that a space is part of, and what they break themselves."""

    def __init__(self, case: Case, plan: Plan, space: str) -> None:
        self._case = case
        self._hosts = _hosts(case, plan, space)
        self._before = {_key(one) for one in _broken(case, self._hosts)}

    def broken_with(self, placement: Placement) -> tuple[Finding, ...]:
        """What comes to be broken with one more thing; of one rule and subject, the worst stage."""
        found: dict[tuple[str, str, str], Finding] = {}
        for one in _broken(self._case, (*self._hosts, placement)):
            if _key(one) not in self._before:
                same = (one.rule.value, one.subject, one.says if one.margin is None else one.unit)
                found[same] = min(found.get(same, one), one, key=lambda finding: finding.margin or 0.0)
        return tuple(found.values())


def _weight(found: tuple[Finding, ...]) -> tuple[bool, int]:
    return (any(one.rule.value == "inside" for one in found), len(found))


def _key(one: Finding) -> tuple[str, str, str | None]:
    return (one.rule.value, one.subject, one.stage)


def _broken(case: Case, placements: tuple[Placement, ...]) -> list[Finding]:
    layout = layout_of(case, Plan(trip="trip", placements=placements))
    found = [one for rule in BY_ITSELF for one in FIND[rule](layout) if one.holds is False]
    # What a fire asks for is asked of several things together.
    return [one for one in found if one.subject != "fire"]


def _hosts(case: Case, plan: Plan, name: str) -> tuple[Placement, ...]:
    """Placements of the things that a space is part of, the one that holds that one next, and so on."""
    found: list[Placement] = []
    space = case.space_named.get(name)
    while space is not None:
        host = _host(plan, space, found)
        if host is None:
            break
        found.append(host)
        space = case.space_named.get(host.space)
    return tuple(found)


def _host(plan: Plan, space: Space, found: list[Placement]) -> Placement | None:
    """The thing that a space is part of, where it is placed so; a thing that is part of itself is found once."""
    room = box(space.corner_mm, space.size_mm)
    holding = (p for p in plan.placements if p.thing == space.inside_of and contains(placed_box(p), room))
    return next((placement for placement in holding if placement not in found), None)


def _ways(case: Case, thing: Thing, copy: Copy, space: Space) -> Iterator[Placement]:
    """Every shape and turn as far to the front, left and bottom as it goes: if any place holds, one of these does.

    Nothing that one thing alone can break is mended by going further back, right or up, but for what is in the way and
    for the water.
    """
    slides = tuple(_slides(case, space))
    ways = (*slides, *_water(case, space))
    for size_mm, turn, facing in _shapes(thing, space, slides):
        gaps = gaps_as_placed(thing.air_gap_mm, facing)
        before, after = ("front", "left", "bottom"), ("rear", "right", "top")
        axes = [_stops(space, ways, i, gaps[before[i]], size_mm[i] + gaps[after[i]]) for i in range(3)]
        for corner in product(*axes):
            shape = {"size_mm": size_mm, "turn": turn, "facing": facing}
            place = {"thing": copy.thing, "copy": copy.number, "space": space.name, "corner_mm": corner, **shape}
            yield Placement.model_validate(place)


def _slides(case: Case, space: Space) -> Iterator[Box]:
    """Ways of spaces that slide through a space; its own goes from wall to wall and further."""
    room = box(space.corner_mm, space.size_mm)
    sliding = ((s, s.slides) for s in case.vehicle.spaces)
    ways = (slid(box(s.corner_mm, s.size_mm), one.to, one.mm) for s, one in sliding if one is not None)
    return (way for way in ways if meets(way, room))


def _water(case: Case, space: Space) -> Iterator[Box]:
    """What is under water in a space."""
    line = case.vehicle.wading_line_mm
    if line is not None:
        (x, y, z), (length, width, _) = space.corner_mm, space.size_mm
        yield box((x, y, z), (length, width, line - z))


def _stops(space: Space, ways: tuple[Box, ...], axis: int, before_mm: int, after_mm: int) -> list[int]:
    """Corners along an axis behind walls and solids, free air kept, and behind ways and water, which may meet it."""
    low, high = space.corner_mm[axis], space.corner_mm[axis] + space.size_mm[axis]
    walls = [low, *(solid.corner_mm[axis] + solid.size_mm[axis] for solid in space.solid)]
    found = dict.fromkeys([at + before_mm for at in walls] + [way.high[axis] for way in ways])
    return [at for at in found if low <= at - before_mm and at + after_mm <= high] or [low + before_mm]


def _shapes(thing: Thing, space: Space, slides: tuple[Box, ...]) -> Iterator[tuple[Point, Turn, Facing | None]]:
    if thing.size_mm is not None:
        for turn in TURNS[thing.turns]:
            for facing in facings(thing, turn):
                yield turned(thing.size_mm, turn), turn, facing
        return
    least_mm3 = (thing.volume_l or 0.0) * 1e6 * (1 - ROUNDING)
    for along, across in product(_spans(space, slides, 0), _spans(space, slides, 1)):
        yield (along, across, max(LEAST_SOFT_SIDE_MM, ceil(least_mm3 / (along * across)))), "lwh", None


def _spans(space: Space, slides: tuple[Box, ...], axis: int) -> list[int]:
    """Distances between any two walls, solids or ways of slides along an axis, the widest first.

    The least side where all are less.
    """
    low, high = space.corner_mm[axis], space.corner_mm[axis] + space.size_mm[axis]
    edges = {low, high}
    for solid in space.solid:
        edges |= {solid.corner_mm[axis], solid.corner_mm[axis] + solid.size_mm[axis]}
    edges |= {edge for way in slides for edge in (way.low[axis], way.high[axis]) if low < edge < high}
    wide = {b - a for a, b in combinations(sorted(edges), 2) if b - a >= LEAST_SOFT_SIDE_MM}
    return sorted(wide, reverse=True) or [LEAST_SOFT_SIDE_MM]
