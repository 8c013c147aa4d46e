"""Recipes about what people asked for: apart, kit, spread, lock, carried."""

from random import Random
from typing import Any

from benchmarks.recipes.spoil import (
    Base,
    Recipe,
    Spoiled,
    any_placed,
    name_of,
    pairs_in_one_space,
    pairs_in_two_spaces,
    thing_of,
    with_thing,
    with_things,
    with_trip,
)
from models.case import copy_of
from models.plan import LeftAtHome, Placement, Plan
from models.rules import Rule
from models.trip import Lock


def not_apart(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Two things that people want apart are in one space, or in two."""
    pairs = pairs_in_one_space(base) if beyond else pairs_in_two_spaces(base)
    if not pairs:
        return None
    one, other = chance.choice(pairs)
    case = with_things(base.case, lambda _: {"kit": None})
    case = with_trip(case, apart=((one.thing, other.thing),))
    return Spoiled(case, base.plan, Rule.APART, f"{one.thing} and {other.thing}")


def a_kit_torn_apart(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Things of a kit that insists are in two spaces, or in one."""
    single = [
        p for p in pairs_in_one_space(base) if thing_of(base, p[0]).count == 1 and thing_of(base, p[1]).count == 1
    ]
    pairs = pairs_in_two_spaces(base) if beyond else single
    if not pairs:
        return None
    names = {placement.thing for placement in chance.choice(pairs)}
    case = with_things(
        base.case, lambda thing: {"kit": "kit by chance", "together": True} if thing.name in names else {}
    )
    return Spoiled(case, base.plan, Rule.KIT, "kit by chance")


def spread_too_little(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Copies are in as many places as asked, or one is asked more."""
    one = any_placed(base, chance, lambda p: beyond or thing_of(base, p).count > 1) or any_placed(base, chance)
    if one is None:
        return None
    places = len({p.space for p in base.plan.placements if p.thing == one.thing})
    case = with_thing(base.case, one.thing, spread=places + beyond)
    return Spoiled(case, base.plan, Rule.SPREAD, one.thing)


def a_lock_broken(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing is where a lock wants it, or is not."""
    one = any_placed(base, chance)
    other = chance.choice([space.name for space in base.case.vehicle.spaces])
    if one is None or other == one.space:
        return None
    x, y, z = one.corner_mm
    kept: list[dict[str, Any]] = [
        {"in": one.space}, {"in": one.space, "at_mm": (x, y, z)}, {"not_in": other}, {"carried": True}
    ]  # fmt: skip
    lost: list[dict[str, Any]] = [
        {"in": other}, {"in": one.space, "at_mm": (x + 1, y, z)}, {"in": one.space, "at_mm": (x, y, z - 1)},
        {"not_in": one.space}, {"at_home": True},
    ]  # fmt: skip
    lock = Lock.model_validate({"thing": one.thing, "copy": one.copy_number, **chance.choice(lost if beyond else kept)})
    return Spoiled(with_trip(base.case, locks=(lock,)), base.plan, Rule.LOCK, name_of(base, one))


def _without(plan: Plan, one: Placement) -> tuple[Placement, ...]:
    return tuple(p for p in plan.placements if p is not one)


def left_or_doubled(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing that must come is left behind, placed twice, or placed and left; or an optional one stays."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).must or not beyond)
    if one is None:
        return None
    home = LeftAtHome.model_validate({"thing": one.thing, "copy": one.copy_number})
    if not beyond:
        case = with_thing(base.case, one.thing, carry=10, all_or_none=False)
        plan = base.plan.model_copy(update={"placements": _without(base.plan, one), "left_at_home": ()})
        return Spoiled(case, plan, Rule.CARRIED, name_of(base, one))
    changes: list[dict[str, Any]] = [
        {"placements": _without(base.plan, one)},
        {"placements": _without(base.plan, one), "left_at_home": (*base.plan.left_at_home, home)},
        {"placements": (*base.plan.placements, one)},
        {"left_at_home": (*base.plan.left_at_home, home)},
    ]
    return Spoiled(base.case, base.plan.model_copy(update=chance.choice(changes)), Rule.CARRIED, name_of(base, one))


def without_a_companion(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing comes with its companion, or without."""
    placed = {p.thing for p in base.plan.placements}
    left = sorted({c.thing for c in base.case.copies} - placed)
    one, other = any_placed(base, chance), any_placed(base, chance)
    if one is None or other is None or (beyond and not left) or copy_of(one).thing in left:
        return None
    case = with_thing(base.case, one.thing, with_=(chance.choice(left) if beyond else other.thing,), all_or_none=False)
    return Spoiled(case, base.plan, Rule.CARRIED, one.thing)


WISHES: tuple[Recipe, ...] = (
    not_apart, a_kit_torn_apart, spread_too_little, a_lock_broken, left_or_doubled, without_a_companion,
)  # fmt: skip
