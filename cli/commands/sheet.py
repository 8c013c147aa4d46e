"""`lowstow sheet PLAN`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import BadInput, answers
from cli.codes import Code
from cli.options import Json, PlanFile, out_file

if TYPE_CHECKING:
    from models.reading import PlanRead
    from report.sheet import Sheet

Out = Annotated[
    Path | None,
    typer.Option(
        "-o", "--out", parser=out_file, metavar="FILE", help="Write the page to this file.", show_default=False
    ),
]
Packer = Annotated[
    str | None, typer.Option("--packer", metavar="NAME", help="Only what this person packs.", show_default=False)
]


@answers
def sheet(plan: PlanFile, out: Out = None, packer: Packer = None, json: Json = False) -> Code:
    """Make one page to print or read on a phone; without -o tell it in short."""
    import verifier  # noqa: PLC0415 - loaded where used
    from cli.choosing import packer_meant  # noqa: PLC0415
    from models.reading import read_plan  # noqa: PLC0415
    from report.lost import told_changed  # noqa: PLC0415
    from report.sheet import sheet_html, sheet_of  # noqa: PLC0415

    read = read_plan(plan)
    _refuse_to_overwrite(plan, read, out)
    packer = None if packer is None else packer_meant(read.case, packer)
    verdict = verifier.check(read.case, read.as_it_lies)
    changed = told_changed(read)
    made = sheet_of(read.case, read.plan, verdict, verifier, packer, read.questions, changed)
    if out is not None:
        _write(out, sheet_html(made))
    if json or out is None:
        typer.echo(_told(made, verdict.holds, read.notes, json), nl=False)
    return Code.of(verdict.holds)


def _write(out: Path, text: str) -> None:
    from models.writing import replace_whole  # noqa: PLC0415

    replace_whole(out, text)
    typer.echo(f"The sheet is in {out}.", err=True)


def _told(made: "Sheet", holds: bool | None, notes: tuple[str, ...], json: bool) -> str:
    from cli.screen import width  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.sheet import sheet_text, sheet_view  # noqa: PLC0415

    if json:
        return json_text({"holds": holds, **sheet_view(made), "notes": notes})
    return sheet_text(made, min(max(width(), 80), 120))


def _refuse_to_overwrite(plan: Path, read: "PlanRead", out: Path | None) -> None:
    from cli.outputs import refuse_to_overwrite  # noqa: PLC0415

    if out is not None and out.resolve() == plan.resolve():
        raise BadInput(f"{out}: is the plan itself; choose another name with -o.")
    refuse_to_overwrite(plan.resolve().parent / read.plan.trip, read.case, out, "sheet.html")
