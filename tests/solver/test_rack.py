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


def test_what_is_bolted_on_takes_up_what_a_rack_and_those_below_it_bear(pair):
    on_racks(pair)
    both = {"one": "low", "two": "high"}
    # 30 kg on the roof: 10 and 10 of things, 5 of the frame, and 5 bolted to the frame.
    pair.vehicle["fittings"] = [{"name": "awning", "mass_kg": 5, "at_mm": [2000, 0, 1900], "on": ["frame", "roof"]}]
    assert pair.allows(rack.add, places=both)
    pair.vehicle["fittings"][0]["mass_kg"] = 5.001
    assert not pair.allows(rack.add, places=both)
    nothing: list[list[str] | None] = [None, []]
    for on in nothing:
        pair.vehicle["fittings"][0]["on"] = on
        assert pair.allows(rack.add, places=both)
    pair.vehicle["racks"][1]["limits"] = {"any_kg": 10}
    pair.vehicle["fittings"][0]["on"] = ["roof"]
    assert pair.allows(rack.add, places={"two": "high"}), "the frame does not bear what is bolted to the roof"
    pair.vehicle["fittings"][0]["on"] = ["frame"]
    assert not pair.allows(rack.add, places={"two": "high"})
