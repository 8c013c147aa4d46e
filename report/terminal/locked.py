"""What is told of locks that stand against what was asked, and of what has to be done about them first."""

from collections.abc import Iterator, Sequence

from report.explained import LockTold


def all_say(locks: Sequence[LockTold]) -> str:
    """Some locks, each with who says so."""
    return "; ".join(lock.says for lock in locks)


def other_locks(locks: Sequence[LockTold]) -> Iterator[str]:
    """A sentence for each lock that says where a thing may not be, and for each that the plan does not keep."""
    for lock in locks:
        if lock.out or not lock.kept:
            yield f"{'' if lock.kept else 'This plan does not keep a lock: '}{lock.says}."


def once_lifted(locks: Sequence[LockTold], of: Sequence[LockTold]) -> str:
    """Under which condition something may be, to go behind it, by the locks of all on it that stand against it."""
    if not locks:
        return ""
    if set(locks) == set(of):
        return f" once its {'lock is' if len(locks) == 1 else 'locks are'} lifted"
    return f" once {'this lock is' if len(locks) == 1 else 'these locks are'} lifted: {all_say(locks)}"


def lifted_first(locks: Sequence[LockTold]) -> Iterator[str]:
    """What has to be done about locks before a plan may be without them."""
    files = trip_files(locks)
    if files:
        which = "The lock has" if sum(lock.of_trip for lock in locks) == 1 else "The locks have"
        yield f"{which} to come out of {files} first: a plan can drop its own locks, not the trip's."
    elif locks:
        which = "The lock is" if len(locks) == 1 else "The locks are"
        yield f"{which} this plan's own: the plan that was tried does without."


def corner_refused(against: Sequence[str]) -> Iterator[str]:
    """What stands against the corner where a lifted lock wants a thing."""
    if against:
        yield f"At the corner of its lock no plan was found: {'; '.join(against)}."


def trip_files(locks: Sequence[LockTold]) -> str:
    """The file of the trip that some locks are in; nothing where none is the trip's."""
    return ", ".join(dict.fromkeys(lock.file for lock in locks if lock.of_trip))
