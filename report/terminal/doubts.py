"""How far the sums may be off, beside the reserve, and what is worth weighing first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

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

TOGETHER = "vehicle and trailer together"
"""What the limit of both is called. The trailer is as typed in, so the doubt is that of the total."""

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


@dataclass(frozen=True)
class Near:
    """A limit that holds, but by less than its doubt: the scale may say otherwise."""

    called: str
    stage: str
    kept_kg: float | None
    """The reserve that is free besides. None: none is kept of this limit."""
    left_kg: float
    doubt_kg: float


def _may_be_over(case: Case, verdict: Verdict, reserve: float) -> Iterator[str]:
    for one in _nearer_than_doubt(case, verdict, reserve):
        free, doubt = f"{left(one.left_kg, True)} kg left", "less than its doubt"
        if one.kept_kg is None:
            free = f"{free} are {doubt}, +/- {one.doubt_kg:.1f} kg, and no reserve is kept of it"
        else:
            free = f"{one.kept_kg:g} kg of reserve and {free} are {doubt}"
        begin = f"{one.called} at '{one.stage}' may be over its limit on the scale"
        yield f"{begin[:1].upper()}{begin[1:]}: {free}."


def _nearer_than_doubt(case: Case, verdict: Verdict, reserve: float) -> Iterator[Near]:
    for stage in case.trip.stages:
        doubts = verdict.doubts[stage.name]
        for rule, subject, key in COLUMNS:
            doubt = getattr(doubts, key)
            yield from _near(f"the {subject}", of(verdict, rule, subject, stage.name), doubt, reserve)
        yield from _near(TOGETHER, of(verdict, Rule.GROSS_MASS, "with trailer", stage.name), doubts.total_kg, None)
    for rack in case.vehicle.racks:
        each = (
            near
            for stage, doubts in verdict.doubts.items()
            for near in _near(f"rack {rack.name}", of(verdict, Rule.RACK, rack.name, stage), doubts.racks_kg[rack.name])
        )
        # A rack is much the same at every stage: it is told where it may be over by most.
        yield from sorted(each, key=lambda near: near.left_kg - near.doubt_kg)[:1]


def _near(called: str, found: Iterable[Finding], doubt: float | None, kept: float | None = None) -> Iterator[Near]:
    for one in found:
        if one.holds and doubt is not None and one.margin is not None and one.margin + (kept or 0.0) < doubt:
            yield Near(called, one.stage or "", kept, one.margin, doubt)


def weigh_first(case: Case, plan: Plan, verdict: Verdict) -> str | None:
    """What belongs beside the answer: limits that hold by less than their doubt. None: none is, or one is broken."""
    if any(one.holds is False for one in verdict.findings):
        return None
    reserve = reserve_of(plan, case.reserve_kg)
    subjects = list(dict.fromkeys(one.called for one in _nearer_than_doubt(case, verdict, reserve)))
    if not subjects:
        return None
    return (
        f"Weigh before you go: on the scale this may be over its limit, as less is left than its doubt: "
        f"{' and '.join(subjects)}."
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
