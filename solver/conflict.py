"""When no plan exists: demands that cannot hold together, none of which can be dropped, and ways out, tried."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from models.case import Case
from models.gear import Thing
from models.trip import Lock, Trip
from models.vehicle import Vehicle
from solver.answers import Conflict, Demand, WayOut
from solver.clock import Clock
from solver.problem import Problem
from solver.relaxed import Key, Relaxed

ORDER = {"lock": 0, "must come": 1, "reserve": 2, "limit": 3}
"""What a person can change first."""

Feasible = Callable[[Problem], bool | None]
"""Tries to find a plan for a problem: True, or None when none was found."""


@dataclass(frozen=True)
class Asked:
    """A case with what people ask of it."""

    case: Case
    locks: tuple[Lock, ...]
    """Locks added to the trip's."""
    use_reserve: bool

    @property
    def every_lock(self) -> tuple[Lock, ...]:
        """The trip's locks and the added ones, as demands number them."""
        return (*self.case.trip.locks, *self.locks)

    def case_without_locks(self) -> Case:
        """The case with nothing locked."""
        return fresh(self.case, trip=self.case.trip.model_copy(update={"locks": ()}))

    def problem(self) -> Problem:
        """The problem to search."""
        return Problem(self.case, use_reserve=self.use_reserve, locks=self.locks)


def without(asked: Asked, key: Key) -> Asked:
    """The same with one demand dropped; a thing that need not come becomes optional."""
    kind, subject = key
    if kind == "reserve":
        return replace(asked, use_reserve=False)
    case = asked.case
    if kind == "lock":
        kept = tuple(lock for n, lock in enumerate(asked.every_lock) if n != int(subject))
        return Asked(fresh(case, trip=case.trip.model_copy(update={"locks": kept})), (), asked.use_reserve)
    if kind == "must come":
        things = tuple(t.model_copy(update={"carry": 1}) if t.name == subject else t for t in case.things)
        return replace(asked, case=fresh(case, things=things))
    return replace(asked, case=_without_limit(case, subject))


def with_more(case: Case, limit: str, more_kg: float) -> Case:
    """The same with so many kilograms more of one limit."""
    return _without_limit(case, limit, more_kg)


def fresh(
    case: Case, *, vehicle: Vehicle | None = None, things: tuple[Thing, ...] | None = None, trip: Trip | None = None
) -> Case:
    """A case with parts replaced and nothing remembered of the old ones."""
    return Case(
        vehicle=vehicle or case.vehicle,
        things=case.things if things is None else things,
        trip=trip or case.trip,
        rulebook=case.rulebook,
        digest=case.digest,
        folder=case.folder,
    )


def _without_limit(case: Case, subject: str, raise_kg: float | None = None) -> Case:
    vehicle = case.vehicle
    kind, _, name = subject.partition(" ")

    def lifted(limit: object) -> object:
        kg = None if raise_kg is None or limit.kg is None else limit.kg + raise_kg  # type: ignore[attr-defined]
        return limit.model_copy(update={"kg": kg})  # type: ignore[attr-defined]

    if subject in ("total", "rear axle", "front axle"):
        field = {"total": "gvm_kg", "rear axle": "rear_axle_kg", "front axle": "front_axle_kg"}[subject]
        changed = {field: lifted(getattr(vehicle.limits, field))}
        if subject == "total" and raise_kg is None:
            changed["gcm_kg"] = lifted(vehicle.limits.gcm_kg)
        return fresh(case, vehicle=vehicle.model_copy(update={"limits": vehicle.limits.model_copy(update=changed)}))
    if kind == "rack":
        racks = []
        for rack in vehicle.racks:
            if rack.name == name:
                figures = {
                    field: lifted(getattr(rack.limits, field))
                    for field in ("parked_kg", "sealed_road_kg", "off_road_kg", "any_kg")
                    if getattr(rack.limits, field) is not None
                }
                racks.append(rack.model_copy(update={"limits": rack.limits.model_copy(update=figures)}))
            else:
                racks.append(rack)
        return fresh(case, vehicle=vehicle.model_copy(update={"racks": tuple(racks)}))
    spaces = []
    for space in vehicle.spaces:
        if space.name == name and kind == "space":
            spaces.append(space.model_copy(update={"limit_kg": lifted(space.limit_kg)}))
        elif space.name == name and kind == "tie-downs":
            more = tuple(tie.model_copy(update={"rated_dan": tie.rated_dan * 100}) for tie in space.tie_downs)
            spaces.append(space.model_copy(update={"tie_downs": more}))
        else:
            spaces.append(space)
    return fresh(case, vehicle=vehicle.model_copy(update={"spaces": tuple(spaces)}))


def find_conflict(asked: Asked, clock: Clock, feasible: Feasible) -> Conflict | None:
    """A smallest set of demands that cannot hold together; None when the relaxation sees none."""
    relaxed = Relaxed(Problem(asked.case_without_locks(), use_reserve=False), asked.problem())
    on = set(relaxed.switches)
    if not asked.use_reserve:
        on.discard(("reserve", "reserve"))
    if relaxed.impossible(on, min(4.0, clock.left())) is not True:
        return None
    core = shrunk(relaxed, on, clock)
    members = sorted(core, key=lambda key: (ORDER[key[0]], key[1]))
    demands, ways = _tried(asked, members, clock, feasible)
    return Conflict(tuple(demands), tuple(sentences(asked, members)), tuple(ways), proven=True)


def shrunk(relaxed: Relaxed, on: set[Key], clock: Clock) -> list[Key]:
    """Drop demands one at a time, those a person can change least easily first, while the rest stays impossible.

    Only a proof drops a member: a test that stays open keeps it.
    """
    core = set(on)
    for kind in ("limit", "must come", "reserve", "lock"):
        group = sorted(key for key in core if key[0] == kind)
        size = max(1, len(group) // 2)
        while group and size >= 1:
            for start in range(0, len(group), size):
                part = {key for key in group[start : start + size] if key in core}
                if part and not clock.late() and relaxed.impossible(core - part, 1.0) is True:
                    core -= part
            group = [key for key in group if key in core]
            size = 0 if size == 1 else max(1, size // 2)
    return sorted(core)


def _tried(asked: Asked, members: list[Key], clock: Clock, feasible: Feasible) -> tuple[list[Demand], list[WayOut]]:
    demands: list[Demand] = []
    ways: list[WayOut] = []
    for key in members:
        less = without(asked, key)
        shown = not clock.late() and feasible(less.problem()) is True
        demands.append(Demand(key[0], _subject(asked, key), _says(asked, key), shown))  # type: ignore[arg-type]
        if shown and len(ways) < 3:
            ways.append(WayOut(_way(asked, key)))
    return demands, ways


def _subject(asked: Asked, key: Key) -> str:
    return asked.every_lock[int(key[1])].thing if key[0] == "lock" else key[1]


def lock_words(lock: Lock) -> str:
    """A lock in words, with who and why."""
    copy = f" #{lock.copy_number}" if lock.copy_number else ""
    if lock.at_home:
        what = f"{lock.thing}{copy} stays at home"
    elif lock.in_ is not None:
        what = f"{lock.thing}{copy} is locked in {lock.in_}"
    elif lock.not_in is not None:
        what = f"{lock.thing}{copy} is kept out of {lock.not_in}"
    else:
        what = f"{lock.thing}{copy} has to come"
    why = ", ".join(part for part in (lock.by, lock.because) if part)
    return f"{what} ({why})" if why else what


def _says(asked: Asked, key: Key) -> str:
    kind, subject = key
    if kind == "lock":
        return lock_words(asked.every_lock[int(subject)])
    if kind == "must come":
        thing = asked.case.thing_named[subject]
        copies = f"{thing.count} x " if thing.count > 1 else ""
        return f"{copies}{subject} must come ({thing.mass_kg.most:g} kg each)"
    if kind == "reserve":
        return f"{asked.case.trip.reserve_kg:g} kg are kept free of the total and of each axle"
    return limit_words(asked.case, subject)


def limit_words(case: Case, subject: str) -> str:
    """A limit in words with its figure."""
    limits = case.vehicle.limits
    kind, _, name = subject.partition(" ")
    if subject == "total":
        return f"the total may be {limits.gvm_kg.kg:g} kg"
    if subject == "rear axle":
        return f"the rear axle may carry {limits.rear_axle_kg.kg:g} kg"
    if kind == "rack":
        rack = case.rack_named[name].limits
        named = (("parked", rack.parked_kg), ("on sealed road", rack.sealed_road_kg), ("off road", rack.off_road_kg))
        told = [f"{limit.kg:g} kg {where}" for where, limit in named if limit and limit.kg is not None]
        if rack.any_kg and rack.any_kg.kg is not None:
            told.append(f"{rack.any_kg.kg:g} kg anywhere")
        return f"{name} may carry {', '.join(told)}"
    if kind == "tie-downs":
        return f"the tie-downs of {name} hold only so much"
    return f"{name} may hold {case.space_named[name].limit_kg.kg:g} kg"


def _way(asked: Asked, key: Key) -> str:
    kind, subject = key
    if kind == "lock":
        return f"Unlock: {lock_words(asked.every_lock[int(subject)])}."
    if kind == "must come":
        return f"Leave at home: {subject} (or some of its copies)."
    if kind == "reserve":
        return "Give up the reserve."
    return f"More limit: {limit_words(asked.case, subject)}."


def sentences(asked: Asked, members: list[Key]) -> list[str]:
    """What cannot hold together, with the numbers that show it."""
    things = [subject for kind, subject in members if kind == "must come"]
    told = ["These cannot hold together:"] if len(members) > 1 else ["This cannot be:"]
    told += [f"  - {_says(asked, key)}" for key in members if key[0] != "must come" or len(things) <= 8]
    if len(things) > 8:
        most = [asked.case.thing_named[name] for name in things]
        mass = sum(thing.mass_kg.most * thing.count for thing in most)
        told.append(f"  - {len(things)} things that must come, {math.ceil(mass)} kg together")
    return told
