"""`lowstow tradeoff TRIP`."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import answers
from cli.codes import Code
from cli.options import Effort, Json, Seconds, Seed, TripFile, out_file

if TYPE_CHECKING:
    from models.case import Case
    from models.plan import Plan
    from report.tradeoff import Offer, Tradeoff
    from solver import Options, Proposal

Out = Annotated[
    Path | None,
    typer.Option("-o", "--out", parser=out_file, metavar="FILE", help="Write a page to this file.", show_default=False),
]

ALLOWED_MM = (0.0, 1.0, 2.0, 5.0, 10.0)
"""Millimetres of height given up for easier access, one plan for each; the trip's own is added."""


@answers
def tradeoff(
    trip: TripFile, out: Out = None, seconds: Seconds = 13.0, effort: Effort = 1.0, seed: Seed = 0, json: Json = False
) -> Code:
    """Set height against handling time: several checked plans, and what each costs."""
    from cli.outputs import refuse_to_overwrite  # noqa: PLC0415 - loaded where used
    from models.reading import read_case  # noqa: PLC0415
    from report.tradeoff import tradeoff as set_beside  # noqa: PLC0415
    from solver import Options  # noqa: PLC0415

    read = read_case(trip)
    refuse_to_overwrite(trip, read.case, out, "tradeoff.html")
    offers, refused = _offers(read.case, Options(effort=effort, seconds=seconds, seed=seed))
    found = set_beside(read.case.trip.name, read.case.vehicle.name, offers, read.case.trip.allow_mm, refused)
    _tell(found, out, json)
    if not offers:
        return Code.NO_PLAN if refused == [NONE_EXISTS] else Code.NOT_FOUND
    return Code.of(None if any(offer.holds is None for offer in offers) else True)


NONE_EXISTS = "No plan exists, and that is proven; `lowstow suggest` says why."


def _offers(case: "Case", options: "Options") -> tuple[list["Offer"], list[str]]:
    """A verified plan for each allowance; sentences for those that were not found. A key ends it early."""
    from solver import Status  # noqa: PLC0415

    offers, refused, late = [], [], []
    for allow_mm in sorted({*ALLOWED_MM, case.trip.allow_mm}):
        proposal = _proposal(case, allow_mm, options)
        if proposal.plan is not None:
            offers.append(_offer(case, proposal.plan, allow_mm, options))
        elif proposal.status is Status.IMPOSSIBLE:
            return [], [NONE_EXISTS]
        else:
            refused.append(f"With {allow_mm:g} mm allowed no plan was found in the time given.")
        if proposal.interrupted:
            return offers, [*refused, "Stopped before the rest was tried."]
        if proposal.plan is not None and proposal.cut_short:
            late.append(f"{allow_mm:g}")
    return offers, [*refused, *([_late(late)] if late else [])]


def _late(allowed_mm: Sequence[str]) -> str:
    """Which searches the clock ended."""
    which = f"{', '.join(allowed_mm)} mm allowed"
    return f"With {which} the time was over before the search was done: --seconds gives it more."


def _proposal(case: "Case", allow_mm: float, options: "Options") -> "Proposal":
    from cli.screen import ProgressLine  # noqa: PLC0415
    from models.case import Case  # noqa: PLC0415
    from solver import propose  # noqa: PLC0415

    trip = case.trip.model_copy(update={"allow_mm": allow_mm})
    other = Case(vehicle=case.vehicle, things=case.things, trip=trip, rulebook=case.rulebook)
    line = ProgressLine()
    try:
        return propose(other, options, line)
    finally:
        line.done()


def _offer(case: "Case", plan: "Plan", allow_mm: float, options: "Options") -> "Offer":
    from cli.refusing import refuse_what_is_broken  # noqa: PLC0415
    from models.case import copy_of  # noqa: PLC0415
    from packing import getting_at_s  # noqa: PLC0415
    from report.tradeoff import Offer  # noqa: PLC0415
    from verifier import check  # noqa: PLC0415

    verdict = check(case, plan)
    asked = f"{case.digest}, seed {options.seed}, effort {options.effort:g}, {allow_mm:g} mm allowed"
    refuse_what_is_broken(verdict, asked)
    stage = verdict.highest_stage or case.trip.stages[0].name
    placed = {copy_of(place): place for place in plan.placements}
    home = len(case.copies) - len(placed)
    height = verdict.totals[stage].cg_height_mm or 0.0
    return Offer(allow_mm, height, stage, getting_at_s(case, placed), verdict.holds, home, frozenset(placed))


def _tell(found: "Tradeoff", out: Path | None, json: bool) -> None:
    from cli.outputs import trouble_writing  # noqa: PLC0415
    from cli.screen import width  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.sheet import tradeoff_html  # noqa: PLC0415
    from report.terminal.tradeoff import tradeoff_report  # noqa: PLC0415
    from report.tradeoff import tradeoff_view  # noqa: PLC0415

    written = out is not None and bool(found.rows)
    trouble = trouble_writing(out, tradeoff_html(found)) if out is not None and written else None
    if written and trouble is None:
        typer.echo(f"The page is in {out}.", err=True)
    told = json_text(tradeoff_view(found)) if json else tradeoff_report(found, min(max(width(), 80), 120))
    typer.echo(told, nl=False)
    if trouble is not None:
        raise trouble
