"""What was locked and unlocked."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.trip import Lock
from report.terminal.table import bullets, paragraph
from report.terminal.typed import words_of
from report.terminal.whole import NARROW, WIDE


class Found(Protocol):
    """What became of copies that somebody wants to fix."""

    @property
    def made(self) -> Sequence[Lock]: ...  # noqa: D102 - as in the command
    @property
    def there(self) -> Sequence[Copy]: ...  # noqa: D102
    @property
    def away(self) -> Sequence[Copy]: ...  # noqa: D102
    @property
    def against(self) -> Mapping[Copy, Sequence[str]]: ...  # noqa: D102


def lock_report(case: Case, path: str, plan: Plan, found: Found, width: int = NARROW) -> str:
    """New locks, and what was left as it was; `plan` is the plan as it stood."""
    made = found.made
    width = min(max(width, NARROW), WIDE)
    lines = paragraph(f"Locked in {path}:" if made else "Nothing new was locked.", width)
    lines += bullets((lock_text(case, lock) for lock in made), width)
    lines += _also("Locked so already", [case.called(copy) for copy in found.there], width)
    lines += _also("Not aboard and not locked", [case.called(copy) for copy in found.away], width)
    if found.against:
        lines += ["", *paragraph("Left as they are, and not locked:", width)]
        lines += bullets((told for why in found.against.values() for told in why), width)
    if any(not _is_there(plan, lock) for lock in made):
        told = " ".join(words_of("revise", (path,)))
        lines += ["", *paragraph(f"Not all of it is there yet: lowstow {told} moves it.", width)]
    return "\n".join(lines) + "\n"


def unlock_report(case: Case, path: str, gone: Sequence[Lock], in_trip: Sequence[Lock], width: int = NARROW) -> str:
    """Locks that are gone, and those of the trip's file that stay."""
    width = min(max(width, NARROW), WIDE)
    lines = paragraph(f"Unlocked in {path}:", width)
    lines += bullets((lock_text(case, lock) for lock in gone), width)
    if in_trip:
        lines += ["", *paragraph("Still fixed, in the trip's file:", width)]
        lines += bullets((lock_text(case, lock) for lock in in_trip), width)
    return "\n".join(lines) + "\n"


def lock_text(case: Case, lock: Lock) -> str:
    """A lock in a few words, with who and why; its copy's number where the list has several."""
    name = lock.thing if lock.copy_number is None else case.called(Copy(lock.thing, lock.copy_number))
    facts = [
        lock.in_ and f"in {lock.in_}" + (f" at {list(lock.at_mm)} mm" if lock.at_mm else ""),
        lock.not_in and f"not in {lock.not_in}",
        "at home" if lock.at_home else None,
        "comes along" if lock.carried else None,
    ]
    told = ": ".join(part for part in (lock.by, lock.because) if part)
    return f"{name} {', '.join(fact for fact in facts if fact)}{f' ({told})' if told else ''}"


def _also(title: str, names: Sequence[str], width: int) -> list[str]:
    return ["", *paragraph(f"{title}: {', '.join(names)}.", width)] if names else []


def _is_there(plan: Plan, lock: Lock) -> bool:
    meant = Copy(lock.thing, lock.copy_number or 1)
    return any(copy_of(place) == meant and place.space == lock.in_ for place in plan.placements)
