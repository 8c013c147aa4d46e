"""Where things are, for machines."""

from collections.abc import Sequence
from typing import Any

from models.case import Copy
from packing import WayTo


def find_view(ways: Sequence[WayTo], home: Sequence[Copy], off: Sequence[Copy] = ()) -> dict[str, Any]:
    """The ways to things that are aboard, things that are not, and those aboard that are off the list."""
    return {
        "found": [_way(one) for one in ways],
        "not_aboard": [_copy(copy) for copy in home],
        "off_the_list": [_copy(copy) for copy in off],
    }


def _copy(copy: Copy) -> dict[str, Any]:
    return {"thing": copy.thing, "copy": copy.number}


def _way(one: WayTo) -> dict[str, Any]:
    return {
        **_copy(one.copy),
        "space": one.space,
        "part": one.part,
        "on": [_copy(copy) for copy in one.on],
        "side": one.side,
        "openings": list(one.openings),
        "stuck_when": list(one.stuck_when),
        "move_first": [_copy(copy) for copy in one.move_first],
        "seconds": one.seconds,
    }
