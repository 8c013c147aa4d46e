"""How many there are, and how much of a hazard is in each."""

from collections.abc import Iterator
from itertools import accumulate
from pathlib import Path

from models.base import MOST_COPIES
from models.gear import Thing
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.reading.loading import SPREADSHEETS
from models.reading.sheet import Sheet
from models.rulebook import Hazard, Totals


def nothing(draft: Draft) -> Iterator[Fault | str]:
    """Gear lists in which nothing stands: lawful where nothing of them is named, and hardly meant."""
    if draft.hollow is not None and _named(draft):
        yield hollow_fault(draft.hollow)
    elif draft.hollow is not None:
        yield draft.hollow.note(
            (), "nothing stands in the gear lists; the plan is of the vehicle, people and tanks alone"
        )


def hollow_fault(sheet: Sheet) -> Fault:
    """What is told of gear lists in which nothing stands, instead of every name that refers to nothing for it."""
    found = "a heading and no things" if Path(sheet.file).suffix.lower() in SPREADSHEETS else "no things"
    return sheet.fault((), found, "the things that the vehicle, the trip or its plan names")


def _named(draft: Draft) -> bool:
    """Whether the vehicle or the trip names a thing, a kit or a stream."""
    trip = draft.trip
    stages = (stage.part for stage in draft.parts(trip, "stages"))
    return (
        any(trip is not None and trip.at((key,)) for key in ("locks", "apart", "streams"))
        or any(stage.get("left") or stage.get("filled") for stage in stages)
        or any(space.part.get("inside_of") for space in draft.parts(draft.vehicle, "spaces"))
    )


def copies(draft: Draft) -> Iterator[Fault]:
    """Things can be spread as asked."""
    for thing in draft.things:
        part = thing.part
        if part.spread > part.count:
            yield thing.fault(
                "spread", f"{part.spread} spaces for {part.count} of them", f"at most the count, {part.count}"
            )


def too_many(draft: Draft) -> Iterator[Fault]:
    """No more things than one vehicle can be about."""
    for thing, count in zip(draft.things, accumulate(thing.part.count for thing in draft.things), strict=True):
        if count > MOST_COPIES:
            yield thing.fault("count", f"more than {MOST_COPIES} things, each copy counted", "at most that many")
            return


def hazards(draft: Draft) -> Iterator[Fault]:
    """Amounts that the rule book counts are given."""
    known = {} if draft.rulebook is None else draft.rulebook.hazards
    for thing in draft.things:
        part = thing.part
        if part.hazard in known:
            yield from _amounts(thing, known[part.hazard], _totals(known, part.hazard))
        elif part.hazard is None and (part.holds_l is not None or part.net_kg is not None):
            key = "holds_l" if part.holds_l is not None else "net_kg"
            yield thing.fault(key, f"an amount of no hazard on {shown(part.name)}", "an amount beside a `hazard`")
        if part.net_kg is not None and part.net_kg > part.mass_kg.most:
            yield thing.fault("net_kg", f"{part.net_kg:g}", f"at most the mass of the thing, {part.mass_kg.most:g} kg")


def _totals(hazards: dict[str, Hazard], word: str) -> list[Totals]:
    """Totals in which a word counts: its own, and those of others that count it too."""
    return [hazards[word].totals, *(one.totals for one in hazards.values() if word in one.totals.counts_with)]


def _amounts(thing: Entry[Thing], hazard: Hazard, totals: list[Totals]) -> Iterator[Fault]:
    part, own = thing.part, hazard.totals
    air = hazard.air.values()
    by_litre = own.each_l is not None or any(bound.up_to_l is not None for bound in air)
    by_litre = by_litre or any(one.total_l is not None for one in totals)
    by_kg = own.each_kg is not None or any(bound.up_to_kg is not None for bound in air)
    by_kg = by_kg or any(one.total_kg is not None for one in totals)
    if by_litre and part.holds_l is None:
        yield thing.fault(
            "hazard", f"{shown(part.hazard)} without litres", "`holds_l`, as the rule book counts litres of it"
        )
    if by_kg and part.net_kg is None and part.holds_l is None:
        allowed = "`net_kg`, as the rule book counts kilograms of it"
        yield thing.fault("hazard", f"{shown(part.hazard)} without kilograms", allowed)
