"""Recipes about masses: space_mass, rack, gross_mass, axle, balance, restraint. The sums are made here, apart."""

from collections.abc import Callable
from random import Random
from typing import NamedTuple

from benchmarks.recipes.spoil import (
    Base,
    Recipe,
    Spoiled,
    any_placed,
    in_space,
    name_of,
    placed_again,
    space_of,
    thing_of,
    with_limits,
    with_part,
    with_trip,
    with_vehicle,
)
from models.base import Limit
from models.geometry import placed_box
from models.rulebook import SourcedKg
from models.rules import Rule
from models.spaces import TieDown
from models.stages import Which, aboard, mass_kg, trailer_at
from models.trip import Stage, Towing
from models.vehicle import CargoBarrier, RackLimits


class Load(NamedTuple):
    """Mass in kg, and mass times place in kg·mm."""

    kg: float = 0.0
    along: float = 0.0
    across: float = 0.0

    def plus(self, kg: float, at_mm: tuple[float, float, float] | None) -> "Load":
        """With one more mass."""
        x, y, _ = at_mm or (0.0, 0.0, 0.0)
        return Load(self.kg + kg, self.along + kg * x, self.across + kg * y)


def whole(base: Base, stage: Stage, which: Callable[[float], Which]) -> Load:
    """The laden vehicle at a stage; `which` takes the place along the vehicle of a thing's middle."""
    load = without_things(base, stage)
    for one in base.plan.placements:
        centre = placed_box(one).centre_mm
        load = load.plus(mass_kg(thing_of(base, one), stage, which(centre[0])), centre)
    return load


def without_things(base: Base, stage: Stage) -> Load:
    """Vehicle, people, tanks and people on racks at a stage."""
    case, vehicle = base.case, base.case.vehicle
    kerb = vehicle.kerb
    front, rear = kerb.front_kg or 0.0, kerb.rear_kg or 0.0
    load = Load(front + rear, rear * vehicle.wheelbase_mm, (front + rear) * kerb.right_of_centre_mm)
    for tank in vehicle.tanks:
        litres = stage.tanks.get(tank.name, 1.0) * tank.holds_l - kerb.aboard_l.get(tank.name, 0.0)
        load = load.plus(litres * case.rulebook.fluids_kg_per_l[tank.fluid].value, tank.at_mm)
    for seat, kg in kerb.aboard_kg.items():
        load = load.plus(-kg, case.seat_named[seat].at_mm)
    for fitting in vehicle.fittings:
        load = load.plus(fitting.mass_kg, fitting.at_mm)
    for rack in vehicle.racks:
        load = load.plus(0.0 if rack.on_the_scale else rack.own_mass_kg, rack.at_mm)
        load = load.plus(stage.on_racks.get(rack.name, 0.0), rack.at_mm)
    for person in case.trip.people:
        if person.name in aboard(case.trip, stage):
            load = load.plus(person.mass_kg, case.seat_named[person.seat].at_mm)
    return load


def _ball_kg(base: Base, stage: Stage) -> float:
    trailer = trailer_at(base.case.trip, stage)
    return trailer.ball_kg if trailer else 0.0


def _reserve_kg(base: Base) -> float:
    kept = base.plan.reserve_kept_kg
    return base.case.reserve_kg if kept is None else kept


def a_gram_over_a_space(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A space holds exactly its limit at its heaviest stage, or a gram more."""
    one = any_placed(base, chance)
    if one is None:
        return None
    inside = in_space(base, one.space)
    heaviest = max(sum(mass_kg(thing_of(base, p), stage, "most") for p in inside) for stage in base.case.trip.stages)
    case = with_part(base.case, "spaces", one.space, limit_kg=Limit(kg=heaviest - 0.001 * beyond))
    return Spoiled(case, base.plan, Rule.SPACE_MASS, one.space)


def a_gram_over_a_rack(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A rack bears exactly its limit at its heaviest stage, or a gram more."""
    case = base.case
    rack = chance.choice(case.vehicle.racks) if case.vehicle.racks else None
    if rack is None:
        return None
    hanging = [other for other in case.vehicle.racks if other is not rack and rack.name in case.rack_line(other.name)]
    fixed = sum(other.own_mass_kg for other in hanging) + rack.own_mass_kg * rack.counts_itself
    names = {rack.name, *(other.name for other in hanging)}
    fixed += sum(one.mass_kg for one in case.vehicle.fittings if names & set(one.on or ()))
    on = [p for p in base.plan.placements if names & set(space_of(base, p).on)]
    heaviest = max(
        fixed
        + sum(mass_kg(thing_of(base, p), stage, "most") for p in on)
        + sum(kg for name, kg in stage.on_racks.items() if name in names)
        for stage in case.trip.stages
    )
    if heaviest <= 0.01:
        return None
    limits = RackLimits(any_kg=Limit(kg=heaviest - 0.001 * beyond))
    return Spoiled(with_part(case, "racks", rack.name, limits=limits), base.plan, Rule.RACK, rack.name)


def a_gram_over_the_total(base: Base, chance: Random, beyond: bool) -> Spoiled | None:  # noqa: ARG001
    """The vehicle weighs its largest mass at its heaviest stage, or a gram more."""
    stages = [stage for stage in base.case.trip.stages if stage.driving]
    heaviest = max(whole(base, s, lambda _: "most").kg + _ball_kg(base, s) for s in stages) + _reserve_kg(base)
    case = with_limits(base.case, gvm_kg=Limit(kg=heaviest - 0.001 * beyond))
    return Spoiled(case, base.plan, Rule.GROSS_MASS, "total")


def a_gram_too_much_to_tow(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A trailer presses on the ball, or weighs with the vehicle, exactly what is allowed, or a gram more."""
    stages = [stage for stage in base.case.trip.stages if stage.driving]
    trailer = Towing(ball_kg=chance.randint(60, 150), trailer_kg=chance.randint(700, 1500))
    towed = Base(
        with_trip(base.case, towing=trailer, stages=tuple(_hitched(s) for s in base.case.trip.stages)), base.plan
    )
    own = max(whole(towed, stage, lambda _: "most").kg for stage in stages)
    on_the_ball = chance.random() < 0.5
    ball_kg = trailer.ball_kg - 0.001 * (beyond and on_the_ball)
    train_kg = own + trailer.trailer_kg + (-0.001 if beyond and not on_the_ball else 1e-6)
    case = with_limits(towed.case, tow_ball_kg=Limit(kg=ball_kg), gcm_kg=Limit(kg=train_kg))
    return Spoiled(case, base.plan, Rule.GROSS_MASS, "tow ball" if on_the_ball else "with trailer")


def _hitched(stage: Stage) -> Stage:
    return stage.model_copy(update={"towing": True})


def a_gram_over_an_axle(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """An axle carries its limit at its heaviest stage, or a gram more."""
    stages = [stage for stage in base.case.trip.stages if stage.driving]
    name = chance.choice(("front", "rear"))
    limit = max(_axle_kg(base, stage, name) for stage in stages) + _reserve_kg(base)
    # The two ways of adding up differ by the machine's rounding, a thousandth of what is looked for.
    case = with_limits(base.case, **{f"{name}_axle_kg": Limit(kg=limit + (-0.001 if beyond else 1e-6))})
    return Spoiled(case, base.plan, Rule.AXLE, f"{name} axle")


def _axle_kg(base: Base, stage: Stage, name: str) -> float:
    vehicle = base.case.vehicle
    length = vehicle.wheelbase_mm
    ball, behind = _ball_kg(base, stage), vehicle.limits.tow_ball_behind_rear_axle_mm or 0
    if name == "rear":
        return whole(base, stage, lambda _: "most").along / length + ball * (1 + behind / length)
    load = whole(base, stage, lambda x: "most" if x < length else "least")
    return load.kg - load.along / length - ball * behind / length


def too_little_on_the_front(base: Base, chance: Random, beyond: bool) -> Spoiled | None:  # noqa: ARG001
    """The front axle carries its least share, or a millionth less."""
    length, shares = base.case.vehicle.wheelbase_mm, []
    behind = base.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
    for stage in base.case.trip.stages:
        if stage.driving:
            load, ball = whole(base, stage, lambda _: "likely"), _ball_kg(base, stage)
            front = load.kg - load.along / length - ball * behind / length
            shares.append(front / (load.kg + ball))
    case = with_limits(base.case, front_share_min=min(shares) + (1e-6 if beyond else -1e-9))
    return Spoiled(case, base.plan, Rule.AXLE, "front share")


def leaning_too_far(base: Base, chance: Random, beyond: bool) -> Spoiled | None:  # noqa: ARG001
    """Left and right differ by the largest share, or by a millionth more."""
    track = base.case.vehicle.track_mm
    worst = 0.0
    for stage in (s for s in base.case.trip.stages if s.driving):
        load = whole(base, stage, lambda _: "likely")
        worst = max(worst, abs(2 * load.across / track) / load.kg)
    if worst < 1e-5:
        return None
    case = with_limits(base.case, side_difference_share=worst + (-1e-6 if beyond else 1e-9))
    return Spoiled(case, base.plan, Rule.BALANCE, "left and right")


def straps_too_weak(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Straps hold exactly what braking asks for, or a gram less."""
    one = any_placed(base, chance)
    if one is None:
        return None
    inside = in_space(base, one.space)
    heaviest = max(sum(mass_kg(thing_of(base, p), s, "most") for p in inside) for s in base.case.trip.stages)
    if heaviest <= 0.01:
        return None
    needed_dan = 0.8 * 9.81 * (heaviest - 0.001 * beyond) / (0.5 * 10)
    ties = (TieDown(rated_dan=needed_dan * (1 if beyond else 1 + 1e-9)),)
    case = with_part(base.case, "spaces", one.space, holds="tie_downs", tie_downs=ties)
    return Spoiled(case, base.plan, Rule.RESTRAINT, one.space)


def too_heavy_for_the_barrier(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing behind a barrier weighs what it is rated for, or a gram more; its top is level with the barrier's."""
    one = any_placed(base, chance)
    if one is None:
        return None
    most = max(mass_kg(thing_of(base, one), stage, "most") for stage in base.case.trip.stages)
    by_mass = chance.random() < 0.5
    top = placed_box(one).high[2] - (beyond and not by_mass)
    barrier = CargoBarrier(rated_kg=max(0.0, most - 0.001 * (beyond and by_mass)), top_z_mm=top)
    case = with_vehicle(base.case, cargo_barrier=barrier)
    case = with_part(case, "spaces", one.space, holds="barrier")
    return Spoiled(case, base.plan, Rule.RESTRAINT, name_of(base, one))


def held_by_nothing(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Nothing holds a space, in which a thing is hard, or soft and just light and low enough to lie loose."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).count == 1 and not thing_of(base, p).tied)
    seats = base.case.vehicle.seats
    if one is None or not seats or thing_of(base, one).two_person:
        return None
    space = space_of(base, one)
    hard, by_mass = chance.random() < 0.5, chance.random() < 0.5
    top = placed_box(one).high[2] - (beyond and not hard and not by_mass)
    most = max(mass_kg(thing_of(base, one), stage, "most") for stage in base.case.trip.stages)
    loose = max(0.0, most - 0.001 * (beyond and not hard and by_mass))
    case = with_part(base.case, "spaces", space.name, holds="none")
    things = tuple(
        t.model_copy(update={"shape": "hard" if beyond and hard else "soft"}) if t.name == one.thing else t
        for t in case.things
    )
    low = tuple(seat.model_copy(update={"back_top_z_mm": top}) for seat in seats)
    vehicle = case.vehicle.model_copy(update={"seats": low, "air": {**case.vehicle.air, space.air: "people"}})
    book = case.rulebook.model_copy(update={"loose_soft_kg": SourcedKg(value=loose, source="nobody")})
    case = case.__class__(vehicle=vehicle, things=things, trip=case.trip, rulebook=book)
    return Spoiled(case, placed_again(base.plan, one), Rule.RESTRAINT, name_of(base, one))


MASSES: tuple[Recipe, ...] = (
    a_gram_over_a_space, a_gram_over_a_rack, a_gram_over_the_total, a_gram_too_much_to_tow, a_gram_over_an_axle,
    too_little_on_the_front, leaning_too_far, straps_too_weak, too_heavy_for_the_barrier, held_by_nothing,
)  # fmt: skip
