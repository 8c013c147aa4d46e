"""Claims of a plan against what the verifier finds."""

from collections.abc import Iterator, Mapping

from models.plan import Claims
from verifier.verdict import StageTotals

MOST_OFF = {"mm": 0.5, "kg": 0.5}
"""How far a claim may be off: half of what people read, for rounding."""


def _one(
    says: str, claims: Mapping[str, float], found: Mapping[str, float | None], unit: str, but: Mapping[str, str] = {}
) -> Iterator[str]:
    """`but` says by stage what is not in a figure."""
    for stage, claimed in claims.items():
        if stage not in found:
            yield f"The plan claims {says} at '{stage}', a stage that the trip does not have."
            continue
        value = found[stage]
        if value is None:
            yield f"The plan claims {says} of {claimed:.1f} {unit} at '{stage}'; it cannot be known."
        elif abs(value - claimed) > MOST_OFF[unit]:
            found_so = f"{value:.1f} {unit}{but.get(stage, '')}"
            yield f"The plan claims {says} of {claimed:.1f} {unit} at '{stage}'; it is {found_so}."


def claims_off(claims: Claims, totals: Mapping[str, StageTotals]) -> Iterator[str]:
    """Tell every claim that does not stand; masses are the likely ones."""
    heights = {name: stage.cg_height_mm for name, stage in totals.items()}
    fronts = {name: stage.front_axle_kg for name, stage in totals.items()}
    rears = {name: stage.rear_axle_kg for name, stage in totals.items()}
    masses: dict[str, float | None] = {name: stage.mass_kg for name, stage in totals.items()}
    yield from _one("a height", claims.cg_height_mm, heights, "mm")
    yield from _one("a front axle", claims.front_axle_kg, fronts, "kg")
    yield from _one("a rear axle", claims.rear_axle_kg, rears, "kg")
    balls = {n: f" without the {s.ball_kg:.1f} kg on the tow ball" for n, s in totals.items() if s.ball_kg}
    yield from _one("a total", claims.mass_kg, masses, "kg", balls)
