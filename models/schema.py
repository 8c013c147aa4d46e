"""JSON Schemas of the files that people write, for editors that help while typing."""

import ast
import inspect
from functools import cache
from itertools import pairwise
from textwrap import dedent
from typing import Any, cast

from pydantic import TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from models.gear import Thing
from models.plan import Plan
from models.rulebook import RuleBook
from models.trip import Trip
from models.vehicle import Vehicle

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""The dialect of JSON Schema that pydantic writes."""


_TITLE_AND_TYPE: dict[str, tuple[str, Any]] = {
    "vehicle": ("Vehicle", Vehicle),
    "gear": ("Gear list", list[Thing]),
    "trip": ("Trip", Trip),
    "plan": ("Plan", Plan),
    "rulebook": ("Rule book of your own", RuleBook),
}
KINDS = tuple(_TITLE_AND_TYPE)
"""The kinds of files that have a schema."""


def schema_of(kind: str) -> dict[str, Any]:
    """The schema of one of `KINDS`."""
    title, type_ = _TITLE_AND_TYPE[kind]
    made = TypeAdapter(type_).json_schema(by_alias=True, schema_generator=_WithDocstrings)
    found = {"$schema": DIALECT, **_with_empties(made), "title": title}
    return _partial(found) if kind == "rulebook" else found


class _WithDocstrings(GenerateJsonSchema):
    """Gives every field the docstring under it as its description.

    Pydantic does so by itself where a model asks for it, but then it reads all sources at each start of a command.
    """

    def model_schema(self, schema: core_schema.ModelSchema) -> JsonSchemaValue:
        found = super().model_schema(schema)
        kind: Any = schema["cls"]
        for name, text in _docstrings(kind).items():
            key = kind.model_fields[name].alias or name
            found["properties"][key] = {**found["properties"][key], "description": text}
        return found


@cache
def _docstrings(kind: type) -> dict[str, str]:
    """By field of a class: the docstring under it."""
    body = cast("ast.ClassDef", ast.parse(dedent(inspect.getsource(kind))).body[0]).body
    return {
        field.target.id: inspect.cleandoc(text.value.value)
        for field, text in pairwise(body)
        if isinstance(field, ast.AnnAssign)
        and isinstance(field.target, ast.Name)
        and isinstance(text, ast.Expr)
        and isinstance(text.value, ast.Constant)
        and isinstance(text.value.value, str)
    }


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
