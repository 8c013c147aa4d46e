"""The shipped rule book, and a file of people's own laid over it."""

from collections.abc import Iterator
from functools import lru_cache
from importlib.resources import files
from typing import Any, NamedTuple, get_args

from pydantic import BaseModel, ValidationError

from models.reading.faults import Fault, nearest, shown
from models.reading.sentences import faults_of, told_at
from models.reading.sheet import Path, Sheet, path_text
from models.reading.yamlfile import sheet_from_yaml
from models.rulebook import RuleBook
from models.vehicle import AirKind


@lru_cache(maxsize=1)
def shipped_bytes() -> bytes:
    """The shipped rule book as it stands in the package."""
    return files("models").joinpath("rulebook.yaml").read_bytes()


@lru_cache(maxsize=1)
def _shipped_data() -> dict[str, Any]:
    sheet, _ = sheet_from_yaml("rulebook.yaml", shipped_bytes().decode("utf-8"))
    data: dict[str, Any] = sheet.data
    return data


@lru_cache(maxsize=1)
def shipped_rulebook() -> RuleBook:
    """The rule book that comes with lowstow: the strictest common reading, each figure with its source."""
    return RuleBook.model_validate(_shipped_data())


def rulebook_over_shipped(sheet: Sheet) -> tuple[RuleBook | None, list[Fault]]:
    """The shipped rule book with a file laid over it, key by key; lists are replaced whole.

    Every group of figures that the file touches must name its own source. `air: {sealed: no}` forbids a kind of air.
    """
    if not isinstance(sheet.data, dict):
        return None, [sheet.fault((), "no mapping", "keys of the rule book with their figures")]
    faults: list[Fault] = list(_unsourced(sheet, sheet.data, _shipped_data(), ()))
    merged = Sheet(sheet.file, _over(_shipped_data(), sheet.data), sheet.lines, sheet.raw)
    try:
        book = RuleBook.model_validate(merged.data)
    except ValidationError as problem:
        return None, faults + faults_of(merged, RuleBook, problem, told_at(faults))
    faults += _unknown_words(merged, book)
    return (None if faults else book), faults


class Change(NamedTuple):
    """A group of figures in which a rule book differs from the shipped one."""

    place: str
    """Its keys, such as `hazards.lpg`."""
    source: str | None
    """Where its figures come from. None: of a list, whose entries say so each."""


def changes(book: RuleBook) -> tuple[Change, ...]:
    """The groups of figures in which a rule book differs from the shipped one, in the order of the shipped one."""
    return tuple(change for change in _changes(book, shipped_rulebook(), ()) if change.place != "name")


def _changes(own: Any, shipped: Any, path: Path) -> Iterator[Change]:
    if own == shipped:
        return
    source = getattr(own, "source", None)
    own, shipped = (dict(part) if isinstance(part, BaseModel) else part for part in (own, shipped))
    if source is None and isinstance(own, dict) and isinstance(shipped, dict):
        for key, value in own.items():
            yield from _changes(value, shipped.get(key), (*path, key))
    else:
        yield Change(path_text("", path), source)


def _unknown_words(sheet: Sheet, book: RuleBook) -> Iterator[Fault]:
    """Words that are to be kept apart, or to count in totals of another, and that nothing can be."""
    for word, hazard in book.hazards.items():
        for number, other in enumerate(hazard.totals.counts_with):
            path: Path = ("hazards", word, "totals", "counts_with", number)
            if other in hazard.totals.counts_with[:number]:
                yield sheet.fault(path, f"{shown(other)} a second time", "each word once")
            elif other not in book.hazards or other == word:
                yield sheet.fault(path, shown(other), "another hazard word", nearest(other, {*book.hazards} - {word}))
    known = (*book.hazards, "food", "bedding", "clothes")
    for number, apart in enumerate(book.segregation):
        for side, words in enumerate(apart.between):
            for word in words:
                if word not in known:
                    path = ("segregation", number, "between", side)
                    yield sheet.fault(
                        path, shown(word), "a hazard word, food, bedding or clothes", nearest(word, known)
                    )


def _over(shipped: Any, own: Any, key: str = "") -> Any:
    if not isinstance(own, dict):
        return own
    under = shipped if isinstance(shipped, dict) else {}
    merged = {**under, **{name: _over(under.get(name), value, name) for name, value in own.items()}}
    forbidden = get_args(AirKind) if key == "air" else ()  # a misspelt kind stays, and is refused
    return {name: value for name, value in merged.items() if value is not False or name not in forbidden}


def _unsourced(sheet: Sheet, own: Any, shipped: Any, path: Path) -> list[Fault]:
    if not isinstance(own, dict) or not isinstance(shipped, dict):
        return []
    found = []
    if "source" in shipped and not own.get("source"):
        found.append(sheet.fault(path, "figures without a `source`", "a `source` beside the figures of your own"))
    for key, value in own.items():
        found += _unsourced(sheet, value, shipped.get(key), (*path, key))
    return found
