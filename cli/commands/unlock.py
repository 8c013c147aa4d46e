"""`lowstow unlock PLAN THING`."""

from typing import TYPE_CHECKING

import typer

from cli.answering import BadInput, answers
from cli.choosing import InSpace, Kit, Packer, Things
from cli.codes import Code
from cli.options import Json, PlanFile
from cli.screen import width

if TYPE_CHECKING:
    from models.case import Case, Copy
    from models.plan import Plan
    from models.trip import Lock


@answers
def unlock(
    plan: PlanFile,
    things: Things = None,
    kit: Kit = None,
    packer: Packer = None,
    space: InSpace = None,
    json: Json = False,
) -> Code:
    """Let things move again that the plan has fixed."""
    from cli.choosing import Asked, chosen  # noqa: PLC0415 - loaded where used
    from models.reading import read_plan  # noqa: PLC0415
    from models.writing import write_plan  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.locks_view import unlock_view  # noqa: PLC0415
    from report.terminal.locks import unlock_report  # noqa: PLC0415

    read = read_plan(plan)
    copies = set(chosen(read.case, read.plan, Asked(tuple(things or ()), kit, packer, space)))
    if space is not None:
        copies |= _locked_into(read.case, read.plan, space)
    kept, gone = _parted(read.case, read.plan, copies)
    in_trip = [lock for lock in read.case.trip.locks if any(lock.is_on(copy) for copy in copies)]
    if not gone:
        raise BadInput(_nothing_to_unlock(in_trip))
    write_plan(plan, read.plan.model_copy(update={"locks": tuple(kept)}))
    if json:
        typer.echo(json_text(unlock_view(gone, kept, in_trip)), nl=False)
    else:
        typer.echo(unlock_report(str(plan), gone, in_trip, width()), nl=False)
    return Code.HOLDS


def _locked_into(case: "Case", plan: "Plan", typed: str) -> "set[Copy]":
    """Copies that are locked into a space, there or not."""
    from cli.choosing import space_meant  # noqa: PLC0415
    from models.locks import under  # noqa: PLC0415

    name = space_meant(case, typed)
    return {copy for lock in plan.locks if lock.in_ == name for copy in under(case, lock)}


def _parted(case: "Case", plan: "Plan", copies: "set[Copy]") -> "tuple[list[Lock], list[Lock]]":
    """Locks that stay and locks that go; one on all copies stays on those that are not meant."""
    from models.locks import left_of, taken_off  # noqa: PLC0415

    kept = [one for lock in plan.locks for one in left_of(case, lock, copies)]
    gone = [one for lock in plan.locks for one in taken_off(case, lock, copies)]
    return kept, gone


def _nothing_to_unlock(in_trip: "list[Lock]") -> str:
    if in_trip:
        names = ", ".join(dict.fromkeys(lock.thing for lock in in_trip))
        return f"{names}: fixed in the trip's file, not in the plan; take the lock out there. Nothing was written."
    return "Nothing of that is locked in the plan; nothing was written."
