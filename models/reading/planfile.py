"""A plan's file, and the case it is for."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from models.case import Case
from models.plan import Placement, Plan
from models.reading.casefile import names_itself, read_case
from models.reading.checks.people import of_a_copy, says_something
from models.reading.draft import Entry
from models.reading.faults import Fault, InputFaults, nearest, shown
from models.reading.kinds import mistaken
from models.reading.loading import Desk
from models.reading.sentences import faults_of, told_at
from models.reading.sheet import Path as Steps
from models.reading.sheet import Sheet


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
    plan = None if sheet is None else _plan(desk, sheet)
    if sheet is None or not isinstance(sheet.data, dict):
        raise InputFaults(desk.faults)
    trip = sheet.data.get("trip")
    try:
        read = read_case(plan_path.parent / trip) if isinstance(trip, str) else None
    except InputFaults as problem:
        raise InputFaults([*desk.faults, *(_where_named(sheet, fault) for fault in problem.faults)]) from None
    if plan is None or read is None:
        raise InputFaults(desk.faults)
    matches = None if plan.trip_digest is None else plan.trip_digest == read.case.digest
    lost = [*_lost(sheet, plan, read.case), *_of_copies(sheet, plan, read.case)]
    faults = [*_locks(sheet, plan), *((fault for _, fault in lost) if matches is not False else ())]
    if faults:
        raise InputFaults(faults)
    kept = _without(_asked_then(plan, matches), {steps for steps, _ in lost})
    notes = [f"{sheet.file}: made from other files than these; they are taken as they are"] if matches is False else []
    notes += [f"left out, as the files have changed: {fault}" for _, fault in lost]
    notes += _odd_claims(sheet, kept, read.case)
    gone = tuple(place for place in plan.placements if place not in kept.placements)
    return PlanRead(kept, read.case, (*read.notes, *desk.notes, *notes), matches, read.questions, gone)


def _where_named(sheet: Sheet, fault: Fault) -> Fault:
    """A trip's file that cannot be read at all is told where the plan names it."""
    trip = str(sheet.data["trip"])
    if fault.line is not None or fault.path or Path(fault.file) != Path(sheet.file).parent / trip:
        return fault
    usual = nearest("trip.yaml", ["trip.yaml"]) if (Path(fault.file).parent / "trip.yaml").is_file() else ""
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


def _lost(sheet: Sheet, plan: Plan, case: Case) -> list[tuple[Steps, Fault]]:
    """Entries of a plan that refer to a thing, a space or a rack that is not there."""
    found: list[tuple[Steps, Fault]] = []
    things, spaces = list(case.thing_named), list(case.space_named)
    for key in ("placements", "left_at_home", "locks"):
        for index, part in enumerate(getattr(plan, key)):
            entry = Entry(sheet, (key, index), part)
            found += _lost_name(entry, "thing", part.thing, things, "a thing of the gear lists")
            for name in ("space", "in_", "not_in"):
                known = [*spaces, *case.rack_named] if name == "not_in" else spaces
                found += _lost_name(entry, name.rstrip("_"), getattr(part, name, None), known, "a space of the vehicle")
    return found


def _of_copies(sheet: Sheet, plan: Plan, case: Case) -> Iterator[tuple[Steps, Fault]]:
    """Locks on copies that the list does not have."""
    for index, lock in enumerate(plan.locks):
        thing = case.thing_named.get(lock.thing)
        path: Steps = ("locks", index)
        for fault in () if thing is None else of_a_copy(Entry(sheet, path, lock), thing):
            yield path, fault


def _locks(sheet: Sheet, plan: Plan) -> Iterator[Fault]:
    """Locks that fix nothing, or two things that exclude each other."""
    for index, lock in enumerate(plan.locks):
        yield from says_something(Entry(sheet, ("locks", index), lock))


def _lost_name(
    entry: Entry[Any], key: str, name: str | None, known: list[str], called: str
) -> list[tuple[Steps, Fault]]:
    if name is None or name in known:
        return []
    return [(entry.path, entry.fault(key, shown(name), f"the name of {called}", nearest(name, known)))]


def _without(plan: Plan, lost: set[Steps]) -> Plan:
    if not lost:
        return plan
    return plan.model_copy(
        update={
            key: tuple(part for i, part in enumerate(getattr(plan, key)) if (key, i) not in lost)
            for key in ("placements", "left_at_home", "locks")
        }
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
