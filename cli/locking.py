"""New locks of a plan, and what stands against them."""

from dataclasses import dataclass

from models.case import Case, Copy, copy_of
from models.locks import keeps_out, locks_on
from models.plan import Placement, Plan
from models.trip import Lock


@dataclass(frozen=True)
class Wish:
    """What a person wants to fix."""

    case: Case
    plan: Plan
    space: str | None
    """Where to put it. None: where it is."""
    by: str | None = None
    because: str | None = None

    def lock_for(self, copy: Copy) -> Lock | None:
        """The lock of one copy; None where it is not aboard and nobody says where."""
        place = place_of(self.plan, copy)
        if self.space is None and place is None:
            return None
        fixed = {"in": place.space, "at_mm": place.corner_mm} if self.space is None and place else {"in": self.space}
        parts = {"thing": copy.thing, "copy": copy.number, **fixed, "by": self.by, "because": self.because}
        return Lock.model_validate(parts)


@dataclass(frozen=True)
class Found:
    """What became of the copies that somebody wants to fix."""

    made: list[Lock]
    """New locks."""
    there: list[Copy]
    """Copies that are locked so already."""
    away: list[Copy]
    """Copies that are not aboard."""
    against: dict[Copy, list[str]]
    """Copies that are left as they are, with what stands against a lock, a sentence each."""


def place_of(plan: Plan, copy: Copy) -> Placement | None:
    """Where a copy is; None: not aboard."""
    return next((place for place in plan.placements if copy_of(place) == copy), None)


def already(wish: Wish, copy: Copy, new: Lock) -> bool:
    """Whether a copy is under a lock that says the same or more."""
    old = locks_on((*wish.case.trip.locks, *wish.plan.locks), copy)
    return any(one.in_ == new.in_ and new.at_mm in {None, one.at_mm} for one in old)


def faults(wish: Wish, copy: Copy, new: Lock) -> list[str]:
    """Why a lock cannot be, a sentence each: another lock, or a rule that it breaks by itself."""
    return [*_other_locks(wish, copy, new), *_rules(wish, copy)]


def _other_locks(wish: Wish, copy: Copy, new: Lock) -> list[str]:
    found = []
    for locks, where in ((wish.plan.locks, "unlock it first"), (wish.case.trip.locks, "change it in the trip's file")):
        for old in locks_on(locks, copy):
            against = _against(wish.case, old, new)
            if against is not None:
                found.append(f"{wish.case.called(copy)} is fixed: {against}{whose(old)}; {where}.")
    return found


def _against(case: Case, old: Lock, new: Lock) -> str | None:
    if old.at_home:
        return "it stays at home"
    if old.in_ is not None and old.in_ != new.in_:
        return f"it is in {old.in_}"
    if old.at_mm is not None and new.at_mm not in {None, old.at_mm}:
        return f"it is at {list(old.at_mm)} in {old.in_}, and the plan has it at {list(new.at_mm)}"
    if keeps_out(case, old, case.space_named[new.in_ or ""]):
        return f"it is not in {old.not_in}"
    return None


def whose(lock: Lock) -> str:
    """Who fixed it and why, in brackets; nothing where nobody says."""
    told = ": ".join(part for part in (lock.by, lock.because) if part)
    return f" ({told})" if told else ""


def _rules(wish: Wish, copy: Copy) -> list[str]:
    """Rules that the copy breaks there by itself."""
    from verifier import broken_at, broken_in  # noqa: PLC0415 - loaded where used

    place = place_of(wish.plan, copy)
    if wish.space is not None:
        found, where = broken_in(wish.case, wish.plan, copy, wish.space), f"in {wish.space}"
    elif place is not None:
        found, where = broken_at(wish.case, wish.plan, place), f"where it is in {place.space}"
    else:
        return []
    told = dict.fromkeys(f"{one.rule.value}: {one.says}" for one in found)
    begin = f"{wish.case.called(copy)} cannot be locked {where}, as that breaks a rule by itself."
    return ["\n  - ".join([begin, *told])] if told else []
