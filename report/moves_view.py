"""Moves, for machines."""

from typing import Any

from packing import Move, MoveList


def moves_view(found: MoveList) -> dict[str, Any]:
    """Moves in their order, with their minutes, and what no order brings to its place."""
    return {
        "moves": [_move(one) for one in found.moves],
        "minutes": found.minutes,
        "shut_by_trailer": list(found.shut_by_trailer),
        "stuck": [{"thing": copy.thing, "copy": copy.number} for copy in found.stuck],
    }


def _move(one: Move) -> dict[str, Any]:
    place = one.placement
    return {
        "thing": one.copy.thing,
        "copy": one.copy.number,
        "kind": one.kind,
        "from": one.from_space,
        "to": one.to_space,
        "placement": None if place is None else place.model_dump(mode="json", by_alias=True),
        "needs_ground": one.needs_ground,
        "minutes": one.minutes,
    }
