"""All files of a trip as far as they can be used: the parts that are sound by themselves."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from models.base import MOST_COPIES, MOST_PARTS, composed
from models.gear import Thing
from models.reading.faults import Fault
from models.reading.known import Known
from models.reading.sheet import Path, Sheet, path_text
from models.rulebook import RuleBook
from models.spaces import Space
from models.trip import Lock, Person, Stage, Stream, Towing
from models.vehicle import CargoBarrier, Fitting, Kerb, Limits, Opening, Outline, Rack, Seat, Tank

UNKNOWN_KEY = "an unknown key"
"""How a sentence on a key that nobody knows begins."""

MOST = {
    **dict.fromkeys(("spaces", "racks", "openings", "seats", "tanks", "fittings", "people"), MOST_PARTS),
    "placements": MOST_COPIES,
}
"""Lists of which a model reads only so many parts: more, which it refuses, are left at that."""

SINGLE = frozenset({"kerb", "cargo_barrier"})
"""Parts that stand by themselves, in no list."""

Part = TypeVar("Part", bound=BaseModel)


@dataclass(frozen=True)
class Entry(Generic[Part]):
    """A part of a file and where it stands: a sound one as its model, or the data as it stands."""

    sheet: Sheet
    path: Path
    part: Part

    def fault(self, key: Path | str, found: str, allowed: str, hint: str = "") -> Fault:
        """A fault at a key of this part."""
        return self.sheet.fault(self._at(key), found, allowed, hint)

    def note(self, key: Path | str, says: str) -> str:
        """A remark at a key of this part."""
        return self.sheet.note(self._at(key), says)

    def _at(self, key: Path | str) -> Path:
        return (*self.path, *((key,) if isinstance(key, str) else key))


@dataclass
class Draft:
    """The sheets of a case; None for one that could not be read, which then is not held against the others."""

    vehicle: Sheet | None
    gear: tuple[Sheet, ...]
    trip: Sheet | None
    rulebook: RuleBook | None
    gear_complete: bool
    """Whether every gear list could be read, and is a list."""
    told: tuple[Fault, ...] = ()
    """Faults that were found before; parts that hold one are left out."""
    own_book: Sheet | None = None
    """The trip's own file over the shipped rule book. None: there is none."""
    _known: dict[tuple[str, ...], Known | None] = field(default_factory=dict)
    """What `known` has been asked for."""

    def entries(self, sheet: Sheet | None, key: str, model: type[Part]) -> tuple[Entry[Part], ...]:
        """The sound parts of a list in a sheet; the sheet itself is the list when the key is empty."""
        found = (self.entry(sheet, path, model) for path in self._paths(sheet, key))
        return tuple(entry for entry in found if entry is not None)

    def _paths(self, sheet: Sheet | None, key: str) -> list[Path]:
        """Where the parts of a list stand; none where there are more than the model reads."""
        parts = None if sheet is None else sheet.at((key,) if key else ())
        if not isinstance(parts, list) or len(parts) > MOST.get(key, len(parts)):
            return []
        return [(*((key,) if key else ()), i) for i in range(len(parts))]

    def entry(self, sheet: Sheet | None, path: Path, model: type[Part]) -> Entry[Part] | None:
        """One sound part of a sheet; None when it is missing or faulty."""
        data = None if sheet is None else sheet.at(path)
        if sheet is None or not isinstance(data, dict) or self.holds_fault(sheet, path):
            return None
        try:
            return Entry(sheet, path, model.model_validate(data))
        except ValidationError:
            return None

    def parts(self, sheet: Sheet | None, key: str) -> Iterator[Entry[Any]]:
        """The parts of a list, or the one part at a key, sound or not, each with its data as it stands."""
        for path in [(key,)] if key in SINGLE else self._paths(sheet, key):
            data = None if sheet is None else sheet.at(path)
            if sheet is not None and isinstance(data, dict):
                yield Entry(sheet, path, data)

    def holds_fault(self, sheet: Sheet, path: Path) -> bool:
        """Whether a fault was told before at a place or in what stands there."""
        return (sheet.file, path_text(sheet.root, path)) in self._faulty

    def faulty_itself(self, sheet: Sheet, path: Path) -> bool:
        """Whether a fault was told before at the very place."""
        return (sheet.file, path_text(sheet.root, path)) in self._faulty_itself

    @cached_property
    def _faulty_itself(self) -> frozenset[tuple[str, str]]:
        """File and path of every fault told before."""
        return frozenset((fault.file, fault.path) for fault in self.told)

    @cached_property
    def _faulty(self) -> frozenset[tuple[str, str]]:
        """File and path of every part that holds a fault told before."""
        return frozenset((fault.file, start) for fault in self.told for start in _starts(fault.path))

    @cached_property
    def things(self) -> tuple[Entry[Thing], ...]:
        """Sound things of all gear lists."""
        return tuple(entry for sheet in self.gear for entry in self.entries(sheet, "", Thing))

    @property
    def hollow(self) -> Sheet | None:
        """The first gear list where every one could be read and nothing stands in any."""
        return self.gear[0] if self.gear_complete and self.gear and not any(s.data for s in self.gear) else None

    @cached_property
    def spaces(self) -> tuple[Entry[Space], ...]:
        """Sound spaces."""
        return self.entries(self.vehicle, "spaces", Space)

    @cached_property
    def racks(self) -> tuple[Entry[Rack], ...]:
        """Sound racks."""
        return self.entries(self.vehicle, "racks", Rack)

    @cached_property
    def openings(self) -> tuple[Entry[Opening], ...]:
        """Sound openings."""
        return self.entries(self.vehicle, "openings", Opening)

    @cached_property
    def seats(self) -> tuple[Entry[Seat], ...]:
        """Sound seats."""
        return self.entries(self.vehicle, "seats", Seat)

    @cached_property
    def tanks(self) -> tuple[Entry[Tank], ...]:
        """Sound tanks."""
        return self.entries(self.vehicle, "tanks", Tank)

    @cached_property
    def fittings(self) -> tuple[Entry[Fitting], ...]:
        """Sound fittings."""
        return self.entries(self.vehicle, "fittings", Fitting)

    @cached_property
    def kerb(self) -> Entry[Kerb] | None:
        """The kerb weighing, when sound."""
        return self.entry(self.vehicle, ("kerb",), Kerb)

    @cached_property
    def outline(self) -> Entry[Outline] | None:
        """The outline, when sound."""
        return self.entry(self.vehicle, ("outline_mm",), Outline)

    @cached_property
    def limits(self) -> Entry[Limits] | None:
        """The vehicle's limits, when sound."""
        return self.entry(self.vehicle, ("limits",), Limits)

    @cached_property
    def barrier(self) -> Entry[CargoBarrier] | None:
        """The cargo barrier, when there is a sound one."""
        return self.entry(self.vehicle, ("cargo_barrier",), CargoBarrier)

    @cached_property
    def people(self) -> tuple[Entry[Person], ...]:
        """Sound people."""
        return self.entries(self.trip, "people", Person)

    @cached_property
    def stages(self) -> tuple[Entry[Stage], ...]:
        """Sound stages."""
        return self.entries(self.trip, "stages", Stage)

    @cached_property
    def locks(self) -> tuple[Entry[Lock], ...]:
        """Sound locks."""
        return self.entries(self.trip, "locks", Lock)

    @cached_property
    def towing(self) -> Entry[Towing] | None:
        """The trailer, when there is a sound one."""
        return self.entry(self.trip, ("towing",), Towing)

    @cached_property
    def trailers(self) -> tuple[Entry[Towing], ...]:
        """The trailer as the trip has it and as stages have it, where they are sound."""
        paths: list[Path] = [("towing",), *((*stage.path, "towing") for stage in self.stages)]
        found = (self.entry(self.trip, path, Towing) for path in paths)
        return tuple(entry for entry in found if entry is not None)

    @cached_property
    def streams(self) -> dict[str, Stream]:
        """Sound streams by name."""
        data = None if self.trip is None else self.trip.at(("streams",))
        names = data if isinstance(data, dict) else {}
        found = {name: self.entry(self.trip, ("streams", name), Stream) for name in names}
        return {composed(name): entry.part for name, entry in found.items() if entry is not None}

    def known(self, kinds: tuple[str, ...]) -> Known | None:
        """Every name of some kinds, made once; None as in `names`."""
        if kinds not in self._known:
            lists = [self.names(kind) for kind in kinds]
            every = [found for found in lists if found is not None]
            self._known[kinds] = Known(sum(every, ())) if len(every) == len(lists) else None
        return self._known[kinds]

    def names(self, kind: str) -> tuple[str, ...] | None:
        """Every name of a kind, of faulty parts too; None when the file that has them could not be read."""
        if kind in {"things", "kits"}:
            key = "name" if kind == "things" else "kit"
            return (
                tuple(name for sheet in self.gear for name in _texts(sheet.data, key)) if self.gear_complete else None
            )
        if kind in {"fluids", "hazards"}:
            book = self.rulebook
            return None if book is None else tuple(book.fluids_kg_per_l if kind == "fluids" else book.hazards)
        sheet = self.trip if kind in {"people", "stages"} else self.vehicle
        if sheet is None or not isinstance(sheet.data, dict):
            return None
        data = sheet.at((kind,))
        if data is None and any(
            fault.file == sheet.file and fault.found.startswith(UNKNOWN_KEY) for fault in self.told
        ):
            return None  # it may well stand there under a misspelt key
        return tuple(map(composed, data)) if isinstance(data, dict) else tuple(_texts(data, "name"))


def _starts(path: str) -> Iterator[str]:
    """A path as people read it, and those of all parts around it."""
    yield path
    yield from (path[:end] for end, letter in enumerate(path) if letter in ".[")


def _texts(data: Any, key: str) -> Iterator[str]:
    for part in data if isinstance(data, list) else ():
        if isinstance(part, dict) and isinstance(part.get(key), str):
            yield composed(part[key])
