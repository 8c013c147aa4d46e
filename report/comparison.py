"""Two plans side by side: figures by stage, margins, handling time and moves."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from models.case import Case, copy_of
from models.plan import Placement, Plan
from models.rules import Rule
from packing import MoveList
from report.fullest import fullest
from report.lost import Lost, lying_view
from report.moves_view import moves_view
from report.told import Finding, Totals, Verdict


@dataclass(frozen=True)
class Side:
    """One of the two plans, checked against its own files."""

    letter: str
    path: str
    case: Case
    plan: Plan
    verdict: Verdict
    getting_at_s: float
    """Seconds a day to get at things."""
    notes: tuple[str, ...] = ()
    """What reading converted or left out."""
    digest_matches: bool | None = None
    """False: it was made from other files than those against which it is checked. None: it does not say from which."""
    left_out: tuple[Placement, ...] = ()
    """What it holds and its files no longer know: it is in no sum."""


@dataclass(frozen=True)
class Comparison:
    """Two plans, and the moves from the first to the second."""

    a: Side
    b: Side
    moves: MoveList
    lost: Lost
    """What the first holds and the second's files do not know, or whose space they do not know."""
    other_files: bool
    """Whether the two are for different files."""
    moving: Case
    """The second's case with what is taken out though its list does not have it."""


@dataclass(frozen=True)
class Pair:
    """A figure of both plans; None: not known, or not there."""

    stage: str
    subject: str
    unit: str
    a: float | None
    b: float | None

    @property
    def difference(self) -> float | None:
        """Second less first."""
        return None if self.a is None or self.b is None else self.b - self.a


FIGURES = ("total", "front axle", "rear axle", "right less left", "height")
"""What is compared at every stage, all in kg but the height in mm."""

MARGINS = (Rule.GROSS_MASS, Rule.AXLE, Rule.RACK, Rule.BALANCE)
"""Rules whose margins in kg are compared, all of them."""

SPACES = 1
"""Of so many spaces of each plan the margin is compared too, the nearest to full first."""


def figures(found: Comparison) -> Iterator[Pair]:
    """Figures of every stage that either trip has, in the order of the first."""
    a, b = found.a.verdict.totals, found.b.verdict.totals
    for stage in dict.fromkeys((*a, *b)):
        of_a, of_b = _figures(a.get(stage)), _figures(b.get(stage))
        for name in FIGURES:
            yield Pair(stage, name, "mm" if name == "height" else "kg", of_a.get(name), of_b.get(name))


def _figures(sums: Totals | None) -> dict[str, float | None]:
    if sums is None:
        return {}
    aside = None if sums.left_kg is None or sums.right_kg is None else sums.right_kg - sums.left_kg
    figures = (sums.mass_kg + sums.ball_kg, sums.front_axle_kg, sums.rear_axle_kg, aside, sums.cg_mm[2])
    return dict(zip(FIGURES, figures, strict=True))


def margins(found: Comparison) -> list[Pair]:
    """The least margin of each limit in both plans, the tightest first; the stage is that of the tighter one.

    Of the spaces those that are nearest to full in one of the plans, so many of each.
    """
    a, b = _least(found.a.verdict), _least(found.b.verdict)
    pairs = [_margin(subject, a.get(subject), b.get(subject)) for subject in dict.fromkeys((*a, *b))]
    full_a, full_b = ({one.subject: one for one in fullest(side.verdict.findings)} for side in (found.a, found.b))
    near = dict.fromkeys(name for full in (full_a, full_b) for name in list(full)[:SPACES])
    pairs += [_margin(name, full_a.get(name), full_b.get(name)) for name in near]
    return sorted(pairs, key=lambda one: min(kg for kg in (one.a, one.b) if kg is not None))


def _least(verdict: Verdict) -> dict[str, Finding]:
    least: dict[str, Finding] = {}
    for one in verdict.findings:
        if one.rule in MARGINS and one.unit == "kg" and one.margin is not None:
            tightest = least.get(one.subject, one)
            least[one.subject] = min(tightest, one, key=lambda finding: finding.margin or 0.0)
    return least


def _margin(subject: str, a: Finding | None, b: Finding | None) -> Pair:
    there = [one for one in (a, b) if one is not None]
    tighter = min(there, key=lambda one: one.margin or 0.0)
    margin_a, margin_b = (None if one is None else one.margin for one in (a, b))
    return Pair(tighter.stage or "-", subject, "kg", margin_a, margin_b)


def comparison_view(found: Comparison) -> dict[str, Any]:
    """Two plans side by side, for machines."""
    return {
        "a": _side(found.a),
        "b": _side(found.b),
        "other_files": found.other_files,
        "figures": [_pair(one) for one in figures(found)],
        "margins": [_pair(one) for one in margins(found)],
        "unknown_to_b": list(dict.fromkeys(copy.thing for copy, _ in found.lost.all)),
        **moves_view(found.moves),
    }


def _side(side: Side) -> dict[str, Any]:
    broken = [{"rule": one.rule.value, "says": one.says} for one in side.verdict.findings if one.holds is False]
    return {
        "path": side.path,
        "holds": side.verdict.holds,
        "questions": list(side.verdict.questions),
        "broken": broken,
        "getting_at_s": side.getting_at_s,
        "digest_matches": side.digest_matches,
        "left_out": [lying_view(copy_of(place), place.space) for place in side.left_out],
        "notes": list(side.notes),
    }


def _pair(one: Pair) -> dict[str, Any]:
    keys = ("stage", "subject", "unit", "a", "b", "difference")
    return {key: getattr(one, key) for key in keys}
