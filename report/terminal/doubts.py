"""How far the sums may be off, beside the reserve, and what is worth weighing first."""

from collections.abc import Iterator

from models.case import Case
from models.plan import Plan, reserve_of
from models.rules import Rule
from report.figures import UNKNOWN, left
from report.terminal.masses import of
from report.terminal.table import bullets, paragraph, table
from report.told import Finding, Verdict, WorthWeighing
from report.weighed_first import known_words, vehicle_first

COLUMNS = (
    (Rule.GROSS_MASS, "total", "total_kg"),
    (Rule.AXLE, "front axle", "front_axle_kg"),
    (Rule.AXLE, "rear axle", "rear_axle_kg"),
)
"""Rule, subject and the doubt of it."""

SHOWN = 5
"""How many things worth weighing are told."""


def doubts(case: Case, plan: Plan, verdict: Verdict, width: int) -> list[str]:
    """Two standard deviations by driving stage, and the things whose weighing would tell most."""
    reserve = reserve_of(plan, case.reserve_kg)
    driving = [stage.name for stage in case.trip.stages if stage.driving]
    rows = [(name, *(_off(getattr(verdict.doubts[name], key)) for _, _, key in COLUMNS)) for name in driving]
    told = (
        "Doubt: by so many kg the sums may be off (two standard deviations; people, tanks and the ball as typed in); "
        f"the reserve is {reserve:g} kg"
    )
    lines = [*paragraph(told, width), *table(("stage", "total", "front axle", "rear axle"), rows, width)]
    lines += [line for told in _may_be_over(case, verdict, reserve) for line in paragraph(told, width)]
    first = [f"{one}: every sum rests on it" for one in vehicle_first(case)]
    first += [_worth(one) for one in verdict.worth_weighing[:SHOWN]]
    if first:
        lines += [*paragraph(_heading(verdict), width), *bullets(first, width)]
    return lines


def _may_be_over(case: Case, verdict: Verdict, reserve: float) -> Iterator[str]:
    """A sentence for each limit that holds, but by less than the doubt: the scale may say otherwise."""
    for subject, stage, one in _nearer_than_doubt(case, verdict, reserve):
        free = f"{reserve:g} kg of reserve and {left(one.margin, True)} kg left are less than its doubt"
        yield f"The {subject} at '{stage}' may be over its limit on the scale: {free}."


def _nearer_than_doubt(case: Case, verdict: Verdict, reserve: float) -> Iterator[tuple[str, str, Finding]]:
    for stage in case.trip.stages:
        for rule, subject, key in COLUMNS:
            doubt = getattr(verdict.doubts[stage.name], key)
            for one in of(verdict, rule, subject, stage.name):
                if one.holds and doubt is not None and one.margin is not None and one.margin + reserve < doubt:
                    yield subject, stage.name, one


def weigh_first(case: Case, plan: Plan, verdict: Verdict) -> str | None:
    """What belongs beside the answer: limits that hold by less than their doubt. None: none is, or one is broken."""
    if any(one.holds is False for one in verdict.findings):
        return None
    reserve = reserve_of(plan, case.reserve_kg)
    subjects = list(dict.fromkeys(subject for subject, _, _ in _nearer_than_doubt(case, verdict, reserve)))
    if not subjects:
        return None
    return (
        f"Weigh before you go: on the scale this may be over its limit, as less is left than its doubt: the "
        f"{' and the '.join(subjects)}."
    )


def _off(kg: float | None) -> str:
    return UNKNOWN if kg is None else f"+/- {kg:.0f}"


def _heading(verdict: Verdict) -> str:
    told = "Worth weighing first"
    if not verdict.worth_weighing:
        return told
    return f"{told}: on the tightest axle the load's doubt is +/- {verdict.worth_weighing[0].load_kg:.1f} kg"


def _worth(one: WorthWeighing) -> str:
    known = known_words(one.known_from)
    return f"{one.thing} ({known}): +/- {one.doubt_kg:.1f} kg on it; +/- {one.once_weighed_kg:.1f} kg left once weighed"
