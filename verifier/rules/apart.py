"""apart: what people want apart is not in one space."""

from collections.abc import Iterator

from models.rules import Rule
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout, Placed


def _called(one: Placed, word: str) -> bool:
    return word in {one.thing.name, one.thing.kit}


def _pair(layout: Layout, first: str, second: str) -> Iterator[Finding]:
    for space in layout.case.vehicle.spaces:
        here = layout.within(space)
        firsts = [one for one in here if _called(one, first)]
        seconds = [one for one in here if _called(one, second)]
        if any(one is not other for one in firsts for other in seconds):
            says = f"{first} and {second} are both in {space.name}, and should be apart."
            yield plain(Rule.APART, f"{first} and {second}", False, says, source="trip file")


def find(layout: Layout) -> Iterator[Finding]:
    """Judge every pair of the trip."""
    found = (finding for first, second in layout.case.trip.apart for finding in _pair(layout, first, second))
    return or_held(found, Rule.APART, "What should be apart is apart.")
