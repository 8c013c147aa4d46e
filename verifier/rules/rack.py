"""rack: all that hangs on a rack is within its limit for the ground, parked stages too."""

from collections.abc import Iterator

from models.base import Limit
from models.rules import Rule
from models.stages import mass_kg
from models.trip import Stage
from models.vehicle import Rack
from verifier.finding import Finding, against, at, or_held, plain, within
from verifier.layout import Layout


def rack_limit(rack: Rack, stage: Stage) -> Limit:
    """What a rack may carry on the ground of a stage."""
    own = {
        "parked": rack.limits.parked_kg,
        "sealed_road": rack.limits.sealed_road_kg,
        "off_road": rack.limits.off_road_kg,
    }[stage.surface]
    return own or rack.limits.any_kg or Limit()


def _hanging(layout: Layout, rack: Rack) -> tuple[Rack, ...]:
    racks = layout.case.vehicle.racks
    return tuple(r for r in racks if r.name != rack.name and rack.name in layout.case.rack_line(r.name))


def rack_load_kg(layout: Layout, rack: Rack, stage: Stage) -> float:
    """Kilograms on a rack at a stage: things, fittings, racks and people on it, and itself if it counts itself."""
    hanging = _hanging(layout, rack)
    names = {rack.name, *(other.name for other in hanging)}
    things = sum(mass_kg(one.thing, stage, "most") for one in layout.by_rack[rack.name])
    people = sum(kg for name, kg in stage.on_racks.items() if name in names)
    own = rack.own_mass_kg if rack.counts_itself else 0.0
    bolted = sum(one.mass_kg for one in layout.case.vehicle.fittings if not names.isdisjoint(one.on or ()))
    return things + bolted + people + own + sum(other.own_mass_kg for other in hanging)


def _at(layout: Layout, rack: Rack, stage: Stage) -> Iterator[Finding]:
    value = rack_load_kg(layout, rack, stage)
    limit = rack_limit(rack, stage)
    source = limit.source or rack.source
    says = f"{rack.name} carries {against(value, limit.kg, 'kg')}{at(stage.name)}."
    if value == 0:
        yield plain(Rule.RACK, rack.name, True, f"Nothing hangs on {rack.name}{at(stage.name)}.", stage.name)
    else:
        yield within(Rule.RACK, rack.name, stage.name, value, limit.kg, "kg", says, source)
    if stage.driving and stage.on_racks.get(rack.name, 0) > 0:
        says = f"People are on {rack.name}{at(stage.name)} while the vehicle moves."
        yield plain(Rule.RACK, rack.name, False, says, stage.name)


def _all(layout: Layout) -> Iterator[Finding]:
    for stage in layout.case.trip.stages:
        for rack in layout.case.vehicle.racks:
            yield from _at(layout, rack, stage)


def find(layout: Layout) -> Iterator[Finding]:
    """Weigh every rack at every stage; nothing at all is within any limit."""
    return or_held(_all(layout), Rule.RACK, "The vehicle has no racks.")
