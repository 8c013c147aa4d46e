"""hazard: the solver's side, with the figures of the shipped rule book."""

from solver.rules import hazard


def test_gas_is_not_where_people_breathe(pair):
    pair.things[0] |= {"hazard": "lpg", "net_kg": 2}
    pair.vehicle["spaces"][0] |= {"air": "outside", "holds": "holder"}
    pair.vehicle["spaces"][1] |= {"air": "cabin", "holds": "holder"}
    assert pair.allows(hazard.add)
    assert not pair.allows(hazard.add, places={"one": "high"})
    assert pair.allows(hazard.add, places={"one": "low"})


def test_it_rides_in_a_holder_and_not_in_the_heat(pair):
    pair.things[0] |= {"hazard": "lpg", "net_kg": 2}
    pair.vehicle["spaces"][0] |= {"air": "outside", "holds": "holder"}
    assert pair.allows(hazard.add, places={"one": "low"})
    pair.vehicle["spaces"][0]["heat"] = "hot"
    assert not pair.allows(hazard.add, places={"one": "low"})
    pair.vehicle["spaces"][0] |= {"heat": "cabin", "holds": "enclosed"}
    assert not pair.allows(hazard.add, places={"one": "low"})


def test_amounts_add_up(pair):
    totals = pair.case().rulebook.hazards["petrol"].totals
    most = totals.total_l
    assert most is not None
    can = {"hazard": "petrol", "approved_can": True, "holds_l": most / 3}
    for thing in pair.things:
        thing.update(can)
    pair.things[0]["count"] = 2
    for space in pair.vehicle["spaces"]:
        space |= {"air": "outside", "holds": "holder"}
    all_three = {"one": "low", "one #2": "low", "two": "high"}
    assert pair.allows(hazard.add, places=all_three)
    pair.things[1]["holds_l"] = most / 3 + 0.001
    assert not pair.allows(hazard.add, places=all_three)
    assert pair.allows(hazard.add, places={"one": "low", "two": "high"}, home=("one #2",))
