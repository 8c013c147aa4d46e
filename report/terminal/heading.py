"""May we drive: the answer first, then every limit that is broken and every one that is unknown."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from models.case import Case
from models.plan import Plan, asked_otherwise, less_kept
from models.rules import Rule
from report.figures import over
from report.terminal.doubts import weigh_first
from report.terminal.table import bullets, paragraph
from report.told import Finding, Verdict


def heading(case: Case, plan: Plan, verdict: Verdict, questions: Sequence[str], width: int) -> list[str]:
    """The answer, what has to be asked beside it, and the reserve if less is kept than was asked for."""
    word, why = answer(verdict, len(questions))
    lines = paragraph(f"{case.trip.name} with {case.vehicle.name}", width)
    lines += ["", *paragraph(f"{word}. {why}", width, "May we drive?  ")]
    for told in (weigh_first(case, plan, verdict), reserve_note(case, plan, verdict)):
        lines += ["", *paragraph(told, width)] if told else []
    return lines + ([*["", *paragraph(ASK_FIRST, width)], *bullets(questions, width)] if questions else [])


def answer(verdict: Verdict, asked: int) -> tuple[str, str]:
    """Yes, no, or not signed off, and why in a sentence; `asked` is how many questions stand beside it."""
    broken, unknown = grouped(verdict.findings, False), grouped(verdict.findings, None)
    if broken:
        return "NO", f"{_counted(len(broken), 'limit or rule is', 'limits or rules are')} broken."
    if not verdict.drives:
        told = "driving was not checked, neither the total nor an axle"
        return NOT_SIGNED_OFF, f"No driving stage is in the trip: {told}."
    if unknown:
        many = _counted(len(unknown), "limit or figure is", "limits or figures are")
        return NOT_SIGNED_OFF, f"Nothing is broken, but {many} unknown."
    first = f", but {_counted(asked, 'question has', 'questions have')} to be answered first" if asked else ""
    return "YES", f"Every limit is held, by arithmetic on what was typed in{first}."


UNSIGNED = "Unknown, so nobody can sign this off"
"""What stands above unknown limits and figures."""
NOT_SIGNED_OFF = "NOT SIGNED OFF"


def reserve_note(case: Case, plan: Plan, verdict: Verdict) -> str | None:
    """That less reserve is kept than the trip asks for, or that the trip asked otherwise. None: neither is so."""
    asked_kg, kept_kg = case.reserve_kg, plan.reserve_kept_kg
    if asked_otherwise(plan, case.reserve_kg):
        made = f"This plan was made with {kept_kg:g} kg of reserve; the trip now asks for {asked_kg:g} kg"
        return f"{made}, and by that it is judged."
    if not less_kept(plan, case.reserve_kg):
        return None
    of = "free of the total and of each axle"
    if reserve_broken(verdict):
        was = f"this plan was to keep {kept_kg:g} kg of {asked_kg:g} kg {of}"
        return f"THE RESERVE WAS GIVEN UP: {was}, and does not keep that much."
    return f"THE RESERVE WAS GIVEN UP: {kept_kg:g} kg of {asked_kg:g} kg are kept {of}."


def reserve_broken(verdict: Verdict) -> bool:
    """Whether the total or an axle does not hold with the reserve that the plan keeps."""
    return any(one.holds is False and with_reserve(one) for one in verdict.findings)


def with_reserve(one: Finding) -> bool:
    """Whether the reserve is kept free of what a finding judges."""
    return (one.rule == Rule.AXLE and one.unit == "kg") or (one.rule, one.subject) == (Rule.GROSS_MASS, "total")


ASK_FIRST = "Ask first: no rule forbids it, and hardly anybody means it"
"""What stands above questions."""


def _counted(count: int, one: str, more: str) -> str:
    return f"{count} {one if count == 1 else more}"


def grouped(findings: Iterable[Finding], holds: bool | None) -> list[list[Finding]]:
    """Findings that hold or not, those of one rule and subject at several stages together, the worst stage first.

    Several at one stage, or once for all, are several faults of the subject.
    """
    found: dict[tuple[Rule, str, str, int], list[Finding]] = {}
    times: Counter[tuple[Rule, str, str, str | None]] = Counter()
    for finding in dict.fromkeys(findings):
        if finding.holds is holds:
            key = (finding.rule, finding.subject, finding.unit)
            found.setdefault((*key, times[*key, finding.stage]), []).append(finding)
            times[*key, finding.stage] += 1
    return [sorted(group, key=lambda one: one.margin or 0.0) for group in found.values()]


def broken_and_unknown(verdict: Verdict, width: int) -> list[str]:
    """Sentences on what is broken and on what is unknown; nothing where there is neither."""
    lines: list[str] = []
    for title, holds in (("Broken", False), (UNSIGNED, None)):
        groups = grouped(verdict.findings, holds)
        if groups:
            lines += ["", title, *bullets(_each_told(groups), width)]
    return lines


def _each_told(groups: Sequence[list[Finding]]) -> Iterator[str]:
    """A sentence each; of several faults of one subject the first says where the limit is from."""
    before: tuple[Rule, str, str | None] | None = None
    for group in groups:
        now = group[0].rule, group[0].subject, group[0].source
        yield told_group(group, sourced=now != before)
        before = now


def told_group(group: list[Finding], *, sourced: bool = True) -> str:
    """Findings of one rule and subject in a sentence, the worst stage first."""
    worst, others = group[0], [one.stage for one in group[1:] if one.stage not in {None, group[0].stage}]
    also = f" Likewise at {_listed(others)}." if others else ""
    by = f", over by {over(-worst.margin)} kg" if worst.holds is False and worst.unit == "kg" and worst.margin else ""
    source = f" Limit from: {worst.source}." if worst.source and worst.holds is False and sourced else ""
    return f"{worst.rule.value}{by}: {worst.says}{also}{source}"


def _listed(stages: Sequence[str | None]) -> str:
    names = [f"'{stage}'" for stage in dict.fromkeys(stages)]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
