"""`lowstow find PLAN WORDS`."""

from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import BadInput, answers
from cli.codes import Code
from cli.options import Json, PlanFile
from cli.screen import width

if TYPE_CHECKING:
    from collections.abc import Sequence

    from models.case import Case, Copy

Words = Annotated[
    list[str] | None,
    typer.Argument(metavar="[WORDS]...", help="A thing or a kit, or a part of its name.", show_default=False),
]
All = Annotated[bool, typer.Option("--all", help="List everything by alphabet.")]


@answers
def find(plan: PlanFile, words: Words = None, everything: All = False, json: Json = False) -> Code:
    """Tell where a thing is and how to get at it."""
    from models.case import copy_of  # noqa: PLC0415 - loaded where used
    from models.reading import read_plan  # noqa: PLC0415
    from packing import known_in, way_to, with_unlisted  # noqa: PLC0415
    from report.find_view import find_view  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.terminal.find import Found, all_report, find_report  # noqa: PLC0415

    typed = " ".join(words or ())
    if bool(typed) == everything:
        both = ", not both" if typed else ""
        raise BadInput(f"WORDS: say what to find, or --all for everything{both}.")
    read = read_plan(plan)
    case = with_unlisted(read.case, read.lost)
    placed = {copy_of(place): place for place in known_in(case, read.plan, read.lost).placements}
    every = list(dict.fromkeys([*case.copies, *placed]))
    copies = every if everything else _meant(case, every, typed)
    ways = [way_to(case, placed, copy) for copy in copies if copy in placed]
    adrift = {copy: place.space for place in read.lost if (copy := copy_of(place)) not in placed and copy in copies}
    home = [copy for copy in copies if copy not in placed and copy not in adrift]
    found = Found(ways, home, [way.copy for way in ways if way.copy not in read.case.copies], adrift)
    if json:
        typer.echo(json_text(find_view(found)), nl=False)
    else:
        report = all_report if everything else find_report
        typer.echo(report(case, found, width()), nl=False)
    return Code.HOLDS


def _meant(case: "Case", every: "Sequence[Copy]", typed: str) -> list["Copy"]:
    """Those of all copies whose thing or kit is typed; a copy's number narrows it down."""
    from cli.names import matching, with_number  # noqa: PLC0415
    from models.reading.faults import shown  # noqa: PLC0415

    name, number = with_number(typed, case.thing_named)
    kits = {thing.kit for thing in case.things if thing.kit is not None}
    found = set(matching(name, [*case.thing_named, *sorted(kits)]))
    meant = {thing.name for thing in case.things if {thing.name, thing.kit} & found}
    copies = [copy for copy in every if copy.thing in meant and number in {None, copy.number}]
    if not copies and meant:
        known = "; ".join(f"{name}: {_numbers(case, name)}" for name in case.thing_named if name in meant)
        raise BadInput(f"{shown(typed)}: there is no such copy. {known}.")
    if not copies:
        raise BadInput(f"{shown(typed)}: nothing on the list is called so; `lowstow find PLAN --all` lists everything.")
    return copies


def _numbers(case: "Case", name: str) -> str:
    count = case.thing_named[name].count
    return f"a copy from 1 to {count}" if count > 1 else "one, without a number"
