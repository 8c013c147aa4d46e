"""Values as people write them, made into what the models want: units, sizes and ranges in one text, empty keys."""

import math
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from pydantic import BaseModel

from models.base import Described
from models.reading.faults import Fault, shown
from models.reading.rounding import Exact, fitted, whole_mm
from models.reading.scalars import tidy
from models.reading.sheet import Path, Sheet
from models.reading.units import NotUnderstoodError, quantity, unit_of

_TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)
_TAIL = re.compile(r"(.*?[0-9.])\s*([a-z\"]+)\s*", re.IGNORECASE)

_FRACTION = (
    "whole millimetres, or another unit behind the last side, such as 45x30x19.5 cm",
    "a point parts off tenths and no thousands",
)
"""What is allowed for a side with a fraction of a millimetre, and a hint; the models refuse it elsewhere."""

MAPS = frozenset(
    {"uses_up", "fills", "left", "filled", "on_racks", "taken_on_l", "aboard_l", "aboard_kg", "air", "streams", "tanks",
     "fluids_kg_per_l", "hazards", "share", "sides", "turned_deg"}
)  # fmt: skip
"""Mappings whose keys are names of people's own."""


def _fields(model: type[BaseModel]) -> Iterator[str]:
    for name, field in model.model_fields.items():
        if not field.is_required():
            yield field.alias or name


@cache
def empty_means_default() -> frozenset[str]:
    """Keys that may be left empty; `up_to_kg` is not among them, as nothing there means anything heavier."""
    return frozenset(key for model in Described.__subclasses__() for key in _fields(model)) - {"up_to_kg"}


class Reader:
    """Goes through a sheet once, changing it in place."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.faults: list[Fault] = []
        self.notes: list[str] = []
        self._optional = empty_means_default()
        self._exact: Exact = sheet.exact
        self._told: dict[Path, int] = {}
        """By place of a length: which of the notes tells it."""

    def run(self) -> None:
        """Understand every text value of the sheet that its key gives a unit."""
        self.sheet.data = self._part(self.sheet.data, (), None)
        self._fit()

    def _part(self, value: Any, path: Path, unit: str | None, *, named: bool = False) -> Any:
        """A part; `named`: its key is a name of people's own, which may be that of any field."""
        if isinstance(value, dict):
            return self._mapping(value, path, unit, own_names=not named and path[-1:] != () and path[-1] in MAPS)
        if isinstance(value, list | tuple):
            return [self._part(inner, (*path, i), unit) for i, inner in enumerate(value)]
        if isinstance(value, float):
            return tidy(value)
        if isinstance(value, str) and unit not in {None, "text"}:
            return self._text(value, path, str(unit))
        return value

    def _mapping(self, value: dict[Any, Any], path: Path, unit: str | None, *, own_names: bool) -> dict[str, Any]:
        last = path[-1] if path else ""
        found: dict[str, Any] = {}
        for raw_key, inner in value.items():
            key = "on" if raw_key is True else str(raw_key)  # other YAML readers take `on` for yes
            if inner is None and not own_names and key in self._optional:
                continue
            below = (None if unit == "text" else unit) or (
                ("share" if last == "tanks" else None) if own_names else unit_of(key)
            )
            of_key = "text" if key == "source" and not own_names else below
            found[key] = self._part(inner, (*path, key), of_key, named=own_names)
        return found

    def _text(self, text: str, path: Path, unit: str) -> Any:
        try:
            several = self._several(text, path, unit)
            return self._one(text, path, unit) if several is None else several
        except NotUnderstoodError as problem:
            self.faults.append(self.sheet.fault(path, shown(text), problem.args[0], problem.args[1]))
            return _stand_in(path)

    def _several(self, text: str, path: Path, unit: str) -> Any:
        key = path[-1]
        if key == "size_mm" and len(parts := _TIMES.split(text.strip())) != 3:
            raise NotUnderstoodError("three sides, such as 450x300x250", "")
        if key == "size_mm":
            tail = _TAIL.fullmatch(parts[2])
            name = tail[2] if tail else ""
            sides = [part if _TAIL.fullmatch(part) else f"{part} {name}" for part in parts]
            values = [self._one(side, (*path, axis), unit, quiet=True) for axis, side in enumerate(sides)]
            if name:
                self._tell(path, text, str(values), unit)
            return values
        if key == "mass_kg" and "claims" not in path and len(masses := text.split("/")) == 3:
            values = [self._one(mass, path, unit, quiet=True) for mass in masses]
            self._tell(path, text, "least {}, likely {}, most {}".format(*values), unit)
            return dict(zip(("least", "likely", "most"), values, strict=True))
        return None

    def _one(self, text: str, path: Path, unit: str, *, quiet: bool = False) -> Any:
        found = quantity(text, unit)
        if found is None:
            return text
        as_typed = unit == "mm" and found.unit in {"", "mm"}
        if as_typed and quiet and not found.value.is_integer():
            raise NotUnderstoodError(*_FRACTION)
        value = tidy(found.value if as_typed else float(_rounded(found.value, path, unit)))
        if unit == "mm" and not as_typed and math.isfinite(found.value):
            self._exact[path] = found.value
        if not quiet:
            self._tell(path, text, f"{value}", unit)
        return value

    def _tell(self, path: Path, text: str, value: str, unit: str) -> None:
        self._told[path] = len(self.notes)
        self.sheet.typed[path] = text
        self.notes.append(self.sheet.read_as(path, value, unit))

    def _fit(self) -> None:
        """Corner and size of spaces and solids together, and what is told of them."""
        for one in list(fitted(self.sheet.data, self._exact)):
            part = self.sheet.at(one.path)
            for key, whole in (("corner_mm", one.corner_mm), ("size_mm", one.size_mm)):
                for axis, value in enumerate(whole):
                    self._refit(part[key], (*one.path, key), axis, value)

    def _refit(self, values: list[Any], path: Path, axis: int, value: int) -> None:
        before, values[axis] = values[axis], value
        if before == value:
            return
        self._exact.setdefault((*path, axis), before)
        at = next((place for place in (path, (*path, axis)) if place in self._told), None)
        if at is None:
            told = f"{before} read as {value} mm, as the corner and the size are whole together"
            self.notes.append(self.sheet.note((*path, axis), told))
        else:
            self.notes[self._told[at]] = self.sheet.read_as(at, str(values if at == path else value), "mm")


def _rounded(value: float, path: Path, unit: str) -> float:
    """Whole millimetres, where another unit is turned into them; grams; millionths of what else there is."""
    if not math.isfinite(value):
        return value
    return whole_mm(value, path) if unit == "mm" else round(value, 3 if unit == "kg" else 6)


def _stand_in(path: Path) -> Any:
    """Something lawful where a fault has been told already, so that it is not told twice."""
    return [1, 1, 1] if path[-1] == "size_mm" else 1
