"""Whole numbers by stage kept side by side in one integer: added, multiplied and compared for all stages at once.

Each stage has a lane of so many bits. A lane below 0 borrows from the next, which `lane` gives back.
"""

from collections.abc import Iterable

WIDTH = 90
"""Bits of a lane: three digits of an integer of the interpreter."""
HALF = 1 << (WIDTH - 1)
MASK = (1 << WIDTH) - 1
NO_LIMIT = 1 << (WIDTH - 2)
"""More than is ever summed up: grams times half millimetres stay below 10^24."""


def pack(values: Iterable[int]) -> int:
    """One number for each stage, side by side."""
    return sum(value << WIDTH * t for t, value in enumerate(values))


def pack_limits(limits: Iterable[int | None]) -> int:
    """One limit for each stage, side by side; what is without a limit gets one that nothing reaches."""
    return pack(NO_LIMIT if limit is None else max(-NO_LIMIT, min(NO_LIMIT, limit)) for limit in limits)


def lane(packed: int, t: int) -> int:
    """The number of a stage."""
    return ((packed + _BIAS[t] >> WIDTH * t) & MASK) - HALF


def signs(stages: int) -> int:
    """The bits that tell whether the number of any of so many stages is below 0: `packed & signs(stages)`."""
    return pack([HALF] * stages)


class _Bias(dict[int, int]):
    """By stage: what makes the numbers of all stages up to it positive."""

    def __missing__(self, t: int) -> int:
        self[t] = signs(t + 1)
        return self[t]


_BIAS = _Bias()
