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
    return held == "tie_downs" or ((thing.tied or thing.two_person) and held in TIES)
