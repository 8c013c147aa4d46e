"""Values that can be, but hardly are: remarks that ask, and refuse nothing."""

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any

from models.base import PointMm
from models.gear import Thing
from models.reading.checks.percent import percent
from models.reading.draft import Draft, Entry
from models.reading.faults import shown
from models.reading.known import MOST_HINTS
from models.vehicle import Outline

HEAVIEST_PERSON_KG = 200.0
"""Kilograms of a person, dressed, from which one is asked about. Common practice, no source: pounds for kilograms."""

LIGHTEST_PERSON_KG, LIGHTEST_DRIVER_KG = 7.0, 35.0
"""Kilograms of a person, dressed, and of one in a seat that is called driver, below which they are asked about. Common
practice, no source: a child of half a year; a lost digit makes a vehicle look lighter than it is."""

LEAST_AXLE_SHARE = 0.25
"""Least share of an empty touring vehicle on one axle that is not asked about. Common practice, no source."""

LEAST_HEIGHT_MM, MOST_HEIGHT_MM = 350.0, 1500.0
"""Heights of the centre of gravity of a weighed vehicle that are not asked about, in mm. Common practice, no source:
the vehicles of NHTSA HS-809 868 lie between 500 and 900."""

BESIDE_MM = 500.0
"""How far beside the outline something bolted on may have its middle, in mm. Common practice, no source."""

LOWEST_PERSON_MM = 300.0
"""Height above the ground in mm of a seated person's mass below which a seat is asked about. Common practice, no
source: a seat in centimetres lies between the wheels."""

LOOKED_AT = 40
"""So many letters of a kit's name are looked at."""

LIKE_A_KIT = 0.8
"""How alike, 0 to 1, a kit of one thing is to another kit's name where it is asked about: a letter or two are wrong."""

LEAST_BALL_SHARE, MOST_BALL_SHARE = 0.08, 0.15
"""Shares of a trailer's mass on its ball that are not asked about. Common practice, no source."""

HEAVIEST_BALL_KG = 500.0
"""Kilograms on the ball up to which no limit is asked about, whatever is towed. Common practice, no source."""

BALL_FROM_END_MM = 600.0
"""How far ahead of the rear end of the outline or behind it a tow ball may be, in mm: under a carrier, or on a long
bar. Common practice, no source."""


def people(draft: Draft) -> Iterator[str]:
    """People heavier or lighter than people are, on the trip; heavier ones on the scale."""
    for person in draft.people:
        kg, seat = person.part.mass_kg, person.part.seat.casefold()
        if kg > HEAVIEST_PERSON_KG:
            yield person.note("mass_kg", _heavy(person.part.name, kg))
        elif kg < (LIGHTEST_DRIVER_KG if seat.startswith("driver") else LIGHTEST_PERSON_KG):
            yield person.note("mass_kg", f"{shown(person.part.name)} with {kg:g} kg; is a digit or the point wrong?")
    if draft.kerb is not None:
        for seat, kg in draft.kerb.part.aboard_kg.items():
            if kg > HEAVIEST_PERSON_KG:
                yield draft.kerb.note(("aboard_kg", seat), _heavy(seat, kg))


def _heavy(name: str, kg: float) -> str:
    return f"{shown(name)} with {kg:g} kg; are these pounds, or several people?"


def kerb(draft: Draft) -> Iterator[str]:
    """An empty vehicle with hardly anything on one axle, or with its weight in the road or in the sky."""
    if draft.kerb is None:
        return
    part = draft.kerb.part
    if part.front_kg is not None and part.rear_kg is not None and part.front_kg + part.rear_kg > 0:
        share = part.front_kg / (part.front_kg + part.rear_kg)
        if not LEAST_AXLE_SHARE <= share <= 1 - LEAST_AXLE_SHARE:
            yield draft.kerb.note("front_kg", f"{share:.0%} of the vehicle on its front wheels; are both in kilograms?")
    height = part.cg_height_mm
    if height != "unknown" and not LEAST_HEIGHT_MM <= height <= MOST_HEIGHT_MM:
        yield draft.kerb.note("cg_height_mm", f"{height:g} mm above the ground; is this in millimetres?")


def limits(draft: Draft) -> Iterator[str]:
    """A total that the axles cannot carry together, and an axle that carries more than the total."""
    if draft.limits is None:
        return
    part = draft.limits.part
    axles = (part.front_axle_kg.kg, part.rear_axle_kg.kg)
    total = part.gvm_kg.kg
    if total is not None and None not in axles and total > sum(kg or 0.0 for kg in axles):
        both = sum(kg or 0.0 for kg in axles)
        yield draft.limits.note("gvm_kg", f"{total:g} kg, more than the {both:g} kg of both axles together")
    for key, kg in zip(("front_axle_kg", "rear_axle_kg"), axles, strict=True):
        if total is not None and kg is not None and kg > total:
            told = f"{kg:g} kg on one axle, more than the gvm_kg of {total:g} kg; is there a digit too many?"
            yield draft.limits.note(key, told)


def track(draft: Draft) -> Iterator[str]:
    """A track wider than the vehicle."""
    wide = None if draft.vehicle is None else draft.vehicle.at(("track_mm",))
    if draft.vehicle is None or draft.outline is None or not isinstance(wide, int):
        return
    width = draft.outline.part.width
    if wide > width:
        told = f"{wide} mm between the middles of the wheels, and the vehicle is {width} mm wide; is one of them wrong?"
        yield draft.vehicle.note(("track_mm",), told)


def places(draft: Draft) -> Iterator[str]:
    """Tanks, fittings and racks whose middle lies beside the vehicle, and seats that are not in it."""
    if draft.outline is None:
        return
    outline = draft.outline.part
    parts: tuple[Entry[Any], ...] = (*draft.tanks, *draft.fittings, *draft.racks)
    for seat in draft.seats:
        if _beside(outline, seat.part.at_mm, 0):
            told = "lies outside the vehicle, where nobody can sit"
            yield seat.note("at_mm", f"{shown(seat.part.name)} at {_point(seat.part.at_mm)} {told}")
        elif seat.part.at_mm[2] < LOWEST_PERSON_MM:
            told = f"who sits there is {seat.part.at_mm[2]:g} mm above the road; is this in millimetres?"
            yield seat.note("at_mm", f"{shown(seat.part.name)}: {told}")
    for entry in parts:
        at = entry.part.at_mm
        if at is not None and _beside(outline, at, BESIDE_MM):
            yield entry.note("at_mm", f"{shown(entry.part.name)} at {_point(at)} lies beside the vehicle")


def _beside(outline: Outline, at_mm: PointMm, by_mm: float) -> bool:
    """Whether a point lies further than so many mm outside the outline."""
    ends = ((outline.front, outline.rear), (-outline.width / 2, outline.width / 2), (0, outline.height))
    return any(not low - by_mm <= value <= high + by_mm for value, (low, high) in zip(at_mm, ends, strict=True))


def _point(at_mm: PointMm) -> str:
    return f"[{', '.join(f'{value:g}' for value in at_mm)}]"


def kits(draft: Draft) -> Iterator[str]:
    """A kit of one thing whose name is nearly that of another kit; the first so many of them."""
    of: dict[str, list[Entry[Thing]]] = {}
    for thing in draft.things:
        if thing.part.kit is not None:
            of.setdefault(thing.part.kit, []).append(thing)
    others = {_letters(kit): kit for kit, things in of.items() if len(things) > 1}
    alone = [(kit, things[0]) for kit, things in of.items() if len(things) == 1]
    for kit, thing in alone[:MOST_HINTS]:
        near = get_close_matches(_letters(kit), others, 1, LIKE_A_KIT)
        if near and near[0] != _letters(kit):
            yield thing.note("kit", f"{shown(kit)} is the kit of this alone; is it {shown(others[near[0]])}?")


def _letters(kit: str) -> str:
    """A kit's name without what only numbers it, such as `crate B` and `day 2`."""
    return re.sub(r"[ _.-]*(\d+|\b\w)$", "", kit[:LOOKED_AT].casefold())


def ball_limit(draft: Draft) -> Iterator[str]:
    """A tow ball that may carry more than the whole trailer."""
    if draft.towing is None or draft.limits is None:
        return
    most = draft.limits.part.tow_ball_kg.kg
    trailer = max(entry.part.trailer_kg for entry in draft.trailers)
    if most is not None and most > max(trailer, HEAVIEST_BALL_KG) and trailer > 0:
        told = f"{most:g} kg on the ball, more than the whole trailer of {trailer:g} kg"
        yield draft.limits.note("tow_ball_kg", f"{told}; is this what it may tow?")


def ball_place(draft: Draft) -> Iterator[str]:
    """A tow ball far ahead of the rear end of the body or far behind it."""
    if draft.towing is None or draft.limits is None or draft.outline is None:
        return
    wheelbase, at_mm = draft.limits.sheet.at(("wheelbase_mm",)), draft.limits.part.tow_ball_behind_rear_axle_mm
    if at_mm is None or not isinstance(wheelbase, int):
        return
    end_mm = draft.outline.part.rear - wheelbase
    if abs(at_mm - end_mm) > BALL_FROM_END_MM:
        told = f"a ball {at_mm:g} mm behind the rear axle, and the body ends {end_mm} mm behind it"
        yield draft.limits.note("tow_ball_behind_rear_axle_mm", f"{told}; was it measured from the rear axle, in mm?")


def ball(draft: Draft) -> Iterator[str]:
    """A trailer with hardly anything on its ball, or nearly all of it."""
    for trailer in draft.trailers:
        part = trailer.part
        share = part.ball_kg / part.trailer_kg if part.trailer_kg else LEAST_BALL_SHARE
        if LEAST_BALL_SHARE <= share <= MOST_BALL_SHARE:
            continue
        bound = MOST_BALL_SHARE if share > MOST_BALL_SHARE else LEAST_BALL_SHARE
        told = f"{part.ball_kg:g} kg of the trailer's {part.trailer_kg:g} kg are {percent(share, bound)}"
        usual = f"{LEAST_BALL_SHARE:.0%} to {MOST_BALL_SHARE:.0%} is usual"
        why = "a trailer with little on its ball sways"
        if share > MOST_BALL_SHARE:
            why = "much on the ball presses on the rear axle and takes load off the front"
        yield trailer.note("ball_kg", f"{told}; {usual}, and {why}")
