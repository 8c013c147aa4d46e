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

from models.as_written import AsWritten
from models.gear import Thing
from models.plan import Plan
from models.reading.shipped import shipped_rulebook
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
    shipped = shipped_rulebook().model_dump(by_alias=True) if kind == "rulebook" else None
    return {"$schema": DIALECT, **AsWritten(made).run(shipped), "title": title}


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
        return {**found, **_TOGETHER.get(kind.__name__, {})}


def _given(*keys: str) -> dict[str, Any]:
    """Some keys with something behind them."""
    return {"properties": {key: {"not": {"type": "null"}} for key in keys}, "required": list(keys)}


_TOGETHER: dict[str, dict[str, Any]] = {
    "Thing": {
        "if": _given("volume_l"),
        "then": {"properties": {"size_mm": {"type": "null"}, "shape": {"const": "soft"}}, "required": ["shape"]},
        "else": _given("size_mm"),
    },
    "Kerb": {
        "if": {"anyOf": [_given("front_kg"), _given("rear_kg")]},
        "then": _given("front_kg", "rear_kg"),
        "else": _given("total_kg"),
    },
}
"""Which fields of a class have to be given together, and which instead of each other."""


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
