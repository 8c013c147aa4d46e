"""Changing the locks in a plan's file: the rest of it, comments too, stays as its person wrote it."""

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError

from models.plan import Plan
from models.reading.files import Unreadable
from models.reading.loading import Desk
from models.reading.yamlfile import PARSER, sheet_from_yaml
from models.trip import Lock
from models.writing import entry_lines, plan_text, replace_whole

BEFORE_LOCKS = ("trip", "trip_digest")
"""Keys after which locks stand in a file that had none."""


def write_locks(path: Path, plan: Plan, locks: Sequence[Lock]) -> bool:
    """Give the plan in a file other locks; whether comments were lost, as it had to be written anew as a whole.

    What the file has beside the locks of `plan` stays in it.

    Raises
    ------
    OSError
        As `replace_whole`.
    """
    had, has = Counter(plan.locks), Counter(locks)
    gone, new = had - has, [*(has - had).elements()]
    with suppress(UnicodeDecodeError, yaml.YAMLError, Unreadable, ValidationError, AttributeError):
        old = path.read_bytes().decode("utf-8")
        for text in _Page(old).with_locks(gone, new):
            if _says_so(old, text, gone, new):
                replace_whole(path, text)
                return False
        whole = Plan.model_validate(_read(old))
        replace_whole(path, plan_text(whole.model_copy(update={"locks": (*_less(whole.locks, gone), *new)})))
        return "#" in old
    replace_whole(path, plan_text(plan.model_copy(update={"locks": tuple(locks)})))
    return False


def _says_so(old: str, text: str, gone: Counter[Lock], new: Sequence[Lock]) -> bool:
    """Whether a changed text can be read and says what the old one said but for the locks."""
    with suppress(Unreadable, ValidationError, AttributeError):
        before, after = _read(old), _read(text)
        expected = [*_less(_locks(before), gone), *new]
        return Counter(_locks(after)) == Counter(expected) and {**before, "locks": ()} == {**after, "locks": ()}
    return False


def _read(text: str) -> dict[str, Any]:
    desk = Desk()
    sheet, _ = sheet_from_yaml("", text.removeprefix("\ufeff"))
    data: dict[str, Any] = desk.understood(sheet).data
    return data


def _locks(data: dict[str, Any]) -> list[Lock]:
    return [Lock.model_validate(one) for one in data.get("locks") or ()]


def _less(locks: Sequence[Lock], gone: Counter[Lock]) -> list[Lock]:
    left, kept = gone.copy(), []
    for one in locks:
        if left[one] > 0:
            left[one] -= 1
        else:
            kept.append(one)
    return kept


class _Page:
    """The lines of a plan's file, and where its parts stand."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines = text.splitlines(keepends=True)
        self.end = next((end for end in ("\r\n", "\n", "\r") if end in text), "\n")
        root: Any = yaml.compose(text, Loader=PARSER)
        block = isinstance(root, yaml.MappingNode) and not root.flow_style
        self.parts: dict[str, tuple[Any, Any]] = {key.value: (key, value) for key, value in root.value} if block else {}
        self.indent = " " * root.start_mark.column if block else ""

    def with_locks(self, gone: Counter[Lock], new: Sequence[Lock]) -> Iterator[str]:
        """Texts with some locks less and others more, those that keep most first; none where they stand oddly."""
        if "locks" not in self.parts:
            yield from self._first(new)
            return
        key, value = self.parts["locks"]
        locks = _locks(_read(self.text))
        left = _less(locks, gone)
        if len(left) + gone.total() != len(locks) or self.lines[key.start_mark.line].lstrip().startswith("?"):
            return
        if isinstance(value, yaml.ScalarNode):
            at = value.end_mark if value.value else key.end_mark
            yield self._instead(key, at.line, self.lines[at.line][at.column :].lstrip(":"), new)
        elif value.flow_style:
            if new and not gone:
                yield from self._before_the_bracket(value, new)
            tail = self.lines[value.end_mark.line][value.end_mark.column :]
            yield self._instead(key, value.end_mark.line, tail, [*left, *new])
        else:
            yield self._in_block(key, value.value, locks, gone, new)

    def _first(self, new: Sequence[Lock]) -> Iterator[str]:
        ends = [_last_line(self.parts[key][1]) + 1 for key in BEFORE_LOCKS if key in self.parts]
        if ends:
            yield self._put(self.lines[: max(ends)], self._written(new), max(ends))

    def _instead(self, key: Any, last: int, tail: str, locks: Sequence[Lock]) -> str:
        """With other lines for those from the key to the last, and what stands behind the last behind the key."""
        return self._put(self.lines[: key.start_mark.line], self._written(locks, tail.rstrip()), last + 1)

    def _before_the_bracket(self, value: Any, new: Sequence[Lock]) -> Iterator[str]:
        """In a list over several lines, with its own comments."""
        at = value.end_mark
        if at.line > value.start_mark.line:
            line = self.lines[at.line]
            written = ", ".join(entry.lstrip(" -") for entry in entry_lines(new))
            for comma in (", ", ""):
                changed = f"{line[: at.column - 1]}{comma}{written}{line[at.column - 1 :]}"
                yield "".join([*self.lines[: at.line], changed, *self.lines[at.line + 1 :]])

    def _in_block(
        self, key: Any, nodes: Sequence[Any], locks: Sequence[Lock], gone: Counter[Lock], new: Sequence[Lock]
    ) -> str:
        """With each lock in lines of its own."""
        left, out = gone.copy(), set[int]()
        for node, one in zip(nodes, locks, strict=True):
            if left[one] > 0:
                left[one] -= 1
                out.update(range(self._dash(node), _last_line(node) + 1))
        end = _last_line(nodes[-1]) + 1
        before = [line for n, line in enumerate(self.lines[:end]) if n not in out]
        if len(locks) == gone.total() and not new:
            before[key.start_mark.line] = before[key.start_mark.line].replace(":", ": []", 1)
        dashed = self.lines[self._dash(nodes[0])]
        indent = dashed[: dashed.index("-")]
        return self._put(before, [f"{indent}{line.lstrip()}{self.end}" for line in entry_lines(new)], end)

    def _dash(self, node: Any) -> int:
        """The line on which an entry's dash stands."""
        line: int = node.start_mark.line
        while not self.lines[line].lstrip().startswith("-"):
            line -= 1
        return line

    def _written(self, locks: Sequence[Lock], tail: str = "") -> list[str]:
        lines = [f"locks:{tail}", *entry_lines(locks)] if locks else [f"locks: []{tail}"]
        return [self.indent + line + self.end for line in lines]

    def _put(self, before: Sequence[str], written: Sequence[str], end: int) -> str:
        """Lines that stay, what is written after them, and the lines from `end` on."""
        whole = [line if line.endswith(("\n", "\r")) else line + self.end for line in before]
        return "".join([*whole, *written, *self.lines[end:]])


def _last_line(node: Any) -> int:
    """The last line on which something of a part stands, in lines from 0."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style or not node.value:
        at = node.end_mark
        line: int = at.line - (at.column == 0 and at.line > node.start_mark.line)
        return line
    if isinstance(node, yaml.MappingNode):
        return max(_last_line(value) for _, value in node.value)
    return max(map(_last_line, node.value))
