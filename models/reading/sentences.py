"""What the models refuse, said in one sentence a fault."""

from collections.abc import Iterable, Set
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError

from models.reading.draft import UNKNOWN_KEY
from models.reading.faults import Fault, nearest, shown
from models.reading.sheet import Path, Sheet
from models.reading.units import WORDS, unit_of
from models.trip import TRAILER, YES_NO

SPECIAL = {
    "apart": "pairs of names of things or kits, such as [tent, kitchen]",
    "accepts": "`anything` or a list of words such as [jerry can]",
    "carry": "`must` or a whole number from 1 to 100",
    "cg_height_mm": "millimetres above ground up to 5000, or `unknown`",
    "mass_kg": "kilograms from 0 to 100000, or {least, likely, most}",
    "size_mm": "three whole numbers of millimetres from 1 to 30000, [along x, across y, up z]",
    "corner_mm": "three whole numbers of millimetres, [x, y, z]",
    "at_mm": "three numbers of millimetres, [x, y, z]",
}
"""What is allowed for keys that take more than one kind of value."""

_LIMIT = "kilograms from 0 to 100000, `unknown`, or {kg, source}"
_COMMA_HINT = "a decimal comma cuts a number in two; write a point"
_PARTED_HINT = "a comma cuts a number in two; leave it out where it parts thousands, else write a point"
_MOST_KEYS_LISTED = 14


Told = Set[tuple[str, str]]
"""Files and paths of faults that were told before."""


def told_at(faults: Iterable[Fault]) -> Told:
    """Where faults are."""
    return {(fault.file, fault.path) for fault in faults}


def faults_of(
    sheet: Sheet, model: type[BaseModel], problem: ValidationError, told: Told = frozenset(), under: Path = ()
) -> list[Fault]:
    """One fault a place of the sheet, or of its part `under` a path, that a model refuses, told ones left out."""
    found: dict[Path, Fault] = {}
    for error in problem.errors(include_url=False):
        if error["type"] == "too_short" and len(error["input"]) >= error["ctx"]["min_length"]:
            continue  # long enough; its entries are refused one by one
        path, fault = _fault(sheet, model, error, under)
        if (fault.file, fault.path) not in told:
            found.setdefault(path, fault)
    misspelt = {(path[:-1], fault.hint) for path, fault in found.items() if fault.found.startswith(UNKNOWN_KEY)}
    return [
        fault
        for path, fault in found.items()
        if (path[:-1], f'did you mean "{path[-1:] and path[-1]}"?') not in misspelt
    ]


def _fault(sheet: Sheet, model: type[BaseModel], error: Any, under: Path) -> tuple[Path, Fault]:
    loc: Path = (*under, *(step for step in error["loc"] if step not in (TRAILER, YES_NO)))
    kind: str = error["type"]
    if kind == "extra_forbidden":
        return loc, _unknown_key(sheet, model, loc)
    path = _path_in_data(sheet.data, loc)
    if kind == "missing":
        return _missing(sheet, path, loc)
    allowed, hint = _allowed(kind, error, path, loc)
    if kind == "literal_error" and isinstance(path[-1], int):
        hint = sheet.hint_at_several(str(error["input"])) or hint
    return path, sheet.fault(path, _found(sheet, path), allowed, hint or _quotes(kind, sheet, path))


def _path_in_data(data: Any, loc: Path) -> Path:
    """The steps of an error that stand in the data; pydantic adds some of its own."""
    path: list[str | int] = []
    for step in loc:
        in_list = isinstance(data, list) and isinstance(step, int) and step < len(data)
        if not in_list and not (isinstance(data, dict) and step in data):
            break
        data = data[step]
        path.append(step)
    return tuple(path)


def _missing(sheet: Sheet, path: Path, loc: Path) -> tuple[Path, Fault]:
    here = sheet.at(path)
    if isinstance(here, dict):
        full = (*path, loc[len(path)]) if len(loc) > len(path) else path
        return full, sheet.fault(path, f"no `{full[-1]}`", f"a value for `{full[-1]}`, which is always needed")
    return path, sheet.fault(path, shown(here), _needed(path))


def _needed(path: Path) -> str:
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    return SPECIAL.get(key, "as many values as are needed")


def _unknown_key(sheet: Sheet, model: type[BaseModel], loc: Path) -> Fault:
    key = str(loc[-1])
    keys = _keys(model_at(model, loc[:-1]))
    hint = nearest(key, keys)
    if key.isdigit():
        hint = _of_a_comma(key)
    listed = ", ".join(keys) if len(keys) <= _MOST_KEYS_LISTED else "the keys that `lowstow schema` lists"
    return sheet.fault(loc, f"{UNKNOWN_KEY} {shown(key)}", listed, hint)


def _of_a_comma(after: str) -> str:
    """What to do about a comma with these digits after it; three of them may be thousands."""
    return _PARTED_HINT if len(after) == 3 else _COMMA_HINT


def _keys(model: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


def model_at(model: type[BaseModel], loc: Path) -> type[BaseModel]:
    """The model that describes the part at a path."""
    map_key_next = False
    for step in loc:
        if isinstance(step, int) or map_key_next:
            map_key_next = False
            continue
        field = next((f for name, f in model.model_fields.items() if (f.alias or name) == step), None)
        if field is None:
            return model
        map_key_next = get_origin(field.annotation) is dict
        model = _model_in(field.annotation) or model
    return model


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    inner = (_model_in(arg) for arg in get_args(annotation))
    return next((model for model in inner if model is not None), None)


def _found(sheet: Sheet, path: Path) -> str:
    return shown(sheet.raw[path])[1:-1] if sheet.raw.get(path) else shown(sheet.at(path))


def _quotes(kind: str, sheet: Sheet, path: Path) -> str:
    raw = sheet.raw.get(path)
    last = str(path[-1]) if path else ""
    if sheet.at(path) is None and last.isdigit():
        return _of_a_comma(last)
    if kind == "string_type" and raw and isinstance(sheet.at(path), bool | int | float):
        meaning = "yes or no" if isinstance(sheet.at(path), bool) else "a number"
        return f'without quotes this word is {meaning}; write "{raw[:40]}" in quotes'
    return ""


def _allowed(kind: str, error: Any, path: Path, loc: Path) -> tuple[str, str]:
    ctx = error.get("ctx", {})
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    unit = next((WORDS[u] for step in path if isinstance(step, str) and (u := unit_of(step)) in WORDS), "")
    of_unit = f" ({unit})" if unit else ""
    if kind == "bool_type" and key == "towing":
        return "yes, no, or {ball_kg, trailer_kg} as it is at this stage", ""
    if kind == "literal_error":
        return str(ctx["expected"]).replace("'", '"'), nearest(
            str(error["input"]), str(ctx["expected"]).split("'")[1::2]
        )
    if key in SPECIAL and path[-1] == key and not kind.startswith(("greater", "less", "int_from")):
        return SPECIAL[key], ""
    if kind == "model_type" and (key.endswith("_kg") or "limits" in loc):
        return _LIMIT, ""
    bound = {"greater_than_equal": ("at least", "ge"), "greater_than": ("more than", "gt"),
             "less_than_equal": ("at most", "le"), "less_than": ("less than", "lt")}.get(kind)  # fmt: skip
    if bound:
        return f"{bound[0]} {ctx[bound[1]]:g}{of_unit}" if ctx[bound[1]] < 1e6 else f"{bound[0]} {ctx[bound[1]]}", ""
    return _BY_KIND.get(kind, "something else: {msg}").format(of=of_unit, msg=error["msg"], **ctx), ""


_BY_KIND = {
    "string_type": "text",
    "string_too_short": "at least one character",
    "string_pattern_mismatch": "text that can be read, without control characters",
    "string_too_long": "at most {max_length} characters",
    "int_type": "a whole number{of}",
    "int_from_float": "a whole number{of}",
    "float_type": "a number{of}",
    "finite_number": "a finite number{of}",
    "bool_type": "yes or no",
    "tuple_type": "a list, such as [one, another]",
    "list_type": "a list, such as [one, another]",
    "dict_type": "a mapping, such as {{name: value}}",
    "model_type": "a mapping, such as {{key: value}}",
    "model_attributes_type": "a mapping, such as {{key: value}}",
    "too_long": "at most {max_length} entries",
    "too_short": "at least {min_length} of them",
}
