"""Numbers as typed in options: read before a command runs, and what is wrong with any of them told at once."""

from collections.abc import Callable
from dataclasses import dataclass
from math import isfinite
from typing import Any


@dataclass(frozen=True)
class Fault:
    """What stands in the place of a value that cannot be meant."""

    says: str


def number(option: str, least: float, most: float, such_as: str, *, whole: bool = False) -> Callable[[Any], Any]:
    """A reader of an option: the number within its bounds, else a fault that says what was found and what is allowed.

    `such_as` is an example with its unit.
    """
    kind = "a whole number" if whole else "a number"

    def read(typed: Any) -> Any:
        try:
            found = int(typed) if whole else float(typed)
        except ValueError:
            found = None
        if found is not None and isfinite(found) and least <= found <= most:
            return found
        shown = _shown(str(typed))
        return Fault(f"{option}: found {shown}; allowed: {kind} from {least:g} to {most:.12g}, such as {such_as}.")

    return read


LONGEST = 30
"""Characters of what was typed that are told."""


def _shown(typed: str) -> str:
    short = typed if len(typed) <= LONGEST else f"{typed[:LONGEST]}..."
    return short if short and short.isprintable() and not short.isspace() else ascii(short)


def faults(values: dict[str, Any]) -> list[str]:
    """What is wrong with any of the values of a command, in the order of its options."""
    return [value.says for value in values.values() if isinstance(value, Fault)]
