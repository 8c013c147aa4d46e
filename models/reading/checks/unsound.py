"""Names in parts that hold another fault: they are told at once, not when that fault is mended."""

from collections.abc import Iterator
from typing import Any

from models.base import composed
from models.reading.draft import Draft
from models.reading.faults import Fault
from models.reading.references import refers
from models.reading.sheet import Sheet

Kinds = dict[str, tuple[str, ...]]
"""By key of a part: what its names refer to."""

OF_THINGS: Kinds = {"hazard": ("hazards",), "with": ("things",)}
OF_THE_VEHICLE: dict[str, Kinds] = {
    "spaces": {
        "on": ("racks",), "air": ("air",), "opening": ("openings",), "seat": ("seats",), "inside_of": ("things",),
        "solid_wall_between": ("spaces",),
    },
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

NONE = {"hazard": "none"}
"""What a file says at a key where it means that there is none."""


def unsound_names(draft: Draft) -> Iterator[Fault]:
    """Names that refer to nothing, in parts that are refused for something else."""
    lists: list[tuple[Sheet | None, str, Kinds]] = [(sheet, "", OF_THINGS) for sheet in draft.gear]
    lists += [(draft.vehicle, key, kinds) for key, kinds in OF_THE_VEHICLE.items()]
    lists += [(draft.trip, key, kinds) for key, kinds in OF_THE_TRIP.items()]
    for sheet, key, kinds in lists:
        for entry in draft.unsound(sheet, key):
            for field, meant in kinds.items():
                if not draft.holds_fault(entry.sheet, (*entry.path, field)):
                    yield from refers(draft, entry, field, _names(entry.part.get(field), NONE.get(field)), *meant)


def _names(value: Any, none: str | None) -> list[str]:
    """The names that stand at a key, as far as they are texts."""
    found = [value] if isinstance(value, str) else value if isinstance(value, list | dict) else []
    return [composed(name) for name in found if isinstance(name, str) and name != none]
