"""From a path to a sheet: YAML or a spreadsheet's text, with everything that was understood told."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from models.reading.csvfile import sheet_from_csv
from models.reading.faults import Fault
from models.reading.files import LARGEST_TOGETHER_BYTES, Unreadable, bytes_of, text_of
from models.reading.flush import flush
from models.reading.sheet import Sheet
from models.reading.values import Reader
from models.reading.yamlfile import sheet_from_yaml

SPREADSHEETS = frozenset({".csv", ".tsv", ".txt"})
"""Endings of gear lists that come from a spreadsheet."""


@dataclass
class Desk:
    """What reading has brought so far."""

    faults: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    contents: list[bytes] = field(default_factory=list)
    """The bytes of each file, in the order of reading; they make the digest."""

    def load(
        self, file: Path, root: str = "", named: Callable[[Fault], Fault] = lambda fault: fault, usual: str = ""
    ) -> Sheet | None:
        """The sheet of a file; None, with a fault, when nothing of it can be used.

        `named` says where a file is named that is not there at all; `usual` is how such a file is mostly called.
        """
        try:
            content = bytes_of(file, usual)
            self._refuse_too_much(file, len(content))
            self.contents.append(content)
            text = text_of(file, content)
            return self.understood(self._sheet(file, text, root))
        except Unreadable as problem:
            self.faults.append(problem.fault if problem.fault.line else named(problem.fault))
            return None

    def _refuse_too_much(self, file: Path, size: int) -> None:
        whole = size + sum(map(len, self.contents))
        if whole > LARGEST_TOGETHER_BYTES:
            found = f"{whole / 1e6:.1f} MB in all files together"
            raise Unreadable(Fault(str(file), None, "", found, f"at most {LARGEST_TOGETHER_BYTES / 1e6:.0f} MB"))

    def _sheet(self, file: Path, text: str, root: str) -> Sheet:
        if root == "gear" and file.suffix.lower() in SPREADSHEETS:
            sheet, faults, notes = sheet_from_csv(str(file), text)
            self.notes += notes
        else:
            sheet, yaml_faults = sheet_from_yaml(str(file), text.removeprefix("\ufeff"), root)
            faults = list(yaml_faults)
        self.faults += faults
        return sheet

    def understood(self, sheet: Sheet) -> Sheet:
        """The sheet with units converted and empty keys left out."""
        reader = Reader(sheet)
        reader.run()
        self.faults += reader.faults
        self.notes += reader.notes
        return sheet

    def lay_flush(self, sheet: Sheet, vehicle: Sheet | None, gear: Iterable[Sheet], keys: Sequence[str]) -> None:
        """Places in a sheet that lie in whole millimetres as they were typed, beside what else was read."""
        for path, whole_mm in flush(sheet, vehicle, gear, keys):
            told, corner, axis = sheet.read_as(path, str(sheet.at(path)), "mm"), sheet.at(path[:-1]), path[-1]
            corner[axis] = whole_mm
            self.notes = [sheet.read_as(path, str(whole_mm), "mm") if note == told else note for note in self.notes]
