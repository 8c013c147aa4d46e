"""A thing's size, shape and mass fit each other."""

from collections.abc import Iterator

from models.gear import Thing
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown

DENSEST_KG_M3 = 20_000.0
"""Largest density that is believed, in kg/m³: gold has 19 300, lead 11 340 (from memory)."""

DENSE_KG_M3 = {"hard": 3000.0, "soft": 1500.0}
"""Densities in kg/m³ above which a thing of a shape is asked about. Common practice, no source: a lead battery has
2500, a jack 1500, a box full of steel tools 1000; a bag full of water 1000, of sand 1500."""

_HEAVY = {"hard": "a lead battery", "soft": "a bag of sand"}

SOLID_KG_M3, SOLID_KG = 8000.0, 10.0
"""Density in kg/m³ of a hard thing lighter than so many kg above which it is asked about: shackles, hammers, crowbars
and hitches are solid steel, 7850 (from memory), and one person carries them in a hand."""

LIGHTEST_KG_M3 = 5.0
"""Smallest density that is not remarked on, in kg/m³: loosely packed down has about 10. Common practice, no source."""

_SHORT_MM = 150
"""A thing whose longest side is shorter was more likely measured in centimetres than weighed in grams."""


def shapes(draft: Draft) -> Iterator[Fault | str]:
    """Size or volume, air gaps, and a density that can be."""
    for thing in draft.things:
        sized = list(_sized(thing))
        yield from sized
        yield from _gaps(thing)
        if not sized:
            yield from _density(thing)


def _sized(thing: Entry[Thing]) -> Iterator[Fault]:
    part = thing.part
    if part.size_mm is None and part.volume_l is None:
        yield thing.fault((), f"no size for {shown(part.name)}", "size_mm, or volume_l with `shape: soft`")
    elif part.volume_l is not None and part.size_mm is not None:
        yield thing.fault("volume_l", "size_mm and volume_l both", "one of the two")
    elif part.volume_l is not None and part.shape != "soft":
        yield thing.fault("volume_l", "volume_l for a hard thing", "size_mm for a hard thing, or `shape: soft`")


def _gaps(thing: Entry[Thing]) -> Iterator[Fault]:
    part = thing.part
    if part.air_gap_mm is None:
        return
    if part.turns == "any":
        yield thing.fault("air_gap_mm", "air gaps on a thing with `turns: any`", "`turns: upright` or `turns: fixed`")
    if part.size_mm is None:
        yield thing.fault("air_gap_mm", "air gaps on a thing without size_mm", "a thing with size_mm")


def volume_m3(part: Thing) -> float:
    """Volume of one copy in m³; 0 when it has neither size nor volume."""
    if part.size_mm is not None:
        length, width, height = part.size_mm
        return length * width * height / 1e9
    return (part.volume_l or 0.0) / 1000


def _density(thing: Entry[Thing]) -> Iterator[Fault | str]:
    part, volume = thing.part, volume_m3(thing.part)
    heavy = part.mass_kg.likely / volume
    if part.mass_kg.most / volume > DENSEST_KG_M3:
        small = part.size_mm is not None and max(part.size_mm) < _SHORT_MM
        found = f"{heavy:.0f} kg/m³ ({part.mass_kg.likely:g} kg in {volume * 1000:.3g} litres)"
        as_small = "centimetres for millimetres were typed, it seems; if not, its mass is wrong"
        hint = as_small if small else "grams for kilograms were typed, it seems"
        key = "size_mm" if small else "mass_kg"
        yield thing.fault(key, found, f"at most {DENSEST_KG_M3:.0f} kg/m³, more than lead", hint)
    elif heavy > _dense(part):
        told = f"{shown(part.name)} has {heavy:.0f} kg/m³ ({part.mass_kg.likely:g} kg in {volume * 1000:.3g} litres)"
        than = "solid steel" if _dense(part) == SOLID_KG_M3 else _HEAVY[part.shape]
        key = "volume_l" if part.size_mm is None else "size_mm"
        hard = ", or is it `shape: hard`, as chain in a bag is" if part.shape == "soft" else ""
        yield thing.note(key, f"{told}, more than {than}; is a digit or a unit wrong there, or in its mass{hard}?")
    elif part.mass_kg.most == 0:
        yield thing.note("mass_kg", f"{shown(part.name)} weighs nothing, so it is never looked for at any stage")
    elif heavy < LIGHTEST_KG_M3:
        says = f"{shown(part.name)} has {heavy:.2g} kg/m³, lighter than loose down; were tonnes or kilograms mixed up?"
        yield thing.note("mass_kg", says)


def _dense(part: Thing) -> float:
    """Density in kg/m³ above which a thing is asked about."""
    in_a_hand = part.shape == "hard" and part.mass_kg.likely < SOLID_KG
    return SOLID_KG_M3 if in_a_hand else DENSE_KG_M3[part.shape]


def masses(draft: Draft) -> Iterator[Fault]:
    """A range in its order, and no more that leaves or arrives than the thing weighs."""
    for thing in draft.things:
        part, mass = thing.part, thing.part.mass_kg
        if not mass.least <= mass.likely <= mass.most:
            found = f"least {mass.least:g}, likely {mass.likely:g}, most {mass.most:g}"
            yield thing.fault("mass_kg", found, "least ≤ likely ≤ most")
        moved = sum(part.uses_up.values()) + sum(part.fills.values())
        if moved > mass.least * (1 + 1e-9):
            key = "uses_up" if part.uses_up else "fills"
            yield thing.fault(
                key, f"{moved:g} kg that leave or arrive", f"at most the least mass when full, {mass.least:g} kg"
            )
