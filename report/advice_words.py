"""Advice on tying and lifting in words, the same on the terminal and on the sheet."""

from collections.abc import Sequence
from math import inf

from report.figures import kilograms, limit
from report.told_advice import Barrier, Lift, Tie, TiedSpace, Tying


def straps(count: int) -> str:
    """So many straps."""
    return f"{count} strap" if count == 1 else f"{count} straps"


def strap_range(together: int | None, apart: int | None) -> str:
    """From lashed together to each by itself."""
    if together is None or apart is None:
        return "its points do not hold it" if apart else "no point to tie to counts"
    return straps(together) if together == apart else f"{together} to {straps(apart)}"


def in_all(told: Tying) -> str:
    """Straps of the whole vehicle."""
    if told.straps_together is None or told.straps_apart is None:
        return "how many straps is open, as points are missing or too weak"
    return strap_range(told.straps_together, told.straps_apart)


def points(ratings_dan: Sequence[float]) -> str:
    """Points of a space, those of one rating together, the strongest first."""
    counted = {rating: list(ratings_dan).count(rating) for rating in ratings_dan}
    told = [f"{count} {'point' if count == 1 else 'points'} of {rating:g} daN" for rating, count in counted.items()]
    return ", ".join(told) or "no tie-down points"


def one_point(space: TiedSpace) -> str:
    """What has to be said where a hard thing has only one point; else nothing."""
    lonely = len(space.points_dan) == 1 and (space.straps_together or 0) > 1
    return "; one point alone lets a hard thing turn" if lonely else ""


def pressed(space: TiedSpace) -> str | None:
    """What a strap holds that only presses from above. None: there is no point."""
    forward, sideways = space.pressed_forward_kg, space.pressed_sideways_kg
    if forward is None or sideways is None:
        return None
    return f"{_kilograms(forward)} in braking and {_kilograms(sideways)} sideways"


def loaded(told: Tie | Barrier) -> str:
    """Kilograms of a thing, and how much of them lies in it."""
    in_it = f", {kilograms(told.in_it_kg)} kg of it inside" if told.in_it_kg > 0 else ""
    return f"{kilograms(told.kg)} kg{in_it}"


def _kilograms(kg: float) -> str:
    return "anything" if kg == inf else f"{limit(kg)} kg"


def for_one(lift: Lift) -> str:
    """What is recommended for one person, where the column says so."""
    return f"{limit(lift.recommended_kg)} kg" if lift.in_reach else "out of reach"


def recommended(lift: Lift) -> str:
    """What is recommended for one person."""
    return f"{for_one(lift)} recommended" if lift.in_reach else for_one(lift)


def by_zones(lift: Lift) -> str:
    """The second opinion, for the weaker and the stronger of the people that it is made for."""
    if lift.women_kg is None or lift.men_kg is None:
        return "none so high up"
    return f"{limit(lift.women_kg)} to {limit(lift.men_kg)} kg"


def by_people(people: int, each_kg: float) -> str:
    """How many lift it; where that is more than two, what is reckoned for each, or else a hoist."""
    return "two people" if people == 2 else f"at least {people} people at {limit(each_kg)} kg each, or a hoist"


def lifted_by(people: int, each_kg: float) -> str:
    """The same as a sentence."""
    return "two people lift it" if people == 2 else f"{by_people(people, each_kg)}, lift it"


def way_out(lift: Lift) -> str:
    """What helps, and where too few travel for it."""
    place = ", or a lower or nearer place" if lift.elsewhere_helps and lift.kg > lift.recommended_kg else ""
    return f"{by_people(lift.people, lift.each_kg)}{place}{_too_few(lift)}"


def _too_few(lift: Lift) -> str:
    few = lift.too_few
    if few is None:
        return ""
    asked = "" if few.people == lift.people else f", which takes {few.people} there"
    return f"; only {few.travel} {'travels' if few.travel == 1 else 'travel'} at {few.stage}{asked}"
