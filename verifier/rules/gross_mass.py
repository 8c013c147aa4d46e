"""gross_mass: total, ball and vehicle with trailer within their limits, at every driving stage."""

from collections.abc import Iterator

from models.case import Case
from models.rules import Rule
from models.stages import trailer_at
from models.trip import Stage, Towing
from verifier.finding import Finding, against, at, or_not_checked, within
from verifier.layout import Layout
from verifier.stage import ball_at, everything
from verifier.statics import total_kg

WITH_TRAILER = "with trailer"
"""What vehicle and trailer together are called."""
TOW_BALL = "tow ball"
"""What the ball is called."""


def _total(layout: Layout, stage: Stage, own_kg: float) -> Finding:
    limit = layout.case.vehicle.limits.gvm_kg
    value = own_kg + ball_at(layout.case, stage).kg + layout.reserve_kg
    says = (
        f"The total with its reserve of {layout.reserve_kg:g} kg is {against(value, limit.kg, 'kg')}{at(stage.name)}."
    )
    return within(Rule.GROSS_MASS, "total", stage.name, value, limit.kg, "kg", says, limit.source)


def ball(case: Case, stage: Stage, trailer: Towing, called: str = "The ball") -> Finding:
    """Judge what a trailer puts on the ball, as typed in."""
    limit = case.vehicle.limits.tow_ball_kg
    says = f"{called} carries {against(trailer.ball_kg, limit.kg, 'kg')}{at(stage.name)}."
    return within(Rule.GROSS_MASS, TOW_BALL, stage.name, trailer.ball_kg, limit.kg, "kg", says, limit.source)


def _train(layout: Layout, stage: Stage, trailer: Towing, own_kg: float) -> Finding:
    limit = layout.case.vehicle.limits.gcm_kg
    value = own_kg + trailer.trailer_kg
    says = f"Vehicle and trailer weigh {against(value, limit.kg, 'kg')}{at(stage.name)}."
    return within(Rule.GROSS_MASS, WITH_TRAILER, stage.name, value, limit.kg, "kg", says, limit.source)


def _all(layout: Layout) -> Iterator[Finding]:
    trip = layout.case.trip
    for stage in trip.stages:
        if not stage.driving:
            continue
        own = total_kg(everything(layout, stage, "most"))
        yield _total(layout, stage, own)
        trailer = trailer_at(trip, stage)
        if trailer is not None:
            yield ball(layout.case, stage, trailer)
            yield _train(layout, stage, trailer, own)


def find(layout: Layout) -> Iterator[Finding]:
    """Weigh the vehicle at every driving stage."""
    return or_not_checked(_all(layout), Rule.GROSS_MASS, "the total was")
