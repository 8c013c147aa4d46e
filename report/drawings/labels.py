"""Places for labels, so that none lies on another."""

from collections.abc import Sequence
from itertools import pairwise

Rect = tuple[float, float, float, float]
"""Least and greatest: left, top, right, bottom."""

LETTER_WIDTH = 0.62
"""Width of a letter of a plain sans-serif face, as a share of its size. Measured on common faces, rounded up."""


def spread(wished: Sequence[float], apart: float, least: float, most: float) -> list[float]:
    """Places on a line near those wished for, in their order, no two nearer than `apart`, within two ends.

    Where the line is too short for all of them they stand evenly between its ends.
    """
    order = sorted(range(len(wished)), key=lambda i: wished[i])
    if len(wished) * apart > most - least:
        apart = (most - least) / max(1, len(wished) - 1)
    found = [min(max(wished[i], least), most) for i in order]
    for n in range(1, len(found)):
        found[n] = max(found[n], found[n - 1] + apart)
    if found and found[-1] > most:
        found[-1] = most
        for n in range(len(found) - 2, -1, -1):
            found[n] = min(found[n], found[n + 1] - apart)
    return [found[order.index(i)] for i in range(len(wished))]


def clear(label: Rect, others: Sequence[Rect]) -> bool:
    """Whether a label lies on none of the others."""
    left, top, right, bottom = label
    return all(right <= a or c <= left or bottom <= b or d <= top for a, b, c, d in others)


def around(x: float, y: float, text: str, size: float) -> Rect:
    """The room of a line of text whose middle is at a spot."""
    half = 0.5 * LETTER_WIDTH * size * len(text)
    return (x - half, y - size / 2, x + half, y + size / 2)


def inside(inner: Rect, outer: Rect) -> bool:
    """Whether a rectangle lies in another."""
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def letters(index: int) -> str:
    """A to Z, then AA, AB, and so on."""
    return chr(65 + index) if index < 26 else letters(index // 26 - 1) + chr(65 + index % 26)


def crowded(places: Sequence[float], apart: float) -> bool:
    """Whether any two places are nearer than `apart`."""
    return any(b - a < apart - 1e-9 for a, b in pairwise(sorted(places)))
