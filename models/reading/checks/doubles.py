"""Names that stand for two things at once, and chains that bite their own tail."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from models.base import composed
from models.reading.draft import Draft
from models.reading.faults import Fault, shown
from models.reading.sheet import Path, Sheet

_LISTS = ("spaces", "racks", "seats", "tanks", "openings", "fittings")


def doubles(draft: Draft) -> Iterator[Fault]:
    """Two parts of one kind with one name."""
    for key in _LISTS:
        yield from _twice(_named(draft.vehicle, (key,)))
    for key in ("stages", "people"):
        yield from _twice(_named(draft.trip, (key,)))
    yield from _twice(part for sheet in draft.gear for part in _named(sheet, ()))
    for stage in draft.stages:
        for key, names in (("people", stage.part.people or ()), ("closed", stage.part.closed)):
            for name in sorted({name for name in names if names.count(name) > 1}):
                yield stage.fault(key, f"{shown(name)} more than once", "each name once")


def _named(sheet: Sheet | None, path: Path) -> Iterator[tuple[Sheet, Path, str]]:
    parts = None if sheet is None else sheet.at(path)
    for index, part in enumerate(parts if isinstance(parts, list) else ()):
        if sheet is not None and isinstance(part, dict) and isinstance(part.get("name"), str):
            yield sheet, (*path, index, "name"), composed(part["name"])


def _twice(parts: Iterable[tuple[Sheet, Path, str]]) -> Iterator[Fault]:
    first: dict[str, tuple[Sheet, Path]] = {}
    for sheet, path, name in parts:
        if name not in first:
            first[name] = (sheet, path)
            continue
        where, at = first[name]
        line = where.line(at)
        place = (f"{where.file}, " if where is not sheet else "") + (f"line {line}" if line else f"entry {at[-2]}")
        yield sheet.fault(path, f"the name {shown(name)} again", f"each name once (first in {place})")


def circles(draft: Draft) -> Iterator[Fault]:
    """Racks that hang on themselves, openings that wait for themselves."""
    racks: dict[str, tuple[str, ...]] = {
        rack.part.name: (rack.part.on,) if rack.part.on else () for rack in draft.racks
    }
    openings = {opening.part.name: opening.part.after for opening in draft.openings}
    yield from _circles(draft.racks, "on", racks, "a rack that hangs on others, never on itself")
    yield from _circles(draft.openings, "after", openings, "openings that are open before, never itself")


def _circles(entries: Iterable[Any], key: str, leads: Mapping[str, tuple[str, ...]], allowed: str) -> Iterator[Fault]:
    told: set[str] = set()
    for entry in entries:
        way = _way_back(entry.part.name, leads)
        if way and told.isdisjoint(way):
            told.update(way)
            yield entry.fault(key, f"a circle: {' → '.join(way)}", allowed)


def _way_back(start: str, leads: Mapping[str, tuple[str, ...]]) -> list[str]:
    """The names from one back to itself; empty when no way leads back."""
    ways = [[start]]
    seen: set[str] = set()
    while ways:
        way = ways.pop()
        for name in leads.get(way[-1], ()):
            if name == start:
                return [*way, name]
            if name not in seen:
                seen.add(name)
                ways.append([*way, name])
    return []
