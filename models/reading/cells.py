"""Cells of a gear list from a spreadsheet: texts made into what the key wants."""

import re
from typing import Any

from models.reading.scalars import FLAGS, tidy, whole

FLAG_KEYS = frozenset(
    {"approved_can", "wet", "electrical", "valuable", "food", "together", "all_or_none", "tied", "two_person"}
)
LIST_KEYS = frozenset({"needed_when", "suits", "with"})
MAP_KEYS = frozenset({"uses_up", "fills", "air_gap_mm"})
NUMBER_KEYS = frozenset(
    {"count", "mass_kg", "volume_l", "uses_per_day", "holds_l", "net_kg", "bears_kg", "carry", "spread"}
)
SIZE_KEYS = frozenset({"size_mm"})
TEXT_KEYS = frozenset(
    {"name", "known_from", "shape", "turns", "access", "hazard", "holder", "weather", "keep", "kit", "packer"}
)
"""The keys of a thing by what their cells hold."""

_YES = {**FLAGS, "x": True, "X": True, "1": True, "0": False, "wahr": True, "y": True, "n": False}
_NUMBER = re.compile(r"[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?")
_DECIMAL_COMMA = re.compile(r"(?<![0-9.,])([-+]?[0-9]+),([0-9]+)(?![0-9.,])")


class Cells:
    """How one list writes its cells; remembers whether a decimal comma was read."""

    def __init__(self, separator: str) -> None:
        self.commas = separator != ","
        self.first_comma: str | None = None

    def value(self, key: str, text: str) -> Any:
        """What a cell that is not empty holds; text that is not understood stays text, for the models to refuse."""
        if key in FLAG_KEYS:
            return _YES.get(text.lower(), text)
        if key in LIST_KEYS:
            return [part.strip() for part in re.split(r"[;|]", text) if part.strip()]
        if key in MAP_KEYS:
            return self._map(text)
        if key in NUMBER_KEYS | SIZE_KEYS:
            return self._number(text)
        return text

    def _map(self, text: str) -> Any:
        found: dict[str, Any] = {}
        for part in re.split(r"[;|]", text):
            name, equals, value = (piece.strip() for piece in part.partition("="))
            if not part.strip():
                continue
            if not equals or not name or name in found:
                return text
            found[name] = self._number(value)
        return found

    def _number(self, text: str) -> Any:
        if self.commas and _DECIMAL_COMMA.search(text):
            self.first_comma = self.first_comma or text
            text = _DECIMAL_COMMA.sub(r"\1.\2", text)
        if not _NUMBER.fullmatch(text):
            return text
        return whole(text.lstrip("+")) if text.lstrip("+-").isdecimal() else tidy(float(text))
