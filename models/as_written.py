"""A schema of what the models hold, made into one of the file as people write it.

Where a key has a unit a text may stand for a number, and whatever may be left out may be left empty. A rule book's file
holds only what it changes.
"""

import re
from collections.abc import Mapping
from typing import Any

from models.reading.units import FACTORS, unit_of
from models.reading.values import MAPS, empty_means_default

LONGEST_TEXT = 40
"""Most characters of a text that is read as a number with a unit."""

Node = dict[str, Any]

_OUTSIDE = ("description", "default", "title")
_NUMBERS = ("number", "integer")
_POWER = r"([eE][-+]?[0-9]+)?"
_ANY = rf"([0-9]+\.?[0-9]*|\.[0-9]+){_POWER}"
_WHOLE = r"[0-9]+\.?0*"


class AsWritten:
    """Goes through a schema once; what it refers to is written once for each way in which it is met."""

    def __init__(self, schema: Node) -> None:
        self._named: Node = schema.get("$defs", {})
        self._found: Node = {}
        self._empties = empty_means_default()
        self._schema = {key: value for key, value in schema.items() if key != "$defs"}

    def run(self, shipped: Mapping[str, Any] | None = None) -> Node:
        """The schema; `shipped`: the file is laid over these data, key by key, and need not repeat them."""
        whole = self._part(self._schema, "", None, shipped)
        return {**whole, "$defs": dict(sorted(self._found.items()))} if self._found else whole

    def _part(self, node: Node, key: str, unit: str | None, under: Any) -> Node:
        """A part at a key, with the unit that the keys around it promise, over some shipped data."""
        if "$ref" in node:
            return self._reference(node, key, unit, under)
        if node.get("type") in _NUMBERS:
            return _or_text(node, unit)
        found = dict(node)
        for either in ("anyOf", "oneOf"):
            if either in node:
                found[either] = [one for way in node[either] for one in _ways(self._part(way, key, unit, under))]
        if node.get("type") == "array":
            return self._list(found, key, unit)
        if "properties" in node:
            return self._fields(found, unit, under)
        if node.get("type") == "object":
            return self._names(found, key, unit, under)
        return found

    def _reference(self, node: Node, key: str, unit: str | None, under: Any) -> Node:
        name = node["$ref"].rpartition("/")[2]
        over = isinstance(under, dict)
        new = name + (f"_in_{unit}" if unit else "") + ("_over_shipped" if over else "")
        if new not in self._found:
            self._found[new] = {}  # it may refer to itself
            self._found[new] = self._part(self._named[name], "", unit, under)
        found = {**node, "$ref": f"#/$defs/{new}"}
        if (name, key) == ("Mass", "mass_kg"):
            one = rf"\s*\+?{_ANY}\s*({_units('kg')})?\.?\s*"
            return _either(found, {"type": "string", "pattern": f"^{one}/{one}/{one}$"})
        return found

    def _list(self, found: Node, key: str, unit: str | None) -> Node:
        if "items" in found:
            found["items"] = self._part(found["items"], "", unit, None)
        if "prefixItems" in found:
            found["prefixItems"] = [self._part(one, "", unit, None) for one in found["prefixItems"]]
        return _either(found, {"type": "string", "pattern": _SIZE}) if key == "size_mm" else found

    def _fields(self, found: Node, unit: str | None, under: Any) -> Node:
        over = under if isinstance(under, dict) else None
        if over is not None:
            found["required"] = [key for key in ("source",) if key in found["properties"]]
            if not found["required"]:
                del found["required"]
        found["properties"] = {
            key: self._field(key, field, unit, over, may_be_empty=key not in found.get("required", ()))
            for key, field in found["properties"].items()
        }
        return found

    def _field(self, key: str, field: Node, unit: str | None, over: Node | None, *, may_be_empty: bool) -> Node:
        below = unit or unit_of(key)
        part = self._part(field, key, None if below == "text" else below, None if over is None else over.get(key))
        return _or_nothing(part) if may_be_empty and key in self._empties else part

    def _names(self, found: Node, key: str, unit: str | None, under: Any) -> Node:
        """A mapping from names: each name is held against what a name may be, in any place."""
        names, kind = dict(found.get("propertyNames", {})), found.get("additionalProperties")
        for pattern, of_pattern in found.pop("patternProperties", {}).items():
            names["pattern"], kind = pattern, of_pattern
        if not isinstance(kind, dict):
            return found
        below = unit or ("share" if key == "tanks" and key in MAPS else None)
        found["additionalProperties"] = self._part(kind, "", below, None)
        known = {name: self._part(kind, "", below, data) for name, data in (under or {}).items()}
        changed = {name: part for name, part in known.items() if part != found["additionalProperties"]}
        return {**found, **({"propertyNames": names} if names else {}), **({"properties": changed} if changed else {})}


def _either(node: Node, other: Node) -> Node:
    """Another thing that may stand in a place."""
    inner = {key: value for key, value in node.items() if key not in _OUTSIDE}
    outer = {key: node[key] for key in _OUTSIDE if key in node}
    return {**outer, "anyOf": [*_ways(inner), other]}


def _ways(node: Node) -> list[Node]:
    """What may stand in a place, each by itself."""
    ways: list[Node] = node["anyOf"] if set(node) == {"anyOf"} else [node]
    return ways


def _or_nothing(field: Node) -> Node:
    nothing = {"type": "null"}
    return field if nothing in field.get("anyOf", ()) else _either(field, nothing)


def _or_text(node: Node, unit: str | None) -> Node:
    """A number, or a text that says it; how much a text may say is not told, only whether it may be 0 or less."""
    if unit is None:
        return node
    least = node.get("minimum", node.get("exclusiveMinimum"))
    sign = r"[-+]?" if least is None or least < 0 else r"\+?"
    some = r"(?=[\s+0-9.]*[1-9])" if node.get("minimum", 0) > 0 or node.get("exclusiveMinimum") == 0 else ""
    said = rf"{_ANY}\s*({_units(unit)})?"
    if node["type"] == "integer" and unit == "mm":
        said = _SIDE
    if unit == "share" and node.get("maximum") == 1:
        said = _PART
    pattern = rf"^{some}\s*{sign}({said})\.?\s*$"
    return _either(node, {"type": "string", "maxLength": LONGEST_TEXT, "pattern": pattern})


def _units(unit: str, besides: str = "") -> str:
    """The units that may stand for one, in capitals too, the longest first; all but one of them."""
    names = sorted((name for name in FACTORS[unit] if name not in {"", besides}), key=lambda name: (-len(name), name))
    return "|".join("".join(_letter(letter) for letter in name) for name in names)


def _letter(letter: str) -> str:
    return f"[{letter}{letter.upper()}]" if letter.isalpha() else re.escape(letter).replace("\\ ", " ")


_PART = r"0*(1\.?0*|0\.?[0-9]*|\.[0-9]+|([0-9]{1,2}(\.[0-9]*)?|100\.?0*)\s*%)"
"""A part of a whole, up to 1 or 100 %."""

_SIDE = rf"{_WHOLE}\s*([mM][mM])?|{_ANY}\s*({_units('mm', 'mm')})"
"""Whole millimetres, or a number of anything else, which is rounded to them."""

_TIMES = r"\s*[xX×*]\s*"
_EACH = rf"\+?({_SIDE})"
_LAST = rf"\+?{_ANY}(\s*({_units('mm')}))?"
_SIZE = (
    rf"^(?=[^1-9]*[1-9])\s*({_EACH}{_TIMES}{_EACH}{_TIMES}{_EACH}"
    rf"|{_LAST}{_TIMES}{_LAST}{_TIMES}\+?{_ANY}\s*({_units('mm', 'mm')}))\s*$"
)
"""Three sides, such as 450x300x250, each with its own unit, or with that of the last."""
