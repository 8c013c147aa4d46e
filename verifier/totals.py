"""What the vehicle weighs at a stage and where its centre of gravity is."""

from collections.abc import Sequence

from models.trip import Stage
from models.vehicle import Vehicle
from verifier.layout import Layout
from verifier.stage import axles_at, ball_at, everything, without_load
from verifier.statics import (
    Centre,
    PointMass,
    articulated_lower_bound_deg,
    centre,
    grade_front_kg,
    static_stability_factor,
    tip_angles_deg,
    tip_back_deg,
    total_kg,
    wheel_loads,
)
from verifier.verdict import StageTotals


def _articulated(vehicle: Vehicle, at_mm: Centre) -> float | None:
    x, y, z = at_mm
    if x is None or y is None or not z:
        return None
    track, wheelbase = vehicle.track_mm, vehicle.wheelbase_mm
    return min(articulated_lower_bound_deg(track, wheelbase, x, y, z, free) for free in ("front", "rear"))


def _climbs(layout: Layout, points: Sequence[PointMass]) -> dict[float, float]:
    """The share of the weight on the front wheels on each climb of the rule book; none where it is not known."""
    whole, wheelbase = total_kg(points), layout.case.vehicle.wheelbase_mm
    front = {deg: grade_front_kg(points, wheelbase, deg) for deg in layout.case.rulebook.climb.degrees}
    return {deg: kg / whole for deg, kg in front.items() if kg is not None and whole}


def totals_at(layout: Layout, stage: Stage) -> StageTotals:
    """Sum everything at a stage with likely masses."""
    vehicle, ball = layout.case.vehicle, ball_at(layout.case, stage)
    points, own = everything(layout, stage, "likely"), without_load(layout.case, stage)
    axles, at_mm = axles_at(layout, stage, "likely"), centre(points)
    wheels = wheel_loads(points, vehicle.track_mm, ball.kg)
    x, y, z = at_mm
    return StageTotals(
        driving=stage.driving,
        mass_kg=total_kg(points),
        ball_kg=ball.kg,
        front_axle_kg=axles and axles.front_kg,
        rear_axle_kg=axles and axles.rear_kg,
        front_share=axles and axles.front_share,
        left_kg=wheels and wheels[0],
        right_kg=wheels and wheels[1],
        cg_mm=at_mm,
        mass_without_load_kg=total_kg(own),
        cg_without_load_mm=centre(own),
        side_slope_deg=tip_angles_deg(vehicle.track_mm, y, z) if y is not None and z else None,
        static_stability_factor=static_stability_factor(vehicle.track_mm, z) if z else None,
        articulated_bound_deg=_articulated(vehicle, at_mm),
        tip_back_deg=tip_back_deg(vehicle.wheelbase_mm, x, z) if x is not None and z and not ball.kg else None,
        climb_front_share={} if ball.kg else _climbs(layout, points),
    )
