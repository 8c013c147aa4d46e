"""What switches a rule off without a word: lawful, and hardly meant."""

from collections.abc import Iterator

from models.reading.checks.percent import percent
from models.reading.draft import Draft
from models.reading.faults import shown
from models.reading.shipped import shipped_rulebook
from models.rulebook import UpTo
from models.vehicle import AirKind

LEAST_FRONT_SHARE, MOST_SIDE_SHARE = 0.25, 0.2
"""Least share on the front axle, and largest difference of the sides, that are not asked about as limits: what an empty
touring vehicle hardly goes below, and four times what the rule book allows. Common practice, no source."""


CLOSED_AIR: dict[AirKind, str] = {"people": "air that people breathe", "sealed": "air without vents"}
"""Kinds of air in which what burns or gasses gathers, in words."""


def shares(draft: Draft) -> Iterator[str]:
    """Shares of the front axle and of the sides that hold whatever is loaded."""
    if draft.limits is None:
        return
    front, sides = draft.limits.part.front_share_min, draft.limits.part.side_difference_share
    if front is not None and front < LEAST_FRONT_SHARE:
        share = percent(front, LEAST_FRONT_SHARE)
        told = f"{share} of the mass on the front wheels is enough, so this is as good as never broken"
        yield draft.limits.note("front_share_min", f"{told}; is it meant so?")
    if sides is not None and sides > MOST_SIDE_SHARE:
        share = percent(sides, MOST_SIDE_SHARE)
        told = f"left and right may differ by {share} of the mass, so this is as good as never broken"
        yield draft.limits.note("side_difference_share", f"{told}; is it meant so?")


def air(draft: Draft) -> Iterator[str]:
    """Seats, and no air that those who sit there breathe."""
    if draft.vehicle is None or not draft.seats or not draft.spaces:
        return
    kinds = draft.vehicle.at(("air",))
    if "people" not in (kinds.values() if isinstance(kinds, dict) else ()):
        told = "no volume of air is `people`, so nothing is kept out of the air of those who sit in it"
        yield draft.vehicle.note(("air",), f"{told}; which is theirs, such as `cabin: people`?")


def hazards(draft: Draft) -> Iterator[str]:
    """Hazards that a rule book of one's own lets into air from which the shipped one keeps them, or more of them."""
    if draft.own_book is None or draft.rulebook is None:
        return
    for word, shipped in shipped_rulebook().hazards.items():
        own = draft.rulebook.hazards[word]
        for kind, meant in CLOSED_AIR.items():
            found, before = own.air.get(kind), shipped.air.get(kind)
            if found is not None and (before is None or _more(found, before)):
                told = "which the shipped rule book forbids" if before is None else "more than the shipped one allows"
                yield draft.own_book.note(
                    ("hazards", word, "air", kind), f"{own.words} may ride in {meant}, {told}; is it meant so?"
                )


def _more(own: UpTo, shipped: UpTo) -> bool:
    """Whether an amount allowed is greater than another in litres or in kilograms; None is without a limit."""
    pairs = ((own.up_to_l, shipped.up_to_l), (own.up_to_kg, shipped.up_to_kg))
    return any(before is not None and (found is None or found > before) for found, before in pairs)


def extinguishers(draft: Draft) -> Iterator[str]:
    """Extinguishers that nobody needs in a fire."""
    for thing in draft.things:
        if thing.part.hazard == "extinguisher" and "fire" not in thing.part.needed_when:
            told = f"{shown(thing.part.name)} is an extinguisher and is not needed in a fire, so nobody has to reach it"
            yield thing.note("needed_when", f"{told} then; give it `needed_when: fire`")


def together(draft: Draft) -> Iterator[str]:
    """Things to be together with a kit, and of none."""
    for thing in draft.things:
        if thing.part.together and thing.part.kit is None:
            yield thing.note("together", f"{shown(thing.part.name)} has no `kit`, so it is together with nothing")
