"""`lowstow explain PLAN THING`."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from cli.answering import BadInput, answers
from cli.clock import seconds_left
from cli.codes import Code
from cli.options import Effort, Json, PlanFile, PlanOut, SecondsOrNone, Seed
from cli.screen import width

if TYPE_CHECKING:
    from models.case import Copy
    from models.plan import Plan
    from models.reading import PlanRead
    from report.explained import Explained, HomeExplained
    from solver import Options

Thing = Annotated[
    str | None, typer.Argument(metavar="[THING]", help="A thing, or a part of its name.", show_default=False)
]
Instead = Annotated[
    str | None, typer.Option("--instead", metavar="SPACE", help="Look at one space closely.", show_default=False)
]
Left = Annotated[
    str | None, typer.Option("--left", metavar="THING", help="Why a thing stays at home.", show_default=False)
]
Limit = Annotated[
    str | None,
    typer.Option("--limit", metavar="LIMIT", help="What uses up a limit, and what more would buy.", show_default=False),
]

LEAST_S = 1.0
"""Seconds of search that a question gets at least, where nobody says how many."""
ANSWER_S = 3.0
"""Where that is less, prices are looked for until the whole answer has taken so many seconds."""
BESIDES = 2.6
"""Beginning and telling take so many times as long as the beginning alone has taken of the processor."""
HOME_TIMES, LIMIT_TIMES = 2, 12
"""How many times as long ways to take a thing and the price of a limit are looked for."""

NONE_ASKED = "ask for one space with --instead, or see what was found."
NEVER = "no space may hold it, or sums alone rule it out; without -o it is told why."


@dataclass(frozen=True)
class _Asked:
    """What is asked of one thing."""

    plan: Path
    copy: "Copy"
    instead: str | None
    options: "Options"
    given: tuple[str, ...]
    """Options of the search as they are typed, those that were given."""


@answers
def explain(  # noqa: PLR0917 - as many as it has options
    plan: PlanFile,
    thing: Thing = None,
    instead: Instead = None,
    left: Left = None,
    limit: Limit = None,
    out: PlanOut = None,
    seconds: SecondsOrNone = None,
    effort: Effort = 1.0,
    seed: Seed = 0,
    json: Json = False,
) -> Code:
    """Tell why a thing is here and not there, and at what price."""
    from cli.outputs import refuse_to_overwrite  # noqa: PLC0415 - loaded where used
    from models.reading import read_plan  # noqa: PLC0415
    from solver import Options  # noqa: PLC0415

    if [thing, left, limit].count(None) != 2 or (instead is not None and thing is None):
        raise BadInput("THING: say one thing (with --instead SPACE if you like), or --left THING, or --limit LIMIT.")
    read = read_plan(plan)
    refuse_to_overwrite(plan.parent / read.plan.trip, read.case, out)
    given = _given(seconds, effort, seed)
    if seconds is None:
        seconds = LEAST_S if thing is None else seconds_left(ANSWER_S, BESIDES, LEAST_S)
    options = Options(effort=effort, seconds=seconds, seed=seed)
    found: Plan | str
    if limit is not None:
        text, found = _limit(read, limit, options, json), NONE_ASKED
    else:
        copy = _copy(read, left or thing or "", left=left is not None)
        text, found = _thing(read, _Asked(plan, copy, instead, options, given), json)
    trouble = None if out is None else _trouble_writing(plan, read, out, found)
    typer.echo(text, nl=False)
    if trouble is not None:
        raise trouble
    if out is not None:
        typer.echo(f"The plan is in {out}.", err=json)
    return Code.HOLDS


def _given(seconds: float | None, effort: float, seed: int) -> tuple[str, ...]:
    """Options of the search that are not left at their defaults, as they are typed."""
    said = (("--seconds", seconds, None), ("--effort", effort, 1.0), ("--seed", seed, 0))
    return tuple(word for name, value, usual in said if value != usual for word in (name, f"{value:.12g}"))


def _limit(read: "PlanRead", typed: str, options: "Options", json: bool) -> str:
    from cli.limits import limit_told  # noqa: PLC0415
    from report.explain_view import limit_view  # noqa: PLC0415
    from report.terminal.limits import limit_report  # noqa: PLC0415

    longer = replace(options, seconds=options.seconds * LIMIT_TIMES / 2)
    told = limit_told(read, typed, longer)
    return _words(read, limit_view(told) if json else limit_report(told, width()))


def _words(read: "PlanRead", told: str | dict[str, Any]) -> str:
    """A report or what machines are told, and with either whether the files are others than the plan was made from."""
    from report.json_view import json_text  # noqa: PLC0415
    from report.lost import told_changed  # noqa: PLC0415
    from report.terminal.table import paragraph  # noqa: PLC0415

    if not isinstance(told, str):
        return json_text({**told, "digest_matches": read.digest_matches})
    lines = [line for text in told_changed(read) for line in paragraph(text, width())]
    return "\n".join((told, *lines, "")) if lines else told


def _thing(read: "PlanRead", asked: _Asked, json: bool) -> "tuple[str, Plan | str]":
    """What is told of a thing, and the plan that was tried, or why there is none to write."""
    from models.case import copy_of  # noqa: PLC0415

    aboard = {copy_of(place) for place in read.plan.placements}
    return (_here if asked.copy in aboard else _home)(read, asked, json)


def _copy(read: "PlanRead", typed: str, *, left: bool) -> "Copy":
    """The copy that is meant: without a number the first that is aboard, or that is left, else the first."""
    from cli.choosing import thing_meant  # noqa: PLC0415
    from models.case import Copy, copy_of  # noqa: PLC0415

    thing, number = thing_meant(read.case, typed)
    aboard = {copy_of(place) for place in read.plan.placements}
    copies = [copy for copy in read.case.copies if copy.thing == thing]
    meant = (copy for copy in copies if (copy in aboard) is not left)
    return Copy(thing, number) if number else next(meant, copies[0])


def _here(read: "PlanRead", asked: _Asked, json: bool) -> "tuple[str, Plan | str]":
    from cli.choosing import space_meant  # noqa: PLC0415
    from cli.explaining import why_here  # noqa: PLC0415
    from report.explain_view import explain_view  # noqa: PLC0415
    from report.terminal.explanation import explain_report, in_order  # noqa: PLC0415
    from solver import OtherSidesError  # noqa: PLC0415

    copy = asked.copy
    space = None if asked.instead is None else space_meant(read.case, asked.instead)
    try:
        told = why_here(read, str(asked.plan), copy, space, asked.options)
    except OtherSidesError:
        raise BadInput(_other_sides(read, asked.plan, copy)) from None
    if told.space == space and not told.rows:
        raise BadInput(f"{read.case.called(copy)} is in {space} already; name another space with --instead.")
    told = replace(told, given=asked.given)
    better = (row for row in in_order(told.rows) if row.word == "better" and not row.against_trip)
    offers = [row.offer for row in (told.rows if space else better) if row.offer]
    text = _words(read, explain_view(told) if json else explain_report(read.case, told, width()))
    return text, offers[0].plan if offers else _why_none(space, proven=_cannot_here(told))


def _cannot_here(told: "Explained") -> bool:
    return any(row.kind == "cannot" or row.demands for row in told.rows)


def _why_none(space: str | None, *, proven: bool) -> str:
    """Why there is no plan to write, where one space may have been asked about."""
    if space is None:
        return NONE_ASKED
    if proven:
        return f"it cannot be in {space}; without -o it is told why."
    return f"none was found with it in {space} in this time; --seconds gives it more."


def _other_sides(read: "PlanRead", plan: Path, copy: "Copy") -> str:
    from models.case import copy_of  # noqa: PLC0415
    from report.terminal.typed import words_of  # noqa: PLC0415

    (place, *_) = (place for place in read.plan.placements if copy_of(place) == copy)
    size, again = "×".join(map(str, place.size_mm)), " ".join(("lowstow", *words_of("revise", (str(plan),))))
    return (
        f"{read.case.called(copy)} lies in {place.space} with {size} mm, which it may not have by the gear list: "
        f"there is nothing to compare other spaces with. Find it a place first: {again}"
    )


def _home(read: "PlanRead", asked: _Asked, json: bool) -> "tuple[str, Plan | str]":
    from cli.choosing import space_meant  # noqa: PLC0415
    from cli.explaining import why_at_home  # noqa: PLC0415
    from report.explain_view import home_explained_view  # noqa: PLC0415
    from report.terminal.explanation_home import home_report  # noqa: PLC0415

    space = None if asked.instead is None else space_meant(read.case, asked.instead)
    longer = replace(asked.options, seconds=asked.options.seconds * HOME_TIMES)
    told = why_at_home(read, str(asked.plan), asked.copy, longer, space)
    told = replace(told, given=asked.given)
    text = _words(read, home_explained_view(told) if json else home_report(read.case, told, width()))
    ways = (way.offer.plan for way in told.ways if way.writable)
    return text, next(ways, NEVER if _nowhere(told) else _why_none(space, proven=_cannot_come(told, space)))


def _nowhere(told: "HomeExplained") -> bool:
    """Whether it is known that nothing can bring it along, whatever space is asked for."""
    return bool(told.bars) or not told.lawful


def _cannot_come(told: "HomeExplained", space: str | None) -> bool:
    return bool(told.bars) or any(name == space for name, _ in told.against)


def _trouble_writing(plan: Path, read: "PlanRead", out: Path, found: "Plan | str") -> OSError | None:
    """Write the plan that was offered; what the system says against it. A text tells why none was.

    Raises
    ------
    BadInput
        None was offered, or it breaks a lock of the trip's own file.
    """
    from cli.outputs import plan_for, trouble_writing  # noqa: PLC0415
    from models.writing import plan_text  # noqa: PLC0415
    from verifier import judge  # noqa: PLC0415

    if isinstance(found, str):
        raise BadInput(f"{out}: there is no plan to write; {found}")
    trip = plan.parent / read.plan.trip
    new = plan_for(trip, read.case, out, found)
    broken = judge(read.case, new).broken
    if broken:
        first = f"Take that lock out of {trip} first: a plan can drop its own locks, not the trip's."
        raise BadInput(f"{out}: nothing was written, as the trip's own file is against it: {broken[0].says} {first}")
    return trouble_writing(out, plan_text(new), new)
