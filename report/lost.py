"""What a plan places and its files no longer know: things that are off the list, and spaces that are gone."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from models.case import Case, Copy, copy_of
from models.plan import Placement, Plan
from models.reading import LostLock, PlanRead
from packing import with_unlisted
from packing.matching import matched


@dataclass(frozen=True)
class Lost:
    """Copies that lie somewhere and have no placement any more."""

    things: tuple[Placement, ...] = ()
    """No longer on the list: they are taken out."""
    from_space: dict[Copy, str] = field(default_factory=dict)
    """On the list, and their space is no longer in the vehicle: by copy, the space."""
    numbers: dict[Copy, Copy] = field(default_factory=dict)
    """Like copies with another number since: by copy, the one that it was."""
    locks: tuple[LostLock, ...] = ()
    """Locks that the plan has no longer, each with what is the matter with it."""

    @property
    def all(self) -> tuple[tuple[Copy, str], ...]:
        """Every copy with the space in which it lies."""
        return (*((copy_of(place), place.space) for place in self.things), *self.from_space.items())


NOTHING_LOST = Lost()


def lost_of(case: Case, placements: Iterable[Placement]) -> Lost:
    """What of some placements the files no longer know; `placements` may hold sound ones."""
    listed = set(case.copies)
    there = list(placements)
    return Lost(
        tuple(place for place in there if copy_of(place) not in listed),
        {copy_of(p): p.space for p in there if copy_of(p) in listed and p.space not in case.space_named},
    )


def lost_between(case: Case, moving: Case, before: Plan, there: Iterable[Placement], after: Plan) -> Lost:
    """The same of all that is there before a plan, its copies named as the moves to that plan name them.

    `moving` is the case of the moves, `before` holds what of all that is there they know. Like copies change names
    before they change places, so that the one that is taken out need not be the one with the highest number.
    """
    then, _ = matched(moving, before, after)
    unmoved = (place for place in there if place not in before.placements)
    return lost_of(case, (*then.values(), *unmoved))


def new_numbers(moving: Case, before: Plan, there: Iterable[Placement], after: Plan) -> dict[Copy, Copy]:
    """Of things of which the list has fewer copies: by the copy as the moves name it the one that it was in `there`.

    `moving` is the case of the moves, `before` the plan from which they begin; where a copy lies tells which it was.
    """
    listed, places = set(moving.copies), [*there]
    fewer = {p.thing for p in places if p.thing in moving.thing_named and copy_of(p) not in listed}
    was = {_where(place): copy_of(place) for place in places if place.thing in fewer}
    then, _ = matched(moving, before, after)
    old = {copy: was.get(_where(place), copy) for copy, place in sorted(then.items())}
    return {copy: one for copy, one in old.items() if one != copy}


def _where(place: Placement) -> tuple[object, ...]:
    return place.thing, place.space, place.corner_mm


CHANGED = "The files have changed since this plan was made: it is checked against them as they are now."


def told_changed(read: PlanRead) -> tuple[str, ...]:
    """That the files have changed since, and what lies in the vehicle and has no place in them; else nothing."""
    if read.digest_matches is not False:
        return ()
    case = with_unlisted(read.case, read.lost, anywhere=True)
    aboard, out = lost_of(read.case, read.plan.placements), lost_of(read.case, read.lost)
    told = (
        ("Still aboard by this plan and no longer on the gear list, so in every sum", aboard.things),
        ("Still aboard by this plan and no longer on the gear list at all, so in no sum", out.things),
    )
    lines = [
        f"{said}: {', '.join(lying_words(case, copy_of(p), p.space) for p in places)}."
        for said, places in told
        if places
    ]
    if out.from_space:
        listed = ", ".join(f"{case.called(copy)} from {space}" for copy, space in out.from_space.items())
        lines.append(f"Without a place, as the space is no longer in the vehicle, so in no sum: {listed}.")
    return (CHANGED, *lines)


def lying_words(case: Case, copy: Copy, space: str) -> str:
    """A copy and where it lies, as people hear of it."""
    return f"{case.called(copy)} in {space}"


def lying_view(copy: Copy, space: str) -> dict[str, Any]:
    """The same for machines."""
    return {"thing": copy.thing, "copy": copy.number, "from": space}


def lost_view(lost: Lost) -> dict[str, Any]:
    """What the files no longer know, and like copies with other numbers since, for machines."""
    return {
        "new_numbers": [
            {"thing": new.thing, "copy": new.number, "was": old.number} for new, old in lost.numbers.items()
        ],
        "no_longer_listed": [lying_view(copy_of(place), place.space) for place in lost.things],
        "from_gone_space": [lying_view(copy, space) for copy, space in lost.from_space.items()],
    }
