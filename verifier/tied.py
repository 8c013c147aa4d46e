"""What has to be tied: asked by the rule that judges it and by the advice on how."""

from models.gear import Thing
from models.spaces import Held, Space
from verifier.held import held_by
from verifier.layout import Layout, Placed

TIES = ("enclosed", "barrier", "none")
"""How a thing may be held that still asks for ties on it where it is marked tied."""


def tied_in(layout: Layout, space: Space) -> tuple[Placed, ...]:
    """What has to be tied in a space: what ties alone hold, and what is marked tied or for two and is in no holder."""
    return tuple(one for one in layout.by_space[space.name] if _is_tied(one.thing, held_by(one.thing, space)))


def _is_tied(thing: Thing, held: Held) -> bool:
    return held == "tie_downs" or (thing.asks_for_ties and held in TIES)


def loose_in(layout: Layout) -> tuple[Placed, ...]:
    """What nothing at all holds, ties included."""
    return tuple(one for one, space in layout.located if lies_loose(one.thing, space))


def lies_loose(thing: Thing, space: Space) -> bool:
    """Whether nothing at all holds a thing in a space, ties included."""
    return held_by(thing, space) == "none" and not (space.tie_downs and thing.asks_for_ties)
