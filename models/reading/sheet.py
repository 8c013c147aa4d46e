"""A file that was read: plain data, and the line on which each part of it stands."""

from dataclasses import dataclass, field
from typing import Any

from models.reading.faults import Fault, shown

Path = tuple[str | int, ...]
"""Keys and indices that lead to a part of the data."""


@dataclass
class Sheet:
    """Plain data with its lines; the lines are empty for data made in memory."""

    file: str
    data: Any
    lines: dict[Path, int] = field(default_factory=dict)
    raw: dict[Path, str] = field(default_factory=dict)
    """What stands in the file where an unquoted word was read as something other than text."""
    root: str = ""
    """How the data as a whole is called in a path: `gear` for a list of things."""

    cells: bool = False
    """Whether it is a spreadsheet, in which a list is the text of one cell."""

    exact: dict[Path, float] = field(default_factory=dict)
    """Lengths in mm, as typed in another unit, that were turned into whole millimetres."""

    typed: dict[Path, str] = field(default_factory=dict)
    """What was typed where a note tells as what it was read."""

    def line(self, path: Path) -> int | None:
        """The line of a part, or of the nearest part around it."""
        for end in range(len(path), -1, -1):
            if path[:end] in self.lines:
                return self.lines[path[:end]]
        return None

    def fault(self, path: Path, found: str, allowed: str, hint: str = "") -> Fault:
        """A fault at a part of this file."""
        of = self._called(path, f"{found} {allowed}")
        return Fault(self.file, self.line(path), path_text(self.root, path), found, allowed, hint, of)

    def hint_at_several(self, text: str) -> str:
        """How the words of a list are parted, at a text with commas in it; empty at another."""
        parts = [part.strip() for part in text.split(",") if part.strip()]
        if len(parts) < 2:
            return ""
        told = "; ".join(parts) if self.cells else f"[{', '.join(parts)}]"
        return f"lists are parted by `;`: {told[:60]}" if self.cells else f"each word by itself: {told[:60]}"

    def note(self, path: Path, says: str) -> str:
        """A remark at a part of this file."""
        line = self.line(path)
        where = self.file if line is None else f"{self.file}, line {line}"
        of = self._called(path, says)
        return f"{where}: {path_text(self.root, path)}{f' ({of})' if of else ''}: {says}"

    def read_as(self, path: Path, value: str, unit: str) -> str:
        """A remark on what was typed at a part of this file, and as what it was read."""
        unit_word = "" if unit == "share" else f" {unit}"
        return self.note(path, f"{shown(self.typed[path].strip())} read as {value}{unit_word}")

    def _called(self, path: Path, told: str) -> str:
        """What people call the entry of a list that a path leads into; empty where none is, or `told` says it."""
        for end in range(len(path), 0, -1):
            part = self.at(path[:end]) if isinstance(path[end - 1], int) else None
            if not isinstance(part, dict):
                continue
            key = next((key for key in ("name", "thing") if key in part), None)
            if key is not None:
                name = shown(part[key])
                return "" if name in told or path[end:] == (key,) or not name.startswith('"') else name[1:-1]
        return ""

    def at(self, path: Path) -> Any:
        """The data at a path; None when there is nothing."""
        here = self.data
        for step in path:
            try:
                here = here[step]
            except (KeyError, IndexError, TypeError):
                return None
        return here


def path_text(root: str, path: Path) -> str:
    """A path as people read it: `gear[3].size_mm[1]`."""
    text = root
    for step in path:
        if isinstance(step, int):
            text += f"[{step}]"
        else:
            text += f".{step[:60]}" if text else step[:60]
    return text
