"""A plan as read, where the list has fewer copies since: which of like ones go, and where the locks on others go."""

from dataclasses import replace

from models.case import Case, Copy, copy_of
from models.reading import PlanRead
from models.trip import Lock
from packing import easiest_gone


def counted_anew(read: PlanRead, of: Case | None = None) -> PlanRead:
    """A plan as read with other numbers for like copies, where some are beyond the list; `of`: beyond another's list.

    A lock on a copy beyond the list goes along to the number of the list that its copy gets, where it gets one.
    """
    case = of or read.case
    beyond = [one for one in read.lost_locks if _is_beyond(case, one.lock)]
    whole = read.as_it_lies.model_copy(update={"locks": (*read.plan.locks, *(one.lock for one in beyond))})
    anew, had = easiest_gone(case, whole), len(read.plan.locks)
    after = [replace(one, lock=lock) for lock, one in zip(anew.locks[had:], beyond, strict=True)]
    kept = [one for one in after if not _is_beyond(case, one.lock)]
    still = [one for one in read.lost_locks if one not in beyond] + [one for one in after if one not in kept]
    told = {note for one in kept for note in one.notes}
    return replace(
        read,
        plan=anew.model_copy(
            update={
                "locks": (*anew.locks[:had], *(one.lock for one in kept)),
                "placements": anew.placements[: len(read.plan.placements)],
            }
        ),
        notes=tuple(note for note in read.notes if note not in told),
        lost=anew.placements[len(read.plan.placements) :],
        lost_locks=tuple(still),
    )


def renumbered_copies(before: PlanRead, after: PlanRead) -> dict[Copy, Copy]:
    """By copies of a plan as read that have another number in it as counted anew, what they are there."""
    had, has = (
        [*map(copy_of, read.as_it_lies.placements), *map(copy_of, read.plan.left_at_home)] for read in (before, after)
    )
    pairs = zip(had, has, strict=True)
    return {old: new for old, new in pairs if old != new}


def _is_beyond(case: Case, lock: Lock) -> bool:
    """Whether a lock names a copy beyond the list, and all else that it names is there."""
    thing, number = case.thing_named.get(lock.thing), lock.copy_number
    places = {*case.space_named, *case.rack_named, None}
    return thing is not None and number is not None and number > thing.count and {lock.in_, lock.not_in} <= places
