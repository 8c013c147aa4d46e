"""What is wrong in a file: one sentence a fault, all of them at once."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

SHOWN_CHARACTERS = 60
"""Longest piece of a person's own text that a sentence repeats."""


@dataclass(frozen=True)
class Fault:
    """One fault: where it is, what was found there and what is allowed."""

    file: str
    """The file as the person named it; a word such as `trip` for data made in memory."""
    line: int | None
    """Line from 1. None: the whole file, or data made in memory."""
    path: str
    """Dotted path such as `gear[3].size_mm[1]`; empty for the whole file."""
    found: str
    allowed: str
    hint: str = ""
    """What may help, such as the nearest name; empty when nothing comes to mind."""
    of: str = ""
    """What people call the part, such as the name of the thing; empty where the sentence tells it anyway."""

    def __str__(self) -> str:
        line = "" if self.line is None else f", line {self.line}"
        of = f" ({self.of})" if self.of else ""
        path = f": {self.path}{of}" if self.path else ""
        hint = f" ({self.hint})" if self.hint else ""
        return f"{self.file}{line}{path}: found {self.found}; allowed: {self.allowed}{hint}."


class InputFaults(Exception):  # noqa: N818 - a fault of the input, not an error of ours
    """Files that cannot be used, with every fault that was found in them."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(sorted(set(faults), key=_order))
        super().__init__("\n".join(str(fault) for fault in self.faults))


def _order(fault: Fault) -> tuple[str, int, str, str, str]:
    return (fault.file, fault.line or 0, fault.path, fault.found, fault.allowed)


def shown(value: object) -> str:
    """A value as a sentence repeats it: short, on one line, texts in quotes."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}" if value else "an empty list"
    text = ascii(value) if isinstance(value, str) and not value.isprintable() else f"{value}"
    text = text if len(text) <= SHOWN_CHARACTERS else text[: SHOWN_CHARACTERS - 1] + "…"
    return f'"{text}"' if isinstance(value, str) else text


def nearest(name: str, names: Iterable[str]) -> str:
    """A hint at the nearest of the known names; empty when none is near."""
    by_lower = {known.lower(): known for known in sorted(names)}
    close = get_close_matches(name.lower()[:200], by_lower, n=1, cutoff=0.6)
    return f'did you mean "{by_lower[close[0]][:60]}"?' if close else ""
