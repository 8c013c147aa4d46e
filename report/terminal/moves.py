"""Moves at the roadside, in an order that works."""

from collections.abc import Mapping, Sequence
from math import ceil
from types import MappingProxyType

from models.case import Case, Copy
from models.geometry import box, placed_box
from packing import Move, MoveList
from packing.finding import part_of
from report.terminal.table import paragraph


def moves_lines(case: Case, found: MoveList, width: int, gone: Mapping[Copy, str] = MappingProxyType({})) -> list[str]:
    """A line for each lift, numbered, with a heading that says how many there are and how long they take.

    `gone` names the space in which a copy lies that comes from one that is no longer in the vehicle.
    """
    if not found.moves and not found.stuck:
        return ["Nothing moves."]
    lines = paragraph(f"Moves, in an order that works: {_counted(found)}", width)
    if found.shut_by_trailer:
        lines += paragraph(f"Where the trailer is on, it comes off first: {keeps_shut(found.shut_by_trailer)}.", width)
    for number, one in enumerate(found.moves, 1):
        lines += paragraph(_text(case, one, gone.get(one.copy)), width, f"  {number:>2}. ")
    if found.stuck:
        names = ", ".join(case.called(copy) for copy in found.stuck)
        lines += paragraph(f"No order was found that brings these to their places: {names}.", width)
    return lines


def keeps_shut(openings: Sequence[str]) -> str:
    """What the trailer keeps shut, in words."""
    *rest, last = openings
    return f"it keeps {', '.join(rest)} and {last} shut" if rest else f"it keeps {last} shut"


def _counted(found: MoveList) -> str:
    ground = len([one for one in found.moves if one.needs_ground])
    lifts = f"{len(found.moves)} {'lift' if len(found.moves) == 1 else 'lifts'}"
    told = f"{len(found.moved)} moved in {lifts}, about {minutes(found.minutes)}"
    return f"{told}; {ground} set down on the ground for a while" if ground else told


def minutes(value: float) -> str:
    """Minutes to a half, rounded up; at least half a minute."""
    halves = max(1, ceil(value * 2 - 1e-9))
    return f"{halves / 2:g} min"


def _text(case: Case, one: Move, gone: str | None) -> str:
    called = case.called(one.copy)
    to = _place(case, one)
    return {
        "move": f"{called}: from {one.from_space} to {to}"
        if one.from_space != one.to_space
        else f"{called}: within {one.from_space} to the {_part(case, one)}",
        "bring in": f"{called}: comes aboard, into {to}"
        if gone is None
        else f"{called}: from {gone}, which is no longer in the vehicle, to {to}",
        "take out": f"{called}: out of {one.from_space}, it stays at home",
        "set down": f"{called}: out of {one.from_space}, ON THE GROUND for a while",
        "put in": f"{called}: from the ground into {to}",
        "put back": f"{called}: from the ground back into {to}",
    }[one.kind]


def _place(case: Case, one: Move) -> str:
    return f"{one.to_space}, {_part(case, one)}"


def _part(case: Case, one: Move) -> str:
    if one.placement is None:
        return ""
    space, at = case.space_named[one.placement.space], placed_box(one.placement)
    higher = at.low[2] - space.corner_mm[2]
    part = part_of(box(space.corner_mm, space.size_mm), at)
    return f"{part}, {higher} mm up" if higher else part
