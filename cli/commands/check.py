"""`lowstow check PLAN`."""

import typer

from cli.answering import answers
from cli.codes import Code
from cli.options import Json, PlanFile
from cli.screen import width


@answers
def check(plan: PlanFile, json: Json = False) -> Code:
    """Recompute every limit of a plan, also one written by hand."""
    from models.reading import read_plan  # noqa: PLC0415 - loaded where used
    from report.json_view import json_text, verdict_view  # noqa: PLC0415
    from report.lost import told_changed  # noqa: PLC0415
    from report.terminal import plan_report  # noqa: PLC0415
    from verifier import check as verify  # noqa: PLC0415

    read = read_plan(plan)
    verdict = verify(read.case, read.as_it_lies)
    if json:
        view = {**verdict_view(verdict, read.notes, read.questions), "digest_matches": read.digest_matches}
        typer.echo(json_text(view), nl=False)
    else:
        changed = told_changed(read)
        typer.echo(
            plan_report(
                read.case,
                read.plan,
                verdict,
                notes=read.notes,
                remarks=changed,
                questions=read.questions,
                width=width(),
            ),
            nl=False,
        )
    return Code.of(verdict.holds)
