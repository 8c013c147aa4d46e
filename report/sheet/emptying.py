"""Which can to empty next: the plan weighed by the verifier with that can empty, poured over where a tank has room."""

import re
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, replace

from models.case import Case, Copy, copy_of, fresh
from models.gear import Mass, Thing
from models.geometry import placed_box
from models.plan import Plan
from models.stages import PRESENT_KG, mass_kg
from models.trip import Stage
from models.vehicle import Tank
from report.sheet.asked import Asked
from report.told import MASS_RULES, Weighed

WASTE = re.compile(r"\b(?:gr[ea]y|black|waste|sewage|foul|toilet|drain|dirty)\b", re.IGNORECASE)
"""A tank that nobody fills from a can has this in its name. Common practice, no source."""


@dataclass(frozen=True)
class Can:
    """A carried copy with a liquid in it, and what the plan comes to with that copy empty."""

    copy: Copy
    fluid: str
    into: Mapping[str, tuple[str, ...]]
    """By stage: the tanks of the same fluid that it is poured into; none: it is used from the can."""
    weighed: Weighed
    """By the rules that are weighed alone."""
    stages: frozenset[str]
    """Where it holds something that the tanks have room for, or without such a tank, that is used by the next stage."""


def cans(asked: Asked) -> tuple[Can, ...]:
    """Every carried can that may be emptied at some stage, reckoned once for all stages and for all that are alike."""
    found: dict[Hashable, Can] = {}
    told = []
    for copy, fluid in _liquids(asked):
        alike = _alike(asked, copy)
        if alike not in found:
            found[alike] = _can(asked, copy, fluid)
        told.append(replace(found[alike], copy=copy))
    return tuple(told)


def _alike(asked: Asked, copy: Copy) -> Hashable:
    """What the sums with a copy emptied hang on: neither an axle nor the height asks how far to the side it was."""
    place = asked.placed[copy]
    x, _, z = placed_box(place).centre_mm
    return copy.thing, place.space, x, z


def _liquids(asked: Asked) -> Iterator[tuple[Copy, str]]:
    case = asked.case
    for copy, _ in asked.located():
        thing = case.thing_named[copy.thing]
        fluids = [case.trip.streams[s].fluid for s in thing.uses_up if s in case.trip.streams]
        known = [fluid for fluid in fluids if fluid in case.rulebook.fluids_kg_per_l]
        if known and not _gas(case, thing):
            yield copy, known[0] or ""


def _gas(case: Case, thing: Thing) -> bool:
    """Whether it holds a gas: UN class 2. That is no can to pour from."""
    hazard = case.rulebook.hazards.get(thing.hazard or "")
    return hazard is not None and (hazard.un_class or "").startswith("2")


def _can(asked: Asked, copy: Copy, fluid: str) -> Can:
    case, thing = asked.case, asked.case.thing_named[copy.thing]
    into = tuple(tank for tank in case.vehicle.tanks if tank.fluid == fluid and not WASTE.search(tank.name))
    at = zip(case.trip.stages, (*case.trip.stages[1:], None), strict=True)
    poured = {
        stage.name: _poured(case, thing, fluid, into, stage)
        if into or _used(case, thing, fluid, stage, after)
        else None
        for stage, after in at
    }
    stages = tuple(poured[stage.name] or stage for stage in case.trip.stages)
    emptied = _emptied(thing, fluid, case)
    trip = case.trip.model_copy(update={"stages": stages})
    other = fresh(case, things=(*case.things, emptied), trip=trip)
    weighed = asked.verifier.weighed(other, _with(asked.plan, copy, emptied), MASS_RULES)
    takes = {stage.name: _takes(into, stage, poured[stage.name]) for stage in case.trip.stages}
    return Can(copy, fluid, takes, weighed, frozenset(name for name, stage in poured.items() if stage is not None))


def _takes(into: tuple[Tank, ...], before: Stage, after: Stage | None) -> tuple[str, ...]:
    """The tanks in which there is more after a can was poured over."""
    levels = {} if after is None else after.tanks
    return tuple(tank.name for tank in into if levels.get(tank.name, 1.0) > before.tanks.get(tank.name, 1.0))


def _streams(case: Case, thing: Thing, fluid: str) -> dict[str, float]:
    """Kilograms of a fluid in a full copy, by stream."""
    streams = case.trip.streams
    return {name: kg for name, kg in thing.uses_up.items() if name in streams and streams[name].fluid == fluid}


def _used(case: Case, thing: Thing, fluid: str, stage: Stage, after: Stage | None) -> bool:
    """Whether any of a fluid in a copy is used between a stage and the one after it, as the trip says."""
    names = _streams(case, thing, fluid)
    return after is not None and any(after.left.get(name, 1.0) < stage.left.get(name, 1.0) for name in names)


def _poured(case: Case, thing: Thing, fluid: str, into: tuple[Tank, ...], stage: Stage) -> Stage | None:
    """A stage with the tanks as they are after a can was poured over; None: it is empty, or there is no room."""
    inside = _streams(case, thing, fluid)
    kg = sum(full * stage.left.get(name, 1.0) for name, full in inside.items())
    if kg <= PRESENT_KG or mass_kg(thing, stage, "most") <= PRESENT_KG:
        return None
    litres, levels = kg / case.rulebook.fluids_kg_per_l[fluid].value, dict(stage.tanks)
    for tank in into:
        level = levels.get(tank.name, 1.0)
        part = min(litres, tank.holds_l * (1 - level))
        levels[tank.name] = min(1.0, level + part / tank.holds_l) if tank.holds_l else level
        litres -= part
    if into and litres > 1e-6:
        return None
    return stage.model_copy(update={"tanks": levels})


def _emptied(thing: Thing, fluid: str, case: Case) -> Thing:
    inside = _streams(case, thing, fluid)
    gone = sum(inside.values())
    mass = Mass(**{which: max(0.0, getattr(thing.mass_kg, which) - gone) for which in ("least", "likely", "most")})
    rest = {name: kg for name, kg in thing.uses_up.items() if name not in inside}
    return thing.model_copy(update={"name": f"{thing.name}, emptied", "count": 1, "mass_kg": mass, "uses_up": rest})


def _with(plan: Plan, copy: Copy, emptied: Thing) -> Plan:
    placements = tuple(
        p.model_copy(update={"thing": emptied.name, "copy_number": 1}) if copy_of(p) == copy else p
        for p in plan.placements
    )
    return plan.model_copy(update={"placements": placements})
