"""The vehicle's masses and limits make sense together."""

from collections.abc import Iterator

from models.base import Limit
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.vehicle import Kerb, RackLimits

SCALE_KG = 20.0
"""Largest difference of axles and total of one weighing, in kg: two readings of a scale with steps of 10 kg.
Common practice, no source."""


def kerb(draft: Draft) -> Iterator[Fault | str]:
    """The kerb weighing is complete and holds what was aboard."""
    entry = draft.kerb
    if entry is None:
        return
    yield from _figures(entry)
    total = _total(entry.part)
    fuel = {tank.part.name: tank.part for tank in draft.tanks}
    for name, litres in entry.part.aboard_l.items():
        if name in fuel and litres > fuel[name].holds_l:
            holds = fuel[name].holds_l
            yield entry.fault(("aboard_l", name), f"{litres:g} litres", f"at most the {holds:g} litres the tank holds")
    aboard = sum(entry.part.aboard_kg.values())
    if total is not None and aboard >= total:
        yield entry.fault(
            "aboard_kg", f"{aboard:g} kg of people on a scale that read {total:g} kg", "less than was weighed"
        )
    gvm = None if draft.limits is None else draft.limits.part.gvm_kg.kg
    if total is not None and gvm is not None and total > gvm:
        yield entry.note((), f"the vehicle as weighed, {total:g} kg, is over its gvm_kg of {gvm:g} kg")


def _total(part: Kerb) -> float | None:
    if part.front_kg is not None and part.rear_kg is not None:
        return part.front_kg + part.rear_kg
    return part.total_kg


def _figures(entry: Entry[Kerb]) -> Iterator[Fault]:
    part = entry.part
    both = "front_kg and rear_kg, or total_kg where the axles were not weighed"
    if (part.front_kg is None) != (part.rear_kg is None):
        yield entry.fault((), f"only {'front_kg' if part.rear_kg is None else 'rear_kg'}", both)
        return
    if part.front_kg is None and part.total_kg is None:
        yield entry.fault((), "no mass", both)
        return
    total = _total(part)
    if total is not None and part.total_kg is not None and abs(total - part.total_kg) > SCALE_KG:
        found = f"{part.total_kg:g} kg, but front and rear make {total:g} kg"
        yield entry.fault("total_kg", found, f"the sum of both axles within {SCALE_KG:g} kg")


def people_on_racks(draft: Draft) -> Iterator[str]:
    """Racks with people on them at a parked stage say where they are; while driving nobody may be there."""
    parked = [stage.part for stage in draft.stages if not stage.part.driving]
    for rack in draft.racks:
        name = rack.part.name
        loaded = (stage.name for stage in parked if stage.on_racks.get(name, 0) > 0)
        at = next(loaded, None)
        if at is not None and rack.part.at_mm is None:
            told = f"people are on {shown(name)} at {shown(at)}; without `at_mm` it is not known where they weigh then"
            yield rack.note((), told)


def racks(draft: Draft) -> Iterator[Fault | str]:
    """Racks off the scale say where they are; limits fall from parked to sealed road to off road."""
    for rack in draft.racks:
        part, limits = rack.part, rack.part.limits
        if not part.on_the_scale and part.own_mass_kg > 0 and part.at_mm is None:
            yield rack.fault((), f"no `at_mm` for {shown(part.name)}", "the place of a rack that was not on the scale")
        parked, road, track = (_on(limits, key) for key in ("parked_kg", "sealed_road_kg", "off_road_kg"))
        for key, kg in dict((road, track)).items():
            if parked[1] is not None and kg is not None and parked[1] < kg:
                yield rack.note("limits", f"parked it may carry {parked[1]:g} kg, less than the {kg:g} kg of {key}")
        if road[1] is not None and track[1] is not None and road[1] < track[1]:
            told = f"off the road it may carry {track[1]:g} kg, more than the {road[1]:g} kg on a sealed road"
            by = " by `any_kg`" if "any_kg" in {road[0], track[0]} else ""
            yield rack.note("limits", f"{told}{by}; {'is it meant so' if by else 'were the two swapped'}?")
        if all(limit is None for limit in (limits.parked_kg, limits.sealed_road_kg, limits.off_road_kg, limits.any_kg)):
            yield rack.note("limits", f"{shown(part.name)} has no limit, so what hangs on it cannot be signed off")


def _on(limits: RackLimits, key: str) -> tuple[str, float | None]:
    """The key that says what a rack may carry on a surface, and its kilograms; None: unknown there."""
    own: Limit | None = getattr(limits, key)
    if own is None and limits.any_kg is not None:
        return "any_kg", limits.any_kg.kg
    return key, None if own is None else own.kg


def towing(draft: Draft) -> Iterator[Fault | str]:
    """A trailer's ball carries less than the trailer; stages tow only on a trip that tows."""
    for trailer in draft.trailers:
        part = trailer.part
        if part.ball_kg > part.trailer_kg:
            yield trailer.fault("ball_kg", f"{part.ball_kg:g}", f"at most the trailer's {part.trailer_kg:g} kg")
    tows = draft.trip is not None and draft.trip.at(("towing",)) is not None
    for stage in draft.stages:
        if stage.part.towing and not tows:
            said = "yes" if stage.part.towing is True else "a trailer"
            yield stage.fault(
                "towing", f"{said}, on a trip without a trailer", "a trip with `towing: {ball_kg, trailer_kg}`"
            )
    limits = draft.limits
    if tows and limits is not None and limits.part.tow_ball_behind_rear_axle_mm is None:
        yield limits.note("tow_ball_behind_rear_axle_mm", "not given, so the axles while towing stay unknown")
