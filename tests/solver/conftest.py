"""Tiny cases for one rule at a time: a vehicle with wide limits, rooms and cubes of 200 mm as a test names them."""

import os
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
import yaml
from ortools.sat.python import cp_model

from models.case import Case, Copy
from models.plan import Plan
from models.reading import case_from, read_case
from models.starter import starter_files
from solver import Conflict, Options, Status, propose
from solver.build import Build
from solver.neighbourhood import Effort, solver_with
from solver.pieces import Piece
from solver.problem import Problem
from solver.rules import RULES
from tests.searches import with_little_search, without_bound
from verifier import check

VEHICLE: dict[str, Any] = {
    "name": "bench",
    "wheelbase_mm": 3000,
    "track_mm": 1600,
    "outline_mm": {"front": -2000, "rear": 9000, "width": 4000, "height": 4000},
    "kerb": {"front_kg": 1100, "rear_kg": 900, "cg_height_mm": 700},
    "limits": {
        "gvm_kg": 9000, "front_axle_kg": 9000, "rear_axle_kg": 9000,
        "front_share_min": 0.0, "side_difference_share": 1.0,
    },
    "air": {"cabin": "people", "canopy": "sealed", "outside": "open"},
    "openings": [
        {"name": "door", "side": "inside"},
        {"name": "tailgate", "side": "rear"},
        {"name": "left flap", "side": "left"},
        {"name": "right flap", "side": "right"},
    ],
    "seats": [{"name": "driver", "at_mm": [1500, 380, 800], "back_top_z_mm": 1150}],
    "racks": [],
    "tanks": [],
    "spaces": [],
}  # fmt: skip

HERD = Path(__file__).parents[2] / "scenarios" / "herd-round" / "trip.yaml"
Place = str | tuple[str, tuple[int, int, int]]
"""A space, or a space and a corner in mm."""
Rule = Callable[[Build], None]


@dataclass
class Tiny:
    """Vehicle, things and trip as plain data, filled one line at a time."""

    vehicle: dict[str, Any] = field(default_factory=lambda: deepcopy(VEHICLE))
    things: list[dict[str, Any]] = field(default_factory=list)
    trip: dict[str, Any] = field(
        default_factory=lambda: {"name": "t", "stages": [{"name": "go", "surface": "off_road"}], "reserve_kg": 0}
    )

    def space(self, name: str, corner: tuple[int, int, int] = (2000, 0, 500), **more: Any) -> None:
        """A space of 400 mm each way in the canopy, reached from the rear."""
        usual = {"size_mm": [400, 400, 400], "limit_kg": 5000, "air": "canopy", "opening": "tailgate", "face": "rear"}
        self.vehicle["spaces"].append({"name": name, "corner_mm": list(corner), **usual, **more})

    def thing(self, name: str, mass_kg: Any = 10, **more: Any) -> None:
        """A cube of 200 mm that is not turned and seldom used."""
        usual = {"size_mm": [200, 200, 200], "turns": "fixed", "access": "seldom"}
        if "volume_l" in more:
            del usual["size_mm"]
        self.things.append({"name": name, "mass_kg": mass_kg, **usual, **more})

    def case(self) -> Case:
        return case_from(self.vehicle, self.things, self.trip)

    def problem(self) -> Problem:
        return Problem(self.case())

    def allows(self, *rules: Rule, places: Mapping[str, Place] | None = None, home: tuple[str, ...] = ()) -> bool:
        """Whether the rules allow the places named; what is not named is free. An unknown answer fails the test."""
        problem = self.problem()
        build = Build(problem, problem.pieces, range(len(problem.rooms)), every_room=True)
        for add in rules:
            add(build)
        for name, place in (places or {}).items():
            put(build, piece_named(problem, name), place)
        for name in home:
            build.hold(build.carried(piece_named(problem, name)), False)
        return decided(build)


def piece_named(problem: Problem, name: str) -> Piece:
    """The piece called `thing` or `thing #2`."""
    thing, _, number = name.partition(" #")
    return problem.pieces[problem.piece_of[Copy(thing, int(number or 1))]]


def put(build: Build, piece: Piece, place: Place) -> None:
    """Carry a piece in a space, at a corner where one is given."""
    space, corner = (place, None) if isinstance(place, str) else place
    build.hold(build.carried(piece))
    build.hold(build.inside(piece, build.problem.room_of[space]))
    for axis, mm in enumerate(corner or ()):
        build.model.add(build.corner(piece)[axis] == mm)


def decided(build: Build) -> bool:
    """Whether a model has an answer."""
    status = solver_with(Effort(30.0, 60.0)).solve(build.model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return status != cp_model.INFEASIBLE


@pytest.fixture(scope="session")
def herd() -> tuple[Case, Plan]:
    """A worked trip and a plan of it that was soon found."""
    case = read_case(HERD).case
    with without_bound(), with_little_search():
        plan = propose(case, Options(effort=0.01, seconds=600.0)).plan
    assert plan is not None
    return case, plan


@pytest.fixture
def tiny() -> Tiny:
    """No space and no thing yet."""
    return Tiny()


@pytest.fixture
def pair() -> Tiny:
    """Two spaces side by side, `low` and `high`, and two things, `one` and `two`."""
    made = Tiny()
    made.space("low", (2000, 0, 500))
    made.space("high", (2600, 0, 900))
    made.thing("one")
    made.thing("two")
    return made


@pytest.fixture
def every_rule() -> tuple[Rule, ...]:
    """All rules of the model."""
    return RULES


@pytest.fixture
def two_cores(monkeypatch):
    """As on a machine with two cores, in a process without other threads, that can be copied."""
    if not hasattr(os, "fork"):
        pytest.skip("processes cannot be copied here")
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0, 1}, raising=False)
    monkeypatch.setattr("threading.active_count", lambda: 1)


class Starter:
    """The starter's files as plain data."""

    def __init__(self) -> None:
        read = {name: yaml.safe_load(text) for name, text in starter_files().items() if name.endswith(".yaml")}
        self.vehicle: dict[str, Any] = read["vehicle.yaml"]
        self.things: list[dict[str, Any]] = read["gear.yaml"]
        self.trip: dict[str, Any] = {k: v for k, v in read["trip.yaml"].items() if k not in ("vehicle", "gear")}

    def case(self) -> Case:
        return case_from(self.vehicle, self.things, self.trip)


@pytest.fixture
def starter() -> Starter:
    return Starter()


@pytest.fixture
def no_ways_told(monkeypatch):
    """A refusal looks for no ways out of it: for tests of what it says."""
    monkeypatch.setattr("solver.conflict._ways_out", lambda *_: [])
    monkeypatch.setattr("solver.conflict._raised", lambda *_: ())
    monkeypatch.setattr("solver.conflict.several", lambda *_: [])


QUICK = Options(effort=0.02, seconds=600.0)


def conflict_of(made: Any) -> Conflict:
    """What is told where it is proven that there is no plan, each of its ways out accepted by the verifier."""
    found = propose(made.case(), QUICK)
    assert (found.status, found.plan) == (Status.IMPOSSIBLE, None)
    assert found.conflict is not None
    assert found.conflict.proven
    ways = found.conflict.ways_out
    assert all(way.case and way.plan and check(way.case, way.plan).holds is not False for way in ways), ways
    return found.conflict
