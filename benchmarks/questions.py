"""Made by chance: sets of locks, changes of a trip, and trips that cannot be."""

from collections.abc import Callable
from random import Random

from models.case import Case, copy_of, fresh
from models.gear import Thing
from models.plan import Placement, Plan
from models.trip import Lock
from solver.asking import with_more
from solver.problem import Problem

Change = tuple[str, Case, Plan]
"""What was changed, in words; the case and the plan as they are then."""


def lock(place: Placement, **parts: object) -> Lock:
    """A lock on a placed copy."""
    return Lock.model_validate({"thing": place.thing, "copy": place.copy_number, **parts})


def with_locks(plan: Plan, *locks: Lock) -> Plan:
    """A plan with more locks."""
    return plan.model_copy(update={"locks": (*plan.locks, *locks)})


def some_locks(problem: Problem, plan: Plan, random: Random) -> tuple[Lock, ...]:
    """One to six things locked: half where they are, half in a space that is lawful for them by itself."""
    found = []
    for place in random.sample(plan.placements, random.randint(1, 6)):
        piece = problem.piece_of[copy_of(place)]
        rooms = [problem.rooms[room].space.name for room in sorted(problem.fits[piece])]
        if random.random() < 0.5 or not rooms:
            found.append(lock(place, **{"in": place.space, "at_mm": place.corner_mm}))
        else:
            found.append(lock(place, **{"in": random.choice(rooms)}))
    return tuple(found)


def some_change(case: Case, plan: Plan, random: Random) -> Change:
    """One thing that happens on a trip."""
    return random.choice((heavier, lighter, bought, left_behind, moved_by_hand, lower_rack))(case, plan, random)


def _things(case: Case, old: Thing, **parts: object) -> Case:
    new = old.model_copy(update=parts)
    return fresh(case, things=tuple(new if one.name == old.name else one for one in case.things))


def _weighing(case: Case, random: Random, low: float, high: float) -> tuple[str, Case]:
    thing = random.choice([one for one in case.things if one.must])
    times = random.uniform(low, high)
    used = sum(thing.uses_up.values()) + sum(thing.fills.values())
    masses = {key: max(used, round(getattr(thing.mass_kg, key) * times, 1)) for key in ("least", "likely", "most")}
    changed = _things(case, thing, mass_kg=thing.mass_kg.model_copy(update=masses))
    return f"{thing.name} weighs {times:.2f} times as much", changed


def heavier(case: Case, plan: Plan, random: Random) -> Change:
    """A thing was weighed."""
    told, changed = _weighing(case, random, 1.1, 1.8)
    return told, changed, plan


def lighter(case: Case, plan: Plan, random: Random) -> Change:
    """A thing was weighed and is lighter."""
    told, changed = _weighing(case, random, 0.5, 0.9)
    return told, changed, plan


def bought(case: Case, plan: Plan, random: Random) -> Change:
    """Shopping came aboard."""
    sides = (random.randrange(200, 420, 10), random.randrange(150, 320, 10), random.randrange(120, 300, 10))
    parts = {"name": "shopping", "mass_kg": round(random.uniform(2, 9), 1), "size_mm": sides, "weather": "dry"}
    new = Thing.model_validate({**parts, "food": True})
    return f"shopping of {parts['mass_kg']} kg", fresh(case, things=(*case.things, new)), plan


def left_behind(case: Case, plan: Plan, random: Random) -> Change:
    """An optional thing stays behind, or a must that nothing goes with is left out of the list."""
    here = {place.thing for place in plan.placements}
    needed = {name for thing in case.things for name in thing.with_} | {s.inside_of for s in case.vehicle.spaces}
    locked = {one.thing for one in (*case.trip.locks, *plan.locks)}
    names = [t.name for t in case.things if t.name in here and t.name not in needed | locked and not t.needed_when]
    gone = random.choice(names)
    kept = tuple(place for place in plan.placements if place.thing != gone)
    home = tuple(one for one in plan.left_at_home if one.thing != gone)
    less = fresh(case, things=tuple(thing for thing in case.things if thing.name != gone))
    return f"{gone} is off the list", less, plan.model_copy(update={"placements": kept, "left_at_home": home})


def moved_by_hand(case: Case, plan: Plan, random: Random) -> Change:
    """Somebody wants a thing in another space that is lawful for it."""
    problem = Problem(case, locks=plan.locks)
    able = [p for p in plan.placements if len(problem.fits[problem.piece_of[copy_of(p)]]) > 1]
    place = random.choice(able)
    rooms = [problem.rooms[r].space.name for r in sorted(problem.fits[problem.piece_of[copy_of(place)]])]
    wanted = random.choice([name for name in rooms if name != place.space])
    return f"{place.thing} in {wanted}", case, with_locks(plan, lock(place, **{"in": wanted}))


def lower_rack(case: Case, plan: Plan, random: Random) -> Change:
    """A rack carries less than was thought."""
    rack = random.choice(case.vehicle.racks)
    less = random.uniform(3, 15)
    known = [one.kg for one in (rack.limits.any_kg, rack.limits.off_road_kg) if one is not None and one.kg is not None]
    less = min([less, *(0.3 * kg for kg in known)])
    return f"{rack.name} carries {less:.0f} kg less", with_more(case, f"rack {rack.name}", -less), plan


def impossible_trip(case: Case, plan: Plan, random: Random) -> Change:
    """A trip that most likely cannot be."""
    return random.choice((too_heavy, weak_axle, weak_rack, full_space, against_a_rule, nowhere))(case, plan, random)


def too_heavy(case: Case, plan: Plan, random: Random) -> Change:
    """The total is far lower."""
    less = random.uniform(150, 420)
    return f"total {less:.0f} kg less", with_more(case, "total", -less), plan


def weak_axle(case: Case, plan: Plan, random: Random) -> Change:
    """The rear axle is far weaker."""
    less = random.uniform(150, 450)
    return f"rear axle {less:.0f} kg less", with_more(case, "rear axle", -less), plan


def weak_rack(case: Case, plan: Plan, random: Random) -> Change:
    """Things are locked on a rack that carries nearly nothing."""
    on = [p for p in plan.placements if case.racks_under(case.space_named[p.space])]
    place = random.choice(on)
    rack = random.choice(case.racks_under(case.space_named[place.space]))
    locks = [lock(p, **{"in": p.space}) for p in on if rack in case.racks_under(case.space_named[p.space])][:4]
    known = [one.kg or 0 for one in vars(case.rack_named[rack].limits).values() if one is not None]
    return (
        f"{rack} carries nearly nothing",
        with_more(case, f"rack {rack}", -0.95 * max(known)),
        with_locks(plan, *locks),
    )


def full_space(case: Case, plan: Plan, random: Random) -> Change:
    """More is locked into a space than goes in."""
    problem = Problem(case, locks=plan.locks)
    name = random.choice([s.name for s in case.vehicle.spaces if s.accepts is None])
    room = problem.room_of[name]
    able = [p for p in plan.placements if room in problem.fits[problem.piece_of[copy_of(p)]]]
    return (
        f"ten things locked in {name}",
        case,
        with_locks(plan, *(lock(p, **{"in": name}) for p in random.sample(able, min(10, len(able))))),
    )


def against_a_rule(case: Case, plan: Plan, random: Random) -> Change:
    """A thing is locked where it may not be."""
    place = random.choice(plan.placements)
    problem = Problem(case)
    fits = problem.fits[problem.piece_of[copy_of(place)]]
    bad = [room.space.name for room in problem.rooms if room.index not in fits]
    wanted = random.choice(bad or [place.space])
    return f"{place.thing} locked in {wanted}", case, with_locks(plan, lock(place, **{"in": wanted}))


def nowhere(case: Case, plan: Plan, random: Random) -> Change:
    """A thing that must come is kept out of every space that may hold it."""
    problem = Problem(case)
    able = [p for p in plan.placements if case.thing_named[p.thing].must]
    place = random.choice(able)
    names = [problem.rooms[room].space.name for room in problem.fits[problem.piece_of[copy_of(place)]]]
    locks = tuple(lock(place, not_in=name, by="Somebody") for name in names)
    return f"{place.thing} kept out of everywhere", case, with_locks(plan, *locks)


Maker = Callable[[Case, Plan, Random], Change]
