"""Where things are, for machines."""

from typing import Any

from models.case import Copy
from packing import WayTo
from report.terminal.find import Found


def find_view(found: Found) -> dict[str, Any]:
    """Ways to what is aboard, what is not, what is aboard and off the list, and what lies in no space there is."""
    return {
        "found": [_way(one) for one in found.ways],
        "not_aboard": [_copy(copy) for copy in found.home],
        "off_the_list": [_copy(copy) for copy in found.off],
        "space_is_gone": [{**_copy(copy), "space": space} for copy, space in found.adrift.items()],
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
