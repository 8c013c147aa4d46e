"""How far the sums may be off, beside the reserve, and what is worth weighing first."""

from models.case import Case
from models.plan import Plan
from report.figures import UNKNOWN
from report.terminal.table import bullets, paragraph, table
from report.told import Verdict, WorthWeighing

SHOWN = 5
"""How many things worth weighing are told."""


def doubts(case: Case, plan: Plan, verdict: Verdict, width: int) -> list[str]:
    """Two standard deviations by driving stage, and the things whose weighing would tell most."""
    reserve = case.trip.reserve_kg if plan.reserve_kept_kg is None else plan.reserve_kept_kg
    driving = [stage.name for stage in case.trip.stages if stage.driving]
    columns = ("total_kg", "front_axle_kg", "rear_axle_kg")
    rows = [(name, *(_off(getattr(verdict.doubts[name], key)) for key in columns)) for name in driving]
    told = f"Doubt: by so many kg the sums may be off (two standard deviations); the reserve is {reserve:g} kg"
    lines = [*paragraph(told, width), *table(("stage", "total", "front axle", "rear axle"), rows, width)]
    if verdict.worth_weighing:
        lines += ["Worth weighing first, seen from the tightest axle"]
        lines += bullets((_worth(one) for one in verdict.worth_weighing[:SHOWN]), width)
    return lines


def _off(kg: float | None) -> str:
    return UNKNOWN if kg is None else f"+/- {kg:.0f}"


def _worth(one: WorthWeighing) -> str:
    known = {"guess": "guessed"}.get(
        one.known_from, f"from {one.known_from}" if one.known_from != "estimated" else "estimated"
    )
    return f"{one.thing} ({known}): +/- {one.doubt_kg:.1f} kg on it, {one.share:.0%} of its doubt"
