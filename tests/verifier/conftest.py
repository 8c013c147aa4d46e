"""A small lawful plan as plain data; each test spoils one place of it and expects that finding and no other."""

from copy import deepcopy
from dataclasses import dataclass
from typing import Any

import pytest

from models.case import Case
from models.plan import Plan
from models.reading import case_from
from verifier import Finding, Verdict, check
from verifier.layout import layout_of
from verifier.questions import questions

VEHICLE: dict[str, Any] = {
    "name": "Little pickup",
    "wheelbase_mm": 3200,
    "track_mm": 1570,
    "outline_mm": {"front": -850, "rear": 4450, "width": 1880, "height": 1950},
    "kerb": {"front_kg": 1190, "rear_kg": 960, "cg_height_mm": 700, "aboard_l": {"main tank": 80}},
    "limits": {"gvm_kg": 3200, "front_axle_kg": 1600, "rear_axle_kg": 1850},
    "seats": [
        {"name": "driver", "at_mm": [1500, 380, 800], "back_top_z_mm": 1150},
        {"name": "passenger", "at_mm": [1500, -380, 800], "back_top_z_mm": 1150},
        {"name": "rear left", "at_mm": [2100, -380, 820], "back_top_z_mm": 1200},
    ],
    "tanks": [
        {"name": "main tank", "fluid": "diesel", "holds_l": 80, "at_mm": [2300, -300, 550]},
        {"name": "water tank", "fluid": "water", "holds_l": 60, "at_mm": [2900, 0, 520]},
    ],
    "racks": [
        {"name": "cab roof", "limits": {"parked_kg": 300, "sealed_road_kg": 100, "off_road_kg": 100}},
        {
            "name": "cab rack",
            "on": "cab roof",
            "own_mass_kg": 28,
            "at_mm": [2100, 0, 1880],
            "limits": {"parked_kg": 250, "sealed_road_kg": 90, "off_road_kg": 70},
            "source": "rack label",
        },
        {"name": "drawer frame", "limits": {"any_kg": 130}},
    ],
    "air": {"cabin": "people", "canopy": "sealed", "outside": "open"},
    "openings": [
        {"name": "driver door", "side": "inside"},
        {"name": "tailgate", "side": "rear"},
        {"name": "drawer front", "side": "rear", "seconds": 4, "after": ["tailgate"]},
        {"name": "right flap", "side": "right"},
        {"name": "right side", "side": "right", "seconds": 2},
        {"name": "roof", "side": "top"},
    ],
    "wading_line_mm": 800,
    "spaces": [
        {
            "name": "left drawer",
            "corner_mm": [3000, -640, 900],
            "size_mm": [1000, 560, 280],
            "limit_kg": 90,
            "on": ["drawer frame"],
            "air": "canopy",
            "opening": "drawer front",
            "slides": {"to": "rear", "mm": 900},
            "heat": "cool",
        },
        {
            "name": "right bay",
            "corner_mm": [2600, 100, 900],
            "size_mm": [1000, 540, 600],
            "solid": [{"corner_mm": [3580, 100, 900], "size_mm": [20, 100, 100]}],
            "limit_kg": 150,
            "air": "canopy",
            "opening": "right flap",
            "face": "right",
            "tie_downs": [{"rated_dan": 200}],
        },
        {
            "name": "can holder",
            "corner_mm": [3700, 200, 900],
            "size_mm": [400, 400, 500],
            "limit_kg": 60,
            "air": "outside",
            "opening": "right side",
            "holds": "holder",
            "weather": "exposed",
            "accepts": ["jerry can"],
        },
        {
            "name": "door pocket",
            "corner_mm": [1300, 500, 700],
            "size_mm": [300, 150, 300],
            "limit_kg": 5,
            "air": "cabin",
            "opening": "driver door",
            "in_reach_when": ["belted driver"],
        },
        {
            "name": "inner bracket",
            "corner_mm": [1200, -75, 500],
            "size_mm": [150, 150, 400],
            "limit_kg": 5,
            "air": "cabin",
            "opening": "driver door",
            "holds": "bracket",
            "accepts": ["bracket"],
            "in_reach_when": ["belted driver"],
        },
        {
            "name": "outer bracket",
            "corner_mm": [2400, 500, 900],
            "size_mm": [150, 150, 400],
            "limit_kg": 5,
            "air": "canopy",
            "opening": "right flap",
            "holds": "bracket",
            "accepts": ["bracket"],
        },
        {
            "name": "rear bench",
            "corner_mm": [1900, -640, 750],
            "size_mm": [450, 500, 500],
            "limit_kg": 30,
            "air": "cabin",
            "opening": "driver door",
            "holds": "none",
            "seat": "rear left",
        },
        {
            "name": "roof place",
            "corner_mm": [1600, -500, 1950],
            "size_mm": [1200, 1000, 500],
            "limit_kg": 70,
            "on": ["cab rack"],
            "air": "outside",
            "opening": "roof",
            "holds": "tie_downs",
            "tie_downs": [{"rated_dan": 100}],
            "weather": "exposed",
            "heat": "hot",
        },
        {
            "name": "in the tent",
            "corner_mm": [1700, -400, 1980],
            "size_mm": [800, 600, 250],
            "limit_kg": 15,
            "on": ["cab rack"],
            "air": "outside",
            "opening": "roof",
            "accepts": ["bedding"],
            "inside_of": "roof tent",
        },
    ],
}

GEAR: list[dict[str, Any]] = [
    {"name": "fridge", "mass_kg": 30, "known_from": "weighed", "size_mm": [400, 300, 400], "turns": "upright",
     "air_gap_mm": {"rear": 100, "left": 50}, "access": "each_stop", "electrical": True, "tied": True, "keep": "cabin"},
    {"name": "tool box", "mass_kg": 18, "known_from": "label", "size_mm": [400, 240, 200], "bears_kg": 12},
    {"name": "food box", "mass_kg": 10, "size_mm": [400, 240, 250], "food": True, "weather": "dry", "kit": "kitchen",
     "together": True, "access": "each_stop", "uses_up": {"food": 6}},
    {"name": "stove", "mass_kg": 5, "size_mm": [300, 170, 100], "kit": "kitchen", "together": True, "carry": 60,
     "with": ["food box"]},
    {"name": "recovery kit", "mass_kg": 14, "size_mm": [450, 280, 250], "access": "at_once", "needed_when": ["bogged"]},
    {"name": "first aid", "mass_kg": 2, "size_mm": [250, 100, 150], "shape": "soft", "access": "belted",
     "needed_when": ["injury", "rolled over", "roadside at night"]},
    {"name": "extinguisher", "count": 2, "mass_kg": 2, "size_mm": [100, 100, 350], "turns": "upright", "spread": 2,
     "holder": "bracket", "hazard": "extinguisher", "needed_when": ["fire"], "access": "at_once"},
    {"name": "petrol can", "mass_kg": 20, "size_mm": [350, 170, 470], "turns": "upright", "holder": "jerry can",
     "hazard": "petrol", "holds_l": 20, "approved_can": True},
    {"name": "water jug", "count": 2, "mass_kg": 11, "size_mm": [200, 200, 250], "uses_up": {"water": 10}},
    {"name": "sleeping bag", "count": 2, "mass_kg": 1.5, "volume_l": 20, "shape": "soft", "suits": ["bedding"],
     "weather": "dry"},
    {"name": "jackets", "mass_kg": 1, "size_mm": [300, 300, 200], "shape": "soft"},
    {"name": "roof tent", "mass_kg": 55, "size_mm": [1200, 1000, 350], "turns": "fixed", "two_person": True},
    {"name": "camp oven", "mass_kg": 9, "size_mm": [300, 300, 200], "carry": 20},
]  # fmt: skip

TRIP: dict[str, Any] = {
    "name": "Saltpan",
    "people": [
        {"name": "Mara", "mass_kg": 70, "seat": "driver"},
        {"name": "Ilko", "mass_kg": 80, "seat": "passenger"},
    ],
    "stages": [
        {"name": "leaving", "surface": "sealed_road"},
        {"name": "track", "surface": "off_road", "tanks": {"main tank": 0.5, "water tank": 0.5}, "left": {"food": 0.5}},
        {"name": "camp", "surface": "parked", "tanks": {"main tank": 0.5, "water tank": 0.5}, "left": {"food": 0.5},
         "people": [], "on_racks": {"cab rack": 150}},
    ],
    "streams": {"food": {}, "water": {}},
    "reserve_kg": 20,
}  # fmt: skip

PLACES: dict[str, tuple[str, list[int], list[int], str]] = {
    "fridge": ("right bay", [2600, 150, 900], [400, 300, 400], "lwh"),
    "tool box": ("right bay", [3150, 100, 900], [400, 240, 200], "lwh"),
    "food box": ("right bay", [3150, 100, 1100], [400, 240, 250], "lwh"),
    "stove": ("right bay", [2620, 460, 900], [300, 170, 100], "lwh"),
    "recovery kit": ("right bay", [3120, 350, 900], [450, 280, 250], "lwh"),
    "first aid": ("door pocket", [1320, 520, 700], [250, 100, 150], "lwh"),
    "extinguisher": ("inner bracket", [1220, -50, 500], [100, 100, 350], "lwh"),
    "extinguisher #2": ("outer bracket", [2420, 520, 900], [100, 100, 350], "lwh"),
    "petrol can": ("can holder", [3700, 200, 900], [350, 170, 470], "lwh"),
    "water jug": ("left drawer", [3000, -640, 900], [200, 200, 250], "lwh"),
    "water jug #2": ("left drawer", [3200, -640, 900], [200, 200, 250], "lwh"),
    "sleeping bag": ("left drawer", [3500, -500, 900], [400, 400, 130], "lwh"),
    "sleeping bag #2": ("in the tent", [1700, -400, 1980], [400, 400, 130], "lwh"),
    "jackets": ("rear bench", [1950, -600, 750], [300, 300, 200], "lwh"),
    "roof tent": ("roof place", [1600, -500, 1950], [1200, 1000, 350], "lwh"),
}


def _placement(name: str) -> dict[str, Any]:
    thing, _, number = name.partition(" #")
    space, corner, size, turn = PLACES[name]
    return {
        "thing": thing, "copy": int(number or 1), "space": space,
        "corner_mm": tuple(corner), "size_mm": tuple(size), "turn": turn,
    }  # fmt: skip


@dataclass
class World:
    """Vehicle, gear, trip and plan as plain data that a test may change."""

    vehicle: dict[str, Any]
    gear: dict[str, dict[str, Any]]
    trip: dict[str, Any]
    plan: dict[str, Any]
    places: dict[str, dict[str, Any]]

    def space(self, name: str) -> dict[str, Any]:
        return next(space for space in self.vehicle["spaces"] if space["name"] == name)

    def rack(self, name: str) -> dict[str, Any]:
        return next(rack for rack in self.vehicle["racks"] if rack["name"] == name)

    def stage(self, name: str) -> dict[str, Any]:
        return next(stage for stage in self.trip["stages"] if stage["name"] == name)

    def put(self, name: str, corner: tuple[int, int, int], **changes: Any) -> None:
        self.places[name] |= {"corner_mm": corner, **changes}

    def not_food(self, name: str) -> None:
        """Make a thing none that people eat: what it uses up goes by another name, at every stage."""
        self.gear[name]["food"] = False
        used = self.gear[name].get("uses_up", {})
        if "food" in used:
            for amounts in (self.trip["streams"], used, *(stage.get("left", {}) for stage in self.trip["stages"])):
                if "food" in amounts:
                    amounts["seed"] = amounts.pop("food")

    def tow(self, **limits: Any) -> None:
        """Hang a trailer on, with openings that do not mind it."""
        self.trip["towing"] = {"ball_kg": 120, "trailer_kg": 1400}
        for opening in self.vehicle["openings"]:
            opening["stuck_when"] = []
        known = {"tow_ball_kg": 150, "gcm_kg": 5000, "tow_ball_behind_rear_axle_mm": 1200}
        self.vehicle["limits"] |= known | limits

    def case(self) -> Case:
        return case_from(self.vehicle, list(self.gear.values()), self.trip)

    def made(self, **vehicle: Any) -> Case:
        """A case that a program made, past the checks of the files."""
        case = self.case()
        own = case.vehicle.model_copy(update=vehicle)
        return Case(vehicle=own, things=case.things, trip=case.trip, rulebook=case.rulebook)

    def made_plan(self) -> Plan:
        return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(self.places.values()), **self.plan})

    def verdict(self, case: Case | None = None) -> Verdict:
        return check(case or self.case(), self.made_plan())

    def questions(self) -> tuple[str, ...]:
        """What is asked of a plan, without its verdict."""
        return tuple(questions(layout_of(self.case(), self.made_plan())))

    def broken(self) -> set[tuple[str, str]]:
        return {(finding.rule.value, finding.subject) for finding in self.verdict().broken}

    def unknown(self) -> set[tuple[str, str]]:
        return {(finding.rule.value, finding.subject) for finding in self.verdict().unknown}

    def found(self, rule: str, subject: str, stage: str | None = None) -> Finding:
        """The one finding with a number of a rule and a subject at a stage."""
        (only,) = [
            finding
            for finding in self.verdict().findings
            if (finding.rule.value, finding.subject, finding.stage) == (rule, subject, stage) and finding.unit
        ]
        return only


@pytest.fixture
def world() -> World:
    gear = {thing["name"]: deepcopy(thing) for thing in GEAR}
    places = {name: _placement(name) for name in PLACES}
    plan: dict[str, Any] = {"left_at_home": ({"thing": "camp oven"},)}
    return World(deepcopy(VEHICLE), gear, deepcopy(TRIP), plan, places)
