"""`lowstow compare PLAN PLAN`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import answers
from cli.codes import Code
from cli.options import Json
from cli.screen import width

if TYPE_CHECKING:
    from models.reading import PlanRead
    from report.comparison import Side

First = Annotated[Path, typer.Argument(metavar="A", help="A plan's file.", show_default=False)]
Second = Annotated[Path, typer.Argument(metavar="B", help="Another plan's file.", show_default=False)]


@answers
def compare(first: First, second: Second, json: Json = False) -> Code:
    """Set two plans side by side, with the moves between them."""
    from cli.fewer import counted_anew  # noqa: PLC0415 - loaded where used
    from models.reading import read_plan  # noqa: PLC0415
    from packing import known_in, moves_between, with_unlisted  # noqa: PLC0415
    from report.comparison import Comparison, comparison_view  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.lost import lost_between  # noqa: PLC0415
    from report.terminal.compare import compare_report  # noqa: PLC0415

    a, b = read_plan(first), read_plan(second)
    case = with_unlisted(b.case, a.as_it_lies.placements, a.case)
    begin = counted_anew(a, case)
    there = begin.as_it_lies.placements
    before = known_in(case, begin.plan, begin.lost)
    moves = moves_between(case, before, b.plan)
    sides = (_side("A", first, a), _side("B", second, b))
    other_files = a.case.digest != b.case.digest
    found = Comparison(*sides, moves, lost_between(b.case, case, before, there, b.plan), other_files, case)
    if json:
        typer.echo(json_text(comparison_view(found)), nl=False)
    else:
        typer.echo(compare_report(found, width()), nl=False)
    return _worst(*(Code.of(side.verdict.holds) for side in sides))


def _side(letter: str, path: Path, read: "PlanRead") -> "Side":
    from models.case import copy_of  # noqa: PLC0415
    from packing import getting_at_s  # noqa: PLC0415
    from report.comparison import Side  # noqa: PLC0415
    from verifier import check  # noqa: PLC0415

    placed = {copy_of(place): place for place in read.plan.placements}
    seconds = getting_at_s(read.case, placed)
    verdict = check(read.case, read.as_it_lies)
    matches = read.digest_matches
    return Side(letter, str(path), read.case, read.plan, verdict, seconds, read.notes, matches, read.lost)


def _worst(one: Code, other: Code) -> Code:
    return next(code for code in (Code.BROKEN, Code.UNKNOWN_LIMIT, Code.HOLDS) if code in {one, other})
