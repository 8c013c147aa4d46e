"""A weighing, for machines."""

from typing import Any

from report.told import Finding
from report.told_weighing import MissingMass, Weighing


def weigh_view(found: Weighing) -> dict[str, Any]:
    """A ticket beside a plan as plain data."""
    subject = ("subject", "predicted_kg", "doubt_kg", "measured_kg", "difference_kg")
    correction = ("subject", "known_from", "pieces", "each_kg", "deviation_kg")
    return {
        "stage": found.stage,
        "driving": found.driving,
        "holds": found.holds,
        "division_kg": found.ticket.division_kg,
        "differences": [{key: getattr(one, key) for key in subject} for one in found.differences],
        "limits": [_limit(one) for one in found.limits],
        "questions": list(found.questions),
        "missing": None if found.missing is None else _missing(found.missing),
        "missing_total_kg": found.missing_total_kg,
        "shifted_kg": found.shifted_kg,
        "could_shift_kg": found.could_shift_kg,
        "off_axle": found.off_axle,
        "aside_kg": found.aside_kg,
        "corrections": [
            {**{key: getattr(one, key) for key in correction}, "remaining_deviation_kg": one.left_kg}
            for one in found.corrections
        ],
    }


def _limit(one: Finding) -> dict[str, Any]:
    keys = ("subject", "stage", "value", "limit", "unit", "margin", "holds", "source", "says")
    return {"rule": one.rule.value, **{key: getattr(one, key) for key in keys}}


def _missing(one: MissingMass) -> dict[str, Any]:
    return {
        "mass_kg": one.mass_kg,
        "x_mm": one.x_mm,
        "x_doubt_mm": one.x_doubt_mm,
        "right_mm": one.right_mm,
        "right_doubt_mm": one.right_doubt_mm,
        "in_vehicle": one.in_vehicle,
        "spaces": list(one.spaces),
        "places": [{"kind": place.kind, "name": place.name, "people": list(place.people)} for place in one.places],
    }
