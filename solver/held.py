"""What holds a thing in a space, as the search asks it."""

from models.gear import Thing
from models.spaces import Held, Space
from solver.suits import wrong_words


def hold_of(thing: Thing, space: Space) -> Held:
    """How a space holds a thing: a holder or a bracket only what has its word, anything else by ties if it has any."""
    if space.holds in ("holder", "bracket") and thing.holder not in (space.accepts or ()):
        return "tie_downs" if space.tie_downs else "none"
    return space.holds


def hold_there(thing: Thing, space: Space) -> Held:
    """The same; where its words keep it out of a holder, those alone are told of."""
    return space.holds if wrong_words(thing, space) else hold_of(thing, space)
