"""Changing the locks in a plan's file: the rest of it, comments too, stays as its person wrote it."""

import re
from collections import Counter, defaultdict
from collections.abc import Collection, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError

from models.plan import Plan
from models.reading.faults import Fault, InputFaults
from models.reading.files import Unreadable
from models.reading.yamlfile import PARSER
from models.rereading import data_of, replace_plan
from models.trip import Lock
from models.writing import entry_lines, plan_text, replace_whole

HASH = re.compile(r"(?<!\S)#")
BEFORE_LOCKS = ("trip", "trip_digest")
"""Keys after which locks stand in a file that had none."""


def write_locks(path: Path, plan: Plan, locks: Sequence[Lock]) -> bool:
    """Give the plan in a file other locks; whether comments were lost beside those of the locks that went.

    What the file has beside the locks of `plan` stays in it.

    Raises
    ------
    InputFaults
        The file is no longer the one that was read.
    NotReadBackError
        No text was found that says the plan with these locks when it is read; the file stays as it is.
    OSError
        As `replace_whole`.
    """
    had, has = Counter(plan.locks), Counter(locks)
    gone, new = had - has, [*(has - had).elements()]
    try:
        old = path.read_bytes().decode("utf-8")
        data = data_of(old)
        page, whole = _Page(old), Plan.model_validate(data)
    except (UnicodeDecodeError, yaml.YAMLError, Unreadable, ValidationError, AttributeError):
        fault = Fault(str(path), None, "", "another content than a moment ago", "a plan that can be read")
        raise InputFaults([fault]) from None
    expected = (*_less(whole.locks, gone), *new)
    wanted = whole.model_copy(update={"locks": expected})
    ways = ((text, own) for text, own in page.with_locks(whole.locks, gone, new) if _says_so(text, data, expected))
    text, own = next(ways, ("", frozenset[int]()))
    if text:  # which has been read back
        replace_whole(path, text)
    else:
        text = plan_text(wanted)
        replace_plan(path, text, wanted)
    before, after = comments_of(old), comments_of(text)
    kept = Counter(comment for line, comment in before.items() if line not in own)
    return bool(kept - Counter(after.values()))


def comments_of(text: str) -> dict[int, str]:
    """The comment of each line that has one: from a # on at its start or after a blank, outside of texts."""
    events = [event for event in yaml.parse(text, Loader=PARSER) if isinstance(event, yaml.ScalarEvent)]
    spans = defaultdict[int, list[tuple[tuple[int, int], tuple[int, int]]]](list)
    for event in events:
        start, end = _place(event.start_mark), _place(event.end_mark)
        if event.style in {"|", ">"}:
            start = start[0] + 1, 0  # its text begins below the sign, behind which a comment may stand
        for n in range(start[0], end[0] + 1):
            spans[n].append((start, end))
    found: dict[int, str] = {}
    for n, line in enumerate(text.splitlines()):
        starts = (match.start() for match in HASH.finditer(line))
        at = next((at for at in starts if not any(start <= (n, at) < end for start, end in spans[n])), None)
        if at is not None:
            found[n] = line[at:].strip()
    return found


def _place(mark: Any) -> tuple[int, int]:
    return mark.line, mark.column


def _says_so(text: str, data: dict[str, Any], locks: Sequence[Lock]) -> bool:
    """Whether a changed text can be read and says what the old data do but for the locks."""
    with suppress(Unreadable, ValidationError, AttributeError):
        after = data_of(text)
        found = Counter(Lock.model_validate(one) for one in after.get("locks") or ())
        return found == Counter(locks) and {**data, "locks": ()} == {**after, "locks": ()}
    return False


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
        self.lines = text.splitlines(keepends=True)
        self.end = next((end for end in ("\r\n", "\n", "\r") if end in text), "\n")
        root: Any = yaml.compose(text, Loader=PARSER)
        block = isinstance(root, yaml.MappingNode) and not root.flow_style
        self.parts: dict[str, tuple[Any, Any]] = {key.value: (key, value) for key, value in root.value} if block else {}
        self.indent = " " * root.start_mark.column if block else ""

    def with_locks(
        self, locks: Sequence[Lock], gone: Counter[Lock], new: Sequence[Lock]
    ) -> Iterator[tuple[str, Collection[int]]]:
        """Texts with some of its locks less and others more, those that keep most first; none where they stand oddly.

        Each with the numbers, from 0, of the lines of the locks that went.
        """
        if "locks" not in self.parts:
            yield from ((text, ()) for text in self._first(new))
            return
        key, value = self.parts["locks"]
        left = _less(locks, gone)
        if len(left) + gone.total() != len(locks) or self.lines[key.start_mark.line].lstrip().startswith("?"):
            return
        if isinstance(value, yaml.ScalarNode):
            at = value.end_mark if value.value else key.end_mark
            rest = self.lines[at.line][at.column :]
            tail = rest if value.value else rest.lstrip(" ").removeprefix(":")
            yield self._instead(key, at.line, tail, new), ()
        elif value.flow_style:
            if new and not gone:
                yield from ((text, ()) for text in self._before_the_bracket(value, new))
            if gone and not new:
                yield self._without(value.value, locks, gone)
            tail = self.lines[value.end_mark.line][value.end_mark.column :]
            yield self._instead(key, value.end_mark.line, tail, [*left, *new]), ()
        else:
            yield self._in_block(key, value.value, locks, gone, new)

    def _first(self, new: Sequence[Lock]) -> Iterator[str]:
        ends = [last_line(self.parts[key][1]) + 1 for key in BEFORE_LOCKS if key in self.parts]
        if ends:
            yield self._put(self.lines[: max(ends)], self._written(new), max(ends))

    def _instead(self, key: Any, last: int, tail: str, locks: Sequence[Lock]) -> str:
        """With other lines for those from the key to the last, and what stands behind the last behind the key."""
        tail = tail.rstrip() if tail[:1].isspace() else f" {tail}".rstrip()
        return self._put(self.lines[: key.start_mark.line], self._written(locks, tail), last + 1)

    def _without(self, nodes: Sequence[Any], locks: Sequence[Lock], gone: Counter[Lock]) -> tuple[str, set[int]]:
        """Without the lines of the locks that go, where each has its own."""
        out = self._own(nodes, locks, gone, dashed=False)
        return "".join(line for n, line in enumerate(self.lines) if n not in out), out

    def _own(self, nodes: Sequence[Any], locks: Sequence[Lock], gone: Counter[Lock], *, dashed: bool) -> set[int]:
        """The lines of the locks that go; `dashed`: each begins with a dash."""
        left, out = gone.copy(), set[int]()
        for node, one in zip(nodes, locks, strict=True):
            if left[one] > 0:
                left[one] -= 1
                first = self._dash(node) if dashed else node.start_mark.line
                out.update(range(first, last_line(node) + 1))
        return out

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
    ) -> tuple[str, set[int]]:
        """With each lock in lines of its own."""
        out = self._own(nodes, locks, gone, dashed=True)
        end = last_line(nodes[-1]) + 1
        before = [line for n, line in enumerate(self.lines[:end]) if n not in out]
        if len(locks) == gone.total() and not new:
            before[key.start_mark.line] = before[key.start_mark.line].replace(":", ": []", 1)
        dashed = self.lines[self._dash(nodes[0])]
        indent = dashed[: dashed.index("-")]
        written = [f"{indent}{line.lstrip()}{self.end}" for line in entry_lines(new)]
        return self._put(before, written, end), out

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


def last_line(node: Any) -> int:
    """The last line on which something of a part stands, in lines from 0."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style or not node.value:
        at = node.end_mark
        line: int = at.line - (at.column == 0 and at.line > node.start_mark.line)
        return line
    if isinstance(node, yaml.MappingNode):
        return max(last_line(value) for _, value in node.value)
    return max(map(last_line, node.value))
