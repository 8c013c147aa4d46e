"""Whether a trailer was on or off on the scale, other than at the stage that is said."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from models.stages import towing
from models.trip import Stage
from verifier.layout import Layout
from verifier.ticket import Difference, known_of
from verifier.totals import totals_at


def trailer_guess(layout: Layout, stage: Stage, found: Sequence[Difference], division_kg: float) -> Iterator[str]:
    """Ask about the trailer where a ticket is off with it as at the stage, and as predicted the other way."""
    trip, known = layout.case.trip, known_of(tuple(found))
    on = towing(trip, stage)
    other = totals_at(layout, stage.model_copy(update={"towing": not on}))
    front, rear = other.front_axle_kg, other.rear_axle_kg
    if front is None or rear is None:
        return
    predicted = {"front axle": front, "rear axle": rear, "total": other.mass_kg + other.ball_kg}
    changed = (replace(one, predicted_kg=predicted[subject]) for subject, one in known.items())
    if any(one.beyond(division_kg) for one in known.values()) and not any(one.beyond(division_kg) for one in changed):
        axles = f"{front:.0f} kg on the front and {rear:.0f} kg on the rear axle"
        yield f"Was the trailer {'off' if on else 'on'}? Then {axles} are predicted."
