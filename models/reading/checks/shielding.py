"""Barriers and seat backs so high or so strong that they would stop whatever is behind them: asked about."""

from collections.abc import Iterator

from models.reading.checks.plausible import LOWEST_PERSON_MM
from models.reading.draft import Draft
from models.reading.faults import shown

MOST_RATED_KG = 300.0
"""Heaviest single thing in kg that a barrier is rated to stop above which it is asked about. Common practice, no
source: barriers of touring vehicles are rated for 30 to 120 kg; at 20 g, 300 kg push with the weight of 6 t."""

HIGHEST_BACK_MM = 700.0
"""How far the top of a seat back may be above the middle of who sits there, in mm. Common practice, no source: 350 to
400, with a head restraint up to 600."""


def barrier(draft: Draft) -> Iterator[str]:
    """A barrier higher than the body or rated for more than barriers are."""
    if draft.barrier is None:
        return
    part = draft.barrier.part
    if part.rated_kg > MOST_RATED_KG:
        told = f"a barrier that stops a single thing of {part.rated_kg:g} kg"
        yield draft.barrier.note("rated_kg", f"{told}; is there a digit too many, or are these grams?")
    if draft.outline is not None and part.top_z_mm > draft.outline.part.height:
        told = f"a barrier up to {part.top_z_mm} mm, and the body is {draft.outline.part.height} mm high"
        yield draft.barrier.note("top_z_mm", f"{told}; is there a digit too many?")


def backs(draft: Draft) -> Iterator[str]:
    """Seat backs whose top is above the body, far above who sits there, or below the middle of who sits there.

    A seat so low that it is asked about itself is no measure for its back.
    """
    height = None if draft.outline is None else draft.outline.part.height
    for seat in draft.seats:
        top, middle = seat.part.back_top_z_mm, seat.part.at_mm[2]
        if top is None:
            continue
        told = f"the back of {shown(seat.part.name)} ends {top} mm above the road"
        if height is not None and top > height:
            yield seat.note("back_top_z_mm", f"{told}, and the body is {height} mm high; is there a digit too many?")
        elif middle >= LOWEST_PERSON_MM and not middle <= top <= middle + HIGHEST_BACK_MM:
            where = f"the middle of who sits there is {middle:g} mm above it"
            yield seat.note("back_top_z_mm", f"{told}, and {where}; is this in millimetres, from the road?")
