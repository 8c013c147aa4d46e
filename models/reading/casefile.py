"""From files or plain data to a case: everything is read, everything is checked, every fault is told at once."""

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from models.case import Case
from models.gear import Thing
from models.reading.checks import check_all
from models.reading.draft import Draft
from models.reading.faults import Fault, InputFaults, nearest, shown
from models.reading.kinds import mistaken
from models.reading.loading import Desk
from models.reading.sentences import faults_of, told_at
from models.reading.sheet import Path as Steps
from models.reading.sheet import Sheet
from models.reading.shipped import rulebook_over_shipped, shipped_bytes, shipped_rulebook
from models.rulebook import RuleBook
from models.trip import MOST_LISTS, Trip
from models.vehicle import Vehicle

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True)
class CaseRead:
    """A checked case, and what was converted or looked odd on the way."""

    case: Case
    notes: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    """Those of the notes that ask about what is odd, and tell nothing that was converted."""


@dataclass(frozen=True)
class Opened:
    """A trip's files as far as they can be used, and all that is wrong in them."""

    faults: tuple[Fault, ...]
    digest: str
    draft: Draft | None = None
    """None where the trip's own file cannot be used."""
    read: CaseRead | None = None
    """None where anything is wrong."""


@dataclass
class _Sheets:
    trip: Sheet | None
    vehicle: Sheet | None
    gear: list[Sheet | None]
    rulebook: RuleBook | None
    folder: Path = Path()
    own_book: Sheet | None = None
    """The rule book's file of the trip's own. None: there is none, or it cannot be read."""


def read_case(trip_path: Path) -> CaseRead:
    """The case of a trip's file and the files it names, relative to its folder.

    Raises
    ------
    InputFaults
        Anything that is wrong in any of the files, all at once.
    """
    opened = open_case(trip_path)
    if opened.read is None:
        raise InputFaults(opened.faults)
    return opened.read


def open_case(trip_path: Path) -> Opened:
    """A trip's file and the files it names, relative to its folder."""
    desk = Desk()
    trip_path = Path(trip_path)
    trip = desk.load(trip_path, usual="trip.yaml")
    sheets = _Sheets(trip, None, [], None, trip_path.parent)
    if trip is None:
        return Opened(tuple(desk.faults), _digest(desk.contents))
    if other := mistaken(trip, "trip"):
        return Opened((other,), _digest(desk.contents))
    _load_named(desk, trip, sheets)
    return _opened(desk, sheets, _digest(desk.contents))


def _load_named(desk: Desk, trip: Sheet, sheets: _Sheets) -> None:
    vehicle, gear, own = (trip.at((key,)) for key in ("vehicle", "gear", "rulebook"))
    if isinstance(vehicle, str):
        sheets.vehicle = desk.load(sheets.folder / vehicle, named=_named(trip, ("vehicle",), vehicle))
    lists = [gear] if isinstance(gear, str) else gear
    named = [name for name in lists if isinstance(name, str)] if isinstance(lists, list) else []
    if len(named) > MOST_LISTS:
        named = []  # the model of the trip tells so
    desk.faults += _twice(trip, named)
    at = {name: ("gear", i) if isinstance(gear, list) else ("gear",) for i, name in reversed(list(enumerate(named)))}
    sheets.gear = [
        desk.load(sheets.folder / name, "gear", _named(trip, at[name], name)) for name in dict.fromkeys(named)
    ] or [None]
    if not isinstance(own, str):
        sheets.rulebook = shipped_rulebook()
        return
    over = desk.load(sheets.folder / own, named=_named(trip, ("rulebook",), own))
    if over is not None:
        sheets.own_book = over
        sheets.rulebook, faults = rulebook_over_shipped(over)
        desk.faults += faults


def _named(trip: Sheet, path: Steps, name: str) -> Callable[[Fault], Fault]:
    def at_its_name(fault: Fault) -> Fault:
        hint = "" if names_itself(trip, fault.hint) else fault.hint
        return trip.fault(path, f"{fault.found}: {shown(name)}", fault.allowed, hint)

    return at_its_name


def names_itself(sheet: Sheet, hint: str) -> bool:
    """Whether a hint at the nearest file offers the very file that names it."""
    own = Path(sheet.file).name
    return hint == nearest(own, [own])


def _twice(trip: Sheet, named: list[str]) -> list[Fault]:
    again = [i for i, name in enumerate(named) if name in named[:i]]
    return [trip.fault(("gear", i), f"{shown(named[i])} a second time", "each gear list once") for i in again]


def case_from(
    vehicle: Mapping[str, Any],
    gear: Sequence[Mapping[str, Any]],
    trip: Mapping[str, Any],
    rulebook: RuleBook | Mapping[str, Any] | None = None,
) -> Case:
    """A checked case from plain data in memory, as the three files would hold it; `trip` may leave out the file names.

    Raises
    ------
    InputFaults
        As `read_case`, without lines.
    """
    desk = Desk()
    named = {"vehicle": "vehicle.yaml", "gear": ["gear.yaml"], **trip}
    sheets = _Sheets(
        desk.understood(Sheet("trip", named)),
        desk.understood(Sheet("vehicle", dict(vehicle))),
        [desk.understood(Sheet("gear", [dict(thing) for thing in gear], root="gear"))],
        _book(desk, rulebook),
    )
    opened = _opened(desk, sheets, "")
    if opened.read is None:
        raise InputFaults(opened.faults)
    return opened.read.case


def _book(desk: Desk, given: RuleBook | Mapping[str, Any] | None) -> RuleBook | None:
    if given is None:
        return shipped_rulebook()
    if isinstance(given, RuleBook):
        return given
    book, faults = rulebook_over_shipped(desk.understood(Sheet("rulebook", dict(given))))
    desk.faults += faults
    return book


def _opened(desk: Desk, sheets: _Sheets, digest: str) -> Opened:
    if sheets.trip is not None:
        desk.lay_flush(sheets.trip, sheets.vehicle, (sheet for sheet in sheets.gear if sheet is not None), ("locks",))
    trip = _model(desk, sheets.trip, Trip)
    vehicle = _model(desk, sheets.vehicle, Vehicle)
    things = [thing for sheet in sheets.gear for thing in _things(desk, sheet)]
    complete = all(sheet is not None and isinstance(sheet.data, list) for sheet in sheets.gear)
    read = tuple(sheet for sheet in sheets.gear if sheet is not None)
    draft = Draft(sheets.vehicle, read, sheets.trip, sheets.rulebook, complete, tuple(desk.faults), sheets.own_book)
    found = list(check_all(draft))
    desk.faults += [one for one in found if isinstance(one, Fault)]
    questions = tuple(one for one in found if not isinstance(one, Fault))
    if desk.faults or trip is None or vehicle is None or sheets.rulebook is None:
        return Opened(tuple(desk.faults), digest, draft)
    case = Case(
        vehicle=vehicle, things=tuple(things), trip=trip, rulebook=sheets.rulebook, digest=digest, folder=sheets.folder
    )
    return Opened((), digest, draft, CaseRead(case, (*desk.notes, *questions), questions))


def _model(desk: Desk, sheet: Sheet | None, model: type[Model]) -> Model | None:
    if sheet is None:
        return None
    if not isinstance(sheet.data, dict):
        keys = f"keys such as `{'`, `'.join(list(model.model_fields)[:3])}`"
        desk.faults.append(sheet.fault((), shown(sheet.data), keys))
        return None
    try:
        return model.model_validate(sheet.data)
    except ValidationError as problem:
        desk.faults += faults_of(sheet, model, problem, told_at(desk.faults))
        return None


def _things(desk: Desk, sheet: Sheet | None) -> list[Thing]:
    if sheet is None:
        return []
    if not isinstance(sheet.data, list):
        desk.faults.append(sheet.fault((), shown(sheet.data), "a list of things, each beginning with `- name:`"))
        return []
    found = []
    told = told_at(desk.faults)  # what follows is of other things
    for index, data in enumerate(sheet.data):
        try:
            found.append(Thing.model_validate(data))
        except ValidationError as problem:
            part = Sheet(sheet.file, sheet.data, sheet.lines, sheet.raw, sheet.root, sheet.cells)
            desk.faults += faults_of(part, Thing, problem, told, (index,))
    return found


def _digest(contents: list[bytes]) -> str:
    """sha256 over trip, vehicle, gear lists and rule book, each with its length so that none runs into the next."""
    digest = hashlib.sha256()
    for content in [*contents, shipped_bytes()]:
        digest.update(f"{len(content)}:".encode())
        digest.update(content)
    return f"sha256:{digest.hexdigest()}"
