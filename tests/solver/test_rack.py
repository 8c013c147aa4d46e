"""rack: the solver's side."""

from typing import Any

from solver.rules import rack


def on_racks(pair: Any) -> None:
    pair.vehicle["racks"] = [
        {"name": "roof", "limits": {"off_road_kg": 30, "parked_kg": 90}},
        {"name": "frame", "on": "roof", "own_mass_kg": 5, "limits": {"any_kg": 50}},
    ]
    pair.vehicle["spaces"][0]["on"] = ["roof"]
    pair.vehicle["spaces"][1]["on"] = ["frame"]


def test_all_that_hangs_on_a_rack_counts(pair):
    on_racks(pair)
    both = {"one": "low", "two": "high"}
    assert pair.allows(rack.add)
    pair.things[0]["mass_kg"] = 15
    assert pair.allows(rack.add, places=both)
    pair.things[0]["mass_kg"] = 15.001
    assert not pair.allows(rack.add, places=both)


def test_the_ground_chooses_the_limit(pair):
    on_racks(pair)
    pair.things[0]["mass_kg"] = 40
    assert not pair.allows(rack.add, places={"one": "low"})
    pair.trip["stages"][0]["surface"] = "parked"
    assert pair.allows(rack.add, places={"one": "low"})
