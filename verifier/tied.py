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
    return held == "tie_downs" or (must_be_tied(thing) and held in TIES)


def loose_in(layout: Layout) -> tuple[Placed, ...]:
    """What nothing at all holds, ties included."""
    return tuple(
        one
        for one, space in layout.located
        if held_by(one.thing, space) == "none" and not (space.tie_downs and must_be_tied(one.thing))
    )


def must_be_tied(thing: Thing) -> bool:
    """Whether a thing asks for ties wherever it is not in a holder or a bracket of its own."""
    return thing.tied or thing.two_person
