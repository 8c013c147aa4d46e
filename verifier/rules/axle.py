"""axle: each axle with its reserve within its limit, and enough of the mass on the front wheels."""

from collections.abc import Iterator

from models.base import Limit
from models.rules import Rule
from models.trip import Stage
from verifier.finding import Finding, against, against_least, at, at_least, or_not_checked, within
from verifier.layout import Layout
from verifier.stage import axles_at


def _axle(layout: Layout, stage: Stage, name: str, load_kg: float | None, limit: Limit) -> Finding:
    value = None if load_kg is None else load_kg + layout.reserve_kg
    told = against(value, limit.kg, "kg")
    says = f"The {name} with its reserve of {layout.reserve_kg:g} kg carries {told}{at(stage.name)}."
    if value is None:
        says = f"What the {name} carries{at(stage.name)} is not known."
    return within(Rule.AXLE, name, stage.name, value, limit.kg, "kg", says, limit.source)


def _share(layout: Layout, stage: Stage) -> Finding:
    own = layout.case.vehicle.limits.front_share_min
    book = layout.case.rulebook.front_share_min
    least, source = (book.value, book.source) if own is None else (own, "vehicle file")
    loads = axles_at(layout, stage, "likely")
    value = None if loads is None else loads.front_share
    told, allowed = ("not known", f"{least:.1%}") if value is None else against_least(value, least)
    says = f"The share of the front wheels{at(stage.name)} is {told}; {allowed} is the least."
    return at_least(Rule.AXLE, "front share", stage.name, value, least, "share", says, source)


def _all(layout: Layout) -> Iterator[Finding]:
    limits = layout.case.vehicle.limits
    for stage in layout.case.trip.stages:
        if stage.driving:
            front = axles_at(layout, stage, "worst for the front")
            rear = axles_at(layout, stage, "worst for the rear")
            yield _axle(layout, stage, "front axle", front and front.front_kg, limits.front_axle_kg)
            yield _axle(layout, stage, "rear axle", rear and rear.rear_kg, limits.rear_axle_kg)
            yield _share(layout, stage)


def find(layout: Layout) -> Iterator[Finding]:
    """Weigh both axles at every driving stage."""
    return or_not_checked(_all(layout), Rule.AXLE, "the axles were")
