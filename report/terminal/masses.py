"""What the vehicle and its racks carry at each stage, and what is left of each limit."""

from collections.abc import Iterable

from models.case import Case
from models.plan import Plan, reserve_of
from models.rules import Rule
from models.trip import Stage
from report.figures import left, limit, share_beside, told_beside, whole
from report.fullest import fullest
from report.terminal.table import paragraph, table
from report.told import MASS_RULES, Finding, Verdict

GROUND = {"sealed_road": "sealed road", "off_road": "off road", "parked": "parked"}
"""What a person calls the ground of a stage."""


def masses(case: Case, plan: Plan, verdict: Verdict, width: int) -> list[str]:
    """The table of stages, the racks, the tightest limits in words and where the limits come from."""
    reserve = reserve_of(plan, case.reserve_kg)
    rows = [_limits(verdict), *(_stage(verdict, stage, reserve) for stage in case.trip.stages)]
    told = f"Masses in kg; in brackets what is left of the limit after {reserve:g} kg of reserve{_of_doubt(case, plan)}"
    lines = [*paragraph(told, width), *table(_HEADER, rows, width)]
    lines += [*_towing(verdict, width), *_racks(case, verdict, width)]
    sides = [*_front_share(verdict, width), *_leaning(verdict, width)]
    beside = [*_tightest(verdict, width), *sides, *_sources(verdict, width)]
    return [*lines, "", *beside] if beside else lines


def _of_doubt(case: Case, plan: Plan) -> str:
    """Which end of a doubtful mass the rows are made of, where there is one."""
    ranges = (case.thing_named[one.thing].mass_kg for one in plan.placements if one.thing in case.thing_named)
    if all(mass.most == mass.likely for mass in ranges):
        return ""
    if all(stage.driving for stage in case.trip.stages):
        return "; doubtful masses at their worse end, for the sides the likely"
    return "; driving: the worse end of doubtful masses, for the sides and parked: the likely"


_HEADER = ("stage", "total", "front axle", "rear axle", "left-right")
_COLUMNS = (
    (Rule.GROSS_MASS, "total"),
    (Rule.AXLE, "front axle"),
    (Rule.AXLE, "rear axle"),
    (Rule.BALANCE, "left and right"),
)


def of(verdict: Verdict, rule: Rule, subject: str, stage: str | None = None) -> list[Finding]:
    """Findings of a rule on a subject in a unit of mass, at one stage if named."""
    return [
        one
        for one in verdict.findings
        if one.rule == rule and one.subject == subject and one.unit == "kg" and stage in {None, one.stage}
    ]


def _limits(verdict: Verdict) -> tuple[str, ...]:
    cells = []
    for rule, subject in _COLUMNS[:3]:
        limits = [one.limit for one in of(verdict, rule, subject)]
        cells.append(limit(limits[0]) if limits else "-")
    return ("limit", *cells, "-")


def _stage(verdict: Verdict, stage: Stage, reserve: float) -> tuple[str, ...]:
    name = f"{stage.name} ({GROUND[stage.surface]})"
    if stage.driving:
        return (name, *(_cell(verdict, rule, subject, stage, reserve) for rule, subject in _COLUMNS))
    sums = verdict.totals[stage.name]
    known = (sums.mass_kg + sums.ball_kg, sums.front_axle_kg, sums.rear_axle_kg)
    aside = None if sums.left_kg is None or sums.right_kg is None else abs(sums.left_kg - sums.right_kg)
    return (name, *(whole(value) for value in (*known, aside)))


def _cell(verdict: Verdict, rule: Rule, subject: str, stage: Stage, reserve: float) -> str:
    for one in of(verdict, rule, subject, stage.name):
        if one.value is None:
            return "unknown"
        kept = 0.0 if rule == Rule.BALANCE else reserve
        return f"{told_beside(one.value - kept, one.limit, one.holds)} ({left(one.margin, one.holds)})"
    return "-"


def _towing(verdict: Verdict, width: int) -> list[str]:
    found = [*of(verdict, Rule.GROSS_MASS, "tow ball"), *of(verdict, Rule.GROSS_MASS, "with trailer")]
    if not found:
        return []
    rows = [(one.subject, one.stage or "-", *_figures(one)) for one in found]
    return ["", *table(("towing", "stage", "kg", "limit", "left"), rows, width, frozenset({0, 1}))]


def _figures(one: Finding) -> tuple[str, str, str]:
    return (told_beside(one.value, one.limit, one.holds), limit(one.limit), left(one.margin, one.holds))


def _racks(case: Case, verdict: Verdict, width: int) -> list[str]:
    ground = {stage.name: GROUND[stage.surface] for stage in case.trip.stages}
    rows = []
    for rack in case.vehicle.racks:
        worst: dict[str, Finding] = {}
        for one in of(verdict, Rule.RACK, rack.name):
            kind = ground[one.stage or ""]
            worst[kind] = min(worst.get(kind, one), one, key=_margin)
        rows += [(rack.name, kind, *_figures(one), one.stage or "-") for kind, one in worst.items()]
    if not rows:
        return []
    header = ("rack", "ground", "kg", "limit", "left", "heaviest at")
    return ["", "Racks: what hangs on them, at the heaviest stage of each ground",
            *table(header, rows, width, frozenset({0, 1, 5}))]  # fmt: skip


def _margin(one: Finding) -> float:
    """What is left; where a limit is unknown, the heavier counts as the worse."""
    return -(one.value or 0.0) if one.margin is None else one.margin


def _tightest(verdict: Verdict, width: int) -> list[str]:
    worst: dict[tuple[Rule, str], Finding] = {}
    for one in verdict.findings:
        if one.rule in MASS_RULES and one.unit == "kg" and one.margin is not None:
            key = (one.rule, one.subject)
            worst[key] = min(worst.get(key, one), one, key=_margin)
    ranked = sorted(worst.values(), key=_margin)[:3]
    told = [f"{one.subject}, {_in_words(one)}" for one in ranked]
    told += [f"of the spaces: {one.subject}, {_in_words(one)}" for one in fullest(verdict.findings)[:1]]
    return paragraph("; ".join(told), width, "Tightest: ", "  ") if told else []


def _in_words(one: Finding) -> str:
    at = f" at '{one.stage}'" if one.stage else ""
    told = left(one.margin, one.holds)
    return f"{told} kg{at}" if told.startswith("over") else f"{told} kg left{at}"


def front_share(verdict: Verdict) -> str | None:
    """The least share of the front wheels, and when; None where none is known."""
    found = [one for one in verdict.findings if one.rule == Rule.AXLE and one.subject == "front share"]
    known = [one for one in found if one.value is not None and one.limit is not None]
    if not known:
        return None
    least = min(known, key=lambda one: one.value or 0.0)
    value, allowed = share_beside(least.value or 0.0, least.limit or 0.0, least.holds)
    return f"{value} of the mass at '{least.stage}'; {allowed} is asked for"


def _front_share(verdict: Verdict, width: int) -> list[str]:
    told = front_share(verdict)
    return [] if told is None else paragraph(told, width, "Least on the front wheels: ", "  ")


def _leaning(verdict: Verdict, width: int) -> list[str]:
    return paragraph(verdict.leaning, width, "", "  ") if verdict.leaning else []


def _sources(verdict: Verdict, width: int) -> list[str]:
    stated: dict[str, list[str]] = {}
    for one in _sourced(verdict.findings):
        subjects = stated.setdefault(one.source or "not said", [])
        if one.subject not in subjects:
            subjects.append(one.subject)
    told = "; ".join(f"{source}: {', '.join(subjects)}" for source, subjects in stated.items())
    return paragraph(told, width, "Where the limits stand: ", "  ") if told else []


def _sourced(findings: Iterable[Finding]) -> Iterable[Finding]:
    return (one for one in findings if one.rule in MASS_RULES and one.limit is not None and one.unit == "kg")
