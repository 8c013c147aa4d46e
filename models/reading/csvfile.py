"""Gear lists from spreadsheets: separators, decimal commas and byte-order marks are read and told."""

import csv
import io
import re
from collections.abc import Collection, Iterator
from itertools import islice
from typing import Any

from models.gear import Thing
from models.reading.cells import Cells
from models.reading.faults import Fault, nearest, shown
from models.reading.files import Unreadable
from models.reading.sheet import Sheet

SEPARATORS = {",": "a comma", ";": "a semicolon", "\t": "a tab"}
SEPARATOR_LINE = re.compile(r'"?sep=([,;\t])"?[,;\t ]*(?:\r\n|\r|\n)', re.IGNORECASE)
"""A first line that spreadsheets write for each other. Common practice, no source."""
MOST_ROWS = 5000
"""Most lines of a list; more is no kit list."""

MOST_COLUMNS = 200
"""Most headings of a list; a thing has some thirty keys."""

TITLES = 10
"""So many lines below the first are looked at for headings."""

STAND_INS: dict[str, Any] = {"size_mm": [1, 1, 1], "uses_up": {}, "fills": {}, "air_gap_mm": {}}
"""Something lawful where a fault is told already, so that it is not told twice; 1 of all other numbers."""

_KEYS = tuple(field.alias or name for name, field in Thing.model_fields.items())


def sheet_from_csv(file: str, text: str) -> tuple[Sheet, list[Fault], list[str]]:
    """The things of a list, each with its line; faults; and what was guessed.

    Raises
    ------
    Unreadable
        No heading, or one that stands below something else, or quotes that never end.
    """
    notes = [f"{file}: begins with a byte-order mark, which was left out"] if text.startswith("\ufeff") else []
    text = text.removeprefix("\ufeff")
    if first := SEPARATOR_LINE.match(text):
        notes.append(f"{file}: begins with a line that names the separator, which was left out")
        text = "\n" + text[first.end() :]
    _refuse_a_title(file, text)
    separator = first[1] if first else _separator(text)
    rows = _rows(file, text, separator)
    line, heads = next(rows, (1, []))
    if not heads:
        raise Unreadable(
            Fault(file, 1, "", "nothing in the file", "a heading with the keys of a thing, and a line for each")
        )
    if (named := sum(map(bool, heads))) > MOST_COLUMNS:
        raise Unreadable(Fault(file, line, "", f"{named} headings", f"at most {MOST_COLUMNS}"))
    keys, faults = _keys_of(file, line, heads)
    sheet = Sheet(file, [], {(): line}, root="gear", cells=True)
    cells = Cells(separator)
    unsure: list[tuple[int, str, Fault]] = []
    for row_line, row in rows:
        faults += _take(sheet, row_line, row, keys, cells, unsure)
    for index, key, fault in unsure if cells.first_comma is not None else ():
        sheet.data[index][key] = STAND_INS.get(key, 1)
        faults.append(fault)
    if separator != ",":
        notes.append(f"{file}: values are separated by {SEPARATORS[separator]}")
    if cells.first_comma is not None:
        notes.append(f"{file}: decimal commas were read as points, the first in {shown(cells.first_comma)}")
    return sheet, faults, notes


def _refuse_a_title(file: str, text: str) -> None:
    """Refuse a list whose headings stand below a title, once and not as many wrong headings."""
    lines = ((n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip(" ,;\t"))
    (top, title), *below = [*islice(lines, TITLES + 1)] or [(1, "")]
    heads = next((n for n, line in below if "name" in (keys := _keys_in(line)) and len(keys) > 1), None)
    if heads is not None and "name" not in (known := _keys_in(title)) and len(known) < 2:
        hint = f"line {heads} looks like the headings; take out what stands above it"
        raise Unreadable(Fault(file, top, "", shown(title.strip(" ,;\t")), "headings with the keys of a thing", hint))


def _keys_in(line: str) -> set[str]:
    """The keys of a thing that stand in a line by themselves, parted in the way that shows most of them."""
    parted = ({cell.strip('" ').lower().replace(" ", "_") for cell in line.split(sign)} for sign in SEPARATORS)
    return max((cells.intersection(_KEYS) for cells in parted), key=len)


def _separator(text: str) -> str:
    heading = next((line for line in text.splitlines() if line.strip()), "")
    counts = {separator: heading.count(separator) for separator in SEPARATORS}
    return max(counts, key=lambda separator: counts[separator])


def _rows(file: str, text: str, separator: str) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True, skipinitialspace=True)
    start = 1
    try:
        for count, row in enumerate(reader):
            if count > MOST_ROWS:
                raise Unreadable(Fault(file, start, "", f"more than {MOST_ROWS} lines", "a list of things"))
            if any(cell.strip() for cell in row):
                yield start, [cell.strip() for cell in row]
            start = reader.line_num + 1
    except csv.Error as problem:
        hint = 'a quote inside a text is written twice: ""'
        raise Unreadable(
            Fault(file, start, "", f"a line that cannot be split: {problem}", "values and quotes", hint)
        ) from None


def _keys_of(file: str, line: int, heads: list[str]) -> tuple[list[str | None], list[Fault]]:
    keys: list[str | None] = []
    faults = []
    for number, head in enumerate(heads, 1):
        known = head in _KEYS and head not in keys
        meant = None if known or not head else _meant(head, (*heads, *(key for key in keys if key)))
        keys.append(head if known or not head else meant)
        if head and not known:
            twice = head in _KEYS
            found = f"the heading {shown(head)}" + (" a second time" if twice else "")
            allowed = "each heading once" if twice else "the keys that `lowstow schema` lists for a thing"
            faults.append(Fault(file, line, f"column {number}", found, allowed, "" if twice else nearest(head, _KEYS)))
    return keys, faults


def _meant(head: str, taken: Collection[str]) -> str | None:
    """The key that a misspelt heading stands for: its column is read so, and its lines are not told as well."""
    hint = nearest(head, _KEYS)
    return next((key for key in _KEYS if hint and key not in taken and hint == nearest(key, [key])), None)


def _take(
    sheet: Sheet,
    line: int,
    row: list[str],
    keys: list[str | None],
    cells: Cells,
    unsure: list[tuple[int, str, Fault]],
) -> list[Fault]:
    """`unsure` gets what is a fault where the list turns out to have decimal commas, with its line and key."""
    index = len(sheet.data)
    sheet.lines[(index,)] = line
    filled = [(key, text) for key, text in zip(keys, row, strict=False) if key and text]
    sheet.data.append({key: cells.value(key, text) for key, text in filled})
    marked = [(key, text, allowed) for key, text in filled if (allowed := cells.thousands(key, text))]
    sheet.data[index] |= {key: STAND_INS.get(key, 1) for key, _, _ in marked}
    faults = [sheet.fault((index, key), shown(text), allowed) for key, text, allowed in marked]
    unsure += [
        (index, key, sheet.fault((index, key), shown(text), allowed, "other numbers of this list have decimal commas"))
        for key, text in filled
        if (allowed := cells.perhaps_thousands(key, text))
    ]
    return faults + _misplaced(sheet, index, row, keys, cells)


def _misplaced(sheet: Sheet, index: int, row: list[str], keys: list[str | None], cells: Cells) -> list[Fault]:
    """Values under no heading, and beyond the last."""
    spare = [cell for cell in row[len(keys) :] if cell]
    nameless = [text for key, text in zip(keys, row, strict=False) if key == "" and text]
    if spare:
        hint = "a value with a comma in it stands in quotes" if not cells.commas else ""
        allowed = f"{len(keys)}, as in the heading"
        return [sheet.fault((index,), f"{len(keys) + len(spare)} values, the last {shown(spare[-1])}", allowed, hint)]
    return [sheet.fault((index,), f"{shown(text)} under no heading", "a heading over every value") for text in nameless]
