"""Everything aboard at a stage as point masses."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from models.case import Case
from models.stages import Which, aboard, mass_kg, trailer_at
from models.trip import Stage
from verifier.bare import bare_points, litre_kg, point
from verifier.layout import Layout
from verifier.statics import AxleLoads, PointMass, axle_loads

Worst = Literal["least", "likely", "most", "worst for the front", "worst for the rear"]
"""Which mass of each thing is taken."""


def people_at(case: Case, stage: Stage) -> Iterator[PointMass]:
    """Give who is aboard at a stage, each in the middle of the seat; without a seat the place is unknown."""
    here = set(aboard(case.trip, stage))
    for person in case.trip.people:
        if person.name in here:
            seat = case.seat_named.get(person.seat)
            yield point(person.mass_kg, None if seat is None else seat.at_mm)


def _fluids(case: Case, stage: Stage) -> Iterator[PointMass]:
    for tank in case.vehicle.tanks:
        yield point(stage.tanks.get(tank.name, 1.0) * tank.holds_l * litre_kg(case, tank), tank.at_mm)


def _on_racks(case: Case, stage: Stage) -> Iterator[PointMass]:
    for name, kg in stage.on_racks.items():
        rack = case.rack_named.get(name)
        yield point(kg, None if rack is None else rack.at_mm)


def without_load(case: Case, stage: Stage) -> tuple[PointMass, ...]:
    """Give the vehicle with people and fluids at a stage, without the things of the list."""
    return (*bare_points(case), *people_at(case, stage), *_fluids(case, stage), *_on_racks(case, stage))


def load(layout: Layout, stage: Stage, worst: Worst) -> tuple[PointMass, ...]:
    """Give the carried things at a stage, each in the middle of its box."""
    wheelbase = layout.case.vehicle.wheelbase_mm
    points = []
    for one in layout.placed:
        x, y, z = one.box.centre_mm
        points.append(PointMass(mass_kg(one.thing, stage, _which(worst, x, wheelbase)), x, y, z))
    return tuple(points)


def _which(worst: Worst, x_mm: float, wheelbase_mm: float) -> Which:
    """Which mass loads an axle the more: what lies beyond the other axle lifts it."""
    if worst == "worst for the front":
        return "most" if x_mm < wheelbase_mm else "least"
    if worst == "worst for the rear":
        return "most" if x_mm >= 0 else "least"
    return worst


@dataclass(frozen=True)
class Ball:
    """What a trailer presses on the ball at a stage, in kg, and how far behind the rear axle in mm."""

    kg: float
    behind_mm: float | None

    @property
    def place_known(self) -> bool:
        """Whether the axles can be reckoned with it."""
        return self.kg == 0 or self.behind_mm is not None


def ball_at(case: Case, stage: Stage) -> Ball:
    """Give the ball's download at a stage; none where nothing is towed."""
    trailer = trailer_at(case.trip, stage)
    behind = case.vehicle.limits.tow_ball_behind_rear_axle_mm
    return Ball(0.0 if trailer is None else trailer.ball_kg, behind)


def everything(layout: Layout, stage: Stage, worst: Worst) -> tuple[PointMass, ...]:
    """Give all that the wheels carry at a stage, without the ball's download."""
    return (*without_load(layout.case, stage), *load(layout, stage, worst))


def axles_at(layout: Layout, stage: Stage, worst: Worst) -> AxleLoads | None:
    """Axle loads at a stage in kg; None where they cannot be known."""
    ball = ball_at(layout.case, stage)
    if not ball.place_known:
        return None
    wheelbase = layout.case.vehicle.wheelbase_mm
    return axle_loads(everything(layout, stage, worst), wheelbase, ball.kg, ball.behind_mm or 0.0)
