"""Things that stand in the vehicle and are no longer on the list: they are lifted out like any other."""

from collections.abc import Sequence

from models.case import Case, fresh
from models.gear import Thing
from models.plan import Placement


def with_unlisted(case: Case, placements: Sequence[Placement]) -> Case:
    """The case with the things that it does not have and that lie in its spaces, for lists of moves alone.

    What they weigh is not known any more: they take the seconds of the lightest lift.
    """
    lying = [p for p in placements if p.thing not in case.thing_named and p.space in case.space_named]
    numbers: dict[str, int] = {}
    for place in lying:
        numbers[place.thing] = max(place.copy_number, numbers.get(place.thing, 1))
    if not numbers:
        return case
    sizes = {place.thing: place.size_mm for place in lying}
    things = (*case.things, *(_thing(name, count, sizes[name]) for name, count in numbers.items()))
    return fresh(case, things=things)


def _thing(name: str, count: int, size_mm: tuple[int, int, int]) -> Thing:
    return Thing.model_validate({"name": name, "count": count, "mass_kg": 0, "size_mm": size_mm, "carry": 1})
