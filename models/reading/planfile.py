"""A plan's file, and the case it is for."""

import os
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from pydantic import ValidationError

from models.case import Case
from models.plan import Placement, Plan
from models.reading.casefile import Opened, names_itself, open_case
from models.reading.checks.amounts import hollow_fault
from models.reading.checks.names import OF_THE_TRIP, but_things
from models.reading.checks.people import of_a_copy, says_something
from models.reading.draft import Draft
from models.reading.faults import Fault, InputFaults, nearest, shown
from models.reading.kinds import mistaken
from models.reading.loading import Desk
from models.reading.references import Kinds, refers
from models.reading.sentences import faults_of, told_at
from models.reading.sheet import Path as Steps
from models.reading.sheet import Sheet
from models.trip import Lock

NAMES: dict[str, Kinds] = {
    "placements": {"thing": ("things",), "space": ("spaces",)},
    "left_at_home": {"thing": ("things",)},
    "locks": OF_THE_TRIP["locks"],
}
"""What the names in the lists of a plan refer to."""

LEFT_OUT = "left out, as the files have changed: "
"""How a note on an entry that refers to nothing any more begins."""


@dataclass(frozen=True)
class LostLock:
    """A lock of a plan that was left out, as the files no longer know what it names."""

    lock: Lock
    notes: tuple[str, ...]
    """Those of the notes on the plan that tell it."""

    @property
    def why(self) -> tuple[str, ...]:
        """What is the matter with it."""
        return tuple(note.removeprefix(LEFT_OUT) for note in self.notes)


@dataclass(frozen=True)
class PlanRead:
    """A plan with the case it is for."""

    plan: Plan
    case: Case
    notes: tuple[str, ...] = ()
    digest_matches: bool | None = None
    """Whether the files are those it was made from. None: the plan names no digest."""
    questions: tuple[str, ...] = ()
    """Those of the notes that ask about what is odd in the files."""
    lost: tuple[Placement, ...] = ()
    """Placements that were left out, as the files no longer know their thing or their space."""
    lost_locks: tuple[LostLock, ...] = ()
    """Locks that were left out so."""

    @property
    def as_it_lies(self) -> Plan:
        """The plan with the placements that were left out: for whoever judges it, as all of it is aboard."""
        return self.plan.model_copy(update={"placements": (*self.plan.placements, *self.lost)})


def read_plan(plan_path: Path) -> PlanRead:
    """A plan and its case. Where the files have changed since, entries that refer to nothing are noted and left out.

    Raises
    ------
    InputFaults
        Anything wrong in the plan or in the files of its trip, all at once.
    """
    plan_path = Path(plan_path)
    desk = Desk()
    sheet = desk.load(plan_path, usual="plan.yaml")
    other = None if sheet is None else mistaken(sheet, "plan")
    if other is not None:
        raise InputFaults([other])
    if sheet is None:
        raise InputFaults(desk.faults)
    trip, digest = sheet.at(("trip",)), sheet.at(("trip_digest",))
    opened = open_case(plan_path.parent / trip) if isinstance(trip, str) else Opened((), "")
    if opened.draft is not None:
        desk.lay_flush(sheet, opened.draft.vehicle, opened.draft.gear, ("placements", "locks"))
    plan = _plan(desk, sheet)
    desk.faults += [_where_named(sheet, fault) for fault in opened.faults]
    matches = None if digest is None else digest == opened.digest
    lost = []
    if opened.draft is not None:
        draft = replace(opened.draft, told=tuple(desk.faults))
        hollow = draft.hollow if matches is not False else None  # an emptied list is told name by name
        lost = [*_lost(sheet, draft, things=hollow is None), *_of_copies(sheet, draft)]
        desk.faults += _locks(sheet, draft)
        if hollow is not None and any(sheet.at((key,)) for key in NAMES):
            desk.faults.append(hollow_fault(hollow))
        desk.faults += (fault for _, fault in lost) if matches is not False else ()
    read = opened.read
    if plan is None or read is None or desk.faults:
        raise InputFaults(desk.faults)
    left_out = {steps for steps, _ in lost}
    kept = _without(_asked_then(plan, matches), left_out)
    notes = [f"{sheet.file}: made from other files than these; they are taken as they are"] if matches is False else []
    notes += [_left_out(fault) for _, fault in lost]
    notes += _odd_claims(sheet, kept, read.case)
    gone = tuple(place for place in plan.placements if place not in kept.placements)
    lost_locks = tuple(
        LostLock(lock, tuple(_left_out(fault) for steps, fault in lost if steps == ("locks", i)))
        for i, lock in enumerate(plan.locks)
        if ("locks", i) in left_out
    )
    whole = (*read.notes, *desk.notes, *notes)
    return PlanRead(kept, read.case, whole, matches, read.questions, gone, lost_locks)


def _left_out(fault: Fault) -> str:
    return f"{LEFT_OUT}{fault}"


def _where_named(sheet: Sheet, fault: Fault) -> Fault:
    """A trip's file that cannot be read at all is told where the plan names it."""
    trip = str(sheet.data["trip"])
    if fault.line is not None or fault.path or Path(fault.file) != Path(sheet.file).parent / trip:
        return fault
    beside = Path(fault.file).parent / "trip.yaml"
    usual = nearest("trip.yaml", ["trip.yaml"]) if os.path.isfile(beside) else ""  # noqa: PTH113 - in a closed folder too
    hint = usual if names_itself(sheet, fault.hint) else fault.hint
    return sheet.fault(("trip",), f"{fault.found}: {shown(trip)}", fault.allowed, hint)


def _asked_then(plan: Plan, matches: bool | None) -> Plan:
    """A plan that knows what reserve was asked for when the files were others: what it keeps, where it says no more."""
    if matches is not False or plan.reserve_asked_kg is not None:
        return plan
    return plan.model_copy(update={"reserve_asked_kg": plan.reserve_kept_kg})


def _plan(desk: Desk, sheet: Sheet) -> Plan | None:
    if not isinstance(sheet.data, dict):
        desk.faults.append(sheet.fault((), shown(sheet.data), "keys such as `trip`, `placements`"))
        return None
    try:
        plan = Plan.model_validate(sheet.data)
    except ValidationError as problem:
        desk.faults += faults_of(sheet, Plan, problem, told_at(desk.faults))
        return None
    return None if desk.faults else plan


def _lost(sheet: Sheet, draft: Draft, *, things: bool) -> Iterator[tuple[Steps, Fault]]:
    """Entries of a plan that refer to a thing, where these are looked at, a space or a rack that is not there."""
    for key, kinds in NAMES.items():
        for entry in draft.parts(sheet, key):
            for fault in refers(draft, entry, kinds if things else but_things(kinds), listed=False):
                yield entry.path, fault


def _of_copies(sheet: Sheet, draft: Draft) -> Iterator[tuple[Steps, Fault]]:
    """Locks on copies that the list does not have."""
    things = {thing.part.name: thing.part for thing in draft.things}
    for lock in draft.entries(sheet, "locks", Lock):
        thing = things.get(lock.part.thing)
        for fault in () if thing is None else of_a_copy(lock, thing):
            yield lock.path, fault


def _locks(sheet: Sheet, draft: Draft) -> Iterator[Fault]:
    """Locks that fix nothing, or two things that exclude each other."""
    for lock in draft.entries(sheet, "locks", Lock):
        yield from says_something(lock)


def _without(plan: Plan, lost: set[Steps]) -> Plan:
    if not lost:
        return plan
    return plan.model_copy(
        update={key: tuple(part for i, part in enumerate(getattr(plan, key)) if (key, i) not in lost) for key in NAMES}
    )


def _odd_claims(sheet: Sheet, plan: Plan, case: Case) -> list[str]:
    stages = {stage.name for stage in case.trip.stages}
    claims = plan.claims.model_dump()
    return [
        sheet.note(("claims", key), f"claims something of {shown(stage)}, which is no stage of the trip")
        for key, figures in claims.items()
        for stage in figures
        if stage not in stages
    ]
