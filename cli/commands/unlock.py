"""`lowstow unlock PLAN THING`."""

import re
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import BadInput, answers
from cli.choosing import InSpace, Kit, Packer, Things
from cli.codes import Code
from cli.options import Json, PlanFile
from cli.screen import width

if TYPE_CHECKING:
    from collections.abc import Sequence

    from models.case import Case, Copy
    from models.geometry import Point
    from models.plan import Plan
    from models.reading import PlanRead
    from models.trip import Lock

CORNER = re.compile(r"(.+?)\s*@\s*(-?[0-9]{1,6})\s*,\s*(-?[0-9]{1,6})\s*,\s*(-?[0-9]{1,6})\s*")
"""A space and a corner in it."""

Into = Annotated[
    list[str] | None,
    typer.Option("--in", metavar="SPACE", help="Only locks that fix them in a space.", show_default=False),
]
AtCorner = Annotated[
    list[str] | None,
    typer.Option(
        "--at-corner",
        metavar="SPACE[@X,Y,Z]",
        help="Only locks that fix them at a corner in a space, or at that one.",
        show_default=False,
    ),
]
OutOf = Annotated[
    list[str] | None,
    typer.Option(
        "--not-in", metavar="SPACE", help="Only locks that keep them out of a space or a rack.", show_default=False
    ),
]
AtHome = Annotated[bool, typer.Option("--at-home", help="Only locks that keep them at home.")]


@answers
def unlock(  # noqa: PLR0917 - as many as it has options
    plan: PlanFile,
    things: Things = None,
    kit: Kit = None,
    packer: Packer = None,
    space: InSpace = None,
    into: Into = None,
    at_corner: AtCorner = None,
    out_of: OutOf = None,
    at_home: AtHome = False,
    json: Json = False,
) -> Code:
    """Let things move again that the plan has fixed."""
    from cli.choosing import Asked, chosen  # noqa: PLC0415 - loaded where used
    from cli.outputs import comments_lost  # noqa: PLC0415
    from models.amending import write_locks  # noqa: PLC0415
    from models.reading import read_plan  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.locks_view import unlock_view  # noqa: PLC0415
    from report.terminal.locks import unlock_report  # noqa: PLC0415

    read = read_plan(plan)
    stale = _stale(read, things or (), space)
    listed = tuple(typed for typed in things or () if not _only_stale(read, typed))
    asked = Asked(listed, kit, packer, space)
    copies = set() if stale and asked == Asked() else set(chosen(read.case, read.plan, asked))
    if space is not None:
        copies |= _locked_into(read.case, read.plan, space)
    meant = _meant(read.case, read.plan, (into or (), at_corner or (), out_of or (), at_home))
    kept, gone = _parted(read.case, read.plan, meant, copies)
    in_trip = [lock for lock in read.case.trip.locks if any(lock.is_on(copy) for copy in copies)]
    gone = [*stale, *gone]
    if not gone:
        raise BadInput(_nothing_to_unlock(in_trip))
    whole = read.plan.model_copy(update={"locks": (*read.plan.locks, *read.lost_locks)})
    left = tuple(lock for lock in read.lost_locks if lock not in stale)
    if write_locks(plan, whole, (*kept, *left)):
        typer.echo(comments_lost(plan), err=True)
    if json:
        typer.echo(json_text(unlock_view(gone, kept, in_trip)), nl=False)
    else:
        typer.echo(unlock_report(str(plan), gone, in_trip, width()), nl=False)
    return Code.HOLDS


def _stale(read: "PlanRead", things: "Sequence[str]", space: str | None) -> "list[Lock]":
    """Locks that the files no longer know, of things or into a space whose name was typed."""
    from cli.names import plain, with_number  # noqa: PLC0415

    meant = [with_number(typed) for typed in things]

    def of(lock: "Lock", name: str, number: int | None) -> bool:
        return plain(lock.thing) == plain(name) and number in {None, lock.copy_number}

    into = None if space is None else plain(space)
    return [
        lock
        for lock in read.lost_locks
        if any(of(lock, *one) for one in meant) or (into is not None and plain(lock.in_ or "") == into)
    ]


def _only_stale(read: "PlanRead", typed: str) -> bool:
    """Whether what was typed is the name of a thing that only such a lock knows."""
    from cli.names import plain, with_number  # noqa: PLC0415

    name = plain(with_number(typed)[0])
    return name in {plain(lock.thing) for lock in read.lost_locks} - {plain(known) for known in read.case.thing_named}


def _locked_into(case: "Case", plan: "Plan", typed: str) -> "set[Copy]":
    """Copies that are locked into a space, there or not."""
    from cli.choosing import space_meant  # noqa: PLC0415
    from models.locks import under  # noqa: PLC0415

    name = space_meant(case, typed)
    return {copy for lock in plan.locks if lock.in_ == name for copy in under(case, lock)}


def _meant(
    case: "Case", plan: "Plan", says: "tuple[Sequence[str], Sequence[str], Sequence[str], bool]"
) -> "list[Lock]":
    """Locks of a plan that fix a thing in some spaces, at a corner in some, keep it out of some, or at home.

    All where none is said.
    """
    from cli.choosing import space_meant  # noqa: PLC0415
    from cli.names import the_one  # noqa: PLC0415

    if not any(says):
        return list(plan.locks)
    into, at_corner, out_of, at_home = says
    spaces = {space_meant(case, typed) for typed in into}
    corners = {_corner_meant(case, typed) for typed in at_corner}
    places = {the_one(typed, (*case.space_named, *case.rack_named), "space or rack") for typed in out_of}

    def meant(lock: "Lock") -> bool:
        cornered = lock.at_mm is not None and not corners.isdisjoint({(lock.in_, None), (lock.in_, lock.at_mm)})
        fixed = lock.in_ in spaces or cornered
        return fixed or lock.not_in in places or (at_home and lock.at_home)

    return [lock for lock in plan.locks if meant(lock)]


def _corner_meant(case: "Case", typed: str) -> "tuple[str, Point | None]":
    """The space that is meant, and a corner in mm where one stands behind it, such as `left drawer@2460,-640,900`."""
    from cli.choosing import space_meant  # noqa: PLC0415

    found = None if typed in case.space_named else CORNER.fullmatch(typed)
    if found is None:
        return space_meant(case, typed), None
    return space_meant(case, found[1]), (int(found[2]), int(found[3]), int(found[4]))


def _parted(
    case: "Case", plan: "Plan", meant: "list[Lock]", copies: "set[Copy]"
) -> "tuple[tuple[Lock, ...], list[Lock]]":
    """Locks that stay and locks that go; one on all copies stays on those that are not meant."""
    from models.locks import taken_off, without  # noqa: PLC0415

    gone = [one for lock in meant for one in taken_off(case, lock, copies)]
    return without(case, plan.locks, meant, copies), gone


def _nothing_to_unlock(in_trip: "list[Lock]") -> str:
    if in_trip:
        names = ", ".join(dict.fromkeys(lock.thing for lock in in_trip))
        return f"{names}: fixed in the trip's file, not in the plan; take the lock out there. Nothing was written."
    return "Nothing of that is locked in the plan; nothing was written."
