"""May we drive: the answer first, then every limit that is broken and every one that is unknown."""

from collections.abc import Iterable, Sequence

from models.case import Case
from models.plan import Plan
from models.rules import Rule
from report.figures import over
from report.terminal.doubts import weigh_first
from report.terminal.table import bullets, paragraph
from report.told import Finding, Verdict


def heading(case: Case, plan: Plan, verdict: Verdict, width: int) -> list[str]:
    """The answer, and the reserve if less is kept than was asked for."""
    lines = paragraph(f"{case.trip.name} with {case.vehicle.name}", width)
    lines += ["", *paragraph(answer(verdict), width, "May we drive?  ")]
    near = weigh_first(case, plan, verdict)
    lines += ["", *paragraph(near, width)] if near else []
    asked, kept = case.trip.reserve_kg, plan.reserve_kept_kg
    if kept is not None and kept < asked:
        told = f"THE RESERVE WAS GIVEN UP: {kept:g} kg of {asked:g} kg are kept free of the total and of each axle."
        lines += ["", *paragraph(told, width)]
    return lines


def answer(verdict: Verdict) -> str:
    """Yes, no, or not signed off, in a sentence."""
    broken, unknown = grouped(verdict.findings, False), grouped(verdict.findings, None)
    if broken:
        return f"NO. {_counted(len(broken), 'limit or rule is', 'limits or rules are')} broken."
    if unknown:
        many = _counted(len(unknown), "limit or figure is", "limits or figures are")
        return f"NOT SIGNED OFF. Nothing is broken, but {many} unknown."
    return "YES. Every limit is held, by arithmetic on what was typed in."


def _counted(count: int, one: str, more: str) -> str:
    return f"{count} {one if count == 1 else more}"


def grouped(findings: Iterable[Finding], holds: bool | None) -> list[list[Finding]]:
    """Findings that hold or not, those of one rule and subject together, the worst stage first."""
    found: dict[tuple[Rule, str, str], list[Finding]] = {}
    for finding in findings:
        if finding.holds is holds:
            found.setdefault((finding.rule, finding.subject, finding.unit), []).append(finding)
    return [sorted(group, key=lambda one: one.margin or 0.0) for group in found.values()]


def broken_and_unknown(verdict: Verdict, width: int) -> list[str]:
    """Sentences on what is broken and on what is unknown; nothing where there is neither."""
    lines: list[str] = []
    for title, holds in (("Broken", False), ("Unknown, so nobody can sign this off", None)):
        groups = grouped(verdict.findings, holds)
        if groups:
            lines += ["", title, *bullets((told_group(group) for group in groups), width)]
    return lines


def told_group(group: list[Finding]) -> str:
    """Findings of one rule and subject in a sentence, the worst stage first."""
    worst, others = group[0], [one.stage for one in group[1:] if one.stage not in {None, group[0].stage}]
    also = f" Likewise at {_listed(others)}." if others else ""
    by = f", over by {over(-worst.margin)} kg" if worst.holds is False and worst.unit == "kg" and worst.margin else ""
    source = f" Limit from: {worst.source}." if worst.source and worst.holds is False else ""
    return f"{worst.rule.value}{by}: {worst.says}{also}{source}"


def _listed(stages: Sequence[str | None]) -> str:
    names = [f"'{stage}'" for stage in dict.fromkeys(stages)]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
