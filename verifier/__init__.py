"""Recomputes every limit from a plan and its files; knows nothing of how the plan was made."""

from verifier.advice import Barrier, Lift, Tie, TiedSpace, TooFew, Tying
from verifier.alone import broken_at, broken_in
from verifier.checking import check, found_by, highest_mm, judge, weighed
from verifier.doubt import Doubt, WorthWeighing, combined_deviation_kg
from verifier.finding import Finding
from verifier.lifting import Hands, recommended_kg, turned_kg, zone_kg
from verifier.missing import MissingMass
from verifier.reconciling import Correction
from verifier.rules.rack import rack_limit
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
from verifier.strapping import energy_j, fewest_straps, pressed_kg, pressing_n, pressing_straps, straps_by_length, tips
from verifier.ticket import Difference, Ticket
from verifier.verdict import Judgement, StageTotals, Verdict, Weighed
from verifier.weighing import Weighing, weigh

__all__ = [
    "AxleLoads",
    "Barrier",
    "Correction",
    "Difference",
    "Doubt",
    "Finding",
    "Hands",
    "Judgement",
    "Lift",
    "MissingMass",
    "PointMass",
    "StageTotals",
    "Ticket",
    "Tie",
    "TiedSpace",
    "TooFew",
    "Tying",
    "Verdict",
    "Weighed",
    "Weighing",
    "WorthWeighing",
    "articulated_lower_bound_deg",
    "axle_loads",
    "broken_at",
    "broken_in",
    "centre",
    "check",
    "combined_deviation_kg",
    "energy_j",
    "fewest_straps",
    "found_by",
    "grade_front_kg",
    "height_from_axle_lift",
    "highest_mm",
    "judge",
    "lift_angle_deg",
    "moment_kg_mm",
    "pressed_kg",
    "pressing_n",
    "pressing_straps",
    "rack_limit",
    "recommended_kg",
    "required_restraint_n",
    "static_stability_factor",
    "straps_by_length",
    "tie_down_capacity_n",
    "tip_angles_deg",
    "tip_back_deg",
    "tips",
    "total_kg",
    "turned_kg",
    "weigh",
    "weighed",
    "wheel_loads",
    "zone_kg",
]
