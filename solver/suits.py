"""What a space takes by the words of both: the place that a thing needs, and what the space is for."""

from dataclasses import dataclass

from models.gear import Thing
from models.rules import Rule
from models.spaces import Space


@dataclass(frozen=True)
class Reason:
    """Why a thing may not be in a space in any plan."""

    rule: Rule
    says: str


def wrong_words(thing: Thing, space: Space) -> list[Reason]:
    """Why a thing may not be in a space by the words of both, whatever its size; empty where it may."""
    if space.inside_of == thing.name:
        return [Reason(Rule.INSIDE, f"{space.name} is part of it")]
    if space.accepts is None:
        return [Reason(Rule.INSIDE, f"it needs a place for: {thing.holder}")] if thing.holder else []
    words = [thing.holder] if thing.holder else list(thing.suits)
    if any(word in space.accepts for word in words):
        return []
    return [Reason(Rule.INSIDE, f"{space.name} takes only: {', '.join(space.accepts)}")]
