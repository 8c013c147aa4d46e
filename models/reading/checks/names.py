"""Every name refers to something."""

from collections.abc import Iterator

from models.base import composed
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, nearest, shown
from models.reading.references import refers
from models.spaces import Space
from models.trip import Stage


def vehicle_names(draft: Draft) -> Iterator[Fault]:
    """Names within the vehicle."""
    for space in draft.spaces:
        yield from _space(draft, space)
    for rack in draft.racks:
        yield from refers(draft, rack, "on", [rack.part.on], "racks")
    for opening in draft.openings:
        yield from refers(draft, opening, "after", opening.part.after, "openings")
    for tank in draft.tanks:
        yield from refers(draft, tank, "fluid", [tank.part.fluid], "fluids")
    if draft.barrier is not None:
        yield from refers(draft, draft.barrier, "behind_seats", draft.barrier.part.behind_seats, "seats")
    if draft.kerb is not None:
        yield from refers(draft, draft.kerb, "aboard_l", draft.kerb.part.aboard_l, "tanks")
        yield from refers(draft, draft.kerb, "aboard_kg", draft.kerb.part.aboard_kg, "seats")


def _space(draft: Draft, space: Entry[Space]) -> Iterator[Fault]:
    part = space.part
    yield from refers(draft, space, "on", part.on, "racks")
    yield from refers(draft, space, "air", [part.air], "air")
    yield from refers(draft, space, "opening", [part.opening], "openings")
    yield from refers(draft, space, "seat", [part.seat], "seats")
    yield from refers(draft, space, "inside_of", [part.inside_of], "things")
    yield from refers(draft, space, "solid_wall_between", part.solid_wall_between, "spaces")


def thing_names(draft: Draft) -> Iterator[Fault | str]:
    """Names within the gear lists."""
    words = {word for space in draft.spaces for word in space.part.accepts or ()}
    for thing in draft.things:
        part = thing.part
        yield from refers(draft, thing, "hazard", [part.hazard], "hazards")
        yield from refers(draft, thing, "with", part.with_, "things")
        if part.name in part.with_:
            yield thing.fault("with", f"{shown(part.name)} itself", "the names of other things")
        if part.holder is not None and part.holder not in words and draft.vehicle is not None:
            hint = nearest(part.holder, words)
            says = f"no space accepts the word {shown(part.holder)}, so it has no place{'; ' if hint else ''}{hint}"
            yield thing.note("holder", says)


def trip_names(draft: Draft) -> Iterator[Fault]:
    """Names within the trip."""
    for person in draft.people:
        yield from refers(draft, person, "seat", [person.part.seat], "seats")
    for stage in draft.stages:
        yield from refers(draft, stage, "tanks", stage.part.tanks, "tanks")
        yield from refers(draft, stage, "people", stage.part.people or (), "people")
        yield from refers(draft, stage, "closed", stage.part.closed, "spaces")
        yield from refers(draft, stage, "on_racks", stage.part.on_racks, "racks")
        yield from refers(draft, stage, "taken_on_l", stage.part.taken_on_l, "fluids")
        yield from _streams(draft, stage)
    for lock in draft.locks:
        yield from refers(draft, lock, "thing", [lock.part.thing], "things")
        yield from refers(draft, lock, "in", [lock.part.in_], "spaces")
        yield from refers(draft, lock, "not_in", [lock.part.not_in], "spaces", "racks")


def _streams(draft: Draft, stage: Entry[Stage]) -> Iterator[Fault]:
    for key, field in (("left", "uses_up"), ("filled", "fills")):
        yield from _unknown_streams(draft, stage, key, getattr(stage.part, key), _streams_in(draft, field))


def _streams_in(draft: Draft, field: str) -> set[str]:
    raw = (
        part.get(field)
        for sheet in draft.gear
        if isinstance(sheet.data, list)
        for part in sheet.data
        if isinstance(part, dict)
    )
    return {composed(name) for streams in raw if isinstance(streams, dict) for name in streams}


def _unknown_streams(
    draft: Draft, entry: Entry[Stage], key: str, names: dict[str, float], known: set[str]
) -> Iterator[Fault]:
    for name in names if draft.gear_complete else ():
        if name not in known:
            field = "uses_up" if key == "left" else "fills"
            yield entry.fault(key, shown(name), f"a stream that stands in `{field}` of a thing", nearest(name, known))


def stream_names(draft: Draft) -> Iterator[Fault]:
    """The trip's streams: used by a thing, and of a fluid that the rule book knows."""
    known = _streams_in(draft, "uses_up") | _streams_in(draft, "fills")
    fluids = draft.names("fluids")
    for name, stream in draft.streams.items():
        assert draft.trip is not None  # noqa: S101 - it has the streams
        path = ("streams", name)
        if draft.gear_complete and name not in known:
            yield draft.trip.fault(path, shown(name), "a stream that a thing uses up or fills", nearest(name, known))
        if stream.fluid is not None and fluids is not None and stream.fluid not in fluids:
            allowed = f"a fluid of the rule book: {', '.join(sorted(fluids))}"
            yield draft.trip.fault((*path, "fluid"), shown(stream.fluid), allowed, nearest(stream.fluid, fluids))


def apart_names(draft: Draft) -> Iterator[Fault]:
    """Pairs that stay apart are things or kits, and not one and the same."""
    pairs = None if draft.trip is None else draft.trip.at(("apart",))
    things, kits = draft.names("things"), draft.names("kits")
    if draft.trip is None or things is None or kits is None or not isinstance(pairs, list):
        return
    for index, pair in enumerate(pairs):
        names = [composed(name) for name in pair if isinstance(name, str)] if isinstance(pair, list) else []
        for at, name in enumerate(names):
            if name not in (*things, *kits):
                hint = nearest(name, (*things, *kits))
                yield draft.trip.fault(("apart", index, at), shown(name), "a thing or a kit of the gear lists", hint)
        if len(names) == 2 and names[0] == names[1]:
            yield draft.trip.fault(("apart", index), f"{shown(names[0])} twice", "two different things or kits")
