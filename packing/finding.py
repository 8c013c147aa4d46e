"""The way to one thing: what to open, what to move first, where to put the hand, how long it takes."""

from collections.abc import Mapping
from dataclasses import dataclass

from models.case import Case, Copy
from models.geometry import Box, contact_mm2, placed_box
from models.plan import Placement
from models.stages import opening_chain, stuck_conditions
from packing.digging import lift_s, seconds_to_hand, to_move_first, wall_of
from packing.standing import in_other_spaces
from packing.steps import opened_in_order


@dataclass(frozen=True)
class WayTo:
    """How to get at one copy that is aboard."""

    copy: Copy
    space: str
    side: str
    """The side of the opening: left, right, rear, front, top or inside."""
    openings: tuple[str, ...]
    """What is opened, in that order."""
    stuck_when: tuple[str, ...]
    """Conditions in which one of them does not open."""
    part: str
    """Which part of its space it is in, as seen from above: such as `rear left`."""
    on: tuple[Copy, ...]
    """Copies it stands on; empty where it stands on the floor or on a solid."""
    move_first: tuple[Copy, ...]
    """Copies that must be moved before it comes out, those of other spaces included, in the order in which they go."""
    move_from: tuple[str, ...]
    """The space of each of those."""
    seconds: float
    """Seconds until it is in hand, from standing ready."""


def way_to(case: Case, placed: Mapping[Copy, Placement], copy: Copy) -> WayTo:
    """The way to a placed copy.

    Raises
    ------
    KeyError
        The copy is not placed, or its thing or space is none of the case.
    """
    place, others = placed[copy], in_other_spaces(case, placed, copy)
    first = (*others, *to_move_first(case, placed, copy))
    space, at = case.space_named[place.space], placed_box(place)
    chain = opening_chain(case.vehicle, space.opening)
    return WayTo(
        copy=copy,
        space=space.name,
        side=case.opening_named[space.opening].side,
        openings=opened_in_order(case, space.opening),
        stuck_when=tuple(sorted({word for one in chain for word in stuck_conditions(one, case.rulebook)})),
        part=part_of(wall_of(space), at),
        on=tuple(
            other
            for other, there in placed.items()
            if there.space == place.space and other != copy and contact_mm2(at, placed_box(there)) > 0
        ),
        move_first=first,
        move_from=tuple(placed[one].space for one in first),
        seconds=seconds_to_hand(case, placed, copy) + sum(lift_s(case, one) for one in others),
    )


AXES = (("front", "rear"), ("left", "right"))
"""Names of the near and the far end of a space along x and y."""


def part_of(room: Box, at: Box) -> str:
    """Which third of a room the middle of a box lies in, along and across: such as `rear left` or `middle`."""
    words = []
    for axis, ends in enumerate(AXES):
        share = (at.centre_mm[axis] - room.low[axis]) / room.size_mm[axis]
        if not 1 / 3 <= share <= 2 / 3:
            words.append(ends[share > 0.5])
    return " ".join(words) or "middle"
