"""`lowstow lock PLAN THING`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import BadInput, answers
from cli.choosing import InSpace, Kit, Packer, Things
from cli.codes import Code
from cli.options import Json, PlanFile
from cli.screen import width

if TYPE_CHECKING:
    from cli.locking import Found, Wish
    from models.case import Copy
    from models.trip import Lock

Where = Annotated[
    str | None,
    typer.Option("--in", metavar="SPACE", help="The space to be in; left out: where they are.", show_default=False),
]
By = Annotated[str | None, typer.Option("--by", metavar="NAME", help="Who fixes it.", show_default=False)]
Because = Annotated[str | None, typer.Option("--because", metavar="WHY", help="Why.", show_default=False)]

LONGEST = {"--by": 120, "--because": 400}
"""Characters that a plan's file holds of each."""


@answers
def lock(  # noqa: PLR0917 - as many as it has options
    plan: PlanFile,
    things: Things = None,
    kit: Kit = None,
    packer: Packer = None,
    space: InSpace = None,
    where: Where = None,
    by: By = None,
    because: Because = None,
    json: Json = False,
) -> Code:
    """Fix things where they are, or in a space."""
    from cli.choosing import Asked, chosen, space_meant  # noqa: PLC0415 - loaded where used
    from cli.locking import Wish  # noqa: PLC0415
    from models.reading import read_plan  # noqa: PLC0415

    read = read_plan(plan)
    _refuse_odd_texts({"--by": by, "--because": because})
    copies = chosen(read.case, read.plan, Asked(tuple(things or ()), kit, packer, space))
    to = None if where is None else space_meant(read.case, where)
    wish = Wish(read.case, read.plan, to, by or None, because or None)
    found = _found(wish, copies, whole=not (kit or packer or space))
    if found.made:
        _write(plan, wish, found.made)
    _tell(plan, wish, found, json)
    return Code.HOLDS


def _refuse_odd_texts(texts: dict[str, str | None]) -> None:
    for option, text in texts.items():
        if text is not None and len(text) > LONGEST[option]:
            raise BadInput(f"{option}: found {len(text)} characters; allowed: up to {LONGEST[option]}.")
        if text and (not text.isprintable() or text.isspace()):
            raise BadInput(f"{option}: found {text!a}; allowed: text on one line, without control characters.")


def _found(wish: "Wish", copies: "tuple[Copy, ...]", whole: bool) -> "Found":
    """What is locked and what is not; `whole` wants all of it or nothing, as where each thing was named.

    Raises
    ------
    BadInput
        A lock cannot be, and all were wanted or none can be; all that stands against any of them is told.
    """
    from cli.locking import Found, already, faults  # noqa: PLC0415

    new = {copy: wish.lock_for(copy) for copy in copies}
    away = [copy for copy, one in new.items() if one is None]
    there = [copy for copy, one in new.items() if one is not None and already(wish, copy, one)]
    wanted = {copy: one for copy, one in new.items() if one is not None and copy not in there}
    against = {copy: told for copy, one in wanted.items() if (told := faults(wish, copy, one))}
    made = [one for copy, one in wanted.items() if copy not in against]
    if against and (whole or not (made or there)):
        raise BadInput("\n".join([*(fault for told in against.values() for fault in told), "Nothing was written."]))
    if not wanted and not there:
        names = ", ".join(wish.case.called(copy) for copy in away) or "nothing"
        raise BadInput(f"Not aboard: {names}; say where with --in SPACE, or lock what is aboard.")
    return Found(made, there, away, against)


def _write(path: Path, wish: "Wish", made: "list[Lock]") -> None:
    from cli.outputs import comments_lost  # noqa: PLC0415
    from models.amending import write_locks  # noqa: PLC0415

    if write_locks(path, wish.plan, (*wish.plan.locks, *made)):
        typer.echo(comments_lost(path), err=True)


def _tell(path: Path, wish: "Wish", found: "Found", json: bool) -> None:
    from report.json_view import json_text  # noqa: PLC0415
    from report.locks_view import lock_view  # noqa: PLC0415
    from report.terminal.locks import lock_report  # noqa: PLC0415

    if json:
        typer.echo(json_text(lock_view(found)), nl=False)
    else:
        typer.echo(lock_report(wish.case, str(path), wish.plan, found, width()), nl=False)
