"""JSON Schemas of the files that people write, for editors that help while typing."""

from typing import Any

from pydantic import TypeAdapter

from models.gear import Thing
from models.plan import Plan
from models.rulebook import RuleBook
from models.trip import Trip
from models.vehicle import Vehicle

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""The dialect of JSON Schema that pydantic writes."""


def schemas() -> dict[str, dict[str, Any]]:
    """The schema of each kind of file: vehicle, gear, trip, plan and rulebook."""
    return {
        "vehicle": _schema("Vehicle", Vehicle),
        "gear": _schema("Gear list", list[Thing]),
        "trip": _schema("Trip", Trip),
        "plan": _schema("Plan", Plan),
        "rulebook": _partial(_schema("Rule book of your own", RuleBook)),
    }


def _schema(title: str, kind: Any) -> dict[str, Any]:
    found = TypeAdapter(kind).json_schema(by_alias=True)
    return {"$schema": DIALECT, **_with_empties(found), "title": title}


def _with_empties(part: Any) -> Any:
    """As people may write it: whatever has a default may also be left empty."""
    if isinstance(part, list):
        return [_with_empties(inner) for inner in part]
    if not isinstance(part, dict):
        return part
    found = {key: _with_empties(value) for key, value in part.items()}
    for key, field in (found.get("properties") or {}).items():
        if key not in found.get("required", ()) and isinstance(field, dict) and "default" in field:
            found["properties"][key] = _or_nothing(field)
    return found


_OUTSIDE = ("description", "default", "title")


def _or_nothing(field: dict[str, Any]) -> dict[str, Any]:
    inner = {key: value for key, value in field.items() if key not in _OUTSIDE}
    if {"type": "null"} in inner.get("anyOf", ()):
        return field
    outer = {key: field[key] for key in _OUTSIDE if key in field}
    return {**outer, "anyOf": [inner, {"type": "null"}]}


def _partial(schema: dict[str, Any]) -> dict[str, Any]:
    """A rule book's file need only hold what it overrides, each group of figures with its source."""
    groups = [schema, *schema.get("$defs", {}).values()]
    for group in groups:
        needed = [key for key in ("source",) if key in group.get("properties", {})]
        group.pop("required", None)
        if needed:
            group["required"] = needed
    return schema
