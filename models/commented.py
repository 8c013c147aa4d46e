"""The comments of a plan's file in the text that takes its place."""

from collections import Counter, defaultdict
from collections.abc import Hashable, Iterator, Mapping
from types import MappingProxyType
from typing import Any
from unicodedata import normalize

import yaml

from models.amending import comments_of, last_line
from models.case import Copy
from models.reading.yamlfile import PARSER

END: Hashable = "end"
"""What a comment below everything stands at."""


def with_comments(old: str, new: str, numbers: Mapping[Copy, Copy] = MappingProxyType({})) -> tuple[str, bool]:
    """A plan's new text with the comments of an old one, and whether some of them had to go.

    A comment stands above or behind a key, a lock or a copy; where that is no longer there, it goes. `numbers` has, by
    copies of the old text with another number in the new one, what they are there.
    """
    old = old.removeprefix("\ufeff")
    above, behind = (_numbered_anew(comments, numbers) for comments in _by_what_they_stand_at(old))
    starts = {first: what for first, _, what in _parts(new)}
    told: list[str] = []
    for n, line in enumerate(new.splitlines()):
        indent = line[: len(line) - len(line.lstrip())]
        told += (f"{indent}{comment}" for comment in above[starts.get(n)])
        told.append("  ".join([line, *behind[starts.get(n)]]))
    text = "\n".join([*told, *above[END]]) + "\n"
    lost = Counter(comments_of(old).values()) - Counter(comments_of(text).values())
    return text, bool(lost)


def _numbered_anew(comments: dict[Hashable, list[str]], numbers: Mapping[Copy, Copy]) -> dict[Hashable, list[str]]:
    """Comments by what they stand at, copies and the locks on them with their new numbers."""
    new = {(old.thing, str(old.number)): (copy.thing, str(copy.number)) for old, copy in numbers.items()}
    return defaultdict(list, {_anew(what, new): told for what, told in comments.items()})


def _anew(what: Any, new: Mapping[Any, tuple[str, str]]) -> Hashable:
    match what:
        case ("locks", frozenset() as said), count:
            words = dict(said)
            copy = new.get((words.get("thing"), words.get("copy")))
            return what if copy is None else (("locks", frozenset({**words, "copy": copy[1]}.items())), count)
        case (str(), str()) as copy, count:
            return new.get(copy, copy), count
    kept: Hashable = what
    return kept


def _by_what_they_stand_at(text: str) -> tuple[dict[Hashable, list[str]], dict[Hashable, list[str]]]:
    """Comments on lines of their own above something, and the first behind it; others go above it."""
    above, behind = defaultdict[Hashable, list[str]](list), defaultdict[Hashable, list[str]](list)
    lines, parts = text.splitlines(), _parts(text)
    for n, comment in sorted(comments_of(text).items()):
        around = next((what for first, last, what in reversed(parts) if first <= n <= last), None)
        after = next((what for first, _, what in parts if first >= n), END)
        alone = lines[n].lstrip().startswith("#")
        if around is None and (alone or parts):  # such as behind the marks at the start of a file
            above[after].append(comment)
        elif alone or behind[around]:
            above[around].append(comment)
        elif around is not None:  # else in braces around everything
            behind[around].append(comment)
    return above, behind


def _parts(text: str) -> list[tuple[int, int, Hashable]]:
    """First and last line, from 0, and what it is, of each key and of each lock, copy and claim under it, in order.

    Of several that say the same, as two like locks, each is told with how many there were before it.
    """
    root: Any = yaml.compose(text, Loader=PARSER)
    parts = [part for key, value in root.value for part in _of_a_key(key, value)] if _is_block(root) else []
    before = Counter[Hashable]()
    for n, (first, last, what) in enumerate(parts):
        parts[n] = first, last, (what, before[what])
        before[what] += 1
    return parts


def _of_a_key(key: Any, value: Any) -> Iterator[tuple[int, int, Hashable]]:
    line = key.start_mark.line
    yield line, line, key.value
    if isinstance(value, yaml.SequenceNode):
        for node in value.value:
            yield node.start_mark.line, max(node.start_mark.line, last_line(node)), _called(key.value, node)
    elif _is_block(value):
        for name, figures in value.value:
            yield name.start_mark.line, last_line(figures), (key.value, name.value)


def _called(key: str, node: Any) -> Hashable:
    """A copy by its thing and number, wherever it is; a lock by all that it says."""
    said = _said(node)
    if key == "locks" or not isinstance(node, yaml.MappingNode):
        return key, said
    words = dict(said)
    return words.get("thing"), words.get("copy", "1")


def _said(node: Any) -> Any:
    if isinstance(node, yaml.MappingNode):
        return frozenset((name.value, _said(value)) for name, value in node.value)
    if isinstance(node, yaml.SequenceNode):
        return tuple(map(_said, node.value))
    return normalize("NFC", node.value)  # as names are read


def _is_block(node: Any) -> bool:
    return isinstance(node, yaml.MappingNode) and not node.flow_style
