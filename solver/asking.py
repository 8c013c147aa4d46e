"""A case with what people ask of it, and the same with one demand dropped or one limit raised."""

import copy
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from models.base import Limit
from models.case import Case, fresh
from models.plan import Plan, reserve_of
from models.spaces import Space
from models.trip import Lock, Stage, Towing, Trip
from models.vehicle import Rack
from solver.answers import Demand
from solver.holding import held_kg, rated_dan_for
from solver.problem import Problem
from solver.relaxed import Relaxed

OF_THE_VEHICLE = {
    "total": "gvm_kg", "with trailer": "gcm_kg", "rear axle": "rear_axle_kg", "front axle": "front_axle_kg",
    "tow ball": "tow_ball_kg",
}  # fmt: skip
"""The field that holds a limit of the whole vehicle."""
OF_THE_SHARES = {"front share": ("front_share_min", 0.0), "side": ("side_difference_share", 1.0)}
"""The field that holds a share of the mass, and the figure with which it is no limit."""
COMPANY = {"together": "together", "all or none": "all_or_none"}
"""The field of a thing that asks for its kit, or for all its copies."""
OF_A_RACK = ("parked_kg", "sealed_road_kg", "off_road_kg", "any_kg")


@dataclass(frozen=True)
class Asked:
    """A case with what people ask of it."""

    case: Case
    locks: tuple[Lock, ...]
    """Locks added to the trip's."""
    use_reserve: bool
    before: Plan | None = None
    """A plan whose soft things may keep their shapes."""

    @property
    def every_lock(self) -> tuple[Lock, ...]:
        """The trip's locks and the added ones, as the problem numbers them."""
        return (*self.case.trip.locks, *self.locks)

    def free_problem(self) -> Problem:
        """The problem with nothing locked and no reserve kept."""
        return _own(self._free)

    def problem(self) -> Problem:
        """The problem to search."""
        return _own(self._whole)

    @cached_property
    def relaxed(self) -> Relaxed:
        """What masses, volumes and pairs alone say of it."""
        return Relaxed(self.free_problem(), self.problem())

    @cached_property
    def _free(self) -> Problem:
        case = fresh(self.case, trip=self.case.trip.model_copy(update={"locks": ()}))
        return Problem(case, use_reserve=False, before=self.before)

    @cached_property
    def _whole(self) -> Problem:
        return Problem(self.case, use_reserve=self.use_reserve, locks=self.locks, before=self.before)


def _own(made: Problem) -> Problem:
    """A problem of its own for a search, which may narrow what fits where; what is costly to make is made once."""
    _ = made.constants, made.vetoes
    own = copy.copy(made)
    own.levels, own.remembered_s = {}, {}
    return own


def dropped(asked: Asked, demand: Demand) -> Asked:
    """The same with one demand dropped; things that need not come become optional, a limit is lifted."""
    if demand.kind == "reserve":
        return replace(asked, use_reserve=False)
    if demand.kind == "limit":
        return replace(asked, case=lifted(asked.case, demand.subject))
    if demand.kind == "lock":
        return _without_locks(asked, demand.locks)
    if demand.kind in COMPANY:
        return replace(asked, case=_changed_things(asked.case, demand.things, {COMPANY[demand.kind]: False}))
    return replace(asked, case=optional(asked.case, demand.things))


def _without_locks(asked: Asked, locks: tuple[Lock, ...]) -> Asked:
    kept = tuple(one for one in asked.case.trip.locks if one not in locks)
    case = fresh(asked.case, trip=asked.case.trip.model_copy(update={"locks": kept}))
    return replace(asked, case=case, locks=tuple(one for one in asked.locks if one not in locks))


def optional(case: Case, names: tuple[str, ...]) -> Case:
    """The case in which some things need not come."""
    return _changed_things(case, names, {"carry": 1})


def _changed_things(case: Case, names: tuple[str, ...], changes: dict[str, object]) -> Case:
    things = tuple(t.model_copy(update=changes) if t.name in names else t for t in case.things)
    return fresh(case, things=things)


def with_more(case: Case, limit: str, more_kg: float) -> Case:
    """The case with so many kilograms more of one limit, the total also with its trailer.

    Raises KeyError where there is no such limit.
    """
    case = raised(case, limit, more_kg)
    return raised(case, "with trailer", more_kg) if limit == "total" else case


def with_reserve(case: Case, kg: float) -> Case:
    """The case with another reserve."""
    return fresh(case, trip=case.trip.model_copy(update={"reserve_kg": kg}))


def as_kept(case: Case, plan: Plan) -> Case:
    """The case with the reserve that a plan keeps."""
    kept_kg = reserve_of(plan, case.reserve_kg)
    return case if kept_kg == case.reserve_kg else with_reserve(case, kept_kg)


def raised(case: Case, limit: str, more_kg: float) -> Case:
    """The case with so many kilograms more of exactly one limit.

    Raises KeyError where there is no such limit.
    """

    def more(old: Limit) -> Limit:
        return old if old.kg is None else old.model_copy(update={"kg": old.kg + more_kg})

    return _changed(case, limit, more)


def lighter_ball(case: Case, kg: float) -> Case:
    """The case with a trailer that puts so many kilograms less on the tow ball, at every stage."""

    def less(part: Trip | Stage) -> dict[str, object]:
        tow = part.towing
        lighter = isinstance(tow, Towing) and tow.model_copy(update={"ball_kg": max(0.0, tow.ball_kg - kg)})
        return {"towing": lighter or tow}

    stages = tuple(stage.model_copy(update=less(stage)) for stage in case.trip.stages)
    return fresh(case, trip=case.trip.model_copy(update={**less(case.trip), "stages": stages}))


def lifted(case: Case, limit: str) -> Case:
    """The case without one limit."""
    if limit in OF_THE_SHARES:
        field, anything = OF_THE_SHARES[limit]
        return _with(case, limits=case.vehicle.limits.model_copy(update={field: anything}))
    return _changed(case, limit, lambda old: old.model_copy(update={"kg": None}))


Change = Callable[[Limit], Limit]


def _changed(case: Case, limit: str, change: Change) -> Case:
    vehicle = case.vehicle
    kind, _, name = limit.partition(" ")
    if limit in OF_THE_VEHICLE:
        field = OF_THE_VEHICLE[limit]
        changed = change(getattr(vehicle.limits, field))
        return _with(case, limits=vehicle.limits.model_copy(update={field: changed}))
    if kind == "rack" and name in case.rack_named:
        return _with(case, racks=tuple(_rack(one, change) if one.name == name else one for one in vehicle.racks))
    if kind in ("space", "tie-downs") and name in case.space_named:
        changing = _tie_downs if kind == "tie-downs" else _space
        spaces = tuple(changing(case, one, change) if one.name == name else one for one in vehicle.spaces)
        return _with(case, spaces=spaces)
    raise KeyError(limit)


def _with(case: Case, **parts: object) -> Case:
    return fresh(case, vehicle=case.vehicle.model_copy(update=parts))


def _rack(rack: Rack, change: Change) -> Rack:
    given = {field: getattr(rack.limits, field) for field in OF_A_RACK}
    figures = {field: change(limit) for field, limit in given.items() if limit is not None}
    return rack.model_copy(update={"limits": rack.limits.model_copy(update=figures)})


def _space(_: Case, space: Space, change: Change) -> Space:
    return space.model_copy(update={"limit_kg": change(space.limit_kg)})


def _tie_downs(case: Case, space: Space, change: Change) -> Space:
    """A space whose tie-downs hold another mass: each is rated so many times as much."""
    rule, rated = case.rulebook.restraint, sum(point.rated_dan for point in space.tie_downs)
    now = held_kg(space.tie_downs, rule)
    then = change(Limit(kg=now)).kg
    # What is no limit is strong enough for anything.
    times = 1000.0 if then is None else 1 + rated_dan_for(then - now, rule) / rated
    held = tuple(point.model_copy(update={"rated_dan": point.rated_dan * times}) for point in space.tie_downs)
    return space.model_copy(update={"tie_downs": held})
