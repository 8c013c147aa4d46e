"""Which copies a person means: by thing, kit, packer or space."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import BadInput
from cli.names import plain, the_one, with_number

if TYPE_CHECKING:
    from models.case import Case, Copy
    from models.plan import Plan

Things = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[THING]...", help="Things, or copies such as 'water can #2'; a part will do.", show_default=False
    ),
]
Kit = Annotated[str | None, typer.Option("--kit", metavar="KIT", help="All of a kit.", show_default=False)]
Packer = Annotated[
    str | None, typer.Option("--packer", metavar="NAME", help="All that one person packs.", show_default=False)
]
InSpace = Annotated[
    str | None, typer.Option("--space", metavar="SPACE", help="All that is in a space.", show_default=False)
]


@dataclass(frozen=True)
class Asked:
    """Words of a person that choose copies."""

    things: tuple[str, ...] = ()
    kit: str | None = None
    packer: str | None = None
    space: str | None = None


def chosen(case: "Case", plan: "Plan", asked: Asked) -> "tuple[Copy, ...]":
    """Copies that are meant, aboard or not, in the order of the gear list.

    Raises
    ------
    BadInput
        A name means nothing or several things; all of them are told at once.
    """
    found: set[Copy] = set()
    faults: list[str] = []
    for one in _parts(asked):
        try:
            found |= _meant(case, plan, one)
        except BadInput as fault:
            faults.append(str(fault))
    if faults:
        raise BadInput("\n".join(faults))
    if not any((asked.things, asked.kit, asked.packer, asked.space)):
        raise BadInput("THING: say which things, or --kit, --packer or --space.")
    return tuple(copy for copy in case.copies if copy in found)


def _parts(asked: Asked) -> list[Asked]:
    groups = (Asked(kit=asked.kit), Asked(packer=asked.packer), Asked(space=asked.space))
    return [*(Asked(things=(typed,)) for typed in asked.things), *(one for one in groups if one != Asked())]


def _meant(case: "Case", plan: "Plan", asked: Asked) -> "set[Copy]":
    """Copies that one word chooses."""
    if asked.things:
        try:
            return _copies(case, asked.things[0])
        except BadInput as fault:
            raise BadInput(f"{fault}{_other_option(case, asked.things[0])}") from None
    if asked.space is not None:
        from models.case import copy_of  # noqa: PLC0415 - loaded where used, so that help answers at once

        space = space_meant(case, asked.space)
        return {copy_of(place) for place in plan.placements if place.space == space}
    kind, typed = ("kit", asked.kit) if asked.kit is not None else ("packer", asked.packer)
    meant = _group_meant(case, kind, typed or "")
    return {copy for copy in case.copies if getattr(case.thing_named[copy.thing], kind) == meant}


def _other_option(case: "Case", typed: str) -> str:
    """How all that is meant is said where what was typed is a kit, a packer or a space; empty where it is none."""
    from report.terminal.typed import quoted  # noqa: PLC0415 - loaded where used

    names = {kind: {getattr(thing, kind) for thing in case.things} - {None} for kind in ("kit", "packer")}
    names["space"] = set(case.space_named)
    same = ((kind, name) for kind, known in names.items() for name in sorted(known) if plain(name) == plain(typed))
    return next((f" It is a {kind}: say --{kind} {quoted(name)}." for kind, name in same), "")


def packer_meant(case: "Case", typed: str) -> str:
    """The packer that is meant.

    Raises
    ------
    BadInput
        None is near, or several are, or the gear list names none.
    """
    return _group_meant(case, "packer", typed)


def _group_meant(case: "Case", kind: str, typed: str) -> str:
    names = {getattr(thing, kind) for thing in case.things} - {None}
    return the_one(typed, sorted(names), kind)


def _copies(case: "Case", typed: str) -> "set[Copy]":
    thing, number = thing_meant(case, typed)
    return {copy for copy in case.copies if copy.thing == thing and number in {None, copy.number}}


def thing_meant(case: "Case", typed: str) -> tuple[str, int | None]:
    """The thing that is meant, and the number of its copy where one is typed.

    Raises
    ------
    BadInput
        None is near, or several are, or there is no copy of that number.
    """
    name, number = with_number(typed, case.thing_named)
    thing = the_one(name, case.thing_named, "thing")
    count = case.thing_named[thing].count
    if number is not None and not 1 <= number <= count:
        raise BadInput(f'copy {number} of "{thing}": allowed: a copy from 1 to {count}.')
    return thing, number


def space_meant(case: "Case", typed: str) -> str:
    """The space that is meant.

    Raises
    ------
    BadInput
        None is near, or several are.
    """
    return the_one(typed, case.space_named, "space")
