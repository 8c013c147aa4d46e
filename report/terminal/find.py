"""Where a thing is and how to get at it, short enough for a phone in the dark."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from models.case import Case, Copy
from packing import WayTo
from report.figures import seconds
from report.terminal.table import paragraph, table
from report.terminal.whole import NARROW, WIDE

SIDES = {"inside": "from inside", "top": "from the top"}
"""How a side is told where its own word would not do."""


@dataclass(frozen=True)
class Found:
    """Where the things that were asked for are."""

    ways: Sequence[WayTo]
    home: Sequence[Copy]
    """What is not aboard."""
    off: Sequence[Copy] = ()
    """What is aboard and off the list."""
    adrift: Mapping[Copy, str] = field(default_factory=dict)
    """What lies in a space that is no longer in the vehicle, and in which."""


def find_report(case: Case, found: Found, width: int = NARROW) -> str:
    """For each thing its space, what to open, what to move first and how long it takes."""
    width = min(max(width, NARROW), WIDE)
    parts = [_way(case, one, width) for one in found.ways]
    parts += [paragraph(f"{case.called(copy)}: NOT ABOARD, {_home(case, copy)}.", width) for copy in found.home]
    parts += [paragraph(_adrift(case, *one), width) for one in found.adrift.items()]
    parts += [_off(case, found.off, width)] if found.off else []
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


def _home(case: Case, copy: Copy) -> str:
    return "though it must come" if case.thing_named[copy.thing].must else "it stays at home"


def _way(case: Case, one: WayTo, width: int) -> list[str]:
    lines = paragraph(f"{case.called(one.copy)}: {one.space}", width)
    for begin, text in _facts(case, one):
        lines += paragraph(text, width, f"  {begin:<6}")
    return lines


def _facts(case: Case, one: WayTo) -> Iterator[tuple[str, str]]:
    on = f", on {_names(case, one.on)}" if one.on else ""
    yield "where", f"{one.part}{on}"
    yield "open", f"{', then '.join(one.openings)} ({SIDES.get(one.side, one.side)})"
    yield "move", f"first {_first_names(case, one)}" if one.move_first else "nothing first"
    yield "takes", f"about {seconds(one.seconds)} s"
    if one.stuck_when:
        yield "stuck", f"when {' or '.join(one.stuck_when)}"


def _names(case: Case, copies: Sequence[Copy]) -> str:
    return ", ".join(case.called(copy) for copy in copies)


def _first_names(case: Case, one: WayTo) -> str:
    """What is moved first, what lies in another space with the name of that."""
    return ", ".join(
        case.called(copy) + ("" if space == one.space else f" (in {space})")
        for copy, space in zip(one.move_first, one.move_from, strict=True)
    )


def _off(case: Case, off: Sequence[Copy], width: int) -> list[str]:
    return paragraph(f"Aboard by this plan and no longer on the gear list: {_names(case, off)}.", width)


def _adrift(case: Case, copy: Copy, space: str) -> str:
    return f"{case.called(copy)}: in {space} by this plan, a space that is no longer in the vehicle."


def all_report(case: Case, found: Found, width: int = NARROW) -> str:
    """Everything by alphabet, a line each."""
    width = min(max(width, NARROW), WIDE)
    rows = [(case.called(one.copy), one.space, _door(one), _first(one), seconds(one.seconds)) for one in found.ways]
    if not case.things:
        return "Nothing is on the list.\n"
    rows += [(case.called(copy), "AT HOME", "", "", "") for copy in found.home]
    rows += [(case.called(copy), f"{space}, which is gone", "", "", "") for copy, space in found.adrift.items()]
    header = ("thing", "where", "through", "first", "s")
    rows.sort(key=lambda row: row[0].casefold())
    lines = table(header, rows, width, frozenset({0, 1, 2}))
    told = "first: how many things must be moved first; s: seconds until it is in hand"
    lines += ["", *paragraph(told, width), *(["", *_off(case, found.off, width)] if found.off else [])]
    return "\n".join(lines) + "\n"


def _door(one: WayTo) -> str:
    return f"{one.openings[-1]} ({SIDES.get(one.side, one.side)})"


def _first(one: WayTo) -> str:
    return str(len(one.move_first)) if one.move_first else "-"
