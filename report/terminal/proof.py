"""How good the plan is, and how far that is proven: proven, found and unknown are three words."""

from collections.abc import Iterable
from math import ceil, floor

from models.case import Case
from report.figures import degrees_per_mm, seconds, whole
from report.terminal.table import bullets, paragraph
from report.told import Level, Proposal, Verdict

ROUNDING = 1e-6
"""What a computed height in mm or tenth of a kilogram may be off by."""


def proof(case: Case, verdict: Verdict, proposal: Proposal | None, width: int) -> list[str]:
    """A line for each aim, the height with the musts alone, and what a millimetre means."""
    if proposal is None or not proposal.levels:
        return []
    told = [*(_level(level, verdict) for level in proposal.levels), *_musts_alone(case, proposal)]
    return ["How good it is", *bullets(told, width), *_what_a_mm_means(case, verdict, width)]


def _musts_alone(case: Case, proposal: Proposal) -> Iterable[str]:
    drives = any(stage.driving for stage in case.trip.stages)
    if proposal.must_only_height_mm is not None and drives and any(not thing.must for thing in case.things):
        within = f"optional things come while the height stays within {case.trip.choose_within_mm:g} mm of that"
        yield f"with the musts alone the height found is {whole(proposal.must_only_height_mm)} mm; {within}"


def _level(level: Level, verdict: Verdict) -> str:
    if level.name == "height":
        return _height(level, verdict)
    if level.name == "value carried":
        return f"value carried {level.value:g}: {_value(level)}"
    if level.name == "reserve kept":
        return f"reserve kept {level.value:g} kg: {_value(level)}"
    told = f"{seconds(level.value)} s a day" if level.unit.startswith("s") else f"{level.value:g} {level.unit}".strip()
    return f"{level.name} {told}: {level.state}"


def _value(level: Level) -> str:
    if level.state == "proven":
        return "proven, no more is possible"
    if level.state == "found" and level.bound is not None:
        return f"found; at most {_more(level)} more is possible"
    return "found; how much more is possible is unknown"


def _more(level: Level) -> str:
    """How much more there may be, in whole units of a value or in tenths of a kilogram."""
    gap = max(0.0, (level.bound or 0.0) - level.value)
    return f"{ceil(10 * gap - ROUNDING) / 10:g} kg" if level.unit == "kg" else f"{floor(gap):g}"


def _height(level: Level, verdict: Verdict) -> str:
    stage = verdict.highest_stage
    if not verdict.drives:
        return "height of the laden centre of gravity: not looked at, as no driving stage is in the trip"
    found = verdict.totals[stage].cg_mm[2] if stage is not None else None
    at = f" at '{stage}'" if stage is not None else ""
    return f"height of the laden centre of gravity {whole(found)} mm{at}: {_lower(level, found or level.value)}"


def _lower(level: Level, height_mm: float) -> str:
    if level.state == "proven":
        return "proven, no lower is possible within these limits"
    if level.state == "unknown" and level.bound is not None:
        wrong = f"what was worked out as the least, {level.bound:.2f} mm, is above it: a mistake of lowstow's own"
        return f"how much lower is possible is unknown, as {wrong}; please report it with your files"
    if level.state == "found" and level.bound is not None:
        gap = max(0, ceil(height_mm - level.bound - ROUNDING))
        return f"found; at most {gap} mm lower is possible"
    return "found; how much lower is possible is unknown"


def _what_a_mm_means(case: Case, verdict: Verdict, width: int) -> Iterable[str]:
    stage = verdict.highest_stage
    height_mm = verdict.totals[stage].cg_mm[2] if stage is not None else None
    if height_mm is None:
        return []
    gain = degrees_per_mm(case.vehicle.track_mm, height_mm)
    told = (
        f"What a millimetre means: 1 mm lower at {whole(height_mm)} mm is {gain:.3f} degrees of rigid tip angle, about "
        "as much as a 1 mm stone under one wheel. Limits and hazards are safety; millimetres are fine tuning."
    )
    return paragraph(told, width, "  ", "  ")
