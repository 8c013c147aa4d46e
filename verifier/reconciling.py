"""What the masses of the list most likely are, given a ticket: generalised least squares.

Each line of the list and each axle of the kerb weighing is off by its own deviation, the scale by its step. The most
likely corrections are delta = S A' (A S A' + R)^-1 r, with r measured less predicted, A what a kilogram of a line puts
on each reading, S the variances of the lines and R that of the scale. The textbook formula, from memory; a test
compares it with the sum of squares that it makes least.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, sqrt

from models.stages import mass_kg
from models.trip import Stage
from verifier.doubt import combined_deviation_kg, deviation_kg
from verifier.layout import Layout
from verifier.ticket import Difference, scale_kg2

WORTH_TELLING_KG = 0.05
"""Smallest correction per piece that is told, in kg."""

READ = ("front axle", "rear axle", "left wheels", "right wheels")
"""Readings that stand for themselves; the total is the sum of two."""


@dataclass(frozen=True, slots=True)
class Correction:
    """What one line of the list, or one axle of the kerb weighing, is most likely off by."""

    subject: str
    known_from: str
    pieces: int
    each_kg: float
    """Kilograms a piece that it most likely weighs more than listed; negative: less."""
    deviation_kg: float
    """One standard deviation of a piece as it was known before, in kg."""
    left_kg: float
    """And as it is known now."""


@dataclass(frozen=True, slots=True)
class _Line:
    subject: str
    known_from: str
    pieces: int
    each_kg: float
    shares: dict[str, float]
    """Kilograms on each reading for a kilogram more of a piece."""
    range_kg: tuple[float, float] = (-inf, inf)
    """The least and the most that a piece may be off by, as its mass is listed."""


def side_doubts_kg(layout: Layout, stage: Stage) -> tuple[float, float]:
    """Two standard deviations of what the left and the right wheels carry, by how the masses are known."""
    lines, times = list(_lines(layout, stage)), layout.case.rulebook.doubt.deviations
    left, right = (
        times * combined_deviation_kg(line.each_kg * line.shares[side] for line in lines)
        for side in ("left wheels", "right wheels")
    )
    return left, right


def corrections(
    layout: Layout, stage: Stage, found: tuple[Difference, ...], division_kg: float
) -> tuple[Correction, ...]:
    """Most likely corrections, the largest first; none where a reading cannot be predicted or fits within its step."""
    read = [one for one in found if one.subject in READ]
    off = [one.difference_kg for one in read]
    known = [value for value in off if value is not None]
    if len(known) < len(off) or all(abs(value) <= division_kg for value in known):
        return ()
    lines = list(_lines(layout, stage))
    acting = [[line.shares[one.subject] for line in lines] for one in read]
    return _told(lines, *_in_range(acting, lines, division_kg, known))


def _in_range(
    acting: Sequence[Sequence[float]], lines: Sequence[_Line], division_kg: float, off: Sequence[float]
) -> tuple[list[float], list[float]]:
    """Corrections that leave no mass beyond what is listed as its least and its most, and the variances left.

    What would go beyond stays at that end, and what it leaves of the readings is solved again with the others.
    """
    at_end, left = dict[int, float](), list[float]()
    while True:
        rest = [kg - sum(row[n] * end for n, end in at_end.items()) for row, kg in zip(acting, off, strict=True)]
        variance = [0.0 if n in at_end else line.each_kg**2 for n, line in enumerate(lines)]
        delta, now = _solved(acting, variance, division_kg, rest)
        left = left or now
        ends = {n: min(max(kg, lines[n].range_kg[0]), lines[n].range_kg[1]) for n, kg in enumerate(delta)}
        beyond = {n: end for n, end in ends.items() if n not in at_end and end != delta[n]}
        if not beyond:
            return [at_end.get(n, kg) for n, kg in enumerate(delta)], left
        at_end |= beyond


def _solved(
    acting: Sequence[Sequence[float]], variance: Sequence[float], division_kg: float, off: Sequence[float]
) -> tuple[list[float], list[float]]:
    """Corrections, and the variances that are left."""
    import numpy as np  # noqa: PLC0415 - only a ticket needs it; a check does without

    a, s = np.array(acting), np.array(variance)
    spread = a * s
    gain = np.linalg.solve(spread @ a.T + scale_kg2(division_kg) * np.eye(len(off)), spread).T
    left = s - np.einsum("ij,ji->i", gain, spread)
    return (gain @ np.array(off)).tolist(), left.tolist()


def _told(lines: Sequence[_Line], delta: Sequence[float], left: Sequence[float]) -> tuple[Correction, ...]:
    told = [
        Correction(line.subject, line.known_from, line.pieces, kg, line.each_kg, sqrt(max(0.0, rest)))
        for line, kg, rest in zip(lines, delta, left, strict=True)
        if abs(kg) >= WORTH_TELLING_KG
    ]
    return tuple(sorted(told, key=lambda one: (-abs(one.each_kg * one.pieces), one.subject)))


def _lines(layout: Layout, stage: Stage) -> Iterator[_Line]:
    """All lines; one that is not carried, or weighs nothing, comes out as needing no correction."""
    yield from _kerb(layout)
    wheelbase, track = layout.case.vehicle.wheelbase_mm, layout.case.vehicle.track_mm
    for thing in layout.case.things:
        copies = layout.copies_of(thing.name)
        rear = sum(one.box.centre_mm[0] / wheelbase for one in copies)
        right = sum(0.5 + one.box.centre_mm[1] / track for one in copies)
        count = len(copies)
        acting = {"rear axle": rear, "front axle": count - rear, "right wheels": right, "left wheels": count - right}
        least, likely, most = (mass_kg(thing, stage, which) for which in ("least", "likely", "most"))
        # One figure is no range: how far it may be off is told by where it is known from.
        ends = (least - likely, most - likely) if least < most else (-likely, inf)
        yield _Line(thing.name, thing.known_from, count, deviation_kg(layout, thing, stage), acting, ends)


def _kerb(layout: Layout) -> Iterator[_Line]:
    vehicle = layout.case.vehicle
    kerb, right = vehicle.kerb, 0.5 + vehicle.kerb.right_of_centre_mm / vehicle.track_mm
    share = layout.case.rulebook.doubt.share[kerb.known_from]
    for name, kg in (("front axle", kerb.front_kg), ("rear axle", kerb.rear_kg)):
        if kg is not None:
            acting = {"front axle": 0.0, "rear axle": 0.0, "right wheels": right, "left wheels": 1 - right}
            yield _Line(f"empty vehicle, {name}", kerb.known_from, 1, share * kg, {**acting, name: 1.0})
