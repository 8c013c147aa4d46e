"""How many columns of a terminal a text takes, and padding and wrapping by that.

Chinese, Japanese and Korean characters and emoji take two columns, accents that are added to a letter take none.
"""

import re
import unicodedata
from collections.abc import Iterator

JOINER = "\u200d"
"""Joins emoji into one."""
AS_EMOJI = "\ufe0f"
"""Makes an emoji of the character before it."""
SOFT_HYPHEN = "\u00ad"
"""Counted among the signs that are not seen, though terminals show it."""
SKINS = range(0x1F3FB, 0x1F400)
"""Colours of skin: each is part of the emoji before it."""
JAMO = range(0x1160, 0x1200)
"""Vowels and finals of Korean syllables: part of the consonant before them."""


def width_of(text: str) -> int:
    """How many columns a text takes."""
    return len(text) if text.isascii() else sum(_columns(cluster) for cluster in clusters(text))


def clusters(text: str) -> Iterator[str]:
    """A text in parts that are one character to the eye."""
    part = ""
    for char in text:
        if part and not (_joins(char) or part.endswith(JOINER)):
            yield part
            part = ""
        part += char
    if part:
        yield part


def _joins(char: str) -> bool:
    """Whether a character is part of the one before it."""
    unseen = unicodedata.category(char) in ("Mn", "Me", "Cf") and char != SOFT_HYPHEN
    return unseen or ord(char) in SKINS or ord(char) in JAMO


def _columns(cluster: str) -> int:
    if all(_joins(char) for char in cluster):
        return 2 if ord(cluster[0]) in SKINS else int(ord(cluster[0]) in JAMO)
    wide = unicodedata.east_asian_width(cluster[0]) in ("W", "F") or AS_EMOJI in cluster
    return 2 if wide else 1


def left(text: str, width: int) -> str:
    """A text at the left of so many columns."""
    return text + " " * (width - width_of(text))


def right(text: str, width: int) -> str:
    """A text at the right of so many columns."""
    return " " * (width - width_of(text)) + text


def wrapped(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """A text in lines of at most so many columns, the first begun with `first`, the others with `rest`.

    Words that are too long for a line are cut. No line at all for a text of nothing.
    """
    lines: list[str] = []
    waiting = re.findall(r"\S+|\s+", text)[::-1]
    while waiting:
        begin = rest if lines else first
        if lines and waiting[-1].isspace():
            waiting.pop()
        line = _filled(waiting, width - width_of(begin)).rstrip()
        if line:
            lines.append(begin + line)
    return lines


def _filled(waiting: list[str], room: int) -> str:
    """As many words as find room in a line, taken from the end of what is waiting."""
    line, whole = "", room
    while waiting and width_of(waiting[-1]) <= room:
        room -= width_of(waiting[-1])
        line += waiting.pop().replace("\t", " ").replace("\n", " ")
    if waiting and (not line or (width_of(waiting[-1]) > whole and room > 0)):
        head = _cut(waiting[-1], room, at_least_one=not line.strip())
        word = waiting.pop()
        line += head
        waiting += [word[len(head) :]] if head != word else []
    return line


def _cut(word: str, room: int, *, at_least_one: bool) -> str:
    """The beginning of a word that finds room; one character at least where asked, so that a line is never empty."""
    head = ""
    for cluster in clusters(word):
        if width_of(head) + width_of(cluster) > room and (head or not at_least_one):
            break
        head += cluster
    return head
