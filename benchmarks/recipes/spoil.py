"""The tools of the recipes: a case and a plan with one thing changed."""

from collections.abc import Callable
from random import Random
from typing import Any, NamedTuple

from models.case import Case, copy_of
from models.gear import Thing
from models.geometry import Box, enlarged, gaps_as_placed, placed_box
from models.plan import Placement, Plan
from models.rules import Rule
from models.spaces import Space


class Base(NamedTuple):
    """A case and a plan that holds every limit."""

    case: Case
    plan: Plan


class Spoiled(NamedTuple):
    """A case and a plan in which one thing was changed, and the finding that tells of it."""

    case: Case
    plan: Plan
    rule: Rule
    subject: str | None
    """The subject of the finding; None: any."""


Recipe = Callable[[Base, Random, bool], Spoiled | None]
"""Changes one thing: beyond the limit when the flag is set, else just within it; None where it does not apply."""


def changed(case: Case, **parts: Any) -> Case:
    """A case with other parts: vehicle, things or trip."""
    kept: dict[str, Any] = {"vehicle": case.vehicle, "things": case.things, "trip": case.trip}
    return Case(**{**kept, **parts}, rulebook=case.rulebook)


def with_things(case: Case, change: Callable[[Thing], dict[str, Any]]) -> Case:
    """A case in which some things have other fields."""
    return changed(case, things=tuple(_copy(thing, change(thing)) for thing in case.things))


def with_thing(case: Case, name: str, **fields: Any) -> Case:
    """A case in which one thing has other fields."""
    return with_things(case, lambda thing: fields if thing.name == name else {})


def with_vehicle(case: Case, **fields: Any) -> Case:
    """A case whose vehicle has other fields."""
    return changed(case, vehicle=_copy(case.vehicle, fields))


def with_part(case: Case, kind: str, name: str, **fields: Any) -> Case:
    """A case in which one space, rack or opening has other fields."""
    parts = tuple(_copy(part, fields if part.name == name else {}) for part in getattr(case.vehicle, kind))
    return with_vehicle(case, **{kind: parts})


def with_trip(case: Case, **fields: Any) -> Case:
    """A case whose trip has other fields."""
    return changed(case, trip=_copy(case.trip, fields))


def with_limits(case: Case, **fields: Any) -> Case:
    """A case whose vehicle has other limits."""
    return with_vehicle(case, limits=_copy(case.vehicle.limits, fields))


def _copy(part: Any, fields: dict[str, Any]) -> Any:
    return part.model_copy(update=fields) if fields else part


def placed_again(plan: Plan, placement: Placement, **fields: Any) -> Plan:
    """A plan in which one placement has other fields."""
    return plan.model_copy(
        update={"placements": tuple(_copy(p, fields) if p is placement else p for p in plan.placements)}
    )


def alone(plan: Plan, *kept: Placement) -> Plan:
    """A plan in which nothing but these is in their spaces."""
    spaces = {placement.space for placement in kept}
    left = tuple(p for p in plan.placements if p.space not in spaces or any(p is one for one in kept))
    return plan.model_copy(update={"placements": left})


def in_space(base: Base, space: str) -> list[Placement]:
    """What a plan puts into a space."""
    return [placement for placement in base.plan.placements if placement.space == space]


def space_of(base: Base, placement: Placement) -> Space:
    """The space of a placement."""
    return base.case.space_named[placement.space]


def thing_of(base: Base, placement: Placement) -> Thing:
    """The thing of a placement."""
    return base.case.thing_named[placement.thing]


def name_of(base: Base, placement: Placement) -> str:
    """How findings name a placed copy."""
    return base.case.called(copy_of(placement))


def any_placed(base: Base, chance: Random, fits: Callable[[Placement], bool] = lambda _: True) -> Placement | None:
    """A placement by chance among those that fit."""
    found = [placement for placement in base.plan.placements if fits(placement)]
    return chance.choice(found) if found else None


def pairs_in_one_space(base: Base) -> list[tuple[Placement, Placement]]:
    """Pairs of different things that share a space, in the plan's order."""
    placed = base.plan.placements
    return [(a, b) for i, a in enumerate(placed) for b in placed[i + 1 :] if a.space == b.space and a.thing != b.thing]


def pairs_in_two_spaces(base: Base) -> list[tuple[Placement, Placement]]:
    """Pairs of things, one copy each, in different spaces."""
    single = [p for p in base.plan.placements if thing_of(base, p).count == 1]
    return [(a, b) for i, a in enumerate(single) for b in single[i + 1 :] if a.space != b.space]


def with_air(base: Base, placement: Placement) -> Box:
    """The box of a placement with the free air it needs."""
    gap = thing_of(base, placement).air_gap_mm
    return enlarged(placed_box(placement), gaps_as_placed(gap, placement.facing))


def moved_on(corner: tuple[int, int, int], axis: int, to_mm: int) -> tuple[int, int, int]:
    """A corner with another place on one axis."""
    return (corner[0] if axis else to_mm, to_mm if axis == 1 else corner[1], to_mm if axis == 2 else corner[2])


def part_of_vehicle(base: Base, placement: Placement) -> bool:
    """Whether a placement is in a space of the vehicle itself and no space is part of its thing."""
    return space_of(base, placement).inside_of is None and all(
        space.inside_of != placement.thing for space in base.case.vehicle.spaces
    )
