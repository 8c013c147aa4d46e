"""`lowstow suggest TRIP`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import answers
from cli.clock import seconds_left
from cli.codes import Code
from cli.options import SECONDS, Effort, Json, PlanOut, Seed, TripFile
from cli.screen import ProgressLine, width

if TYPE_CHECKING:
    from models.plan import Plan
    from models.reading import CaseRead
    from solver import Options, Proposal
    from verifier import Verdict


Stop = Annotated[
    float | None,
    typer.Option(
        "--seconds", parser=SECONDS, metavar="S",
        help="Stop after so many seconds on the clock. [default: 13, fewer on a slow machine]", show_default=False,
    ),
]  # fmt: skip

LONGEST_S, SHORTEST_S = 13.0, 5.0
"""Seconds after which a search is stopped where nobody says so: at most, and at least."""
ANSWER_S = 14.8
"""Between the two, so many seconds are there for the whole answer."""
BESIDES = 1.7
"""Beginning and telling take so many times as long as the beginning alone has taken of the processor."""


@answers
def suggest(
    trip: TripFile,
    out: PlanOut = None,
    seconds: Stop = None,
    effort: Effort = 1.0,
    seed: Seed = 0,
    json: Json = False,
) -> Code:
    """Propose a plan that holds every limit, and check it."""
    from cli.outputs import plan_for, refuse_to_overwrite, trip_seen_from, trouble_writing  # noqa: PLC0415 - loaded where used
    from cli.refusing import refuse_what_is_broken, told_why_none  # noqa: PLC0415
    from models.reading import read_case  # noqa: PLC0415
    from models.writing import plan_text  # noqa: PLC0415
    from solver import Options  # noqa: PLC0415
    from verifier import check  # noqa: PLC0415

    read = read_case(trip)
    refuse_to_overwrite(trip, read.case, out)
    trip_seen_from(trip, out)
    if seconds is None:
        seconds = seconds_left(ANSWER_S, BESIDES, SHORTEST_S, LONGEST_S)
    proposal = _searched(read, Options(effort=effort, seconds=seconds, seed=seed))
    if proposal.plan is None:
        return told_why_none(read.case, proposal, read.notes, json)
    plan = plan_for(trip, read.case, out, proposal.plan)
    verdict = check(read.case, plan)
    refuse_what_is_broken(verdict, f"{read.case.digest}, seed {seed}, effort {effort:g}")
    trouble = None if out is None else trouble_writing(out, plan_text(plan), plan)
    typer.echo(_told(read, plan, verdict, proposal, json), nl=False)
    if trouble is not None:
        raise trouble
    _say_written(out, json)
    return Code.of(verdict.holds)


def _searched(read: "CaseRead", options: "Options") -> "Proposal":
    from solver import propose  # noqa: PLC0415

    line = ProgressLine()
    try:
        return propose(read.case, options, line)
    finally:
        line.done()


def _told(read: "CaseRead", plan: "Plan", verdict: "Verdict", proposal: "Proposal", json: bool) -> str:
    from report.json_view import home_view, json_text, levels_view, plan_view, verdict_view  # noqa: PLC0415
    from report.terminal import plan_report  # noqa: PLC0415

    if json:
        view = {
            "status": proposal.status,
            "interrupted": proposal.interrupted,
            "cut_short": proposal.cut_short,
            "reserve_given_up": proposal.reserve_given_up,
            "plan": plan_view(plan),
            "levels": levels_view(proposal.levels),
            "must_only_height_mm": proposal.must_only_height_mm,
            "home_reasons": home_view(proposal.home_reasons),
            **verdict_view(verdict, read.notes, read.questions),
        }
        return json_text(view)
    return plan_report(read.case, plan, verdict, proposal, read.notes, questions=read.questions, width=width())


def _say_written(out: Path | None, json: bool) -> None:
    if out is not None:
        typer.echo(f"\nThe plan is in {out}." if not json else f"The plan is in {out}.", err=json)
