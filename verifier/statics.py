"""Masses and moments of point masses: the statics of a vehicle that stands still.

x rearward from the front axle, y to the right, z up, in mm; masses in kg. A coordinate nobody knows is None, and so is
every sum that needs it.
"""

from collections.abc import Iterable, Sequence
from math import asin, atan, cos, degrees, hypot, radians, sin, tan
from typing import Literal, NamedTuple


class PointMass(NamedTuple):
    """A mass in kg at a place in mm; a negative mass takes away what was on the scale."""

    mass_kg: float
    x_mm: float | None
    y_mm: float | None
    z_mm: float | None


class AxleLoads(NamedTuple):
    """What the axles carry in kg."""

    front_kg: float
    rear_kg: float

    @property
    def front_share(self) -> float:
        """Share of the load on the front axle."""
        both = self.front_kg + self.rear_kg
        return self.front_kg / both if both else 0.0


Centre = tuple[float | None, float | None, float | None]
"""A centre of gravity [x, y, z] in mm; None along an axis: unknown there."""


def total_kg(points: Iterable[PointMass]) -> float:
    """Mass of all points together in kg."""
    return sum(point.mass_kg for point in points)


def moment_kg_mm(points: Iterable[PointMass], axis: Literal["x_mm", "y_mm", "z_mm"]) -> float | None:
    """Sum of mass times place along an axis in kg mm; None where a place is unknown."""
    moment = 0.0
    for point in points:
        place: float | None = getattr(point, axis)
        if place is None and point.mass_kg != 0:
            return None
        moment += point.mass_kg * (place or 0.0)
    return moment


def centre(points: Sequence[PointMass]) -> Centre:
    """Centre of gravity in mm (FAA-H-8083-25C p. 10-7: sum of moments by sum of masses); unknown without mass."""
    mass = total_kg(points)
    moments = (moment_kg_mm(points, "x_mm"), moment_kg_mm(points, "y_mm"), moment_kg_mm(points, "z_mm"))
    x, y, z = (None if moment is None or mass == 0 else moment / mass for moment in moments)
    return (x, y, z)


def axle_loads(
    points: Sequence[PointMass], wheelbase_mm: float, ball_kg: float = 0.0, ball_behind_mm: float = 0.0
) -> AxleLoads | None:
    """Axle loads in kg, with a download on a ball so far behind the rear axle; None where an x is unknown."""
    moment = moment_kg_mm(points, "x_mm")
    if moment is None:
        return None
    lifted = ball_kg * ball_behind_mm / wheelbase_mm
    rear = moment / wheelbase_mm + ball_kg + lifted
    return AxleLoads(total_kg(points) - moment / wheelbase_mm - lifted, rear)


def wheel_loads(points: Sequence[PointMass], track_mm: float, ball_kg: float = 0.0) -> tuple[float, float] | None:
    """What the left and the right wheels carry in kg; None where a y is unknown."""
    moment = moment_kg_mm(points, "y_mm")
    if moment is None:
        return None
    half = (total_kg(points) + ball_kg) / 2
    return (half - moment / track_mm, half + moment / track_mm)


def static_stability_factor(track_mm: float, height_mm: float) -> float:
    """Track by twice the height of the centre of gravity (NHTSA, 66 FR 3388); a comparison, no permission."""
    return track_mm / (2 * height_mm)


def tip_angles_deg(track_mm: float, right_mm: float, height_mm: float) -> tuple[float, float]:
    """Angles in degrees at which a rigid vehicle tips to the left and to the right; real vehicles tip earlier."""
    half = track_mm / 2
    return (degrees(atan((half + right_mm) / height_mm)), degrees(atan((half - right_mm) / height_mm)))


def articulated_lower_bound_deg(
    track_mm: float,
    wheelbase_mm: float,
    x_mm: float,
    right_mm: float,
    height_mm: float,
    free: Literal["front", "rear"] = "front",
) -> float:
    """Lower bound in degrees of the tip angle to the heavier side, with one axle free to articulate.

    The support is a triangle: the wheels of the other axle and the middle of the free one, on the ground.
    """
    along = x_mm if free == "front" else wheelbase_mm - x_mm
    half_here = track_mm / 2 * along / wheelbase_mm
    reach = (half_here - abs(right_mm)) * wheelbase_mm / hypot(wheelbase_mm, track_mm / 2)
    return degrees(atan(reach / height_mm))


def grade_front_kg(points: Sequence[PointMass], wheelbase_mm: float, climb_deg: float) -> float | None:
    """Load in kg of the front axle across the ground on a climb, the vehicle standing still."""
    x, _, z = centre(points)
    if x is None or z is None:
        return None
    angle = radians(climb_deg)
    return total_kg(points) * ((wheelbase_mm - x) * cos(angle) - z * sin(angle)) / wheelbase_mm


def tip_back_deg(wheelbase_mm: float, x_mm: float, height_mm: float) -> float:
    """Climb in degrees at which a rigid vehicle that stands still has no load left on its front axle."""
    return degrees(atan((wheelbase_mm - x_mm) / height_mm))


def lift_angle_deg(wheelbase_mm: float, lift_mm: float) -> float:
    """Angle in degrees of a vehicle with one axle lifted so far."""
    return degrees(asin(lift_mm / wheelbase_mm))


def height_from_axle_lift(
    mass_kg: float,
    wheelbase_mm: float,
    wheel_radius_mm: float,
    level_kg: float,
    lifted_kg: float,
    lift_mm: float,
) -> float:
    """Height of the centre of gravity in mm from the load of the axle that stays down (ISO 10392:2011, 6.2)."""
    slope = tan(radians(lift_angle_deg(wheelbase_mm, lift_mm)))
    return wheel_radius_mm + wheelbase_mm * (lifted_kg - level_kg) / (mass_kg * slope)
