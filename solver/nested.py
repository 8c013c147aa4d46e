"""What several rooms load together: racks, and spaces in which a thing may lie that has spaces of its own."""

import math
from typing import NamedTuple

from models.base import Limit
from models.case import Case
from models.gear import Thing
from models.spaces import Space
from models.stages import mass_kg
from models.trip import Stage
from models.vehicle import Fitting
from solver.held import heaviest_kg, lies_loose
from solver.holding import held_kg
from solver.suits import wrong_words


class Bearer(NamedTuple):
    """What has one limit for the load of several rooms."""

    kind: str
    """rack, space or tie-downs."""
    name: str
    """The rack or the space."""
    spaces: frozenset[str]
    """The spaces whose load it bears."""

    @property
    def limit(self) -> str:
        """The limit as it is told of: `rack roof`, `space bay`, `tie-downs bay`."""
        return f"{self.kind} {self.name}"


def bearers(case: Case) -> tuple[Bearer, ...]:
    """All racks by name, then the spaces around others, and the tie-downs that hold all that lies there.

    With limits or without: the same ones where a limit is lifted.
    """
    spaces = case.vehicle.spaces
    parts: dict[str, set[str]] = {}
    for space in spaces:
        for outer in case.around(space):
            parts.setdefault(outer.name, set()).add(space.name)
    under = {space.name: case.racks_under(space) for space in spaces}
    racks = (
        Bearer("rack", name, frozenset(space for space, racks in under.items() if name in racks))
        for name in sorted(case.rack_named)
    )
    holding = [
        Bearer(kind, name, frozenset({name, *parts[name]}))
        for name in sorted(parts)
        for kind in ("space", *(["tie-downs"] if case.space_named[name].holds == "tie_downs" else []))
    ]
    return (*racks, *holding)


def bears_g(case: Case, stage: Stage, bearer: Bearer, *, proof: bool = False) -> int | None:
    """Grams that may be loaded on a bearer at a stage, in the search or in any plan (`proof`); None: without limit."""
    if bearer.kind != "rack":
        space = case.space_named[bearer.name]
        # Of a barrier nothing is proven here: what counts in a space around others may lie elsewhere than behind it. So
        # it is with tie-downs of a space that is part of a thing, which may not be there.
        if proof and bearer.kind == "tie-downs" and space.inside_of is not None:
            return None
        holds = space.limit_kg.kg if proof else limit_kg(case, space)
        kg = held_kg(space.tie_downs, case.rulebook.restraint) if bearer.kind == "tie-downs" else holds
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
    bolted = sum(one.mass_kg for one in bolted_on(case, rack.name))
    return math.floor((limit.kg - fixed - bolted - people) * 1000 + 1e-6)


def bolted_on(case: Case, rack: str) -> list[Fitting]:
    """What is bolted to a rack, or to one that hangs on it, each once."""
    return [one for one in case.vehicle.fittings if any(rack in case.rack_line(on) for on in one.on or ())]


def within_kg(case: Case, thing: Thing) -> float:
    """Kilograms that the spaces of a thing may hold at most: their limits, or all that they take with what is in it."""
    return _within_kg(case, thing, frozenset())


def _within_kg(case: Case, thing: Thing, around: frozenset[str]) -> float:
    parts = (space for space in case.vehicle.spaces if space.inside_of == thing.name)
    return sum(_most_kg(case, space, around | {thing.name}) for space in parts)


def _most_kg(case: Case, space: Space, around: frozenset[str]) -> float:
    """What a space may hold at most, but for things that it lies in."""
    taken = (one for one in case.things if one.name not in around and not wrong_words(one, space))
    all_kg = sum(one.count * (heaviest_kg(case, one) + _within_kg(case, one, around)) for one in taken)
    return all_kg if space.limit_kg.kg is None else min(all_kg, space.limit_kg.kg)


def most_kg(case: Case, space: Space) -> float | None:
    """Kilograms that a space holds in no plan more of: its limit, or what is left of a rated barrier.

    That holds the thing around it wherever that may lie, at a stage at which the thing weighs least.
    """
    own, barrier = space.limit_kg.kg, case.vehicle.cargo_barrier
    host = case.thing_named.get(space.inside_of or "")
    outmost = [outer for outer in case.around(space) if outer.inside_of is None]
    if host is None or barrier is None or not outmost or any(outer.holds != "barrier" for outer in outmost):
        return own
    left = max(0.0, barrier.rated_kg - min(mass_kg(host, stage, "most") for stage in case.trip.stages))
    return left if own is None else min(own, left)


def limit_kg(case: Case, space: Space) -> float | None:
    """Kilograms that the search lets a space hold: its limit, or less where a barrier holds the thing around it.

    So it is where that thing may lie loose among people. Of several spaces of one thing each leaves room for what the
    others may hold: stricter than `most_kg`, so that a plan that the search does not find may exist.
    """
    own, host = space.limit_kg.kg, case.thing_named.get(space.inside_of or "")
    rated = None if host is None else _rated_kg(case, space, host)
    if host is None or rated is None:
        return own
    others = (one for one in case.vehicle.spaces if one.inside_of == host.name and one.name != space.name)
    left = rated - heaviest_kg(case, host) - sum(_most_kg(case, one, frozenset({host.name})) for one in others)
    return max(0.0, left) if own is None else min(own, max(0.0, left))


def _rated_kg(case: Case, space: Space, host: Thing) -> float | None:
    """Kilograms that a thing and what is in it may weigh wherever it may lie; None: no place asks for that."""
    barrier, loose = case.vehicle.cargo_barrier, case.rulebook.loose_soft_kg.value
    around = case.around(space)
    rated = [barrier.rated_kg] if barrier and any(outer.holds == "barrier" for outer in around) else []
    if heaviest_kg(case, host) <= loose and any(lies_loose(case, host, outer) for outer in around):
        rated.append(loose)
    return min(rated, default=None)
