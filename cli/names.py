"""Names as people type them, also in the dark: any case, a part of a name, a letter wrong."""

import re
from collections.abc import Container, Iterable, Mapping
from difflib import SequenceMatcher
from unicodedata import category, combining, normalize

from cli.answering import BadInput

NEAR = 0.7
"""How alike a name must be to be taken for what was typed, 0 to 1; tried on slips of one or two letters."""
ALIKE = 0.08
"""Names so little less alike than the best are choices too."""
KEPT = "_"
"""What counts as a letter besides letters, marks and figures."""
CHOICES = 12
"""How many choices are told."""


def plain(text: str) -> str:
    """A text as it is compared: small letters with their marks and figures, one space between words.

    Marks are letters too: in many scripts the vowels. What only joins or parts letters and is not seen is left out.
    """
    kinds = ((sign, category(sign)) for sign in normalize("NFC", text).casefold())
    kept = (sign if sign in KEPT or kind[0] in "LMN" else " " for sign, kind in kinds if kind != "Cf")
    return " ".join("".join(kept).split())


def _bare(text: str) -> str:
    """The same without accents, for who types without them."""
    return plain("".join(sign for sign in normalize("NFKD", text) if not combining(sign)))


def matching(typed: str, names: Iterable[str]) -> tuple[str, ...]:
    """The name that is typed; else those alike but for case and signs; else those it is a part of; else the nearest.

    Accents count, unless nothing but the nearest is found with them.

    In the order given.
    """
    known = list(dict.fromkeys(names))
    if typed in known:
        return (typed,)
    wanted = plain(typed)
    if not wanted:
        return ()
    found = _within(wanted, {name: plain(name) for name in known})
    return tuple(found or _within(_bare(typed), {name: _bare(name) for name in known}) or nearest(wanted, known))


def _within(wanted: str, known: Mapping[str, str]) -> list[str]:
    """Names that are what was typed, hold all its words, or hold it without blanks, by how they are compared."""
    same = [name for name, text in known.items() if text == wanted]
    part = [name for name, text in known.items() if all(word in text for word in wanted.split())]
    return same or part or [name for name, text in known.items() if _squeezed(wanted) in _squeezed(text)]


def nearest(typed: str, names: Iterable[str], least: float = NEAR) -> list[str]:
    """Names about as near as the nearest one, the nearest first; none where none is near."""
    rated = sorted(((likeness(typed, name), name) for name in names), key=lambda pair: -pair[0])
    return [name for score, name in rated if score >= max(least, rated[0][0] - ALIKE)]


def likeness(typed: str, name: str) -> float:
    """How alike a name is to what was typed, 0 to 1: letter by letter, or word by word in any order."""
    wanted, known = plain(typed), plain(name)
    by_word = [max((_ratio(word, other) for other in known.split()), default=0.0) for word in wanted.split()]
    each = sum(by_word) / len(by_word) if by_word else 0.0
    return max(_ratio(_squeezed(wanted), _squeezed(known)), each)


def the_one(typed: str, names: Iterable[str], called: str) -> str:
    """The name that was meant.

    Raises
    ------
    BadInput
        None is near, or several are; it lists them.
    """
    from models.reading.faults import shown  # noqa: PLC0415 - loaded where used, so that help answers at once

    known = list(dict.fromkeys(names))
    found = matching(typed, known)
    if len(found) == 1:
        return found[0]
    if found:
        raise BadInput(f"{shown(typed)} may be {_listed(found, ' or ')}: say which {called}.")
    allowed = _listed(known, ", ") if known else "none is there"
    raise BadInput(f"{shown(typed)}: found no {called} of that name; allowed: {allowed}.")


def with_number(typed: str, names: Container[str] = ()) -> tuple[str, int | None]:
    """A thing's name and the number of the copy, where one is typed: `water can #2`; one of `names` has none in it."""
    found = None if typed in names else re.fullmatch(r"(.+?)\s*#\s*(\d{1,3})\s*", typed)
    return (found[1], int(found[2])) if found else (typed, None)


def _ratio(one: str, other: str) -> float:
    return SequenceMatcher(None, one, other, autojunk=False).ratio()


def _squeezed(text: str) -> str:
    return text.replace(" ", "")


def _listed(names: Iterable[str], between: str) -> str:
    told = [f'"{name}"' for name in names]
    more = [f"{len(told) - CHOICES} more"] if len(told) > CHOICES else []
    return between.join([*told[:CHOICES], *more])
