"""restraint: everything is held: enclosed, behind a barrier, in its holder, or tied."""

from collections.abc import Iterator

from models.rules import Rule
from models.spaces import Space
from models.stages import aboard, present
from models.trip import Stage
from models.vehicle import CargoBarrier
from verifier.finding import Finding, against, at, at_most, or_held, plain, within
from verifier.held import MADE_PLACES, held_by, let_in
from verifier.layout import Layout, Placed
from verifier.securing import braked_kg, braking_n, held_n
from verifier.tied import lies_loose, tied_in

HELD_ALONE = ("enclosed", "holder", "bracket", "barrier")
"""What holds a hard thing in people's air wherever its top is."""


def _peoples_air(layout: Layout, space: Space) -> bool:
    return layout.case.vehicle.air.get(space.air) == "people"


def _below_seat_backs(layout: Layout, one: Placed, space: Space) -> Finding:
    """Judge a top by the lowest seat back: known where all are given, or where it is over one that is."""
    seats, top = layout.case.vehicle.seats, one.box.high[2]
    lowest = min((seat.back_top_z_mm for seat in seats if seat.back_top_z_mm is not None), default=None)
    not_given = [seat.name for seat in seats if seat.back_top_z_mm is None]
    limit, told = lowest, against(top, lowest, "mm", 0)
    if lowest is not None and not_given and at_most(top, lowest):
        limit, told = None, f"{top} mm; the lowest given is {lowest} mm, and that of {not_given[0]} is not known"
    says = f"The top of {one.name} in {space.name} against the lowest seat back: {told}."
    return within(Rule.RESTRAINT, one.name, None, top, limit, "mm", says, "vehicle file")


def _loose(layout: Layout, one: Placed, space: Space) -> Iterator[Finding]:
    if one.thing.shape == "soft" and _peoples_air(layout, space):
        if lies_loose(one.thing, space):
            yield _light(layout, one, space)
        yield _below_seat_backs(layout, one, space)
        return
    says = f"Nothing holds {one.name} in {space.name}{_not_its_own(space)}."
    yield plain(Rule.RESTRAINT, one.name, False, says)


def _light(layout: Layout, one: Placed, space: Space) -> Finding:
    """Judge what is soft and lies loose by its most mass at its heaviest stage, with all that lies in it."""
    loose = layout.case.rulebook.loose_soft_kg
    most = max(layout.loaded_kg(one, stage) for stage in layout.case.trip.stages)
    says = (
        f"Nothing holds {one.name} in {space.name}{_not_its_own(space)}; soft things may lie loose among people up to "
        f"{loose.value:g} kg: {against(most, loose.value, 'kg')}."
    )
    return within(Rule.RESTRAINT, one.name, None, most, loose.value, "kg", says, loose.source)


def _not_its_own(space: Space) -> str:
    """Why a holder or a bracket does not hold a thing; empty where the space is neither."""
    if space.holds not in MADE_PLACES:
        return ""
    return f", a {space.holds} not made for it: it has no `holder` that is accepted there, and there are no tie-downs"


def _behind_barrier(layout: Layout, one: Placed, space: Space) -> Iterator[Finding]:
    barrier = layout.case.vehicle.cargo_barrier
    if barrier is None:
        says = f"{one.name} in {space.name} relies on a cargo barrier, and the vehicle has none."
        yield plain(Rule.RESTRAINT, one.name, False, says)
        return
    exposed = _behind_it_too(layout, barrier, one, space)
    if exposed is not None:
        says = f"{exposed} behind the barrier that is to hold {one.name} in {space.name}."
        yield plain(Rule.RESTRAINT, one.name, False, says)
    stages = layout.case.trip.stages
    most, top = max(layout.loaded_kg(one, stage) for stage in stages), one.box.high[2]
    says = f"{one.name} behind the barrier weighs {against(most, barrier.rated_kg, 'kg')}."
    yield within(Rule.RESTRAINT, one.name, None, most, barrier.rated_kg, "kg", says, "barrier's rating")
    says = f"The top of {one.name} against the top of the barrier: {against(top, barrier.top_z_mm, 'mm', 0)}."
    yield within(Rule.RESTRAINT, one.name, None, top, barrier.top_z_mm, "mm", says, "vehicle file")


def _behind_it_too(layout: Layout, barrier: CargoBarrier, one: Placed, space: Space) -> str | None:
    """Who sits where, further back than the seats that the barrier stands behind and ahead of some of the space.

    None where nobody does while the thing is driven about, nothing is told of the seats, or the space has no air in
    common with people.
    """
    case = layout.case
    if not barrier.behind_seats or not _peoples_air(layout, space):
        return None
    last = max(case.seat_named[name].at_mm[0] for name in barrier.behind_seats)
    end = space.corner_mm[0] + space.size_mm[0]
    with_it = [stage for stage in case.trip.stages if stage.driving and present(one.thing, stage)]
    driven = {name for stage in with_it for name in aboard(case.trip, stage)}
    for person in case.trip.people:
        if person.name in driven and last < case.seat_named[person.seat].at_mm[0] < end:
            return f"{person.name} in {person.seat} sits"
    return None


def _told_elsewhere(layout: Layout, one: Placed, space: Space) -> bool:
    """Whether `inside` or `hazard` tells of a thing that it is not in a holder of its own: it is told once."""
    hazard = layout.case.rulebook.hazards.get(one.thing.hazard or "")
    asked_by_hazard = hazard is not None and hazard.in_holder
    return space.holds in MADE_PLACES and (asked_by_hazard or not let_in(one.thing, space))


def _copy(layout: Layout, one: Placed, space: Space) -> Iterator[Finding]:
    held = held_by(one.thing, space)
    if held == "none" and not _told_elsewhere(layout, one, space):
        yield from _loose(layout, one, space)
    elif held == "barrier":
        yield from _behind_barrier(layout, one, space)
    elif held not in HELD_ALONE and one.thing.shape == "hard" and _peoples_air(layout, space):
        yield _below_seat_backs(layout, one, space)


def _tied_kg(layout: Layout, tied: tuple[Placed, ...], stage: Stage) -> float:
    return sum(layout.loaded_kg(one, stage) for one in tied)


def _straps(layout: Layout, space: Space) -> Iterator[Finding]:
    tied = tied_in(layout, space)
    if not tied:
        return
    book = layout.case.rulebook.restraint
    stage = max(layout.case.trip.stages, key=lambda stage: _tied_kg(layout, tied, stage))
    kg = _tied_kg(layout, tied, stage)
    value, limit = braking_n(kg, book), held_n((tie.rated_dan for tie in space.tie_downs), book)
    says = (
        f"Braking pulls on the tie-downs of {space.name}{at(stage.name)} with {against(value, limit, 'N', 0)}: "
        f"{against(kg, braked_kg(limit, book), 'kg')}."
    )
    yield within(Rule.RESTRAINT, space.name, stage.name, value, limit, "N", says, book.source)


def _all(layout: Layout) -> Iterator[Finding]:
    for one, space in layout.located:
        yield from _copy(layout, one, space)
    for space in layout.case.vehicle.spaces:
        yield from _straps(layout, space)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge what holds each thing."""
    return or_held(_all(layout), Rule.RESTRAINT, "Everything is held by what it is in.")
