"""Things that stand in the vehicle and are no longer on the list: they are lifted out like any other."""

from collections.abc import Sequence

from models.case import Case, fresh
from models.gear import Thing
from models.plan import Placement, Plan


def known_in(case: Case, plan: Plan, also: Sequence[Placement] = ()) -> Plan:
    """A plan, with what else lies there, without the things and spaces that a case does not have."""
    there = (*plan.placements, *also)
    known = tuple(p for p in there if p.thing in case.thing_named and p.space in case.space_named)
    return plan.model_copy(update={"placements": known})


def with_unlisted(
    case: Case, placements: Sequence[Placement], of: Case | None = None, *, anywhere: bool = False
) -> Case:
    """The case with the things that it does not have and that lie in its spaces, for what is said of where they lie.

    `of` is the case that the placements were made for. What it does not list either has a mass that nobody knows any
    more: it takes the seconds of the lightest lift. `anywhere`: also what lies in spaces that it does not have, for how
    people call their copies.
    """
    there = [p for p in placements if anywhere or p.space in case.space_named]
    lying = [p for p in there if p.thing not in case.thing_named]
    numbers: dict[str, int] = {}
    for place in lying:
        numbers[place.thing] = max(place.copy_number, numbers.get(place.thing, 1))
    if not numbers:
        return case
    sizes = {place.thing: place.size_mm for place in lying}
    listed = {} if of is None else of.thing_named
    things = (listed.get(name) or _thing(name, count, sizes[name]) for name, count in numbers.items())
    return fresh(case, things=(*case.things, *things))


def _thing(name: str, count: int, size_mm: tuple[int, int, int]) -> Thing:
    return Thing.model_validate({"name": name, "count": count, "mass_kg": 0, "size_mm": size_mm, "carry": 1})
