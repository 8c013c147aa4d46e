"""All that does not move, as integers: masses, moments and the room left under each limit.

Written for the search alone; the verifier adds the same masses up by itself.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from models.case import Case
from models.stages import aboard, trailer_at
from models.trip import Stage
from solver.lanes import pack_limits, signs
from solver.nested import Bearer, bearers, bears_g

RESERVED = ("total", "rear axle", "front axle")
"""Limits of which the reserve is kept free: the vehicle's own, not those of the train."""

Point = tuple[float, float, float]


@dataclass(frozen=True)
class StageConstants:
    """One stage without load: mass in grams, moments in g·mm, limits None where unknown."""

    mass_g: float
    moment: Point
    ball_g: float
    total_left_g: int | None
    """Mass of load still allowed by the vehicle's own total in grams."""
    train_left_g: int | None
    """Mass of load still allowed by the total of vehicle and trailer in grams; None also without a trailer."""
    rear_left: int | None
    """Moment of load about the front axle still allowed in g·mm."""
    front_left: int | None
    """Moment of load about the rear axle still allowed in g·mm."""
    bearers_left_g: tuple[int | None, ...]
    """By bearer, a rack or what else several rooms load: mass of load still allowed in grams."""
    bearers_proof_g: tuple[int | None, ...]
    """The same for proofs: where the search is stricter, more, or None."""
    driving: bool

    @cached_property
    def totals(self) -> tuple[tuple[str, int], ...]:
        """The totals that are known, each with the mass of load that it still allows in grams."""
        both = (("total", self.total_left_g), ("with trailer", self.train_left_g))
        return tuple((subject, left) for subject, left in both if left is not None)

    @cached_property
    def gross_left_g(self) -> int | None:
        """Mass of load still allowed by whichever total is nearer in grams."""
        return min((left for _, left in self.totals), default=None)


@dataclass(frozen=True)
class Constants:
    """What the load is added to."""

    wheelbase: int
    track: int
    front_share: float
    side_share: float
    axles_known: bool
    stages: tuple[StageConstants, ...]

    @cached_property
    def signs(self) -> int:
        """The bits that tell whether the lane of any stage is below 0."""
        return signs(len(self.stages))

    @cached_property
    def bearers_left(self) -> tuple[int, ...]:
        """By bearer: mass of load still allowed in grams, a lane for every stage."""
        return tuple(map(pack_limits, zip(*(stage.bearers_left_g for stage in self.stages), strict=True)))

    @cached_property
    def total_left(self) -> int:
        """Mass of load still allowed by the nearer total in grams, a lane for every stage; parked, nothing limits."""
        return pack_limits(stage.gross_left_g if stage.driving else None for stage in self.stages)

    @cached_property
    def rear_left(self) -> int:
        """Moment of load about the front axle still allowed in grams times half mm, in lanes likewise."""
        lefts = (stage.rear_left if stage.driving else None for stage in self.stages)
        return pack_limits(None if left is None else 2 * left for left in lefts)


def bare_points(case: Case) -> list[tuple[float, Point]]:
    """Point masses (kg, mm) of the vehicle without people, fluids and load; axles must be known."""
    vehicle, kerb = case.vehicle, case.vehicle.kerb
    total = kerb.total_kg if kerb.front_kg is None or kerb.rear_kg is None else kerb.front_kg + kerb.rear_kg
    rear = kerb.rear_kg if kerb.rear_kg is not None else (total or 0) / 2
    weighed = total or 0.0
    height = kerb.cg_height_mm
    if height == "unknown":
        height = vehicle.track_mm / (2 * case.rulebook.body_classes[vehicle.body].static_stability_factor)
    points = [(weighed, (rear * vehicle.wheelbase_mm / weighed if weighed else 0.0, kerb.right_of_centre_mm, height))]
    tanks = {tank.name: tank for tank in vehicle.tanks}
    for name, litres in kerb.aboard_l.items():
        tank = tanks[name]
        points.append((-litres * case.rulebook.fluids_kg_per_l[tank.fluid].value, tank.at_mm))
    points += [(-kg, case.seat_named[name].at_mm) for name, kg in kerb.aboard_kg.items()]
    points += [(fitting.mass_kg, fitting.at_mm) for fitting in vehicle.fittings]
    points += [(r.own_mass_kg, r.at_mm) for r in vehicle.racks if not r.on_the_scale and r.at_mm is not None]
    return points


def _stage_points(case: Case, stage: Stage) -> list[tuple[float, Point]]:
    points = []
    for tank in case.vehicle.tanks:
        kg = stage.tanks.get(tank.name, 1.0) * tank.holds_l * case.rulebook.fluids_kg_per_l[tank.fluid].value
        points.append((kg, tank.at_mm))
    seat_of = {person.name: (person.mass_kg, person.seat) for person in case.trip.people}
    for name in aboard(case.trip, stage):
        kg, seat = seat_of[name]
        points.append((kg, case.seat_named[seat].at_mm))
    return points


def _floor(value: float | None) -> int | None:
    return None if value is None else math.floor(value + 1e-6)


def shares(case: Case) -> tuple[float, float]:
    """The least share of the mass on the front axle, and the greatest difference of left and right as a share of it."""
    limits, book = case.vehicle.limits, case.rulebook
    front, side = limits.front_share_min, limits.side_difference_share
    return (
        book.front_share_min.value if front is None else front,
        book.side_difference_share.value if side is None else side,
    )


def constants(case: Case, use_reserve: bool) -> Constants:
    """Everything but the load, at every stage."""
    vehicle = case.vehicle
    bare = bare_points(case)
    known = vehicle.kerb.front_kg is not None and vehicle.kerb.rear_kg is not None
    shared = bearers(case)
    return Constants(
        vehicle.wheelbase_mm,
        vehicle.track_mm,
        *shares(case),
        known,
        tuple(_stage(case, stage, bare, known, use_reserve, shared) for stage in case.trip.stages),
    )


def _stage(
    case: Case,
    stage: Stage,
    bare: list[tuple[float, Point]],
    known: bool,
    use_reserve: bool,
    shared: tuple[Bearer, ...],
) -> StageConstants:
    points = bare + _stage_points(case, stage)
    mass = 1000 * sum(kg for kg, _ in points)
    mx, my, mz = (1000 * sum(kg * at[i] for kg, at in points) for i in range(3))
    limits, base = case.vehicle.limits, case.vehicle.wheelbase_mm
    reserve = 1000 * case.reserve_kg if use_reserve else 0.0
    tow = trailer_at(case.trip, stage)
    ball = 1000 * tow.ball_kg if tow else 0.0
    behind = limits.tow_ball_behind_rear_axle_mm or 0
    gvm, gcm = limits.gvm_kg.kg, limits.gcm_kg.kg
    total_left = None if gvm is None else 1000 * gvm - reserve - ball - mass
    train_left = None if gcm is None or not tow else 1000 * (gcm - tow.trailer_kg) - mass
    rear, front = limits.rear_axle_kg.kg, limits.front_axle_kg.kg
    rear_left = None if rear is None or not known else (1000 * rear - reserve - ball) * base - ball * behind - mx
    front_left = (
        None if front is None or not known else (1000 * front - reserve) * base + ball * behind - (mass * base - mx)
    )
    return StageConstants(
        mass,
        (mx, my, mz),
        ball,
        _floor(total_left),
        _floor(train_left),
        _floor(rear_left),
        _floor(front_left),
        tuple(bears_g(case, stage, bearer) for bearer in shared),
        tuple(bears_g(case, stage, bearer, proof=True) for bearer in shared),
        stage.driving,
    )
