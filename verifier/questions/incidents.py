"""A question on incidents: whether anything is aboard of what the list has for a fire or an injury."""

from collections.abc import Iterator

from models.gear import Need
from verifier.layout import Layout

LIFE: dict[Need, str] = {"fire": "a fire", "injury": "an injury"}
"""Incidents in which nobody can wait for help. Common practice, no source."""


def left_home(layout: Layout) -> Iterator[str]:
    """Ask about an incident for which the list has things, of which none comes and none has to.

    What has to come and does not breaks a rule, and is told there.
    """
    carried = {one.thing.name for one in layout.placed}
    for need, told in LIFE.items():
        meant = [thing for thing in layout.case.things if need in thing.needed_when]
        if carried and meant and not any(thing.must or thing.name in carried for thing in meant):
            names = ", ".join(thing.name for thing in meant)
            yield (
                f"Nothing aboard is for {told}: {names} {'stays' if len(meant) == 1 else 'stay'} at home. What helps "
                "then? Give it `carry: must`, mark what is aboard for it with `needed_when`, or take it off the list."
            )
