"""A plain chart with both axes in powers of ten, as SVG text."""

from collections.abc import Sequence
from html import escape
from math import ceil, floor, log10
from typing import NamedTuple

WIDTH, HEIGHT, LEFT, BOTTOM = 640, 400, 60, 50
STYLES = (("#1f4e79", ""), ("#b5541c", "6 4"), ("#4b7a3a", "2 3"))
"""Colour and dashes, so that lines are told apart without colour."""


class Series(NamedTuple):
    """A line: its name and its points."""

    name: str
    points: Sequence[tuple[float, float]]


def chart(title: str, along: str, series: Sequence[Series]) -> str:
    """The chart of some lines, all values above zero."""
    every = [point for line in series for point in line.points]
    x0, x1 = _decades([x for x, _ in every])
    y0, y1 = _decades([max(y, 1e-3) for _, y in every])

    def place(x: float, y: float) -> tuple[float, float]:
        u = (log10(x) - x0) / (x1 - x0)
        v = (log10(max(y, 1e-3)) - y0) / (y1 - y0)
        return LEFT + u * (WIDTH - LEFT - 20), HEIGHT - BOTTOM - v * (HEIGHT - BOTTOM - 40)

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}"',
        'font-family="sans-serif" font-size="12">',
        f"<title>{escape(title)}</title>",
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
        f'<text x="{LEFT}" y="20" font-size="14">{escape(title)}</text>',
        f'<text x="{WIDTH / 2}" y="{HEIGHT - 12}" text-anchor="middle">{escape(along)}</text>',
    ]
    parts += [_line(place(10**x0, 10**d), place(10**x1, 10**d), f"{10**d:g}", across=True) for d in range(y0, y1 + 1)]
    parts += [_line(place(10**d, 10**y0), place(10**d, 10**y1), f"{10**d:g}", across=False) for d in range(x0, x1 + 1)]
    parts += [_drawn(line, number, [place(*point) for point in line.points]) for number, line in enumerate(series)]
    return "\n".join([*parts, "</svg>"]) + "\n"


def _decades(values: Sequence[float]) -> tuple[int, int]:
    low, high = floor(log10(min(values))), ceil(log10(max(values)))
    return low, max(high, low + 1)


def _line(one: tuple[float, float], other: tuple[float, float], label: str, *, across: bool) -> str:
    x, y = (one[0] - 6, one[1] + 4) if across else (one[0], one[1] + 18)
    anchor = "end" if across else "middle"
    return (
        f'<path d="M{one[0]:.1f} {one[1]:.1f}L{other[0]:.1f} {other[1]:.1f}" stroke="#ccc"/>'
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{label}</text>'
    )


def _drawn(line: Series, number: int, at: Sequence[tuple[float, float]]) -> str:
    colour, dashes = STYLES[number % len(STYLES)]
    path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in at)
    key = 40 + 18 * number
    return (
        f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="2" stroke-dasharray="{dashes}"/>'
        + "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>' for x, y in at)
        + f'<path d="M{LEFT + 12} {key}h28" stroke="{colour}" stroke-width="2" stroke-dasharray="{dashes}"/>'
        f'<text x="{LEFT + 46}" y="{key + 4}">{escape(line.name)}</text>'
    )
