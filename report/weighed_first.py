"""What is worth weighing before any thing of the load: the vehicle itself, where nobody has had it on a scale."""

from models.base import ON_A_SCALE
from models.case import Case


def vehicle_first(case: Case) -> tuple[str, ...]:
    """The empty vehicle, where it was not weighed axle by axle, and where its mass is known from; else nothing."""
    kerb = case.vehicle.kerb
    if kerb.known_from in ON_A_SCALE and kerb.front_kg is not None:
        return ()
    return (f"the empty vehicle, axle by axle ({known_words(kerb.known_from)})",)


def known_words(known_from: str) -> str:
    """Where a mass is known from, to go into brackets."""
    return {"guess": "guessed", "estimated": "estimated", "weighed": "weighed"}.get(known_from, f"from {known_from}")
