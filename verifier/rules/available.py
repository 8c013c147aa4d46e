"""available: a seat with a person in it, and a space closed at a stage, hold nothing then."""

from collections.abc import Iterator

from models.rules import Rule
from models.spaces import Space
from models.stages import aboard, present
from models.trip import Stage
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout


def _why_not(layout: Layout, space: Space, stage: Stage) -> str | None:
    trip = layout.case.trip
    if space.name in stage.closed:
        return "is closed"
    here = set(aboard(trip, stage))
    sitting = [person.name for person in trip.people if person.name in here and person.seat == space.seat]
    return f"is where {sitting[0]} sits" if sitting else None


def _all(layout: Layout) -> Iterator[Finding]:
    for stage in layout.case.trip.stages:
        for one, space in layout.located:
            why = _why_not(layout, space, stage)
            if why is not None and present(one.thing, stage):
                says = f"{one.name} is in {space.name} at '{stage.name}', and {space.name} {why} then."
                yield plain(Rule.AVAILABLE, one.name, False, says, stage.name)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge every space at every stage."""
    return or_held(_all(layout), Rule.AVAILABLE, "Nothing is in a taken seat or in a closed space.")
