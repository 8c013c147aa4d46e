"""What is inside of a thing: its hazard word, its amount, its mass and what leaves or arrives tell of one content."""

from collections.abc import Iterator
from functools import cache

from models.gear import Thing
from models.reading.checks.streams import ROUNDING_L
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.reading.shipped import shipped_rulebook

FUELS = {
    "petrol": ("petrol", "petrol_equipment"),
    "diesel": ("diesel", "petrol_equipment"),
    "kerosene": ("ethanol",),
    "lpg": ("lpg", "gas_cartridge"),
}
"""Fluids that burn, and the hazard words of the rule book for what holds them. Equipment that burns diesel has no word
of its own."""

FLUID_OF = {"petrol": "petrol", "petrol_equipment": "petrol", "diesel": "diesel", "lpg": "lpg", "gas_cartridge": "lpg"}
"""The fluid whose density counts, by hazard word. Spirit is lighter than the kerosene that shares its word."""

LIKE = {("petrol", "ethanol"): "white gas"}
"""Hazard words that are not for a fluid, and what has that word and comes nearest to the fluid: asked about."""

DENSER = 0.05
"""Share by which a fuel may be denser than the rule book says: petrol is up to 4 % (EN 228, 0.775 at 15 C)."""

ROUNDING_KG = 0.05
"""Kilograms by which two figures of one content may disagree, as people round them. Common practice, no source."""

FULL_SHARE = 0.8
"""Share of the mass of its content from which the mass of a full thing is not asked about: a bottle is filled to 80 %,
a can not to its brim. Common practice, no source."""


def fuels(draft: Draft) -> Iterator[Fault | str]:
    """What loses or gets a fluid that burns is marked so, and holds as much of it."""
    burning = _burning(draft)
    for thing in draft.things:
        streams = [name for name in _moved(thing.part) if name in burning]
        for name in streams[:1]:
            yield from _marked(thing, name, burning[name])
        if thing.part.hazard is not None and streams:
            yield from _too_much(draft, thing, {name: burning[name] for name in streams})


def _burning(draft: Draft) -> dict[str, str]:
    """The fluid of each stream whose fluid burns."""
    return {name: stream.fluid for name, stream in draft.streams.items() if stream.fluid in FUELS and stream.fluid}


def _moved(part: Thing) -> dict[str, float]:
    """Kilograms that leave a full thing or have arrived in it, by stream."""
    return {name: part.uses_up.get(name, 0.0) + part.fills.get(name, 0.0) for name in (*part.uses_up, *part.fills)}


def _marked(thing: Entry[Thing], stream: str, fluid: str) -> Iterator[Fault | str]:
    part = thing.part
    allowed = f"`hazard: {'` or `hazard: '.join(FUELS[fluid])}`"
    uses_up = stream in part.uses_up
    if part.hazard is None:
        found = f"{fluid} (stream {shown(stream)}) in {shown(part.name)}, which has no `hazard`"
        yield thing.fault("uses_up" if uses_up else "fills", found, f"a thing with {allowed}")
    elif (fluid, part.hazard) in LIKE:
        told = f"{shown(part.hazard)} for {shown(part.name)}, and {shown(stream)} is {fluid}"
        yield thing.note("hazard", f"{told}; is it {LIKE[fluid, part.hazard]}? Else it has {allowed}")
    elif part.hazard in _shipped_words() and part.hazard not in FUELS[fluid]:
        how = "uses up" if uses_up else "fills with"
        found = f"{shown(part.hazard)} for {shown(part.name)}, which {how} {fluid} (stream {shown(stream)})"
        yield thing.fault("hazard", found, allowed, "the fluid of the stream proves what is inside")


@cache
def _shipped_words() -> frozenset[str]:
    """Hazard words of which it is known what they mean; who adds one to the rule book knows what it is for."""
    return frozenset(shipped_rulebook().hazards)


def _too_much(draft: Draft, thing: Entry[Thing], burning: dict[str, str]) -> Iterator[Fault]:
    """More of a fuel leaves or arrives than a thing is said to hold."""
    part, moved = thing.part, _moved(thing.part)
    litres = sum(moved[name] / _density(draft, fluid) for name, fluid in burning.items() if _density(draft, fluid))
    key = "uses_up" if any(name in part.uses_up for name in burning) else "fills"
    both = all(any(name in moves for name in burning) for moves in (part.uses_up, part.fills))
    does = f"{shown(part.name)} {'uses up and fills with' if both else 'uses up' if key == 'uses_up' else 'fills with'}"
    if part.holds_l is not None and _more(litres, part.holds_l, ROUNDING_L):
        found = f"{litres:.1f} litres that {does}"
        yield thing.fault(key, found, f"at most the {part.holds_l:g} litres of its `holds_l`")
    kg = sum(moved[name] for name in burning)
    if part.net_kg is not None and _more(kg, part.net_kg, ROUNDING_KG):
        yield thing.fault(key, f"{kg:g} kg that {does}", f"at most the {part.net_kg:g} kg of its `net_kg`")


def _density(draft: Draft, fluid: str) -> float:
    """Kilograms in a litre; 0 where the rule book does not say."""
    known = {} if draft.rulebook is None else draft.rulebook.fluids_kg_per_l
    return known[fluid].value if fluid in known else 0.0


def _more(amount: float, held: float, rounding: float) -> bool:
    return amount > held * (1 + DENSER) + rounding


def amounts(draft: Draft) -> Iterator[str]:
    """A full thing lighter than what it holds, and a stream of no fluid that takes more than is in a thing."""
    harmless = {name for thing in draft.things if thing.part.hazard is None for name in _moved(thing.part)}
    for thing in draft.things:
        fluid = FLUID_OF.get(thing.part.hazard or "")
        density = _density(draft, fluid) if fluid else 0.0
        yield from _light(thing, fluid or "", density)
        yield from _drained(draft, thing, harmless, density)


def _light(thing: Entry[Thing], fluid: str, density: float) -> Iterator[str]:
    part = thing.part
    content = (part.holds_l or 0.0) * density
    if part.mass_kg.most < FULL_SHARE * content:
        told = f"{shown(part.name)} with {part.mass_kg.most:g} kg, and {part.holds_l:g} litres of {fluid} alone are"
        yield thing.note("mass_kg", f"{told} {content:.1f} kg: is this its mass when it is full?")


def _drained(draft: Draft, thing: Entry[Thing], harmless: set[str], density: float) -> Iterator[str]:
    """A stream that only hazards have and no fluid is named for is taken for the hazard itself."""
    part = thing.part
    streams = draft.streams
    own = {name: kg for name, kg in _moved(part).items() if name not in harmless}
    kg = sum(kg for name, kg in own.items() if name not in streams or streams[name].fluid is None)
    if part.hazard is None or not kg:
        return
    key, does = ("uses_up", "leave") if part.uses_up else ("fills", "arrive")
    if part.net_kg is not None and _more(kg, part.net_kg, ROUNDING_KG):
        yield thing.note(key, f"{kg:g} kg {does}, and `net_kg` of {shown(part.hazard)} are {part.net_kg:g} kg: which?")
    elif part.holds_l is not None and density and _more(kg / density, part.holds_l, ROUNDING_L):
        told = f"{kg:g} kg {does}, {kg / density:.1f} litres, and `holds_l` of {shown(part.hazard)} are"
        yield thing.note(key, f"{told} {part.holds_l:g} litres: which?")
