"""The centre of gravity: crosses in the views, and enlarged by stage with the shift that the load makes."""

from collections.abc import Iterator
from dataclasses import dataclass

from report.drawings.frames import Frame
from report.drawings.labels import Rect, spread
from report.drawings.svg import Picture, Spot, dot, element, line, words

CentreMm = tuple[float, float, float]


@dataclass(frozen=True)
class Centre:
    """The centre of gravity at a stage in mm, without the things of the list and with them."""

    stage: str
    number: int
    """Of the stage, from 1."""
    empty_mm: CentreMm
    laden_mm: CentreMm


Centres = tuple[Centre, ...]


def crosses(frame: Frame, centres: Centres) -> Iterator[str]:
    """An open ring for each unladen centre, a quartered ring for each laden one, a line between the two."""
    for one in centres:
        yield line(frame.spot(one.empty_mm), frame.spot(one.laden_mm), "shift")
    for one in centres:
        yield dot(frame.spot(one.empty_mm), 5, "empty-cg")
    for one in centres:
        yield quartered(frame.spot(one.laden_mm), 6)


def cross_rects(frame: Frame, centres: Centres) -> list[Rect]:
    """The room that the marks take, for labels to keep clear of."""
    spots = [frame.spot(point) for one in centres for point in (one.empty_mm, one.laden_mm)]
    return [(x - 7, y - 7, x + 7, y + 7) for x, y in spots]


def quartered(at: Spot, radius: float) -> str:
    """A ring with two of its quarters filled."""
    x, y = at
    wedge = f"M{x:.1f} {y:.1f}h{radius}a{radius} {radius} 0 0 1 -{radius} {radius}z"
    other = f"M{x:.1f} {y:.1f}h-{radius}a{radius} {radius} 0 0 1 {radius} -{radius}z"
    return dot(at, radius, "cg") + element("path", d=wedge + other, class_="cg-fill")


WIDTH, HEIGHT, TEXT = 520.0, 320.0, 14.0
ROOM = (58.0, 22.0, 190.0, 46.0)
"""Free room left, above, right and below the field in which the centres lie."""


def shift_picture(centres: Centres) -> Picture:
    """Height against place along the vehicle, enlarged: the centre at each stage, with the load and without."""
    field = _Field.around(centres)
    parts = (*field.axes(), *(part for one in centres for part in _pair(field, one)), *_names(field, centres))
    told = "; ".join(
        f"stage {one.number}, {one.stage}: from {one.empty_mm[0]:.0f} back and {one.empty_mm[2]:.0f} up "
        f"to {one.laden_mm[0]:.0f} back and {one.laden_mm[2]:.0f} up"
        for one in centres
    )
    title = "The centre of gravity at each stage, unladen and laden, enlarged"
    return Picture("shift", title, f"In mm behind the front axle and above ground: {told}.", (WIDTH, HEIGHT), parts)


@dataclass(frozen=True)
class _Field:
    """A window on the plane of the vehicle's middle, both axes to one scale."""

    left_mm: float
    top_mm: float
    mm_per_unit: float

    @classmethod
    def around(cls, centres: Centres) -> "_Field":
        points = [point for one in centres for point in (one.empty_mm, one.laden_mm)]
        xs, zs = [p[0] for p in points], [p[2] for p in points]
        across, up = WIDTH - ROOM[0] - ROOM[2], HEIGHT - ROOM[1] - ROOM[3]
        scale = max((max(xs) - min(xs)) / across, (max(zs) - min(zs)) / up, 0.1) * 1.15
        left = (min(xs) + max(xs)) / 2 - across / 2 * scale
        return cls(left, (min(zs) + max(zs)) / 2 + up / 2 * scale, scale)

    def spot(self, point: CentreMm) -> Spot:
        return (ROOM[0] + (point[0] - self.left_mm) / self.mm_per_unit,
                ROOM[1] + (self.top_mm - point[2]) / self.mm_per_unit)  # fmt: skip

    def axes(self) -> Iterator[str]:
        right, bottom = WIDTH - ROOM[2], HEIGHT - ROOM[3]
        yield line((ROOM[0], ROOM[1]), (ROOM[0], bottom), "ink-line")
        yield line((ROOM[0], bottom), (right, bottom), "ink-line")
        step = _round_step(100 * self.mm_per_unit / 2)
        for value in _steps(self.left_mm, self.left_mm + (right - ROOM[0]) * self.mm_per_unit, step):
            x = self.spot((value, 0, self.top_mm))[0]
            yield line((x, bottom), (x, bottom + 5), "ink-line")
            yield words((x, bottom + 14), f"{value:.0f}", "word", TEXT)
        for value in _steps(self.top_mm - (bottom - ROOM[1]) * self.mm_per_unit, self.top_mm, step):
            y = self.spot((self.left_mm, 0, value))[1]
            yield line((ROOM[0] - 5, y), (ROOM[0], y), "ink-line")
            yield words((ROOM[0] - 8, y), f"{value:.0f}", "word", TEXT, "end")
        yield words(((ROOM[0] + right) / 2, HEIGHT - 10), "mm behind the front axle", "word", TEXT)
        yield words((4, 9), "mm above ground", "word", TEXT, "start")


def _round_step(about: float) -> float:
    size = 1.0
    while size < about:
        size *= 2.5 if f"{size:.0f}"[0] == "2" else 2
    return size


def _steps(low: float, high: float, step: float) -> Iterator[float]:
    value = step * (low // step + 1)
    while value < high:
        yield value
        value += step


def _pair(field: _Field, one: Centre) -> Iterator[str]:
    yield line(field.spot(one.empty_mm), field.spot(one.laden_mm), "shift")
    yield dot(field.spot(one.empty_mm), 5, "empty-cg")
    yield quartered(field.spot(one.laden_mm), 6)


def _names(field: _Field, centres: Centres) -> Iterator[str]:
    """The number of each stage right of the field, with a line to its laden centre."""
    spots = [field.spot(one.laden_mm) for one in centres]
    right = WIDTH - ROOM[2] + 12
    for one, spot, y in zip(
        centres, spots, spread([s[1] for s in spots], TEXT * 1.4, TEXT, HEIGHT - ROOM[3]), strict=True
    ):
        yield line((spot[0] + 7, spot[1]), (right, y), "leader")
        name = one.stage if len(one.stage) <= 20 else f"{one.stage[:19]}…"
        yield words((right + 4, y), f"{one.number} {name}", "word", TEXT, "start")
