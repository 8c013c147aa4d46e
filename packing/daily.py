"""Seconds a day spent getting at things."""

from collections.abc import Mapping

from models.case import Case, Copy
from models.gear import Thing
from models.plan import Placement
from packing.digging import seconds_to_hand


def uses_per_day(case: Case, thing: Thing) -> float:
    """How often a copy is fetched: its own figure, or the rule book's for its access word."""
    own = thing.uses_per_day
    return case.rulebook.access.words[thing.access].uses_per_day if own is None else own


def getting_at_s(case: Case, placed: Mapping[Copy, Placement]) -> float:
    """Seconds a day to get at all that is placed, and so many more for each extra place of a kit.

    Raises
    ------
    KeyError
        A thing or a space is none of the case.
    """
    kits: dict[str, set[str]] = {}
    seconds = 0.0
    for copy, place in placed.items():
        thing = case.thing_named[copy.thing]
        seconds += uses_per_day(case, thing) * seconds_to_hand(case, placed, copy)
        if thing.kit is not None:
            kits.setdefault(thing.kit, set()).add(place.space)
    extra = sum(len(spaces) - 1 for spaces in kits.values())
    return seconds + case.rulebook.effort.extra_kit_place_s * extra
