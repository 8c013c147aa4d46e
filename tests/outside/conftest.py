"""A bench for the worked examples of others: one vehicle with round figures, spaces and things as needed."""

from dataclasses import dataclass, field
from typing import Any

import pytest

from models.plan import Plan
from models.reading import case_from
from verifier import Verdict, check


def _vehicle() -> dict[str, Any]:
    # Wheelbase 3 000, track 1 580, 2 000 kg at x 1 400, y 0, z 700: the fixture of the hand-checked golden numbers.
    return {
        "name": "bench",
        "wheelbase_mm": 3000,
        "track_mm": 1580,
        "outline_mm": {"front": -2000, "rear": 9000, "width": 4000, "height": 4000},
        "kerb": {"front_kg": 2000 * 1600 / 3000, "rear_kg": 2000 * 1400 / 3000, "cg_height_mm": 700},
        "limits": {
            "gvm_kg": 9000, "front_axle_kg": 9000, "rear_axle_kg": 9000,
            "front_share_min": 0.0, "side_difference_share": 1.0,
        },
        "air": {"cabin": "people", "canopy": "sealed", "vents": "vented", "outside": "open"},
        "openings": [
            {"name": "door", "side": "inside"},
            {"name": "tailgate", "side": "rear"},
            {"name": "left flap", "side": "left"},
            {"name": "right flap", "side": "right"},
            {"name": "roof", "side": "top"},
        ],
        "racks": [],
        "seats": [],
        "tanks": [],
        "spaces": [],
    }  # fmt: skip


@dataclass
class Bench:
    """Vehicle, things, trip and places as plain data, filled one line at a time."""

    vehicle: dict[str, Any] = field(default_factory=_vehicle)
    things: list[dict[str, Any]] = field(default_factory=list)
    trip: dict[str, Any] = field(
        default_factory=lambda: {"name": "t", "stages": [{"name": "go", "surface": "off_road"}], "reserve_kg": 0}
    )
    places: list[dict[str, Any]] = field(default_factory=list)

    def space(self, name: str, corner: list[int], size: list[int], **more: Any) -> None:
        usual = {"limit_kg": 5000, "air": "canopy", "opening": "tailgate", "face": "rear"}
        self.vehicle["spaces"].append({"name": name, "corner_mm": corner, "size_mm": size, **usual, **more})

    def thing(self, name: str, mass_kg: Any, size: list[int], **more: Any) -> None:
        self.things.append({"name": name, "mass_kg": mass_kg, "size_mm": size, "access": "seldom", **more})

    def put(self, name: str, space: str, corner: tuple[int, int, int], **more: Any) -> None:
        size = next(tuple(thing["size_mm"]) for thing in self.things if thing["name"] == name)
        self.places.append({"thing": name, "space": space, "corner_mm": corner, "size_mm": size, **more})

    def piece(
        self, name: str, mass_kg: Any, at_mm: tuple[int, int, int], space: str | None = None, **more: Any
    ) -> None:
        """A cube of 200 mm around a point, in a space of its own unless one is named."""
        x, y, z = (place - 100 for place in at_mm)
        if space is None:
            self.space(f"place of {name}", [x, y, z], [200, 200, 200])
        self.thing(name, mass_kg, [200, 200, 200], **more)
        self.put(name, space or f"place of {name}", (x, y, z))

    def verdict(self) -> Verdict:
        case = case_from(self.vehicle, self.things, self.trip)
        return check(case, Plan.model_validate({"trip": "t.yaml", "placements": tuple(self.places)}))

    def broken(self) -> set[tuple[str, str]]:
        return {(finding.rule.value, finding.subject) for finding in self.verdict().broken}


@pytest.fixture
def bench() -> Bench:
    return Bench()
