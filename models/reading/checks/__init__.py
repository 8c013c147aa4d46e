"""What must fit together once every field is sound by itself."""

from collections.abc import Callable, Iterator

from models.reading.checks import (
    amounts,
    body,
    contents,
    doubles,
    names,
    people,
    plausible,
    ratings,
    room,
    shapes,
    shielding,
    sides,
    streams,
    switched_off,
    weighing,
)
from models.reading.draft import Draft
from models.reading.faults import Fault

CHECKS: tuple[Callable[[Draft], Iterator[Fault] | Iterator[str] | Iterator[Fault | str]], ...] = (
    names.names,
    names.thing_names,
    names.stream_names,
    names.apart_names,
    doubles.doubles,
    doubles.circles,
    room.outside,
    room.overlaps,
    room.solids,
    room.within_things,
    room.slides,
    room.odd_spaces,
    room.accepted,
    room.barrier,
    weighing.kerb,
    weighing.racks,
    weighing.people_on_racks,
    weighing.towing,
    plausible.people,
    plausible.kerb,
    plausible.limits,
    plausible.track,
    plausible.places,
    plausible.kits,
    plausible.ball,
    plausible.ball_limit,
    plausible.ball_place,
    switched_off.shares,
    switched_off.air,
    switched_off.hazards,
    switched_off.extinguishers,
    switched_off.together,
    shapes.shapes,
    shapes.masses,
    amounts.nothing,
    amounts.copies,
    amounts.too_many,
    amounts.hazards,
    contents.fuels,
    contents.amounts,
    people.seats,
    people.locks,
    streams.litres,
    sides.faces,
    sides.travels,
    ratings.total,
    ratings.spaces,
    ratings.racks,
    ratings.tie_downs,
    body.size,
    body.axles,
    body.places,
    shielding.barrier,
    shielding.backs,
)
"""Every check, in the order in which their remarks are told; faults are sorted by file and line."""


def check_all(draft: Draft) -> Iterator[Fault | str]:
    """Faults, and remarks on what is merely odd, of all files held together."""
    for check in CHECKS:
        yield from check(draft)
