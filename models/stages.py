"""What a thing weighs at a stage, what tanks hold and what a stage means; nothing here sums over things."""

from collections.abc import Iterable
from typing import Literal

from models.gear import Thing
from models.rulebook import RuleBook
from models.trip import Stage, Towing, Trip
from models.vehicle import Opening, Tank, Vehicle

Which = Literal["least", "likely", "most"]

PRESENT_KG = 0.0005
"""Half a gram: a thing whose heaviest mass at a stage is less is gone. Files give three decimals of a kilogram."""


def mass_kg(thing: Thing, stage: Stage, which: Which) -> float:
    """Mass of one copy at a stage in kg."""
    full: float = getattr(thing.mass_kg, which)
    if not thing.uses_up and not thing.fills:  # nearly every thing, and this is asked tens of thousands of times
        return full
    gone = sum(kg * (1 - stage.left.get(stream, 1.0)) for stream, kg in thing.uses_up.items())
    missing = sum(kg * (1 - stage.filled.get(stream, 0.0)) for stream, kg in thing.fills.items())
    return max(0.0, full - gone - missing)


def tank_litres(tanks: Iterable[Tank], stage: Stage) -> float:
    """What some tanks hold together at a stage; those that the stage does not name are full."""
    return sum(tank.holds_l * stage.tanks.get(tank.name, 1.0) for tank in tanks)


def present(thing: Thing, stage: Stage) -> bool:
    """Whether anything of a carried thing is still there at a stage."""
    return mass_kg(thing, stage, "most") > PRESENT_KG


def trailer_at(trip: Trip, stage: Stage) -> Towing | None:
    """The trailer as it is at a stage, as the stage says or else the trip; None where none is on."""
    if trip.towing is None or stage.towing is False:
        return None
    return stage.towing if isinstance(stage.towing, Towing) else trip.towing


def towing(trip: Trip, stage: Stage) -> bool:
    """Whether the trailer is on at a stage."""
    return trailer_at(trip, stage) is not None


def towed(trip: Trip) -> bool:
    """Whether a trailer is pulled at any driving stage."""
    return any(stage.driving and towing(trip, stage) for stage in trip.stages)


def tent_up(trip: Trip) -> bool:
    """Whether people are on a rack at any stage, as in a tent on the roof."""
    return any("tent up" in conditions(trip, stage) for stage in trip.stages)


def conditions(trip: Trip, stage: Stage) -> frozenset[str]:
    """The conditions a stage brings with it."""
    found = {"trailer on"} if towing(trip, stage) else set()
    if any(kg > 0 for kg in stage.on_racks.values()):
        found.add("tent up")
    return frozenset(found)


def aboard(trip: Trip, stage: Stage) -> tuple[str, ...]:
    """Names of the people aboard at a stage."""
    return tuple(person.name for person in trip.people) if stage.people is None else stage.people


def opening_chain(vehicle: Vehicle, name: str) -> tuple[Opening, ...]:
    """An opening and all that must be open before it, each once."""
    by_name = {opening.name: opening for opening in vehicle.openings}
    chain: dict[str, Opening] = {}
    waiting = [name]
    while waiting:
        opening = by_name[waiting.pop()]
        if opening.name not in chain:
            chain[opening.name] = opening
            waiting.extend(opening.after)
    return tuple(chain.values())


def opening_seconds(opening: Opening, rulebook: RuleBook) -> float:
    """Seconds one opening takes by itself."""
    own = opening.seconds
    return rulebook.openings.sides[opening.side].seconds if own is None else own


def stuck_conditions(opening: Opening, rulebook: RuleBook) -> frozenset[str]:
    """Conditions in which one opening by itself does not open."""
    own = opening.stuck_when
    return frozenset(rulebook.openings.sides[opening.side].stuck_when if own is None else own)


def stages_for_access(trip: Trip, access: str) -> tuple[Stage | None, ...]:
    """The stages at which a thing with an access word must be in reach; None: looked at once, in no condition."""
    if access == "seldom":
        return (None,)
    if access == "each_camp":
        return tuple(stage for stage in trip.stages if not stage.driving) or (None,)
    if access == "each_stop":
        return tuple(stage for stage in trip.stages if stage.driving)
    return trip.stages
