"""Demands in words, with the names and figures that people gave."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import get_args

from models.base import Limit
from models.case import Case, Copy
from models.gear import Need, Thing
from models.plan import Plan
from models.stages import tank_litres
from models.trip import Lock
from models.vehicle import Rack
from solver.answers import Demand
from solver.bare import shares
from solver.holding import held_kg
from solver.nested import bolted_on, most_kg
from solver.shifting import SHARES

MOST_EACH = 5
"""So many things that must come are told each with its mass."""
GROUND = (("parked", "parked_kg"), ("on sealed road", "sealed_road_kg"), ("off road", "off_road_kg"))


def some_of(names: Sequence[str], most: int) -> str:
    """The first of some names, and how many more there are."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return f"{', '.join(names[:most])}{more}"


def all_of(names: Sequence[str]) -> str:
    """All of some names, the last after an and."""
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))


def lowered(sentence: str) -> str:
    """A sentence that goes on after a colon or a word."""
    return f"{sentence[0].lower()}{sentence[1:]}"


def lock_words(lock: Lock) -> str:
    """A lock in words, with who and why."""
    copy = f" #{lock.copy_number}" if lock.copy_number else ""
    why = ": ".join(part for part in (lock.by, lock.because) if part)
    told = f"{lock.thing}{copy} {fixed_words(lock)}"
    return f"{told} ({why})" if why else told


def locks_words(locks: Sequence[Lock], which: str = "") -> str:
    """Several locks told as one; `which` goes before their number."""
    count = f"{which} {len(locks)} locks".strip()
    spaces = {lock.in_ for lock in locks}
    if len(spaces) == 1 and None not in spaces and not any(lock.by or lock.because for lock in locks):
        return f"{count}, all in {locks[0].in_}: {', '.join(_locked(lock) for lock in locks)}"
    return f"{count}: {'; '.join(lock_words(lock) for lock in locks)}"


def _locked(lock: Lock) -> str:
    copy = f" #{lock.copy_number}" if lock.copy_number else ""
    return f"{lock.thing}{copy}" + (" at its corner" if lock.at_mm is not None else "")


def lock_demand(*locks: Lock) -> Demand:
    """A lock, or several of them, as one demand."""
    subject = ", ".join(dict.fromkeys(lock.thing for lock in locks))
    says = lock_words(locks[0]) if len(locks) == 1 else f"{locks_words(locks)} (taken together)"
    return Demand("lock", subject, says, locks=locks)


def must_come(case: Case, names: tuple[str, ...]) -> Demand:
    """That some things must come, as one demand."""
    return Demand("must come", ", ".join(names), things_words(case, names), things=names)


def kit_together(case: Case, kit: str) -> Demand:
    """That the things of a kit are in one space, as a demand."""
    names = tuple(thing.name for thing in case.things if thing.kit == kit and thing.together)
    whose = all_of(names) if len(names) > 1 else f"all of {names[0]}"
    return Demand("together", kit, f"{whose} are in one space (kit {kit}: together)", things=names)


def all_or_none(case: Case, name: str) -> Demand:
    """That all copies of a thing come or none, as a demand."""
    thing = case.thing_named[name]
    mass = math.ceil(thing.mass_kg.most * thing.count)
    says = f"all {thing.count} of {name} come or none ({thing.mass_kg.most:g} kg each, {mass} kg together)"
    return Demand("all or none", name, says, things=(name,))


def reserve_kept(case: Case) -> Demand:
    """That a reserve is kept, as a demand."""
    return Demand("reserve", "reserve", reserve_words(case))


def limit_holds(case: Case, subject: str) -> Demand:
    """That a limit holds, as a demand."""
    return Demand("limit", subject, limit_words(case, subject))


def fixed_words(lock: Lock) -> str:
    """What a lock says of what is under it, to go after its name."""
    if lock.at_home:
        return "stays at home"
    if lock.in_ is not None:
        return f"is locked in {lock.in_}" + (f" at its corner {list(lock.at_mm)}" if lock.at_mm is not None else "")
    if lock.not_in is not None:
        return f"is kept out of {lock.not_in}"
    return "has to come"


def things_words(case: Case, names: Iterable[str]) -> str:
    """Things that must come, with their mass in kg."""
    things = [case.thing_named[name] for name in names]
    mass = math.ceil(sum(thing.mass_kg.most * thing.count for thing in things))
    if len(things) > 1:
        heaviest = sorted(things, key=lambda thing: (-thing.mass_kg.most * thing.count, thing.name))
        each = [_with_mass(thing) for thing in heaviest[:MOST_EACH]]
        told = ", ".join(each)
        if len(things) <= MOST_EACH:
            return f"{', '.join(each[:-1])} and {each[-1]} must come ({mass} kg together)"
        return f"{len(things)} things that must come, {mass} kg together; the heaviest: {told}"
    (thing,) = things
    copies = f"{thing.count} x " if thing.count > 1 else ""
    return f"{copies}{thing.name} must come ({thing.mass_kg.most:g} kg{' each' if copies else ''})"


def _with_mass(thing: Thing) -> str:
    """A thing with the mass in kg of all its copies."""
    copies = f" ({thing.count} of them)" if thing.count > 1 else ""
    return f"{thing.name} {thing.mass_kg.most * thing.count:g} kg{copies}"


def copies_words(case: Case, copies: Sequence[Copy]) -> list[str]:
    """Things of which some copies are meant, by name, with how many of how many where there are several."""
    count = {name: sum(one.thing == name for one in copies) for name in sorted({one.thing for one in copies})}
    return [f"{name}{_of_all(n, case.thing_named[name].count)}" for name, n in count.items()]


def _of_all(count: int, of: int) -> str:
    """How many of how many copies, in brackets; nothing where there is one."""
    if count < of:
        return f" ({count} of {of})"
    return "" if of == 1 else " (both)" if of == 2 else f" (all {of})"


def reserve_words(case: Case) -> str:
    """The reserve in words."""
    return f"{case.reserve_kg:g} kg are kept free of the total and of each axle"


def limit_words(case: Case, subject: str) -> str:
    """A limit in words with its figure."""
    limits = case.vehicle.limits
    whole = {
        "total": f"the total may be {_kg(limits.gvm_kg)}",
        "with trailer": f"vehicle and trailer together may weigh {_kg(limits.gcm_kg)}",
        "rear axle": f"the rear axle may carry {_kg(limits.rear_axle_kg)}",
        "front axle": f"the front axle may carry {_kg(limits.front_axle_kg)}",
        "tow ball": f"the tow ball may carry {_kg(limits.tow_ball_kg)}",
    }
    if subject in whole:
        return whole[subject]
    if subject in SHARES:
        return _share_words(case, subject)
    kind, _, name = subject.partition(" ")
    if kind == "rack":
        return f"{name} may carry {', '.join(_of_rack(case.rack_named[name]))}{_hanging_words(case, name)}"
    if kind == "tie-downs":
        points = case.space_named[name].tie_downs
        rated, held = sum(point.rated_dan for point in points), held_kg(points, case.rulebook.restraint)
        # Rounded down: nobody shall tie more to them than they hold.
        return f"the tie-downs of {name} are rated {rated:g} daN together, which holds {floor_kg(held)} kg in braking"
    space, barrier = case.space_named[name], case.vehicle.cargo_barrier
    kg = most_kg(case, space)
    if kg is not None and kg != space.limit_kg.kg and barrier is not None:
        left = f"leaves {floor_kg(kg)} kg for what is in {name}"
        return f"the barrier, rated for {barrier.rated_kg:g} kg, holds {space.inside_of} too and {left}"
    return f"{name} may hold {'anything' if kg is None else f'{kg:g} kg'}"


def floor_kg(kg: float) -> str:
    """Kilograms rounded down to a tenth."""
    return f"{math.floor(kg * 10 + 1e-6) / 10:g}"


def _share_words(case: Case, subject: str) -> str:
    front, side = shares(case)
    if subject == "front share":
        return f"at least {100 * front:g} % of the weight has to be on the front axle"
    return f"the left and right wheels may differ by at most {100 * side:g} % of the weight"


def _kg(limit: Limit) -> str:
    return "anything" if limit.kg is None else f"{limit.kg:g} kg"


def _of_rack(rack: Rack) -> list[str]:
    given = [(where, getattr(rack.limits, field)) for where, field in (*GROUND, ("anywhere", "any_kg"))]
    return [f"{limit.kg:g} kg {where}" for where, limit in given if limit is not None and limit.kg is not None]


def _hanging_words(case: Case, name: str) -> str:
    """What a rack carries before anything is loaded, in brackets; nothing where that is nothing."""
    racks = [r for r in case.vehicle.racks if r.name != name and name in case.rack_line(r.name)]
    rack = case.rack_named[name]
    of_it = [("the rack itself", rack.own_mass_kg)] if rack.counts_itself else []
    of_it += [(one.name, one.own_mass_kg) for one in racks]
    of_it += [(one.name, one.mass_kg) for one in bolted_on(case, name)]
    told = [f"{kg:g} kg {who}" for who, kg in of_it if kg > 0]
    return f" (of that {', '.join(told)})" if told else ""


def poured_words(case: Case, names: Iterable[str]) -> str:
    """What has to be said anew where things stay at home from which tanks are filled on the way; nothing otherwise."""
    rising = _filled_on_the_way(case)
    pour = [name for name in names if rising & {_fluid(case, stream) for stream in case.thing_named[name].uses_up}]
    if not pour:
        return ""
    return (
        f" What tanks take from {' and '.join(pour)} is not there then: say under `tanks` of the stages what they hold."
    )


def nothing_for(case: Case, plan: Plan) -> list[Need]:
    """Incidents for which things have to come and of which a plan takes none."""
    carried = {place.thing for place in plan.placements}
    taken = {need for name in carried for need in case.thing_named[name].needed_when}
    return [need for need in get_args(Need) if need not in taken and _must_for(case, need)]


def nothing_for_words(case: Case, plan: Plan | None) -> str:
    """A sentence on incidents for which things have to come and of which a plan takes none; nothing otherwise."""
    needs = [] if plan is None else nothing_for(case, plan)
    return f" Then nothing aboard is marked for: {', '.join(needs)}." if needs else ""


def _must_for(case: Case, need: Need) -> bool:
    return any(thing.must and need in thing.needed_when for thing in case.things)


def _fluid(case: Case, stream: str) -> str | None:
    known = case.trip.streams.get(stream)
    return None if known is None else known.fluid


def _filled_on_the_way(case: Case) -> set[str]:
    """Fluids of which tanks hold more at a stage than at the one before, by more than is taken on."""
    found = set[str]()
    for fluid in {tank.fluid for tank in case.vehicle.tanks}:
        tanks = [tank for tank in case.vehicle.tanks if tank.fluid == fluid]
        for before, stage in pairwise(case.trip.stages):
            if tank_litres(tanks, stage) > tank_litres(tanks, before) + stage.taken_on_l.get(fluid, 0.0):
                found.add(fluid)
    return found
