"""Doubt: how far the sums may be off because masses are known so or so. It never enters a limit."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

from models.base import ON_A_SCALE
from models.gear import Thing
from models.stages import mass_kg
from models.trip import Stage
from verifier.layout import Layout

RANGE_DEVIATIONS = 2.0
"""So many deviations is a listed range at least wide, to its farther side. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Two standard deviations at a stage, in kg; an axle is None where the kerb's axles are unknown."""

    total_kg: float
    front_axle_kg: float | None
    rear_axle_kg: float | None
    racks_kg: dict[str, float]
    """Of what hangs on each rack, by its name; racks themselves, people on them and what is bolted on as typed in."""


@dataclass(frozen=True, slots=True)
class WorthWeighing:
    """A thing whose weighing would tell most about the tightest axle."""

    thing: str
    known_from: str
    doubt_kg: float
    """Two standard deviations of what its copies put on that axle, in kg."""
    share: float
    """Its part of the variance that all things together put on that axle, 0 to 1; without the vehicle's own. A part of
    the squares, so no part of the doubt in kg."""
    load_kg: float
    """Two standard deviations of what all things together put on that axle, in kg; without the vehicle's own."""
    once_weighed_kg: float
    """What that would be once this thing is weighed, in kg."""


def combined_deviation_kg(parts: Iterable[float]) -> float:
    """Standard deviation in kg of a sum of masses that are off independently of each other."""
    return sqrt(sum(part * part for part in parts))


def deviation_kg(layout: Layout, thing: Thing, stage: Stage) -> float:
    """One standard deviation of a copy at a stage, in kg.

    The larger of two: by where its mass is known from, and half of the way from its likely mass to the farther of
    `least` and `most`, where a range is listed: who says "from 20 to 90 kg" means that it may well be either. Common
    practice, no source.
    """
    least, likely, most = (mass_kg(thing, stage, which) for which in ("least", "likely", "most"))
    known = layout.case.rulebook.doubt.share[thing.known_from] * likely
    return max(known, max(likely - least, most - likely) / RANGE_DEVIATIONS)


def _pieces(layout: Layout, thing: Thing, axle: str) -> float:
    """So many copies rest on an axle with all of their mass; one that is not carried puts nothing on any."""
    wheelbase = layout.case.vehicle.wheelbase_mm
    behind = sum(one.box.centre_mm[0] / wheelbase for one in layout.copies_of(thing.name))
    copies = len(layout.copies_of(thing.name))
    return {"rear": behind, "front": copies - behind, "total": float(copies)}[axle]


def _acting_kg(layout: Layout, thing: Thing, stage: Stage, axle: str) -> float:
    """One deviation of what all copies put on an axle; copies are off together, for one mass is listed for all."""
    return _pieces(layout, thing, axle) * deviation_kg(layout, thing, stage)


def _things_kg(layout: Layout, stage: Stage, axle: str) -> list[float]:
    return [_acting_kg(layout, thing, stage, axle) for thing in layout.case.things]


def _on_rack_kg(layout: Layout, stage: Stage, rack: str) -> float:
    """One deviation of what hangs on a rack, directly or through others; copies are off together, as on an axle."""
    copies = Counter(one.thing.name for one in layout.by_rack[rack])
    here = (thing for thing in layout.case.things if thing.name in copies)
    return combined_deviation_kg(copies[thing.name] * deviation_kg(layout, thing, stage) for thing in here)


def doubt_at(layout: Layout, stage: Stage) -> Doubt:
    """Tell the doubt of total, axles and racks at a stage; the axles of the kerb are off independently."""
    book, kerb = layout.case.rulebook.doubt, layout.case.vehicle.kerb
    own = book.share[kerb.known_from]
    axles = None if kerb.front_kg is None or kerb.rear_kg is None else (own * kerb.front_kg, own * kerb.rear_kg)
    whole: Sequence[float] = axles or (own * (kerb.total_kg or 0.0),)

    def told(kerb_parts: Sequence[float], axle: str) -> float:
        return book.deviations * combined_deviation_kg([*kerb_parts, *_things_kg(layout, stage, axle)])

    racks = {rack.name: book.deviations * _on_rack_kg(layout, stage, rack.name) for rack in layout.case.vehicle.racks}
    if axles is None:
        return Doubt(told(whole, "total"), None, None, racks)
    return Doubt(told(whole, "total"), told(axles[:1], "front"), told(axles[1:], "rear"), racks)


def worth_weighing(layout: Layout, stage: Stage, axle: str) -> tuple[WorthWeighing, ...]:
    """List the things not yet weighed, those first that are most of the doubt of an axle."""
    acting = {thing.name: _acting_kg(layout, thing, stage, axle) for thing in layout.case.things}
    all_of_it = sum(part * part for part in acting.values())
    book = layout.case.rulebook.doubt

    def worth(thing: Thing, own: float) -> WorthWeighing:
        weighed = _pieces(layout, thing, axle) * book.share["weighed"] * mass_kg(thing, stage, "likely")
        left = max(0.0, all_of_it - own * own + min(weighed * weighed, own * own))
        told = [book.deviations * kg for kg in (abs(own), sqrt(all_of_it), sqrt(left))]
        return WorthWeighing(thing.name, thing.known_from, told[0], own**2 / all_of_it, *told[1:])

    found = [
        worth(thing, acting[thing.name])
        for thing in layout.case.things
        if thing.known_from not in ON_A_SCALE and acting[thing.name] != 0
    ]
    return tuple(sorted(found, key=lambda one: (-one.share, one.thing)))
