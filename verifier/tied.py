"""What has to be tied: asked by the rule that judges it and by the advice on how."""

from models.spaces import Space
from verifier.layout import Layout, Placed

TIES = ("enclosed", "barrier", "tie_downs", "none")
"""How a space may hold its load that still asks for ties on what is marked tied."""


def tied_in(layout: Layout, space: Space) -> tuple[Placed, ...]:
    """What has to be tied in a space: all of it where ties alone hold it, else what is marked tied or for two."""
    here = layout.by_space[space.name]
    if space.holds == "tie_downs":
        return here
    return tuple(one for one in here if one.thing.tied or one.thing.two_person) if space.holds in TIES else ()
