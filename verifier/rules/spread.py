"""spread: copies are in as many spaces as asked."""

from collections.abc import Iterator

from models.gear import Thing
from models.rules import Rule
from verifier.finding import Finding, at_least, or_held
from verifier.layout import Layout


def _thing(layout: Layout, thing: Thing) -> Iterator[Finding]:
    copies = layout.copies_of(thing.name)
    if thing.spread > 1 and copies:
        spaces = len({one.placement.space for one in copies})
        told = f"{spaces} {'space' if spaces == 1 else 'spaces'}"
        copies_are = f"The one {thing.name} is" if len(copies) == 1 else f"The copies of {thing.name} are"
        says = f"{copies_are} in {told}; {thing.spread} are asked for."
        yield at_least(Rule.SPREAD, thing.name, None, spaces, thing.spread, "spaces", says, "gear list")


def find(layout: Layout) -> Iterator[Finding]:
    """Count the spaces of everything that must be spread."""
    found = (finding for thing in layout.case.things for finding in _thing(layout, thing))
    return or_held(found, Rule.SPREAD, "Nothing that comes along has to be spread.")
