"""The bare vehicle in a view: outline, wheels, ground, axles, seats in use; plain shapes to scale."""

from collections.abc import Iterator

from models.geometry import Box
from models.vehicle import Vehicle
from report.drawings.frames import ABOVE, BEHIND, LEFT, Frame
from report.drawings.svg import dot, line, rectangle, words

TYRE_MM = 260
"""Width of a tyre in mm, for the drawing alone. Common practice, no source."""
SILL_SHARE = 0.6
"""Height of the underside of the body as a share of a wheel's diameter; drawing alone. Common practice, no source."""


def outline_box(vehicle: Vehicle) -> Box:
    """The body from the ground up, in mm."""
    own = vehicle.outline_mm
    half = own.width // 2
    return Box((own.front, -half, 0), (own.rear, half, own.height))


def body(vehicle: Vehicle, frame: Frame) -> Iterator[str]:
    """The body with its wheels, drawn before all else."""
    own = vehicle.outline_mm
    whole = outline_box(vehicle)
    sill = int(2 * own.wheel_radius * SILL_SHARE)
    left, top, right, bottom = frame.rect(Box((whole.low[0], whole.low[1], sill), whole.high))
    if frame.view != ABOVE:
        yield from _wheels(vehicle, frame)
    yield rectangle((left, top), (right - left, bottom - top), class_="body", rx=6)
    if frame.view == ABOVE:
        yield from _wheels(vehicle, frame)
    else:
        yield from _ground(frame, whole)


def _wheels(vehicle: Vehicle, frame: Frame) -> Iterator[str]:
    radius, half, track = vehicle.outline_mm.wheel_radius, TYRE_MM // 2, vehicle.track_mm // 2
    for x in (0, vehicle.wheelbase_mm):
        if frame.view == LEFT:
            yield dot(frame.spot((x, 0, radius)), frame.units(radius), "wheel")
            yield dot(frame.spot((x, 0, radius)), 2, "ink")
            continue
        for y in (-track, track):
            left, top, right, bottom = frame.rect(Box((x - radius, y - half, 0), (x + radius, y + half, 2 * radius)))
            yield rectangle((left, top), (right - left, bottom - top), class_="wheel", rx=4)


def _ground(frame: Frame, whole: Box) -> Iterator[str]:
    start, end = frame.spot((whole.low[0], whole.low[1], 0)), frame.spot((whole.high[0], whole.high[1], 0))
    yield line((start[0] - 10, start[1]), (end[0] + 10, end[1]), "ground")


def axle_lines(vehicle: Vehicle, frame: Frame, low: float, size: float) -> Iterator[str]:
    """A line through each axle with its name under it, from the left and from above."""
    if frame.view == BEHIND:
        return
    for name, x in (("front axle", 0), ("rear axle", vehicle.wheelbase_mm)):
        across = frame.spot((x, 0, 0))[0]
        yield line((across, low - frame.units(500)), (across, low - size * 0.7), "axle")
        yield words((across, low), name, "word", size)


def scale_bar(frame: Frame, at: tuple[float, float], size: float) -> Iterator[str]:
    """A metre of the vehicle."""
    end = (at[0] + frame.units(1000), at[1])
    yield line(at, end, "ink-line")
    for spot in (at, end):
        yield line((spot[0], spot[1] - 4), (spot[0], spot[1] + 4), "ink-line")
    yield words((end[0] + 6, at[1]), "1 m", "word", size, "start")
