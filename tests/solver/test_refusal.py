"""What a person is told where there is no plan: the right limit, the right door, and nothing absurd."""

from typing import Any

import pytest
import yaml

from models.case import Case
from models.reading import case_from
from models.starter import starter_files
from solver import Conflict, Options, Status, propose
from solver.eligible import reasons

QUICK = Options(effort=0.02, seconds=60.0)


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


def conflict_of(made: Any) -> Conflict:
    found = propose(made.case(), QUICK)
    assert (found.status, found.plan) == (Status.IMPOSSIBLE, None)
    assert found.conflict is not None
    return found.conflict


def test_a_door_that_the_trailer_keeps_shut_is_named_with_the_trailer(starter):
    starter.trip["towing"] = {"ball_kg": 100, "trailer_kg": 1200}
    starter.vehicle["spaces"] = [one for one in starter.vehicle["spaces"] if one["name"] != "left bay"]
    case = starter.case()
    why = reasons(case, case.thing_named["recovery kit"], case.space_named["right shelf"])
    assert "tailgate does not open (trailer on) at leaving" in [one.says for one in why]
    starter.things = [one | ({} if one["name"] == "recovery kit" else {"carry": 10}) for one in starter.things]
    assert "tailgate does not open (trailer on) at leaving" in " ".join(conflict_of(starter).says)


def test_what_does_not_open_in_an_incident_is_named_too(starter):
    case = starter.case()
    why = reasons(case, case.thing_named["recovery kit"], case.space_named["right drawer"])
    assert "bogged: tailgate does not open (tail blocked)" in [one.says for one in why]
