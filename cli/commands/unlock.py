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
    from collections.abc import Callable, Sequence

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
    from cli.names import the_one  # noqa: PLC0415
    from cli.outputs import comments_lost  # noqa: PLC0415
    from models.amending import write_locks  # noqa: PLC0415
    from models.reading import read_plan  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.locks_view import unlock_view  # noqa: PLC0415
    from report.terminal.locks import unlock_report  # noqa: PLC0415

    read = read_plan(plan)
    case, spaces = read.case, _spaces(read)
    room = None if space is None else the_one(space, spaces, "space")
    asked = Asked(tuple(things or ()), kit, packer, room if room in case.space_named else None)
    # A space that is gone is no longer where anything is, but locks into it are in the file.
    copies = set() if room and asked == Asked() else set(chosen(_with_lost(read), read.plan, asked))
    copies |= _locked_into(case, read.plan, room)
    meant = _meaning(read, spaces, (into or (), at_corner or (), out_of or (), at_home))
    kept, gone = _parted(case, read.plan, list(filter(meant, read.plan.locks)), copies)
    lost = [one.lock for one in read.lost_locks]
    stale = [lock for lock in filter(meant, lost) if (room and lock.in_ == room) or any(map(lock.is_on, copies))]
    in_trip = [lock for lock in case.trip.locks if any(map(lock.is_on, copies))]
    gone += stale
    if not gone:
        raise BadInput(_nothing_to_unlock(in_trip))
    whole = read.plan.model_copy(update={"locks": (*read.plan.locks, *lost)})
    left = (*kept, *(lock for lock in lost if lock not in stale))
    if write_locks(plan, whole, left):
        typer.echo(comments_lost(plan), err=True)
    if json:
        typer.echo(json_text(unlock_view(gone, left, in_trip)), nl=False)
    else:
        typer.echo(unlock_report(case, str(plan), gone, in_trip, width()), nl=False)
    return Code.HOLDS


def _with_lost(read: "PlanRead") -> "Case":
    """The case with the copies that only locks know which the files no longer do; for their names alone."""
    from models.case import fresh  # noqa: PLC0415
    from models.gear import Thing  # noqa: PLC0415

    counts: dict[str, int] = {}
    for one in read.lost_locks:
        counts[one.lock.thing] = max(one.lock.copy_number or 1, counts.get(one.lock.thing, 1))
    known = read.case.thing_named
    raised = {name: known[name].model_copy(update={"count": n}) for name, n in counts.items()
              if name in known and n > known[name].count}  # fmt: skip
    gone = (
        Thing.model_validate({"name": name, "count": n, "mass_kg": 0, "size_mm": [1, 1, 1]})
        for name, n in counts.items()
        if name not in known
    )
    return fresh(read.case, things=(*(raised.get(thing.name, thing) for thing in read.case.things), *gone))


def _spaces(read: "PlanRead") -> "list[str]":
    """The names of spaces, those too into which only locks lead that the files no longer know."""
    return [*read.case.space_named, *(one.lock.in_ for one in read.lost_locks if one.lock.in_ is not None)]


def _locked_into(case: "Case", plan: "Plan", space: str | None) -> "set[Copy]":
    """Copies that are locked into a space, there or not."""
    from models.locks import under  # noqa: PLC0415

    return {copy for lock in plan.locks if space and lock.in_ == space for copy in under(case, lock)}


def _meaning(
    read: "PlanRead", spaces: "list[str]", says: "tuple[Sequence[str], Sequence[str], Sequence[str], bool]"
) -> "Callable[[Lock], bool]":
    """Whether a lock fixes a thing in some spaces, at a corner in some, keeps it out of some, or at home.

    Any does where none is said.
    """
    from cli.names import the_one  # noqa: PLC0415

    into, at_corner, out_of, at_home = says
    out = [*spaces, *read.case.rack_named, *(one.lock.not_in for one in read.lost_locks if one.lock.not_in is not None)]
    rooms = {the_one(typed, spaces, "space") for typed in into}
    corners = {_corner_meant(spaces, typed) for typed in at_corner}
    places = {the_one(typed, out, "space or rack") for typed in out_of}

    def meant(lock: "Lock") -> bool:
        cornered = lock.at_mm is not None and not corners.isdisjoint({(lock.in_, None), (lock.in_, lock.at_mm)})
        fixed = lock.in_ in rooms or cornered
        return not any(says) or fixed or lock.not_in in places or (at_home and lock.at_home)

    return meant


def _corner_meant(spaces: "list[str]", typed: str) -> "tuple[str, Point | None]":
    """The space that is meant, and a corner in mm where one stands behind it, such as `left drawer@2460,-640,900`."""
    from cli.names import matching, the_one  # noqa: PLC0415
    from models.reading.faults import shown  # noqa: PLC0415

    found = None if typed in spaces else CORNER.fullmatch(typed)
    if found is None:
        if "@" in typed and not any("@" in name for name in matching(typed, spaces)):
            raise BadInput(f"--at-corner: found {shown(typed)}; allowed: a space, or SPACE@X,Y,Z with three whole mm.")
        return the_one(typed, spaces, "space"), None
    return the_one(found[1], spaces, "space"), (int(found[2]), int(found[3]), int(found[4]))


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
