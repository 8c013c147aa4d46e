"""Cells of a gear list from a spreadsheet: texts made into what the key wants."""

import re
from typing import Any

from models.reading.scalars import FLAGS, tidy, whole

FLAG_KEYS = frozenset(
    {
        "approved_can",
        "wet",
        "electrical",
        "valuable",
        "food",
        "clothes",
        "together",
        "all_or_none",
        "tied",
        "two_person",
    }
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
_THOUSANDS = re.compile(
    r"(?<![0-9.,])(?:[0-9]{1,3}(?:[.' ][0-9]{3})+,[0-9]+|[0-9]{1,3}(?:[,' ][0-9]{3})+\.[0-9]+)(?![0-9.,])"
)
"""A number with both marks: that for thousands can only be the first."""
_PERHAPS_THOUSANDS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2}\.[0-9]{3}(?![0-9.,])")
"""A point and three digits: thousands where others write decimal commas, a thousandth of it where they do not."""


class Cells:
    """How one list writes its cells; remembers whether a decimal comma was read."""

    def __init__(self, separator: str) -> None:
        self.commas = separator != ","
        self.first_comma: str | None = None

    def thousands(self, key: str, text: str) -> str | None:
        """What is allowed instead of a number with a mark for thousands; None where a cell has none."""
        found = _THOUSANDS.search(text) if key in NUMBER_KEYS | SIZE_KEYS | MAP_KEYS else None
        if found is None:
            return None
        at = max(found[0].rfind(mark) for mark in ".,")
        return f"a number without a mark for thousands: {re.sub('[^0-9]', '', found[0][:at])}{found[0][at:]}"

    def perhaps_thousands(self, key: str, text: str) -> str | None:
        """What is allowed instead of a point and three digits, to be asked where the list has decimal commas."""
        known = self.commas and key in NUMBER_KEYS | SIZE_KEYS | MAP_KEYS
        found = _PERHAPS_THOUSANDS.search(text) if known else None
        if found is None:
            return None
        less = f"{float(found[0]):g}".replace(".", ",")
        return f"{found[0].replace('.', '')} where the point marks thousands, else {less}"

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
