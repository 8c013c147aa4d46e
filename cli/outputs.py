"""Where a plan is written, and the trip as its file will name it."""

import os
import re
from pathlib import Path

from cli.answering import BadInput
from cli.options import NO_FOLDER
from models.case import Case
from models.plan import Plan, less_kept
from models.rereading import may_be_named, replace_plan
from models.writing import replace_whole

LOOKS_LIKE = {
    ".yaml": (
        "a plan",
        re.compile(rb"""(?:^|[{,])[ \t]*["']?(?:placements|left_at_home|trip_digest)["']?[ \t]*:""", re.MULTILINE),
    ),
    ".html": ("a page", re.compile(rb"\A\s*<!doctype html", re.IGNORECASE)),
    ".json": ("a schema", re.compile(rb"\A\s*\{")),
}
"""By how the usual name of an output ends: what it is, and what tells that a file is one."""

LOOKED_AT = 1_000_000
"""So many bytes of a file that is there are looked at."""

LONGEST_NAME = 120
"""Characters of the trip's path that a plan's file may hold."""


def plan_for(trip: Path, case: Case, out: Path | None, plan: Plan) -> Plan:
    """A plan as its file says it: the trip as seen from that folder or from here, and of what the reserve is a part."""
    asked_kg = case.reserve_kg if less_kept(plan, case.reserve_kg) else None
    return plan.model_copy(update={"trip": trip_seen_from(trip, out), "reserve_asked_kg": asked_kg})


def trip_seen_from(trip: Path, out: Path | None) -> str:
    """The trip's path relative to the folder of a plan.

    Raises
    ------
    BadInput
        A plan's file cannot hold the path, as it is too long or has control characters, or there is none.
    """
    folder = Path.cwd() if out is None else out.resolve().parent
    try:
        name = Path(os.path.relpath(trip.resolve(), folder)).as_posix()
    except ValueError:
        raise BadInput(f"{out}: is on another drive than the trip; write the plan beside it.") from None
    if len(name) > LONGEST_NAME:
        raise BadInput(f"{out or 'the plan'}: is too far from the trip ({name}); write the plan nearer to it.")
    if out is not None and not may_be_named(name):
        raise BadInput(f"{out}: cannot hold the trip's path {name!a}; take what is no text out of its names.")
    return name


def trouble_writing(out: Path, text: str, plan: Plan | None = None) -> OSError | None:
    """Write a file; what the system says against it, for raising once what was found is told and so not lost.

    `plan` is what the text has to say when it is read back first. None: it is no plan's file.
    """
    try:
        if plan is None:
            replace_whole(out, text)
        else:
            replace_plan(out, text, plan)
    except OSError as trouble:
        return trouble
    return None


def comments_lost(plan: Path) -> str:
    """That a plan's file lost comments when its locks were changed."""
    return f"{plan}: its locks are written in an unusual way, and comments had to go to change them."


def comments_gone(plan: Path) -> str:
    """That a plan's file lost comments when the plan was written anew."""
    return f"{plan}: some comments went: what they stood at is no longer in the plan, or all of it was in braces."


def refuse_to_overwrite(trip: Path, case: Case, out: Path | None, such_as: str = "plan.yaml") -> None:
    """Refuse an output that is one of the files that were read, or as `refuse_another_kind`.

    `such_as` is a name that would do in a folder.

    Raises
    ------
    BadInput
        It is.
    """
    if out is None:
        return
    own = case.trip.rulebook
    names = (case.trip.vehicle, *case.trip.gear, *((own,) if own else ()))
    if out.resolve() in {trip.resolve(), *((case.folder / name).resolve() for name in names)}:
        raise BadInput(f"{out}: is a file that the plan is made from; choose another name with -o.")
    refuse_another_kind(out, such_as)


def refuse_another_kind(out: Path, such_as: str) -> None:
    """Refuse an output that cannot be written, or is of another kind than `such_as`, which nobody meant to lose.

    It cannot where it is a folder or no ordinary file, in no folder, or where it or its folder is write-protected.

    Raises
    ------
    BadInput
        It is.
    """
    if out.is_dir():
        raise BadInput(f"{out}: is a folder; name a file such as {out / such_as}.")
    if out.exists() and not out.is_file():
        raise BadInput(f"{out}: is no ordinary file; name a file such as {such_as}.")
    if out.exists() and not os.access(out, os.W_OK):
        raise BadInput(f"{out}: is write-protected; choose another name with -o.")
    folder = out.resolve().parent
    if not folder.is_dir():
        raise BadInput(f"{out}: {NO_FOLDER}")
    if not os.access(folder, os.W_OK | os.X_OK):
        # A file is written beside the old one and takes its place, so that its folder changes too.
        raise BadInput(f"{out}: its folder is write-protected; choose a name in another folder with -o.")
    what, looks = LOOKS_LIKE[Path(such_as).suffix]
    there = b""
    if out.is_file():
        with out.open("rb") as file:
            there = file.read(LOOKED_AT)
    if there.strip() and not looks.search(there):
        raise BadInput(f"{out}: is there already and is not {what}; choose another name with -o, or take it away.")
