"""The body and what is bolted to it: places in centimetres or metres, a lost sign, a digit too many."""

from collections.abc import Iterator
from typing import Any

from models.base import PointMm
from models.reading.draft import Draft, Entry
from models.reading.faults import shown
from models.vehicle import Outline

LONGEST_MM, WIDEST_MM, HIGHEST_MM = 15_000, 2_600, 4_000
"""Length, width and height of a body in mm above which it is asked about: the most of a single motor vehicle, a bus of
three axles, from memory, by Directive 96/53/EC, Annex I, 1.1 to 1.3. Figures of other countries are near."""

LEAST_OVERHANG = 0.5
"""Least way in radii of a wheel by which a body reaches beyond the middle of an axle that is not asked about. Common
practice, no source: bumpers are cut back to the tread, which is one radius ahead, and hardly further."""

LOWEST_PART_MM = 200.0
"""Height above the ground in mm of the middle of a tank, a fitting or a rack below which it is asked about. Common
practice, no source: less than that is left free below a touring vehicle."""

ABOVE_ROOF_MM = 300.0
"""How far above the body the middle of what is on its roof may be, in mm. Common practice, no source."""


def size(draft: Draft) -> Iterator[str]:
    """A body longer, wider or higher than vehicles are."""
    if draft.outline is None:
        return
    part = draft.outline.part
    length = part.rear - part.front
    if length > LONGEST_MM:
        told = f"{length} mm from front to rear, and hardly any single vehicle is longer than {LONGEST_MM} mm"
        yield draft.outline.note("rear", f"{told}; is there a digit too many?")
    for key, value, most in (("width", part.width, WIDEST_MM), ("height", part.height, HIGHEST_MM)):
        if value > most:
            told = f"{value} mm, and hardly any vehicle has more than {most} mm"
            yield draft.outline.note(key, f"{told}; is there a digit too many?")


def axles(draft: Draft) -> Iterator[str]:
    """An axle ahead of the front of the body or behind its end."""
    wheelbase = None if draft.vehicle is None else draft.vehicle.at(("wheelbase_mm",))
    if draft.vehicle is None or draft.outline is None:
        return
    part = draft.outline.part
    least = LEAST_OVERHANG * part.wheel_radius
    if part.front >= part.rear:
        return  # refused
    if part.front > -least:
        told = f"the body begins at x {part.front} mm, and the middle of the front axle is at 0"
        yield draft.outline.note("front", f"{told}; is a minus missing, or is this in centimetres?")
    if isinstance(wheelbase, int) and part.rear < wheelbase + least:
        told = f"the rear axle is {wheelbase} mm behind the front axle, and the body ends at x {part.rear} mm"
        yield draft.vehicle.note(("wheelbase_mm",), f"{told}; is one of them wrong?")


def places(draft: Draft) -> Iterator[str]:
    """Tanks, fittings and racks below the vehicle, or where only centimetres for millimetres put them."""
    parts: tuple[Entry[Any], ...] = (*draft.tanks, *draft.fittings, *draft.racks)
    for entry in parts:
        at = entry.part.at_mm
        if at is None:
            continue
        if at[2] < LOWEST_PART_MM or (draft.outline is not None and _in_centimetres(draft.outline.part, at)):
            told = f"the middle of {shown(entry.part.name)} is {at[2]:g} mm above the road"
            yield entry.note("at_mm", f"{told}; is this in millimetres?")


def _in_centimetres(outline: Outline, at_mm: PointMm) -> bool:
    """Whether a point ten times as far is in the body or on its roof: so near the road and the front hardly any is."""
    x, y, z = (10 * value for value in at_mm)
    along, across = outline.front <= x <= outline.rear, abs(y) <= outline.width / 2
    return along and across and z <= outline.height + ABOVE_ROOF_MM
