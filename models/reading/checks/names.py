"""Every name refers to something, in parts that hold another fault too: all is told at once."""

from collections.abc import Iterator
from typing import Any

from models.base import composed
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, nearest, shown
from models.reading.references import Kinds, refers

OF_THINGS: Kinds = {"hazard": ("hazards",), "with": ("things",)}
OF_THE_VEHICLE: dict[str, Kinds] = {
    "spaces": {
        "on": ("racks",), "air": ("air",), "opening": ("openings",), "seat": ("seats",), "inside_of": ("things",),
        "solid_wall_between": ("spaces",),
    },
    "fittings": {"on": ("racks",)},
    "racks": {"on": ("racks",)},
    "openings": {"after": ("openings",)},
    "tanks": {"fluid": ("fluids",)},
    "kerb": {"aboard_l": ("tanks",), "aboard_kg": ("seats",)},
    "cargo_barrier": {"behind_seats": ("seats",)},
}  # fmt: skip
OF_THE_TRIP: dict[str, Kinds] = {
    "people": {"seat": ("seats",)},
    "stages": {
        "tanks": ("tanks",), "people": ("people",), "closed": ("spaces",), "on_racks": ("racks",),
        "taken_on_l": ("fluids",),
    },
    "locks": {"thing": ("things",), "in": ("spaces",), "not_in": ("spaces", "racks")},
}  # fmt: skip
OF_A_STREAM: Kinds = {"fluid": ("fluids",)}


def names(draft: Draft) -> Iterator[Fault]:
    """Names within the vehicle, the gear lists and the trip."""
    lists = [(sheet, "", OF_THINGS) for sheet in draft.gear]
    lists += [(draft.vehicle, key, kinds) for key, kinds in OF_THE_VEHICLE.items() if draft.vehicle is not None]
    lists += [(draft.trip, key, kinds) for key, kinds in OF_THE_TRIP.items() if draft.trip is not None]
    for sheet, key, kinds in lists:
        for entry in draft.parts(sheet, key):
            yield from refers(draft, entry, but_things(kinds) if draft.hollow else kinds)


def but_things(kinds: Kinds) -> Kinds:
    """The same without things of the gear lists, for where nothing stands in these: that is told instead."""
    return {key: meant for key, meant in kinds.items() if "things" not in meant}


def thing_names(draft: Draft) -> Iterator[Fault | str]:
    """Things that go with themselves, and holders that no space has."""
    words = {word for space in draft.spaces for word in space.part.accepts or ()}
    for thing in draft.things:
        part = thing.part
        if part.name in part.with_:
            yield thing.fault("with", f"{shown(part.name)} itself", "the names of other things")
        if part.holder is not None and part.holder not in words and draft.vehicle is not None:
            hint = nearest(part.holder, words)
            says = f"no space accepts the word {shown(part.holder)}, so it has no place{'; ' if hint else ''}{hint}"
            yield thing.note("holder", says)


def stream_names(draft: Draft) -> Iterator[Fault]:
    """Streams are used up or filled by a thing, and of a fluid that the rule book knows."""
    of = {"left": ("uses_up", _streams_in(draft, "uses_up")), "filled": ("fills", _streams_in(draft, "fills"))}
    for stage in draft.parts(draft.trip, "stages"):
        for key, (field, known) in of.items():
            allowed = f"a stream that stands in `{field}` of a thing"
            yield from _no_stream(draft, stage, (key,), stage.part.get(key), known, allowed)
    streams = None if draft.trip is None else draft.trip.at(("streams",))
    if draft.trip is None or not isinstance(streams, dict):
        return
    every = {name for _, known in of.values() for name in known}
    for name, data in streams.items():
        entry = Entry(draft.trip, ("streams", name), data)
        yield from _no_stream(draft, entry, (), {name: data}, every, "a stream that a thing uses up or fills")
        if isinstance(data, dict):
            yield from refers(draft, entry, OF_A_STREAM)


def _streams_in(draft: Draft, field: str) -> set[str]:
    raw = (
        part.get(field)
        for sheet in draft.gear
        if isinstance(sheet.data, list)
        for part in sheet.data
        if isinstance(part, dict)
    )
    return {composed(name) for streams in raw if isinstance(streams, dict) for name in streams}


def _no_stream(
    draft: Draft, entry: Entry[Any], path: tuple[str, ...], streams: Any, known: set[str], allowed: str
) -> Iterator[Fault]:
    told = draft.gear_complete and draft.hollow is None
    named = streams.items() if told and isinstance(streams, dict) else ()
    for name in (composed(name) for name, of in named if isinstance(name, str) and of is not None):
        if name not in known:
            yield entry.fault(path, shown(name), allowed, nearest(name, known))


def apart_names(draft: Draft) -> Iterator[Fault]:
    """Pairs that stay apart are things or kits, and not one and the same."""
    pairs = None if draft.trip is None else draft.trip.at(("apart",))
    things, kits = draft.names("things"), draft.names("kits")
    if draft.trip is None or draft.hollow or things is None or kits is None or not isinstance(pairs, list):
        return
    for index, pair in enumerate(pairs):
        names = [composed(name) for name in pair if isinstance(name, str)] if isinstance(pair, list) else []
        for at, name in enumerate(names):
            if name not in (*things, *kits):
                hint = nearest(name, (*things, *kits))
                yield draft.trip.fault(("apart", index, at), shown(name), "a thing or a kit of the gear lists", hint)
        if len(names) == 2 and names[0] == names[1]:
            yield draft.trip.fault(("apart", index), f"{shown(names[0])} twice", "two different things or kits")
