"""Recipes about where things lie: inside, overlap, support."""

from math import ceil, prod
from random import Random

from benchmarks.recipes.spoil import (
    Base,
    Recipe,
    Spoiled,
    alone,
    any_placed,
    moved_on,
    name_of,
    pairs_in_one_space,
    part_of_vehicle,
    placed_again,
    space_of,
    thing_of,
    with_air,
    with_part,
    with_thing,
)
from models.geometry import box, contact_mm2, placed_box, slid
from models.plan import Placement
from models.rules import Rule
from models.spaces import Slide, Solid
from models.stages import mass_kg


def through_a_wall(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing moves to a wall of its space, or 1 mm through it."""
    one = any_placed(base, chance, lambda p: not space_of(base, p).solid and part_of_vehicle(base, p))
    if one is None:
        return None
    space, big, axis = space_of(base, one), with_air(base, one), chance.randrange(3)
    room = box(space.corner_mm, space.size_mm)
    if chance.random() < 0.5:
        to = one.corner_mm[axis] + room.low[axis] - big.low[axis] - beyond
    else:
        to = one.corner_mm[axis] + room.high[axis] - big.high[axis] + beyond
    plan = placed_again(base.plan, one, corner_mm=moved_on(one.corner_mm, axis, to))
    return Spoiled(base.case, plan, Rule.INSIDE, name_of(base, one))


def of_another_size(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A hard thing is 1 mm longer in the list than in the plan."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).size_mm is not None)
    if one is None:
        return None
    sides = list(thing_of(base, one).size_mm or (1, 1, 1))
    sides[chance.randrange(3)] += beyond
    case = with_thing(base.case, one.thing, size_mm=tuple(sides))
    return Spoiled(case, base.plan, Rule.INSIDE, name_of(base, one))


def pressed_too_small(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A soft thing is given exactly its litres, or a thousandth of one too few."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).size_mm is None)
    if one is None:
        return None
    litres = prod(one.size_mm) / 1e6
    case = with_thing(base.case, one.thing, volume_l=litres + 0.001 * beyond)
    return Spoiled(case, base.plan, Rule.INSIDE, name_of(base, one))


def turned_as_not_allowed(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing that lies turned may be turned in every way, or not at all."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).size_mm is not None and p.turn != "lwh")
    if one is None or thing_of(base, one).air_gap_mm is not None:
        return None
    case = with_thing(base.case, one.thing, turns="fixed" if beyond else "any")
    return Spoiled(case, base.plan, Rule.INSIDE, name_of(base, one))


def without_its_holder(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing needs a holder that its space is, or is not."""
    one = any_placed(base, chance)
    if one is None:
        return None
    case = with_thing(base.case, one.thing, holder="a holder by chance")
    case = with_part(case, "spaces", one.space, accepts=("another",) if beyond else ("a holder by chance",))
    return Spoiled(case, base.plan, Rule.INSIDE, name_of(base, one))


def shoved_into_a_neighbour(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing touches its neighbour, or its neighbour's air, or is 1 mm into it."""
    pairs = [pair for pair in pairs_in_one_space(base) if all(part_of_vehicle(base, one) for one in pair)]
    if not pairs:
        return None
    one, other = chance.choice(pairs)
    axis = chance.randrange(3)
    own, big = placed_box(one), with_air(base, one)
    there, there_big = placed_box(other), with_air(base, other)
    apart = max(own.low[axis] - big.low[axis], there_big.high[axis] - there.high[axis])
    corner = moved_on(other.corner_mm, axis, there.high[axis] + apart - beyond)
    plan = placed_again(alone(base.plan, one, other), one, corner_mm=corner)
    return Spoiled(base.case, plan, Rule.OVERLAP, f"{name_of(base, one)} and {name_of(base, other)}")


def in_the_way_of_a_slide(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing stands where a sliding space just does not come, or 1 mm nearer."""
    spaces = [s for s in base.case.vehicle.spaces if s.inside_of is None]
    space = chance.choice(spaces)
    one = any_placed(base, chance, lambda p: p.space != space.name and part_of_vehicle(base, p))
    if one is None:
        return None
    way = slid(box(space.corner_mm, space.size_mm), "rear", 500)
    case = with_part(base.case, "spaces", space.name, slides=Slide(to="rear", mm=500))
    corner = (way.high[0] - beyond, space.corner_mm[1], space.corner_mm[2])
    plan = placed_again(base.plan, one, corner_mm=corner)
    return Spoiled(case, plan, Rule.OVERLAP, f"{space.name} and {name_of(base, one)}")


def on_too_little(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing stands on 70 % of its base, or on 1 mm less."""
    one = any_placed(base, chance, lambda p: part_of_vehicle(base, p) and p.size_mm[0] >= 10)
    if one is None:
        return None
    space = space_of(base, one)
    length = ceil(one.size_mm[0] * 7 / 10) - beyond
    step = Solid(
        corner_mm=(one.corner_mm[0], one.corner_mm[1], space.corner_mm[2]), size_mm=(length, one.size_mm[1], 1)
    )
    case = with_part(base.case, "spaces", space.name, solid=(step,))
    plan = placed_again(
        alone(base.plan, one), one, corner_mm=(one.corner_mm[0], one.corner_mm[1], space.corner_mm[2] + 1)
    )
    return Spoiled(case, plan, Rule.SUPPORT, name_of(base, one))


def in_the_air(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing lies alone on the floor, or 1 mm above it."""
    one = any_placed(base, chance, lambda p: part_of_vehicle(base, p) and not space_of(base, p).solid)
    if one is None:
        return None
    corner = moved_on(one.corner_mm, 2, space_of(base, one).corner_mm[2] + beyond)
    return Spoiled(
        base.case, placed_again(alone(base.plan, one), one, corner_mm=corner), Rule.SUPPORT, name_of(base, one)
    )


def stack_kg(base: Base, one: Placement, stage: int) -> float:
    """Kilograms that stand on a placed thing at a stage, all it carries counted whole."""
    above = [
        p
        for p in base.plan.placements
        if p.space == one.space and p is not one and contact_mm2(placed_box(p), placed_box(one)) > 0
    ]
    at = base.case.trip.stages[stage]
    return sum(mass_kg(thing_of(base, p), at, "most") + stack_kg(base, p, stage) for p in above)


def a_gram_too_much_on_it(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing bears exactly what stands on it, or a gram less."""
    loads = {i: max(stack_kg(base, p, t) for t in range(len(base.case.trip.stages)))
             for i, p in enumerate(base.plan.placements)}  # fmt: skip
    loaded = [i for i, kg in loads.items() if kg > 0.01]
    if not loaded:
        return None
    i = chance.choice(loaded)
    one = base.plan.placements[i]
    case = with_thing(base.case, one.thing, bears_kg=loads[i] - 0.001 * beyond)
    return Spoiled(case, base.plan, Rule.SUPPORT, name_of(base, one))


PLACES: tuple[Recipe, ...] = (
    through_a_wall, of_another_size, pressed_too_small, turned_as_not_allowed, without_its_holder,
    shoved_into_a_neighbour, in_the_way_of_a_slide, on_too_little, in_the_air, a_gram_too_much_on_it,
)  # fmt: skip
