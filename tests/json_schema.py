"""The keywords of JSON Schema that the schemas of the files use, for tests that hold values against them."""

import re
from typing import Any

TYPES: dict[str, Any] = {"object": dict, "array": list, "string": str, "boolean": bool, "null": type(None)}
SAYS_NOTHING = {"title", "description", "default", "$schema", "$defs"}


def is_a(name: str, value: Any) -> bool:
    if name in {"number", "integer"}:
        number = isinstance(value, int | float) and not isinstance(value, bool)
        return number and (name == "number" or float(value).is_integer())
    return isinstance(value, TYPES[name])


def fits(node: Any, value: Any, root: dict[str, Any]) -> bool:
    """Whether a value fits a part of a schema; no keyword is passed over."""
    if isinstance(node, bool):
        return node
    key = (id(node), id(value))
    if key not in SEEN:
        found = all(_holds(word, node, value, root) for word in node if word not in SAYS_NOTHING)
        if id(value) not in KEPT:
            return found
        SEEN[key] = found
    return SEEN[key]


SEEN: dict[tuple[int, int], bool] = {}
"""What was found of values that are kept."""

KEPT: set[int] = set()
"""Identities of values that stay what they are as long as the tests run; each is held against a part once."""


def _holds(word: str, node: dict[str, Any], value: Any, root: dict[str, Any]) -> bool:
    said = node[word]
    if word == "additionalProperties":
        known = node.get("properties", {})
        return (
            all(fits(said, other, root) for key, other in value.items() if key not in known)
            if is_a("object", value)
            else True
        )
    if word == "if":
        return fits(node.get("then" if fits(said, value, root) else "else", True), value, root)
    only, holds = KEYWORDS[word]
    return (only is not None and not is_a(only, value)) or holds(said, value, root)


KEYWORDS: dict[str, tuple[str | None, Any]] = {
    "$ref": (None, lambda said, value, root: fits(root["$defs"][said.rpartition("/")[2]], value, root)),
    "type": (None, lambda said, value, _: is_a(said, value)),
    "const": (None, lambda said, value, _: value == said),
    "enum": (None, lambda said, value, _: value in said),
    "anyOf": (None, lambda said, value, root: any(fits(one, value, root) for one in said)),
    "oneOf": (None, lambda said, value, root: sum(fits(one, value, root) for one in said) == 1),
    "not": (None, lambda said, value, root: not fits(said, value, root)),
    "then": (None, lambda *_: True),  # told with its `if`
    "else": (None, lambda *_: True),
    "minimum": ("number", lambda said, value, _: value >= said),
    "maximum": ("number", lambda said, value, _: value <= said),
    "exclusiveMinimum": ("number", lambda said, value, _: value > said),
    "minLength": ("string", lambda said, value, _: len(value) >= said),
    "maxLength": ("string", lambda said, value, _: len(value) <= said),
    "pattern": ("string", lambda said, value, _: re.search(said, value) is not None),
    "minItems": ("array", lambda said, value, _: len(value) >= said),
    "maxItems": ("array", lambda said, value, _: len(value) <= said),
    "items": ("array", lambda said, value, root: all(fits(said, one, root) for one in value)),
    "prefixItems": ("array", lambda said, value, root: all(map(lambda s, v: fits(s, v, root), said, value))),
    "required": ("object", lambda said, value, _: set(said) <= set(value)),
    "propertyNames": ("object", lambda said, value, root: all(fits(said, key, root) for key in value)),
    "properties": (
        "object",
        lambda said, value, root: all(fits(said[k], v, root) for k, v in value.items() if k in said),
    ),
}
"""By keyword: the values that it speaks of, all where nothing is named, and whether one holds it."""
