"""YAML with the line of every part. Built from the parser's events, so that nothing in a file can run or explode."""

from dataclasses import dataclass
from typing import Any

import yaml

from models.reading.faults import Fault, shown
from models.reading.files import Unreadable
from models.reading.scalars import OtherBaseError, Scalar, scalar
from models.reading.sheet import Path, Sheet

DEEPEST = 20
"""Deepest nesting that is read; the files of lowstow need 7."""

MOST_PARTS = 200_000
"""Most events of one file, so that a file of brackets is refused soon."""

MOST_ENTRIES = 5000
"""Most entries of one list or mapping; more are no kit list."""

PARSER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Reads YAML; the library's own in Python where the one in C is not there."""


@dataclass
class _Level:
    parts: dict[str, Any] | list[Any]
    path: Path
    key: str | None = None
    keep: bool = True


def sheet_from_yaml(file: str, text: str, root: str = "") -> tuple[Sheet, tuple[Fault, ...]]:
    """The data of a YAML file with lines, and faults such as keys that stand twice.

    Raises
    ------
    Unreadable
        No YAML, no content, aliases, tags, or nested too deep.
    """
    builder = _Builder(file, root)
    try:
        for count, event in enumerate(yaml.parse(text, Loader=PARSER)):
            builder.take(event, count)
    except yaml.YAMLError as problem:
        raise Unreadable(_syntax_fault(file, text, problem)) from None
    if builder.sheet.data is None:
        raise Unreadable(Fault(file, 1, "", "nothing in the file", "a filled-in file"))
    return builder.sheet, tuple(builder.faults)


class _Builder:
    def __init__(self, file: str, root: str) -> None:
        self.sheet = Sheet(file, None, root=root)
        self.faults: list[Fault] = []
        self.levels: list[_Level] = []
        self.documents = 0

    def take(self, event: Any, count: int) -> None:
        line = event.start_mark.line + 1
        self.documents += isinstance(event, yaml.DocumentStartEvent)
        self._refuse_tricks(event, line, count)
        if isinstance(event, yaml.ScalarEvent):
            self._scalar(event, line)
        elif isinstance(event, yaml.MappingStartEvent):
            self._open({}, line)
        elif isinstance(event, yaml.SequenceStartEvent):
            self._open([], line)
        elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            self.levels.pop()

    def _refuse_tricks(self, event: Any, line: int, count: int) -> None:
        if self.documents > 1 or count > MOST_PARTS:
            found = "a second document" if self.documents > 1 else f"more than {MOST_PARTS} parts"
            self._stop(line, found, "one document of bearable size")
        if getattr(event, "anchor", None) is not None:
            self._stop(line, f"an anchor or alias {shown(event.anchor)}", "every part written out where it belongs")
        if getattr(event, "tag", None) is not None and event.tag != "!":
            self._stop(line, f"a tag {shown(event.tag)}", "plain words, numbers, lists and mappings")
        if len(self.levels) > DEEPEST:
            self._stop(line, f"brackets or indents more than {DEEPEST} deep", "at most that many")

    def _stop(self, line: int, found: str, allowed: str) -> None:
        raise Unreadable(Fault(self.sheet.file, line, "", found, allowed))

    def _refuse_too_many(self, level: _Level, line: int) -> None:
        if len(level.parts) >= MOST_ENTRIES and (isinstance(level.parts, list) or level.key is None):
            kind = "list" if isinstance(level.parts, list) else "mapping"
            self._stop(line, f"more than {MOST_ENTRIES} entries in one {kind}", "at most that many")

    def _scalar(self, event: Any, line: int) -> None:
        level = self.levels[-1] if self.levels else None
        if level is not None and isinstance(level.parts, dict) and level.key is None:
            self._key(level, event.value, line)
            return
        path = self._put_path(line)
        value = self._value(event, path)
        if not isinstance(value, str):
            self.sheet.raw[path] = event.value
        self._put(value)

    def _value(self, event: Any, path: Path) -> Scalar:
        text: str = event.value
        if not event.implicit[0]:
            return text
        try:
            return scalar(text)
        except OtherBaseError:
            hint = f'without the zero, or "{text[:40]}" in quotes where it is a name'
            self.faults.append(
                self.sheet.fault(path, f"{shown(text)[1:-1]} with a leading zero", "a plain number", hint)
            )
            return 0 if path and path[-1] != "name" else text

    def _key(self, level: _Level, key: str, line: int) -> None:
        assert isinstance(level.parts, dict)  # noqa: S101 - only called for mappings
        self._refuse_too_many(level, line)
        level.key = key
        level.keep = key not in level.parts
        path = (*level.path, key)
        if level.keep:
            self.sheet.lines[path] = line
            return
        first = self.sheet.lines[path]
        fault = self.sheet.fault(
            path, f"the key a second time on line {line}", f"each key once (first on line {first})"
        )
        self.faults.append(Fault(fault.file, line, fault.path, fault.found, fault.allowed))

    def _open(self, parts: dict[str, Any] | list[Any], line: int) -> None:
        level = self.levels[-1] if self.levels else None
        if level is not None and isinstance(level.parts, dict) and level.key is None:
            self._stop(line, "a list or a mapping as a key", "a word before the colon")
        path = self._put_path(line)
        self._put(parts)
        self.levels.append(_Level(parts, path))

    def _put_path(self, line: int) -> Path:
        if not self.levels:
            self.sheet.lines[()] = line
            return ()
        level = self.levels[-1]
        self._refuse_too_many(level, line)
        step = level.key if isinstance(level.parts, dict) else len(level.parts)
        assert step is not None  # noqa: S101 - a key came before
        path = (*level.path, step)
        if level.keep:
            self.sheet.lines.setdefault(path, line)
            return path
        return (*level.path, f"{step} (second)")

    def _put(self, value: Any) -> None:
        if not self.levels:
            self.sheet.data = value
            return
        level = self.levels[-1]
        if isinstance(level.parts, list):
            level.parts.append(value)
            return
        assert level.key is not None  # noqa: S101 - a key came before
        if level.keep:
            level.parts[level.key] = value
        level.key = None
        level.keep = True


def _syntax_fault(file: str, text: str, problem: yaml.YAMLError) -> Fault:
    mark = getattr(problem, "problem_mark", None) or getattr(problem, "context_mark", None)
    says = getattr(problem, "problem", None) or getattr(problem, "reason", None) or "something unreadable"
    position = getattr(problem, "position", None)
    before = position if isinstance(position, int) else 0
    line = text.count("\n", 0, before) + 1 if mark is None else mark.line + 1
    lines = text.splitlines()
    tab = 0 < line <= len(lines) and "\t" in lines[line - 1]
    hint = (
        "a tab stands on this line; indent with spaces" if tab else "look at indents, colons, quotes and brackets here"
    )
    return Fault(file, line, "", f"something that is no YAML: {says}", "YAML", hint)
