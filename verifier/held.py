"""What holds a thing where it lies: asked by the rules `restraint` and `hazard` and by the advice on how to tie."""

from models.gear import Thing
from models.spaces import Held, Space

MADE_PLACES = ("holder", "bracket")
"""Ways of holding that hold only what they are made for."""


def in_its_own(thing: Thing, space: Space) -> bool:
    """Whether a thing is in a holder or a bracket that is made for it: the space accepts the thing's `holder`."""
    made_for = space.accepts or ()
    return space.holds in MADE_PLACES and thing.holder is not None and thing.holder in made_for


def held_by(thing: Thing, space: Space) -> Held:
    """What holds a thing in a space: where that is a holder or a bracket of other things, its tie-downs or nothing."""
    if space.holds not in MADE_PLACES or in_its_own(thing, space):
        return space.holds
    return "tie_downs" if space.tie_downs else "none"


def let_in(thing: Thing, space: Space) -> bool:
    """Whether the words of a thing let it into a space; where they do not, the rule `inside` tells of it."""
    if thing.holder is not None:
        return space.accepts is not None and thing.holder in space.accepts
    return space.accepts is None or not set(space.accepts).isdisjoint(thing.suits)
