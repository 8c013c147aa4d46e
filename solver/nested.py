"""What several rooms load together: racks, and spaces in which a thing may lie that has spaces of its own."""

import math
from typing import NamedTuple

from models.base import Limit
from models.case import Case
from models.gear import Thing
from models.spaces import Space
from models.stages import mass_kg
from models.trip import Stage
from solver.holding import held_kg
from solver.suits import wrong_words


class Bearer(NamedTuple):
    """What has one limit for the load of several rooms."""

    limit: str
    """The limit as it is told of: `rack roof`, `space bay`, `tie-downs bay`."""
    name: str
    """The rack or the space."""
    spaces: frozenset[str]
    """The spaces whose load it bears."""


def bearers(case: Case) -> tuple[Bearer, ...]:
    """All racks by name, then the spaces around others, and the tie-downs that hold all that lies there.

    With limits or without: the same ones where a limit is lifted.
    """
    spaces = case.vehicle.spaces
    parts: dict[str, set[str]] = {}
    for space in spaces:
        for outer in case.around(space):
            parts.setdefault(outer.name, set()).add(space.name)
    racks = (
        Bearer(f"rack {name}", name, frozenset(space.name for space in spaces if name in case.racks_under(space)))
        for name in sorted(case.rack_named)
    )
    holding = [
        Bearer(limit, name, frozenset({name, *parts[name]}))
        for name in sorted(parts)
        for limit in (f"space {name}", *([f"tie-downs {name}"] if case.space_named[name].holds == "tie_downs" else []))
    ]
    return (*racks, *holding)


def bears_g(case: Case, stage: Stage, bearer: Bearer) -> int | None:
    """Grams that may be loaded on a bearer at a stage; None: without limit."""
    if not bearer.limit.startswith("rack "):
        space = case.space_named[bearer.name]
        held = bearer.limit.startswith("tie-downs ")
        kg = held_kg(space.tie_downs, case.rulebook.restraint) if held else space.limit_kg.kg
        return None if kg is None else math.floor(kg * 1000 + 1e-6)
    rack = case.rack_named[bearer.name]
    own: dict[str, Limit | None] = {
        "parked": rack.limits.parked_kg,
        "sealed_road": rack.limits.sealed_road_kg,
        "off_road": rack.limits.off_road_kg,
    }
    limit = own[stage.surface] or rack.limits.any_kg
    if limit is None or limit.kg is None:
        return None
    hanging = [r for r in case.vehicle.racks if r.name != rack.name and rack.name in case.rack_line(r.name)]
    fixed = sum(r.own_mass_kg for r in hanging) + (rack.own_mass_kg if rack.counts_itself else 0.0)
    people = sum(kg for on, kg in stage.on_racks.items() if on == rack.name or rack.name in case.rack_line(on))
    return math.floor((limit.kg - fixed - people) * 1000 + 1e-6)


def within_kg(case: Case, thing: Thing) -> float:
    """Kilograms that the spaces of a thing may hold at most: their limits, or all that they take."""
    return sum(_most_kg(case, space) for space in case.vehicle.spaces if space.inside_of == thing.name)


def _most_kg(case: Case, space: Space) -> float:
    taken = (one for one in case.things if not wrong_words(one, space))
    all_kg = sum(one.count * max(mass_kg(one, stage, "most") for stage in case.trip.stages) for one in taken)
    return all_kg if space.limit_kg.kg is None else min(all_kg, space.limit_kg.kg)
