"""Lengths in other units as whole millimetres: to which side each is rounded, and how boxes keep what was typed."""

import math
from collections.abc import Iterator, Sequence
from typing import Any, Literal, NamedTuple

from models.reading.sheet import Path

Side = Literal["up", "down", "nearest"]
"""To which whole millimetre a length is rounded."""

SIDES: dict[tuple[str, ...], Side] = {
    ("size_mm",): "up",  # of things, as listed and as placed; spaces and solids: see `fitted`
    ("air_gap_mm",): "up",
    ("slides", "mm"): "up",
    ("wading_line_mm",): "up",
    ("outline_mm", "front"): "up",  # so that the body is no longer than it is
    ("outline_mm", "height"): "up",  # it is told for garages and gates
    ("neighbours", "gap_mm"): "up",
    ("cg_height_doubt_mm",): "up",
    ("bow_wave_mm",): "up",
    ("outline_mm", "rear"): "down",
    ("outline_mm", "width"): "down",
    ("track_mm",): "down",  # a narrower track makes more of what lies to one side
    ("back_top_z_mm",): "down",
    ("top_z_mm",): "down",
    ("outline_mm", "wheel_radius"): "nearest",  # for the drawings
    ("wheelbase_mm",): "nearest",  # what is good for one axle is bad for the other; so with a place
    ("tow_ball_behind_rear_axle_mm",): "nearest",
    ("right_of_centre_mm",): "nearest",
    ("cg_height_mm",): "nearest",
    ("locks", "at_mm"): "up",  # a least corner: up as that of the space, so that it lies in it; see `flush` too
    ("corner_mm",): "up",  # of a placement, as of a lock; spaces and solids: see `fitted`
    ("at_mm",): "nearest",  # a centre of gravity
    ("allow_mm",): "down",
    ("choose_within_mm",): "down",
    ("handling", "shoulder_mm"): "nearest",  # advice, in no limit; so those below
    ("lifting",): "nearest",
    ("strapping",): "nearest",
}
"""By keys, one within the other: the side on which the rules are stricter; nearest where none is, or no rule asks."""

ROUNDING_MM = 1e-6
"""What a length may be off a whole millimetre by the rounding of the arithmetic."""


def side_of(path: Path) -> Side | None:
    """To which side a length is rounded; None where nobody has said so."""
    names = tuple(step for step in path if isinstance(step, str))
    starts = range(len(names))
    return next((side for key, side in SIDES.items() if any(names[i : i + len(key)] == key for i in starts)), None)


def whole_mm(value: float, path: Path) -> int:
    """A length as whole millimetres."""
    side = side_of(path)
    return _up(value) if side == "up" else _down(value) if side == "down" else round(value)


def _up(value: float) -> int:
    return math.ceil(value - ROUNDING_MM)


def _down(value: float) -> int:
    return math.floor(value + ROUNDING_MM)


class Ends(NamedTuple):
    """Where a box begins and ends along one axis, in mm: as typed, and in whole millimetres."""

    typed: tuple[float, float]
    whole: tuple[int, int]


class Fitted(NamedTuple):
    """A box of the vehicle in whole millimetres."""

    path: Path
    corner_mm: list[int]
    size_mm: list[int]


Exact = dict[Path, float]
"""Lengths in mm as typed, by their places."""


def fitted(data: Any, exact: Exact) -> Iterator[Fitted]:
    """Spaces and solids of which a corner or a side was typed in another unit.

    A space lies within what was typed and a solid covers it, corner and size together; where a solid was typed within
    its space it stays there.
    """
    spaces = data.get("spaces") if isinstance(data, dict) else None
    for i, space in enumerate(spaces if isinstance(spaces, list) else ()):
        at: Path = ("spaces", i)
        typed = typed_ends(space, at, exact)
        room = None if typed is None else [Ends(ends, (_up(ends[0]), _down(ends[1]))) for ends in typed]
        if room is not None and _touched(at, exact):
            yield _as_box(at, room)
        inside = space.get("solid") if isinstance(space, dict) else None
        for j, solid in enumerate(inside if isinstance(inside, list) else ()):
            yield from _solid(solid, (*at, "solid", j), exact, room)


def _solid(solid: Any, at: Path, exact: Exact, room: Sequence[Ends] | None) -> Iterator[Fitted]:
    typed = typed_ends(solid, at, exact)
    if typed is None or room is None or not (_touched(at, exact) or _touched(at[:2], exact)):
        return
    yield _as_box(at, [_covering(ends, walls) for ends, walls in zip(typed, room, strict=True)])


def _covering(typed: tuple[float, float], walls: Ends) -> Ends:
    low, high = _down(typed[0]), _up(typed[1])
    if typed[0] >= walls.typed[0] - ROUNDING_MM:
        low = max(low, walls.whole[0])
    if typed[1] <= walls.typed[1] + ROUNDING_MM:
        high = min(high, walls.whole[1])
    return Ends(typed, (low, high))


def typed_ends(part: Any, at: Path, exact: Exact) -> list[tuple[float, float]] | None:
    """Both ends along each axis as typed; None where a corner or a size is no three whole numbers."""
    found = [part.get(key) if isinstance(part, dict) else None for key in ("corner_mm", "size_mm")]
    if not all(isinstance(value, list) and len(value) == 3 and all(type(n) is int for n in value) for value in found):
        return None
    corner, size = (
        [exact.get((*at, key, axis), number) for axis, number in enumerate(value or ())]
        for key, value in zip(("corner_mm", "size_mm"), found, strict=True)
    )
    return [(low, low + side) for low, side in zip(corner, size, strict=True)]


def _touched(at: Path, exact: Exact) -> bool:
    return any((*at, key, axis) in exact for key in ("corner_mm", "size_mm") for axis in range(3))


def _as_box(at: Path, ends: Sequence[Ends]) -> Fitted:
    lows = [one.whole[0] for one in ends]
    return Fitted(at, lows, [one.whole[1] - low for one, low in zip(ends, lows, strict=True)])
