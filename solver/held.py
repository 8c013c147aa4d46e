"""What holds a thing in a space, as the search asks it."""

from models.gear import Thing
from models.spaces import Held, Space


def held_by(thing: Thing, space: Space) -> Held:
    """How a space holds a thing: a holder or a bracket only what has its word, anything else by ties if it has any."""
    if space.holds in ("holder", "bracket") and thing.holder not in (space.accepts or ()):
        return "tie_downs" if space.tie_downs else "none"
    return space.holds
