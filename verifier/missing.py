"""What is on the scale and not in the plan: how much, where its middle lies, how well that is known, what is there."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, sqrt
from typing import Literal

from models.case import Case
from models.stages import aboard, towing
from models.trip import Stage
from verifier.ticket import Difference, Ticket, known_of, scale_kg2

PlaceMm = tuple[float, float]
"""A place [x, y] seen from above, in mm."""


@dataclass(frozen=True, slots=True)
class Place:
    """Something that a missing mass may be in."""

    kind: Literal["space", "seat", "tank", "ball"]
    name: str
    people: tuple[str, ...] = ()
    """Who sits there at the stage; of a seat alone."""


@dataclass(frozen=True, slots=True)
class MissingMass:
    """What is on the scale and not in the plan, and where its middle lies; negative: in the plan alone."""

    mass_kg: float
    x_mm: float
    x_doubt_mm: float
    """Two standard deviations of that, from the doubt of both axles and the scale."""
    right_mm: float | None
    """None: left and right were not weighed."""
    right_doubt_mm: float | None
    """Two standard deviations of that, from the doubt of both sides and the scale."""
    in_vehicle: bool
    """Whether any place within two deviations is in the vehicle; if not, one thing alone does not explain it."""
    places: tuple[Place, ...]
    """What reaches to within two deviations, as seen from above, the nearest first."""

    @property
    def spaces(self) -> tuple[str, ...]:
        """Names of the spaces among the places."""
        return tuple(one.name for one in self.places if one.kind == "space")


def missing_mass(
    case: Case, stage: Stage, found: tuple[Difference, ...], side_doubts_kg: tuple[float, float], ticket: Ticket
) -> MissingMass | None:
    """Tell what is missing by a ticket; None where the total fits or the axles cannot be predicted."""
    known = known_of(found)
    if "front axle" not in known or not known["total"].beyond(ticket.division_kg):
        return None
    front, rear, total_kg = known["front axle"], known["rear axle"], known["total"].doubt_kg
    x_mm = missing_x_mm(case.vehicle.wheelbase_mm, front.off_kg, rear.off_kg)
    scale = case.rulebook.doubt.deviations**2 * scale_kg2(ticket.division_kg)
    doubts_kg = (front.doubt_kg, rear.doubt_kg, total_kg)
    x_doubt_mm = _doubt_mm(case.vehicle.wheelbase_mm, (front.off_kg, rear.off_kg), doubts_kg, scale)
    off = {one.subject: one.difference_kg for one in found}
    left_kg, right_kg = off.get("left wheels"), off.get("right wheels")
    right_mm = right_doubt_mm = None
    if left_kg is not None and right_kg is not None and left_kg + right_kg:
        right_mm = case.vehicle.track_mm / 2 * (right_kg - left_kg) / (left_kg + right_kg)
        right_doubt_mm = _doubt_mm(case.vehicle.track_mm, (left_kg, right_kg), (*side_doubts_kg, total_kg), scale)
    outline = case.vehicle.outline_mm
    inside = outline.front <= x_mm + x_doubt_mm and x_mm - x_doubt_mm <= outline.rear
    if right_mm is not None and right_doubt_mm is not None:
        inside = inside and abs(right_mm) - right_doubt_mm <= outline.width / 2
    mass_kg = front.off_kg + rear.off_kg
    near = places_near(case, stage, (x_mm, x_doubt_mm), (right_mm, right_doubt_mm)) if inside else ()
    # Nobody who is not in the plan can be in the plan alone.
    near = tuple(one for one in near if mass_kg > 0 or one.kind != "seat" or one.people)
    return MissingMass(mass_kg, x_mm, x_doubt_mm, right_mm, right_doubt_mm, inside, near)


def missing_x_mm(wheelbase_mm: float, front_kg: float, rear_kg: float) -> float:
    """Place behind the front axle in mm of a mass that puts so much more on each axle: L · rear / (front + rear)."""
    return wheelbase_mm * rear_kg / (front_kg + rear_kg)


def _doubt_mm(
    length_mm: float, off_kg: tuple[float, float], doubts_kg: tuple[float, float, float], scale: float
) -> float:
    """Doubt of length · second / (first + second), the usual propagation of small errors.

    `off_kg` is how far two readings are off, both axles or both sides; `doubts_kg` theirs and that of their sum, which
    says how far what puts more on one puts more on the other as well; `scale` the square of the scale's, in kg².
    """
    (first, second), (one_kg, other_kg, both_kg) = off_kg, doubts_kg
    together = (both_kg**2 - one_kg**2 - other_kg**2) / 2
    squares = second**2 * (one_kg**2 + scale) + first**2 * (other_kg**2 + scale) - 2 * first * second * together
    return length_mm * sqrt(max(0.0, squares)) / (first + second) ** 2


def places_near(
    case: Case, stage: Stage, x_mm: tuple[float, float], right_mm: tuple[float | None, float | None]
) -> tuple[Place, ...]:
    """List what reaches to within a doubt of a place, each given as middle and doubt; the nearest first.

    Of what reaches over the middle, that comes first whose own middle is nearer.
    """
    (x, x_doubt), (y, y_doubt) = x_mm, right_mm
    near = []
    for one, low, high in _extents(case, stage):
        aside, aside_middle = 0.0, 0.0
        if y is not None and y_doubt is not None:
            aside, aside_middle = _beyond(y, low[1], high[1]), y - (low[1] + high[1]) / 2
            if aside > y_doubt:
                continue
        along = _beyond(x, low[0], high[0])
        if along <= x_doubt:
            middle = hypot(x - (low[0] + high[0]) / 2, aside_middle)
            near.append((hypot(along, aside), middle, one.kind, one.name, one))
    return tuple(one for *_, one in sorted(near, key=lambda each: each[:-1]))


def _beyond(at_mm: float, low_mm: float, high_mm: float) -> float:
    return max(low_mm - at_mm, 0.0, at_mm - high_mm)


def _extents(case: Case, stage: Stage) -> Iterator[tuple[Place, PlaceMm, PlaceMm]]:
    """Where each place begins and ends; a seat, a tank and the ball are where their mass acts."""
    vehicle, here = case.vehicle, set(aboard(case.trip, stage))
    for space in vehicle.spaces:
        (x, y, _), (length, width, _) = space.corner_mm, space.size_mm
        yield Place("space", space.name), (x, y), (x + length, y + width)
    for seat in vehicle.seats:
        people = tuple(one.name for one in case.trip.people if one.seat == seat.name and one.name in here)
        yield Place("seat", seat.name, people), seat.at_mm[:2], seat.at_mm[:2]
    for tank in vehicle.tanks:
        yield Place("tank", tank.name), tank.at_mm[:2], tank.at_mm[:2]
    behind = vehicle.limits.tow_ball_behind_rear_axle_mm
    if behind is not None and towing(case.trip, stage):
        ball = (vehicle.wheelbase_mm + behind, 0.0)
        yield Place("ball", "tow ball"), ball, ball
