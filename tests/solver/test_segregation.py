"""segregation: the solver's side."""

from solver.rules import segregation


def test_food_is_apart_from_fuel(pair):
    pair.things[0] |= {"food": True}
    pair.things[1] |= {"hazard": "petrol", "holds_l": 5, "approved_can": True}
    pair.vehicle["spaces"][1] |= {"corner_mm": [3000, 0, 900], "air": "outside"}
    assert pair.allows(segregation.add)
    assert not pair.allows(segregation.add, places={"one": "low", "two": "low"})
    assert pair.allows(segregation.add, places={"one": "low", "two": "high"})


def test_a_pair_that_shares_no_air(pair):
    pair.things[0] |= {"food": True}
    pair.things[1] |= {"hazard": "petrol", "holds_l": 5, "approved_can": True}
    pair.vehicle["spaces"][1]["corner_mm"] = [3000, 0, 900]
    assert not pair.allows(segregation.add, places={"one": "low", "two": "high"})
    pair.things[1] |= {"hazard": None, "holds_l": None}
    assert pair.allows(segregation.add, places={"one": "low", "two": "high"})
