"""Figures of the sheet: a printed number with the exact one behind it and where the verifier has it."""

import json
from dataclasses import dataclass

from report.figures import left, limit, told_beside, whole
from report.told import Doubt, Finding, Totals


@dataclass(frozen=True)
class Figure:
    """A number as it is printed."""

    text: str
    value: float | None
    """The number in full; None: unknown."""
    of: str
    """Where the verifier has it, as a JSON list: kind, then rule, subject, stage and part, or stage and part."""


def located(*parts: str | None) -> str:
    """Where the verifier has a number, as a JSON list."""
    return json.dumps(parts, ensure_ascii=False)


def load(one: Finding, reserve_kg: float) -> Figure:
    """What a limit carries, the reserve left out."""
    value = None if one.value is None else one.value - reserve_kg
    told = told_beside(value, one.limit, one.holds)
    return Figure(told, value, located("finding", one.rule.value, one.subject, one.stage, "load"))


def value_of(one: Finding) -> Figure:
    """What was found."""
    told = told_beside(one.value, one.limit, one.holds)
    return Figure(told, one.value, located("finding", one.rule.value, one.subject, one.stage, "value"))


def limit_of(one: Finding) -> Figure:
    """What is allowed."""
    return Figure(limit(one.limit), one.limit, located("finding", one.rule.value, one.subject, one.stage, "limit"))


def margin_of(one: Finding) -> Figure:
    """What is left, rounded down, or what is too much, rounded up."""
    told = left(one.margin, one.holds)
    return Figure(told, one.margin, located("finding", one.rule.value, one.subject, one.stage, "margin"))


def total(sums: Totals, stage: str, part: str) -> Figure:
    """A sum of a stage: mass_kg, front_axle_kg, rear_axle_kg."""
    value: float | None = getattr(sums, part)
    return Figure(whole(value), value, located("totals", stage, part))


def centre(sums: Totals, stage: str, part: str, axis: int) -> Figure:
    """A coordinate of a centre of gravity: part is cg_mm or cg_without_load_mm."""
    value: float | None = getattr(sums, part)[axis]
    return Figure(whole(value), value, located("totals", stage, part, str(axis)))


def doubt(one: Doubt, stage: str, part: str) -> Figure:
    """Two standard deviations of a sum."""
    value: float | None = getattr(one, part)
    return Figure("unknown" if value is None else f"± {value:.0f}", value, located("doubt", stage, part))
