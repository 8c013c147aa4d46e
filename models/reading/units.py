"""Texts with a unit, turned into the unit of their key."""

import re
from typing import NamedTuple

_POUND_KG = 0.45359237
"""Kilograms of an avoirdupois pound, exact by definition (international yard and pound, 1959)."""

_INCH_MM = 25.4
"""Millimetres of an inch, exact by definition (international yard and pound, 1959)."""

FACTORS: dict[str, dict[str, float]] = {
    "kg": {"kg": 1, "kgs": 1, "g": 0.001, "t": 1000, "lb": _POUND_KG, "lbs": _POUND_KG, "oz": _POUND_KG / 16},
    "mm": {"mm": 1, "cm": 10, "m": 1000, "in": _INCH_MM, "inch": _INCH_MM, "inches": _INCH_MM, '"': _INCH_MM,
           "ft": 12 * _INCH_MM},
    "l": {"l": 1, "litre": 1, "litres": 1, "liter": 1, "liters": 1, "ml": 0.001, "cl": 0.01, "dl": 0.1, "m3": 1000,
          "us gal": 3.785411784, "imp gal": 4.54609},
    "s": {"s": 1, "sec": 1, "min": 60, "h": 3600},
    "dan": {"dan": 1, "n": 0.1, "kn": 100},
    "share": {"": 1, "%": 0.01},
}  # fmt: skip
"""What one of each unit is in the unit of the key. Gallons: 231 cubic inches, and 4.54609 l, by definition."""

WORDS = {
    "kg": "kilograms", "mm": "millimetres", "l": "litres", "s": "seconds", "dan": "decanewtons",
    "share": "a share, 0 to 1",
}  # fmt: skip
"""The units in words."""

_SPECIAL = {
    "uses_up": "kg", "fills": "kg", "on_racks": "kg", "mm": "mm", "kg": "kg", "seconds": "s", "left": "share",
    "filled": "share",
    "front_share_min": "share", "side_difference_share": "share", "source": "text", "because": "text", "name": "text",
    "words": "text", "caution": "text",
}  # fmt: skip

_QUANTITY = re.compile(
    r"\s*([-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?)\s*([A-Za-z%\"][A-Za-z0-9 ]*?)?\.?\s*"
)
_COMMA = re.compile(r"\s*[-+]?[0-9]+,[0-9]+\s*[A-Za-z%\"]*\s*")
_PARTED = re.compile(r"\s*([-+]?[1-9][0-9]{0,2}),([0-9]{3})(?![0-9])(.*)", re.DOTALL)
"""A comma before exactly three digits, which may as well part the thousands."""


class NotUnderstoodError(ValueError):
    """A text that looks like a quantity and is none; its arguments are what is allowed and a hint."""


class Quantity(NamedTuple):
    """A text that was understood: its value in the unit asked for, and the unit that stood there."""

    value: float
    unit: str


def unit_of(key: str) -> str | None:
    """The unit that a key's name promises; `text` for keys that never hold a number."""
    if key in _SPECIAL:
        return _SPECIAL[key]
    before, _, tail = key.rpartition("_")
    per = before.endswith("per")  # `fluids_kg_per_l` is in no unit that a text may have
    return tail if before and not per and tail in FACTORS and tail != "share" else None


def _comma(text: str) -> NotUnderstoodError:
    parted = _PARTED.fullmatch(text)
    if parted is None:
        return NotUnderstoodError(f"a number with a point: {text.replace(',', '.').strip()}", "")
    before, after, unit = parted[1], parted[2], parted[3].rstrip()
    broken = f"{before}.{after}".rstrip("0").rstrip(".")
    return NotUnderstoodError("a number without a comma", f"{before}{after}{unit}, or {broken}{unit}?")


def quantity(text: str, unit: str) -> Quantity | None:
    """A number with or without a unit; None for other texts.

    Raises
    ------
    NotUnderstoodError
        A decimal comma, a gallon of no country, a unit of something else.
    """
    if _COMMA.fullmatch(text):
        raise _comma(text)
    found = _QUANTITY.fullmatch(text)
    if found is None or len(text) > 40:
        return None
    name = (found[2] or "").strip().lower()
    if name in {"gal", "gals", "gallon", "gallons"} and unit == "l":
        raise NotUnderstoodError("litres, `us gal` or `imp gal`", "a gallon is 3.785 or 4.546 litres")
    factors = FACTORS[unit]
    if name and name not in factors:
        raise NotUnderstoodError(f"{WORDS[unit]}, or one of the units {', '.join(u for u in factors if u)}", "")
    return Quantity(float(found[1]) * factors.get(name, 1), name)
