"""available: the solver's side."""

from solver.rules import available


def test_a_seat_with_a_person_in_it(pair):
    pair.vehicle["spaces"][0]["seat"] = "driver"
    assert pair.allows(available.add, places={"one": "low"})
    pair.trip["people"] = [{"name": "Mara", "mass_kg": 70, "seat": "driver"}]
    assert not pair.allows(available.add, places={"one": "low"})
    assert pair.allows(available.add, places={"one": "high"})


def test_a_space_closed_at_a_stage(pair):
    pair.things[0]["uses_up"] = {"food": 9}
    pair.trip["streams"] = {"food": {}}
    pair.trip["stages"].append({"name": "later", "surface": "parked", "closed": ["low"], "left": {"food": 0}})
    assert not pair.allows(available.add, places={"one": "low"})
    pair.things[0]["uses_up"] = {"food": 10}
    assert pair.allows(available.add, places={"one": "low"})
