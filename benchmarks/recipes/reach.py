"""Recipes about getting at things: reach, incident."""

from random import Random

from benchmarks.recipes.places import stack_kg
from benchmarks.recipes.spoil import (
    Base,
    Recipe,
    Spoiled,
    alone,
    any_placed,
    name_of,
    part_of_vehicle,
    space_of,
    thing_of,
    with_part,
    with_thing,
)
from models.case import Case
from models.plan import Placement
from models.rules import Rule
from models.stages import present, stages_for_access


def _quick_but_own(case: Case, space: str, seconds: float) -> Case:
    """A case in which a space's own opening takes so many seconds, and all before it none."""
    name = case.space_named[space].opening
    for opening in case.vehicle.openings:
        own = seconds if opening.name == name else 0.0
        case = with_part(case, "openings", opening.name, seconds=own)
    return case


def _looked_at(base: Base, one: Placement) -> bool:
    thing = thing_of(base, one)
    stages = stages_for_access(base.case.trip, thing.access)
    return any(stage is None or present(thing, stage) for stage in stages)


def a_door_too_slow(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing alone in its space is in hand in the time that its word allows, or a hundredth of a second later."""
    one = any_placed(base, chance, lambda p: part_of_vehicle(base, p) and _looked_at(base, p))
    if one is None:
        return None
    limit = base.case.rulebook.access.words[thing_of(base, one).access].seconds
    case = _quick_but_own(base.case, one.space, limit + 0.01 * beyond)
    return Spoiled(case, alone(base.plan, one), Rule.REACH, name_of(base, one))


def nobody_reaches_it_belted(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing alone in its space is in reach with a belt on, or is not."""
    one = any_placed(base, chance, part_of_vehicle_of(base))
    if one is None or not any(present(thing_of(base, one), stage) for stage in base.case.trip.stages):
        return None
    case = with_thing(_quick_but_own(base.case, one.space, 1), one.thing, access="belted")
    belts = () if beyond else ("belted driver",)
    case = with_part(case, "spaces", one.space, in_reach_when=belts)
    case = with_part(case, "openings", case.space_named[one.space].opening, stuck_when=(), after=())
    return Spoiled(case, alone(base.plan, one), Rule.REACH, name_of(base, one))


def part_of_vehicle_of(base: Base):  # type: ignore[no-untyped-def]
    """`part_of_vehicle` for one base."""
    return lambda placement: part_of_vehicle(base, placement)


def under_something(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing wanted at once lies alone, or under another."""
    stages = range(len(base.case.trip.stages))
    one = any_placed(
        base, chance, lambda p: part_of_vehicle(base, p) and any(stack_kg(base, p, t) > 0.001 for t in stages)
    )
    if one is None or not any(present(thing_of(base, one), stage) for stage in base.case.trip.stages):
        return None
    case = with_thing(_quick_but_own(base.case, one.space, 1), one.thing, access="at_once")
    case = with_part(case, "openings", case.space_named[one.space].opening, stuck_when=(), after=())
    return Spoiled(case, base.plan if beyond else alone(base.plan, one), Rule.REACH, name_of(base, one))


def a_stuck_door(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing needed in an incident is behind a door that opens then, or does not."""
    one = any_placed(base, chance)
    if one is None:
        return None
    need, stuck = chance.choice([
        ("rolled over", "on left side"), ("rolled over", "on right side"), ("bogged", "sills down"),
        ("bogged", "tail blocked"),
    ])  # fmt: skip
    case = with_thing(base.case, one.thing, needed_when=(need,))
    for opening in case.vehicle.openings:
        case = with_part(case, "openings", opening.name, stuck_when=(stuck,) if beyond else ())
    return Spoiled(case, base.plan, Rule.INCIDENT, f"{name_of(base, one)}, {need}")


def too_slow_for_an_injury(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing for an injury, alone in its space, is in hand in 30 s, or a hundredth later."""
    one = any_placed(base, chance, part_of_vehicle_of(base))
    if one is None:
        return None
    case = with_thing(base.case, one.thing, needed_when=("injury",))
    case = _quick_but_own(case, one.space, case.rulebook.at_once_s.value + 0.01 * beyond)
    case = with_part(case, "openings", case.space_named[one.space].opening, stuck_when=(), after=())
    return Spoiled(case, alone(base.plan, one), Rule.INCIDENT, f"{name_of(base, one)}, injury")


def in_the_traffic(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing for the roadside is reached away from traffic, or in it."""
    one = any_placed(base, chance)
    if one is None:
        return None
    case = with_thing(base.case, one.thing, needed_when=("roadside at night",))
    away = "right" if case.trip.traffic_on == "left" else "left"
    side = chance.choice([case.trip.traffic_on, "top"] if beyond else [away, "rear"])
    for opening in case.vehicle.openings:
        own = opening.name == space_of(base, one).opening
        case = with_part(case, "openings", opening.name, stuck_when=(), **({"side": side} if own else {}))
    return Spoiled(case, base.plan, Rule.INCIDENT, f"{name_of(base, one)}, roadside at night")


def one_against_fire(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Two things against fire, one belted and one outside, each alone; or both in one space."""
    pool = [p for p in base.plan.placements if thing_of(base, p).count == 1 and part_of_vehicle(base, p)]
    if len(pool) < 2:
        return None
    one, other = chance.sample(pool, 2)
    spaces = base.case.space_named
    if (one.space == other.space) != beyond or (
        not beyond and spaces[one.space].opening == spaces[other.space].opening
    ):
        return None
    case = base.case
    for thing in case.things:
        case = with_thing(case, thing.name, needed_when=("fire",) if thing.name in {one.thing, other.thing} else ())
    for opening in case.vehicle.openings:
        side = "inside" if opening.name == spaces[one.space].opening else "rear"
        case = with_part(case, "openings", opening.name, side=side, seconds=1.0, stuck_when=(), after=())
    case = with_part(case, "spaces", one.space, in_reach_when=("belted driver",))
    return Spoiled(case, alone(base.plan, one, other), Rule.INCIDENT, "fire")


REACH: tuple[Recipe, ...] = (
    a_door_too_slow, nobody_reaches_it_belted, under_something, a_stuck_door, too_slow_for_an_injury, in_the_traffic,
    one_against_fire,
)  # fmt: skip
