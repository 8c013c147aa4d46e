"""Limits and ratings so large that they hold nothing back: asked about, as pounds, grams or a digit too many."""

from collections.abc import Iterator

from models.reading.checks.plausible import LEAST_AXLE_SHARE
from models.reading.checks.shapes import DENSEST_KG_M3
from models.reading.draft import Draft
from models.reading.faults import shown
from models.vehicle import RackLimits

MOST_TIMES_WEIGHED = 2.2
"""Limit of the whole in weighed masses from which it is asked about. A kilogram is 2.2046 lb, so pounds for kilograms
make at least that of a vehicle that is not over its limit as weighed. With body and fittings on, touring vehicles lie
below 1.7 and trucks below 2: common practice, no source."""

MOST_TIE_DOWN_DAN = 2000.0
"""Rated load of one point in daN above which it is asked about. Common practice, no source: points in the floors of
trucks have that, those of cars and vans a tenth to a half of it."""


def total(draft: Draft) -> Iterator[str]:
    """A total limit, or where it is unknown that of both axles, of far more than stood on the scale."""
    weighed = _weighed_kg(draft)
    if draft.limits is None or not weighed:
        return
    part = draft.limits.part
    key, most = "gvm_kg", part.gvm_kg.kg
    front, rear = part.front_axle_kg.kg, part.rear_axle_kg.kg
    if most is None and front is not None and rear is not None:
        key, most = "front_axle_kg", front + rear
    if most is not None and most > MOST_TIMES_WEIGHED * weighed:
        both = "" if key == "gvm_kg" else " on both axles"
        told = f"{most:g} kg{both}, {most / weighed:.1f} times the {weighed:g} kg on the scale and bolted on since"
        yield draft.limits.note(key, f"{told}; are these pounds, or is there a digit too many?")


def _weighed_kg(draft: Draft) -> float:
    """Kilograms on the scale and of what was bolted on since; 0 where nobody weighed it, or one axle is asked about."""
    if draft.kerb is None:
        return 0.0
    part = draft.kerb.part
    scale = part.total_kg or 0.0
    if part.front_kg is not None and part.rear_kg is not None:
        scale = part.front_kg + part.rear_kg
        if min(part.front_kg, part.rear_kg) < LEAST_AXLE_SHARE * scale:
            return 0.0
    racks = sum(rack.part.own_mass_kg for rack in draft.racks if not rack.part.on_the_scale)
    return scale + racks + sum(fitting.part.mass_kg for fitting in draft.fittings) if scale else 0.0


def spaces(draft: Draft) -> Iterator[str]:
    """Spaces that may hold more than the whole vehicle may weigh, or more than they hold when full of gold."""
    gvm = None if draft.limits is None else draft.limits.part.gvm_kg.kg
    for space in draft.spaces:
        most = space.part.limit_kg.kg
        length, width, height = space.part.size_mm
        gold = length * width * height / 1e9 * DENSEST_KG_M3
        if most is not None and gvm is not None and most > gvm:
            yield space.note("limit_kg", _more(space.part.name, most, gvm))
        elif most is not None and most > gold:
            told = f"{most:g} kg in {shown(space.part.name)}, more than the {gold:.0f} kg of gold that fill it"
            yield space.note("limit_kg", f"{told}; are these grams?")


def racks(draft: Draft) -> Iterator[str]:
    """Racks that may carry more than the whole vehicle may weigh; the first such figure of each."""
    gvm = None if draft.limits is None else draft.limits.part.gvm_kg.kg
    for rack in draft.racks:
        limits = ((key, getattr(rack.part.limits, key)) for key in RackLimits.model_fields)
        for key, limit in limits:
            if limit is not None and limit.kg is not None and gvm is not None and limit.kg > gvm:
                yield rack.note(("limits", key), _more(rack.part.name, limit.kg, gvm))
                break


def _more(name: str, most: float, gvm: float) -> str:
    told = f"{most:g} kg for {shown(name)}, more than the gvm_kg of {gvm:g} kg"
    return f"{told}; are these grams, or is there a digit too many?"


def tie_downs(draft: Draft) -> Iterator[str]:
    """Points to tie to that would hold a vehicle; the first of each space."""
    for space in draft.spaces:
        for index, point in enumerate(space.part.tie_downs):
            if point.rated_dan > MOST_TIE_DOWN_DAN:
                told = f"{point.rated_dan:g} daN at one point, about the weight of {point.rated_dan:g} kg"
                yield space.note(
                    ("tie_downs", index, "rated_dan"), f"{told}; are these newtons, or what a strap holds?"
                )
                break
