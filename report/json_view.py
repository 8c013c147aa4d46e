"""What machines read: the verdict, and the plan with how good it is."""

import json
from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

from models.case import Copy
from models.plan import Plan
from report.advice_view import lift_view, tying_view
from report.told import Conflict, Doubt, Finding, Level, Totals, Verdict


def verdict_view(verdict: Verdict, notes: Sequence[str] = (), questions: Sequence[str] = ()) -> dict[str, Any]:
    """A verdict as plain data: holds, what to ask first, findings, totals by stage, doubts, what to weigh, claims.

    `questions`, those of the notes that ask, stand with the verifier's.
    """
    worth = ("thing", "known_from", "doubt_kg", "share", "load_kg", "once_weighed_kg")
    return {
        "holds": verdict.holds,
        "questions": [*verdict.questions, *questions],
        "findings": [_finding(one) for one in verdict.findings],
        "totals": {name: _totals(sums) for name, sums in verdict.totals.items()},
        "doubts": {name: _doubt(one) for name, one in verdict.doubts.items()},
        "worth_weighing": [{key: getattr(one, key) for key in worth} for one in verdict.worth_weighing],
        "highest_stage": verdict.highest_stage,
        "height_doubt_mm": verdict.height_doubt_mm,
        "tallest": {"top_mm": verdict.tallest.top_mm, "what": verdict.tallest.what},
        "before_water": verdict.before_water,
        "climbing": verdict.climbing,
        "leaning": verdict.leaning,
        "tying": tying_view(verdict.tying),
        "too_heavy_for_one": [lift_view(one) for one in verdict.lifts if one.too_heavy],
        "claims_off": list(verdict.claims_off),
        "notes": list(notes),
    }


def _finding(one: Finding) -> dict[str, Any]:
    keys = ("subject", "stage", "value", "limit", "unit", "margin", "holds", "source", "says")
    return {"rule": one.rule.value, **{key: getattr(one, key) for key in keys}}


def _doubt(one: Doubt) -> dict[str, Any]:
    axles = {"front_axle_kg": one.front_axle_kg, "rear_axle_kg": one.rear_axle_kg}
    return {"total_kg": one.total_kg, **axles, "racks_kg": dict(one.racks_kg)}


def _totals(sums: Totals) -> dict[str, Any]:
    return {
        "driving": sums.driving,
        "mass_kg": sums.mass_kg,
        "ball_kg": sums.ball_kg,
        "front_axle_kg": sums.front_axle_kg,
        "rear_axle_kg": sums.rear_axle_kg,
        "front_share": sums.front_share,
        "left_kg": sums.left_kg,
        "right_kg": sums.right_kg,
        "cg_mm": list(sums.cg_mm),
        "cg_without_load_mm": list(sums.cg_without_load_mm),
        "side_slope_deg": None if sums.side_slope_deg is None else list(sums.side_slope_deg),
        "static_stability_factor": sums.static_stability_factor,
        "articulated_bound_deg": sums.articulated_bound_deg,
        "tip_back_deg": sums.tip_back_deg,
        "climb_front_share": {f"{deg:g}": share for deg, share in sums.climb_front_share.items()},
    }


def plan_view(plan: Plan) -> dict[str, Any]:
    """A plan with the keys of its file."""
    view: dict[str, Any] = plan.model_dump(mode="json", by_alias=True)
    return view


def levels_view(levels: Sequence[Level]) -> list[dict[str, Any]]:
    """How good a plan is at each aim, and how far that is proven."""
    keys = ("name", "value", "bound", "unit", "state")
    return [{key: getattr(level, key) for key in keys} for level in levels]


def conflict_view(conflict: Conflict | None) -> dict[str, Any] | None:
    """Demands that cannot hold together, and the ways out; None where nothing is known."""
    if conflict is None:
        return None
    keys = ("kind", "subject", "says", "shown")
    return {
        "proven": conflict.proven,
        "says": list(conflict.says),
        "demands": [{key: getattr(one, key) for key in keys} for one in conflict.demands],
        "ways_out": [one.says for one in conflict.ways_out],
    }


def home_view(reasons: Mapping[Copy, str]) -> list[dict[str, Any]]:
    """Copies that stay at home, with the reason."""
    return [{"thing": copy.thing, "copy": copy.number, "because": why} for copy, why in sorted(reasons.items())]


def json_text(view: object) -> str:
    """Plain data as JSON; a number that is not finite, such as the seconds to something stuck, becomes null."""
    return json.dumps(_finite(view), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _finite(part: Any) -> Any:
    if isinstance(part, dict):
        return {key: _finite(value) for key, value in part.items()}
    if isinstance(part, list | tuple):
        return [_finite(value) for value in part]
    return None if isinstance(part, float) and not isfinite(part) else part
