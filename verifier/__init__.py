"""Recomputes every limit from a plan and its files; knows nothing of how the plan was made."""

from verifier.alone import broken_at, broken_in
from verifier.checking import check
from verifier.doubt import Doubt, WorthWeighing, combined_deviation_kg
from verifier.finding import Finding
from verifier.reconciling import Correction
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
from verifier.ticket import Difference, Ticket
from verifier.verdict import StageTotals, Verdict
from verifier.weighing import MissingMass, Weighing, weigh

__all__ = [
    "AxleLoads",
    "Correction",
    "Difference",
    "Doubt",
    "Finding",
    "MissingMass",
    "PointMass",
    "StageTotals",
    "Ticket",
    "Verdict",
    "Weighing",
    "WorthWeighing",
    "articulated_lower_bound_deg",
    "axle_loads",
    "broken_at",
    "broken_in",
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
    "weigh",
    "wheel_loads",
]
