"""Places typed in other units: what was typed at a wall, on a solid or on a thing lies there in whole millimetres."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from models.base import MOST_COPIES
from models.geometry import TURNS
from models.plan import Turn
from models.reading.rounding import ROUNDING_MM, Exact, typed_ends
from models.reading.sheet import Path, Sheet

Span = tuple[float, float]
"""Where a box begins and ends along one axis in mm."""


class Moved(NamedTuple):
    """A number of a corner that was typed in another unit, and the whole millimetre at which it lies."""

    path: Path
    whole_mm: int


@dataclass
class _Block:
    """A box in a space: as typed, and in whole millimetres."""

    typed: Sequence[Span]
    low: list[int]
    size_mm: Sequence[int]
    corner: Path = ()
    axes: frozenset[int] = frozenset()
    """Axes along which its corner was typed in another unit: it moves along these alone."""

    def high(self, axis: int) -> int:
        return self.low[axis] + self.size_mm[axis]

    def is_before(self, other: "_Block", axis: int) -> bool:
        """Whether it was typed before another box along an axis, and they were typed over one another."""
        across = (i for i in range(3) if i != axis)
        return self.typed[axis][1] <= other.typed[axis][0] + ROUNDING_MM and all(
            min(self.typed[i][1], other.typed[i][1]) - max(self.typed[i][0], other.typed[i][0]) > ROUNDING_MM
            for i in across
        )


def flush(sheet: Sheet, vehicle: Sheet | None, gear: Iterable[Sheet], keys: Sequence[str]) -> Iterator[Moved]:
    """Corners of placements and of locks, each list by its key, that lie elsewhere than each by itself was rounded.

    The sides of a thing are rounded up, so that what was typed beside it may begin later, and what was typed at a far
    wall before it: by the rounding alone nothing runs through a wall, a solid or a thing that it was typed clear of.
    """
    if vehicle is None or not any(path[-2:-1] in {("corner_mm",), ("at_mm",)} for path in sheet.exact):
        return
    rooms, things = _rooms(vehicle), _things(gear)
    for key in keys:
        by_space: dict[str, list[_Block]] = {}
        for path, entry in _parts(sheet, (key,)):
            space, thing = (entry.get(name) for name in ("in" if key == "locks" else "space", "thing"))
            room = rooms.get(space) if isinstance(space, str) else None
            of = things.get(thing) if isinstance(thing, str) else None
            if room is not None:
                block = _locked(sheet, path, entry, of, room[0]) if key == "locks" else _placed(sheet, path, entry, of)
                by_space.setdefault(str(space), []).extend([] if block is None else [block])
        for space, blocks in by_space.items():
            yield from _settled(blocks, *rooms[space])


def _parts(sheet: Sheet, key: Path) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    parts = sheet.at(key)
    whole = isinstance(parts, list) and len(parts) <= MOST_COPIES  # in more than these all is left as it is
    for i, part in enumerate(parts if whole else ()):
        if isinstance(part, dict):
            yield (*key, i), part


def _rooms(vehicle: Sheet) -> dict[str, tuple[_Block, list[_Block]]]:
    """By name of a space: its box and its solids."""
    found: dict[str, tuple[_Block, list[_Block]]] = {}
    for path, space in _parts(vehicle, ("spaces",)):
        room = _block(space, path, vehicle.exact)
        if room is not None and isinstance(space.get("name"), str):
            solids = (_block(solid, at, vehicle.exact) for at, solid in _parts(vehicle, (*path, "solid")))
            found[space["name"]] = room, [solid for solid in solids if solid is not None]
    return found


class _Listed(NamedTuple):
    """A thing as listed: its sides in mm as typed and in whole millimetres, and how it may be turned."""

    typed: Sequence[float]
    whole: Sequence[int]
    turns: tuple[Turn, ...]

    def along(self, turn: str) -> list[tuple[float, int]]:
        """Its sides along x, y and z, as typed and whole."""
        at = ["lwh".index(side) for side in turn]
        return [(self.typed[i], self.whole[i]) for i in at]


def _things(gear: Iterable[Sheet]) -> dict[Any, _Listed]:
    found = {}
    for sheet in gear:
        for path, thing in _parts(sheet, ()):
            ends = typed_ends({**thing, "corner_mm": [0, 0, 0]}, path, sheet.exact)
            turns = TURNS.get(str(thing.get("turns", "any")))
            if ends is not None and turns is not None and isinstance(thing.get("name"), str):
                found[thing["name"]] = _Listed([high for _, high in ends], thing["size_mm"], turns)
    return found


def _block(part: Mapping[str, Any], at: Path, exact: Exact) -> _Block | None:
    typed = typed_ends(part, at, exact)
    return None if typed is None else _Block(typed, list(part["corner_mm"]), part["size_mm"])


def _placed(sheet: Sheet, path: Path, entry: Mapping[str, Any], thing: _Listed | None) -> _Block | None:
    block = _block(entry, path, sheet.exact)
    if block is None:
        return None
    turn = entry.get("turn", "lwh")
    if thing is not None and turn in TURNS["any"]:
        # Who writes the whole side of the list means the side that was typed there.
        block.typed = [
            (low, low + side if block.size_mm[axis] == whole and (*path, "size_mm", axis) not in sheet.exact else high)
            for axis, ((low, high), (side, whole)) in enumerate(zip(block.typed, thing.along(turn), strict=True))
        ]
    block.corner = (*path, "corner_mm")
    block.axes = frozenset(axis for axis in range(3) if (*block.corner, axis) in sheet.exact)
    return block


def _locked(sheet: Sheet, path: Path, entry: Mapping[str, Any], thing: _Listed | None, room: _Block) -> _Block | None:
    """A locked thing; where it may be turned, the longest sides with which it was typed within its space."""
    corner = (*path, "at_mm")
    exact = {
        (*path, "corner_mm", axis): sheet.exact[*corner, axis] for axis in range(3) if (*corner, axis) in sheet.exact
    }
    at = typed_ends({"corner_mm": entry.get("at_mm"), "size_mm": [0, 0, 0]}, path, exact)
    if thing is None or at is None:
        return None
    lows, ends = [low for low, _ in at], [high + ROUNDING_MM for _, high in room.typed]
    within = [
        sides
        for sides in map(thing.along, thing.turns)
        if all(low + side <= end for low, (side, _), end in zip(lows, sides, ends, strict=True))
    ]
    if not within:
        return None
    longest = [max(sides[axis] for sides in within) for axis in range(3)]
    typed = [(low, low + side) for low, (side, _) in zip(lows, longest, strict=True)]
    axes = frozenset(path[-1] for path in exact if isinstance(path[-1], int))
    return _Block(typed, list(entry["at_mm"]), [whole for _, whole in longest], corner, axes)


def _settled(blocks: Sequence[_Block], room: _Block, solids: Sequence[_Block]) -> Iterator[Moved]:
    """What lies elsewhere once all that was typed clear of one another is so in whole millimetres."""
    before = [list(block.low) for block in blocks]
    for axis in range(3):
        for block in sorted(blocks, key=lambda one: one.typed[axis][0]):
            if axis in block.axes:
                ends = [one.high(axis) for one in (*blocks, *solids) if one is not block and one.is_before(block, axis)]
                block.low[axis] = max(block.low[axis], *ends) if ends else block.low[axis]
        for block in sorted(blocks, key=lambda one: one.typed[axis][1], reverse=True):
            if axis in block.axes:
                _pulled_in(block, axis, blocks, room, solids)
    for block, low in zip(blocks, before, strict=True):
        for axis in range(3):
            if block.low[axis] != low[axis]:
                yield Moved((*block.corner, axis), block.low[axis])


def _pulled_in(block: _Block, axis: int, blocks: Sequence[_Block], room: _Block, solids: Sequence[_Block]) -> None:
    """Bring a box before the far wall and what was typed behind it, as far as what is fixed before it leaves room."""
    others = [one for one in (*blocks, *solids) if one is not block]
    ends = [one.low[axis] for one in others if block.is_before(one, axis)]
    if block.typed[axis][1] <= room.typed[axis][1] + ROUNDING_MM:
        ends.append(room.high(axis))
    fixed = [one.high(axis) for one in others if axis not in one.axes and one.is_before(block, axis)]
    least = max([room.low[axis], *fixed])
    if ends and block.high(axis) > min(ends) and (fits := min(ends) - block.size_mm[axis]) >= least:
        block.low[axis] = fits
