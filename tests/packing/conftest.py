"""A bay of 1000 x 1000 x 1000 mm whose floor is 600 mm above ground, and things put into it."""

from dataclasses import dataclass, field
from typing import Any

import pytest

from models.case import Case, Copy, copy_of
from models.plan import Placement, Plan
from models.reading import case_from
from packing import LoadStep, Tangle, loading_order, to_move_first

VEHICLE: dict[str, Any] = {
    "name": "Little van",
    "body": "van",
    "wheelbase_mm": 3200,
    "track_mm": 1570,
    "outline_mm": {"front": -850, "rear": 4450, "width": 1880, "height": 2400},
    "kerb": {"front_kg": 1190, "rear_kg": 960, "cg_height_mm": 700},
    "air": {"load room": "sealed"},
    "openings": [
        {"name": "tailgate", "side": "rear", "seconds": 8},
        {"name": "bay front", "side": "rear", "seconds": 4, "after": ["tailgate"]},
        {"name": "hatch", "side": "top", "seconds": 20},
    ],
}


def space(name: str, corner_mm: tuple[int, int, int], size_mm: tuple[int, int, int], **more: Any) -> dict[str, Any]:
    room = {"corner_mm": list(corner_mm), "size_mm": list(size_mm)}
    return {"name": name, **room, "air": "load room", "opening": "bay front", **more}


@dataclass
class Bay:
    """What a test puts in; corners are given from the bay's own corner."""

    face: str = "rear"
    things: list[dict[str, Any]] = field(default_factory=list)
    placements: list[Placement] = field(default_factory=list)
    spaces: list[dict[str, Any]] = field(default_factory=list)

    def put(
        self, name: str, at: tuple[int, int, int], size: tuple[int, int, int], kg: float = 5.0, **more: Any
    ) -> Copy:
        self.things.append({"name": name, "mass_kg": kg, "size_mm": list(size), **more})
        corner = (2600 + at[0], -500 + at[1], 600 + at[2])
        placement = Placement(thing=name, space="bay", corner_mm=corner, size_mm=size)
        self.placements.append(placement)
        return copy_of(placement)

    def put_in(self, name: str, at: tuple[int, int, int], size: tuple[int, int, int], **more: Any) -> Copy:
        """Put a thing into another space, at a corner of the vehicle's own axes."""
        self.things.append({"name": name, "mass_kg": 5.0, "size_mm": list(size), **more})
        self.placements.append(Placement(thing=name, space=self.spaces[-1]["name"], corner_mm=at, size_mm=size))
        return copy_of(self.placements[-1])

    def add_space(self, name: str, corner: tuple[int, int, int], size: tuple[int, int, int], **more: Any) -> None:
        self.spaces.append(space(name, corner, size, **more))

    @property
    def case(self) -> Case:
        bay = space("bay", (2600, -500, 600), (1000, 1000, 1000), face=self.face)
        trip = {"name": "test", "stages": [{"name": "leaving", "surface": "sealed_road"}]}
        return case_from({**VEHICLE, "spaces": [bay, *self.spaces]}, self.things, trip)

    @property
    def plan(self) -> Plan:
        return Plan(trip="trip.yaml", placements=tuple(self.placements))

    @property
    def placed(self) -> dict[Copy, Placement]:
        return {copy_of(placement): placement for placement in self.placements}

    @property
    def steps(self) -> tuple[LoadStep, ...]:
        found = loading_order(self.case, self.plan)
        assert not isinstance(found, Tangle), str(found)
        return found

    @property
    def names(self) -> list[str]:
        return [step.copy.thing for step in self.steps]

    def dug(self, copy: Copy) -> set[str]:
        return {one.thing for one in to_move_first(self.case, self.placed, copy)}


@pytest.fixture
def bay() -> Bay:
    return Bay()


@pytest.fixture(scope="session")
def new_bay() -> type[Bay]:
    return Bay
