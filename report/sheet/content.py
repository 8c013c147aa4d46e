"""All that a sheet says, as data: the page and the JSON are two ways of writing it down."""

from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from models.case import Case
from models.plan import Plan
from report.drawings.marks import MARKS
from report.drawings.svg import Picture
from report.sheet.asked import Asked, Verifier
from report.sheet.dangers import Danger, dangers
from report.sheet.drive import Drive, drive
from report.sheet.holding import AGAIN, Holding, holding
from report.sheet.hurry import Hurry, hurry
from report.sheet.leaving import Leaving, leaving
from report.sheet.loading import Loading, loading
from report.sheet.pictures import Drawings, drawings
from report.sheet.where import Place, places
from report.terminal.cautions import WEIGH, codes, rulebook
from report.told import Verdict
from report.weighed_first import vehicle_first


@dataclass(frozen=True)
class Sheet:
    """Everything on the sheet, in the order in which it is told."""

    trip: str
    vehicle: str
    packer: str | None
    rulebook: str
    drive: Drive
    dangers: tuple[Danger, ...]
    drawings: Drawings
    loading: Loading
    places: tuple[Place, ...]
    hurry: Hurry
    holding: Holding
    leaving: tuple[Leaving, ...]
    """Empty on one packer's sheet."""
    worth_weighing: tuple[str, ...]
    height_doubt_mm: float
    legend: tuple[tuple[str, str], ...]
    weigh: str
    codes: str
    again: str


def sheet_of(
    case: Case,
    plan: Plan,
    verdict: Verdict,
    verifier: Verifier,
    packer: str | None = None,
    questions: tuple[str, ...] = (),
    changed: tuple[str, ...] = (),
) -> Sheet:
    """Collect what a sheet says of a plan; `packer` gives one person's part of it, `questions` come from the files.

    `changed` says that the files are others than those the plan was made from.
    """
    asked = Asked(case, plan, verdict, verifier, packer, questions, changed)
    return Sheet(
        trip=case.trip.name,
        vehicle=case.vehicle.name,
        packer=packer,
        rulebook=rulebook(case),
        drive=drive(asked),
        dangers=dangers(asked),
        drawings=drawings(asked),
        loading=loading(asked),
        places=places(asked),
        hurry=hurry(asked),
        holding=holding(asked),
        leaving=leaving(asked) if packer is None else (),
        worth_weighing=_worth(case, verdict),
        height_doubt_mm=verdict.height_doubt_mm,
        legend=tuple((mark.word, mark.says) for mark in MARKS),
        weigh=WEIGH,
        codes=codes(case),
        again=AGAIN,
    )


def _worth(case: Case, verdict: Verdict) -> tuple[str, ...]:
    return (
        *vehicle_first(case),
        *(f"{one.thing} (± {one.doubt_kg:.1f} kg)" for one in verdict.worth_weighing[:5]),
    )


def sheet_view(part: Any) -> Any:
    """A sheet as plain data for JSON, drawings by their titles and texts."""
    if isinstance(part, Picture):
        return {"title": part.title, "told": part.told, "mm_per_unit": part.mm_per_unit}
    if is_dataclass(part):
        return {field.name: sheet_view(getattr(part, field.name)) for field in fields(part)}
    if isinstance(part, tuple | list):
        return [sheet_view(one) for one in part]
    return part
