"""kit: things of a kit that are marked together are in one space."""

from collections.abc import Iterator

from models.rules import Rule
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout


def _all(layout: Layout) -> Iterator[Finding]:
    marked = [one for one in layout.placed if one.thing.together and one.thing.kit is not None]
    for kit in dict.fromkeys(one.thing.kit for one in marked):
        places = dict.fromkeys(one.placement.space for one in marked if one.thing.kit == kit)
        if len(places) > 1:
            says = f"The kit {kit} should be together and is in {', '.join(places)}."
            yield plain(Rule.KIT, str(kit), False, says, source="gear list")


def find(layout: Layout) -> Iterator[Finding]:
    """Judge every kit that insists on being together."""
    return or_held(_all(layout), Rule.KIT, "Every kit that insists on it is together.")
