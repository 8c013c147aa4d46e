"""Height against seconds a day, a mark for each verified plan."""

from collections.abc import Iterator
from math import ceil, floor, log10

from report.drawings.svg import Picture, Spot, dot, element, line, words
from report.tradeoff import Row, Tradeoff

WIDTH, HEIGHT, TEXT = 640.0, 380.0, 15.0
LEFT, TOP, RIGHT, BOTTOM = 74.0, 30.0, 40.0, 56.0
"""Free room around the field."""


def tradeoff_picture(found: Tradeoff) -> Picture:
    """Draw every plan by its height and its seconds a day; low and to the left is better at both."""
    field = _Field(found.rows)
    marks = [(row, field.spot(row)) for row in found.rows]
    path = " ".join(f"{x:.1f},{y:.1f}" for _, (x, y) in sorted(marks, key=lambda mark: mark[1]))
    parts = (
        *field.axes(),
        element("polyline", points=path, class_="curve"),
        *(part for row, at in marks for part in _mark(row, at)),
        *_labels(marks),
    )
    told = "; ".join(
        f"{row.offer.allow_mm:g} mm allowed: {row.offer.height_mm:.1f} mm high, {row.offer.getting_at_s:.0f} s a day"
        + (", chosen" if row.chosen else "")
        for row in found.rows
    )
    return Picture("tradeoff", "Height against handling time", told + ".", (WIDTH, HEIGHT), parts)


def _mark(row: Row, at: Spot) -> Iterator[str]:
    """A filled ring for the chosen plan, an open one for the others."""
    yield dot(at, 6, "empty-cg")
    if row.chosen:
        yield dot(at, 3.4, "cg-fill")
        yield dot(at, 10, "ring")


def _labels(marks: list[tuple[Row, Spot]]) -> Iterator[str]:
    """What was allowed, above its mark; plans that are the same share a label."""
    shared: dict[tuple[int, int], list[str]] = {}
    for row, (x, y) in marks:
        shared.setdefault((round(x / 24), round(y / 18)), []).append(f"{row.offer.allow_mm:g}")
    told: set[tuple[int, int]] = set()
    for _, (x, y) in marks:
        key = (round(x / 24), round(y / 18))
        if key not in told:
            told.add(key)
            yield words((x, y - 18), f"{', '.join(shared[key])} mm", "number", TEXT)


class _Field:
    """Seconds across, millimetres up, a little room around the plans."""

    def __init__(self, rows: tuple[Row, ...]) -> None:
        self.s = _around([row.offer.getting_at_s for row in rows], 20.0)
        self.mm = _around([row.offer.height_mm for row in rows], 2.0)

    def spot(self, row: Row) -> Spot:
        return self.at(row.offer.getting_at_s, row.offer.height_mm)

    def at(self, seconds: float, mm: float) -> Spot:
        across = (seconds - self.s[0]) / (self.s[1] - self.s[0])
        up = (mm - self.mm[0]) / (self.mm[1] - self.mm[0])
        return (LEFT + across * (WIDTH - LEFT - RIGHT), HEIGHT - BOTTOM - up * (HEIGHT - TOP - BOTTOM))

    def axes(self) -> Iterator[str]:
        corner = self.at(self.s[0], self.mm[0])
        yield line(corner, (WIDTH - RIGHT, corner[1]), "ink-line")
        yield line(corner, (corner[0], TOP), "ink-line")
        for value in _ticks(*self.s):
            x = self.at(value, self.mm[0])[0]
            yield line((x, corner[1]), (x, corner[1] + 5), "ink-line")
            yield words((x, corner[1] + 15), f"{value:g}", "word", TEXT)
        for value in _ticks(*self.mm):
            y = self.at(self.s[0], value)[1]
            yield line((corner[0] - 5, y), (corner[0], y), "ink-line")
            yield words((corner[0] - 8, y), f"{value:g}", "word", TEXT, "end")
        yield words(((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 12), "seconds a day getting at things", "word", TEXT)
        yield words((4, 12), "height of the centre of gravity, mm", "word", TEXT, "start")


def _around(values: list[float], least: float) -> tuple[float, float]:
    span = max(max(values) - min(values), least)
    middle = (max(values) + min(values)) / 2
    return (middle - 0.65 * span, middle + 0.65 * span)


def _ticks(low: float, high: float) -> Iterator[float]:
    rough = (high - low) / 5
    size = 10.0 ** floor(log10(rough))
    step = next(size * part for part in (1, 2, 5, 10) if size * part >= rough)
    for n in range(ceil(low / step), floor(high / step) + 1):
        yield round(n * step, 6)
