"""Recomputes every limit from a plan and its files; knows nothing of how the plan was made."""

from verifier.checking import check
from verifier.doubt import Doubt, WorthWeighing, combined_deviation_kg
from verifier.finding import Finding
from verifier.securing import required_restraint_n, tie_down_capacity_n
from verifier.statics import (
    AxleLoads,
    PointMass,
    articulated_lower_bound_deg,
    axle_loads,
    centre,
    grade_front_kg,
    height_from_axle_lift,
    lift_angle_deg,
    moment_kg_mm,
    static_stability_factor,
    tip_angles_deg,
    tip_back_deg,
    total_kg,
    wheel_loads,
)
from verifier.verdict import StageTotals, Verdict

__all__ = [
    "AxleLoads",
    "Doubt",
    "Finding",
    "PointMass",
    "StageTotals",
    "Verdict",
    "WorthWeighing",
    "articulated_lower_bound_deg",
    "axle_loads",
    "centre",
    "check",
    "combined_deviation_kg",
    "grade_front_kg",
    "height_from_axle_lift",
    "lift_angle_deg",
    "moment_kg_mm",
    "required_restraint_n",
    "static_stability_factor",
    "tie_down_capacity_n",
    "tip_angles_deg",
    "tip_back_deg",
    "total_kg",
    "wheel_loads",
]
