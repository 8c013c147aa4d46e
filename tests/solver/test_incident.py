"""incident: the solver's side."""

from solver.rules import incident


def test_rolled_over(pair):
    pair.things[0]["needed_when"] = ["rolled over"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})


def test_bogged(pair):
    pair.things[0]["needed_when"] = ["bogged"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "high"})
    assert pair.allows(incident.add, places={"one": "low"})


def test_at_the_roadside_at_night(pair):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["spaces"][0]["opening"] = "left flap"
    pair.vehicle["spaces"][1]["opening"] = "right flap"
    pair.trip["traffic_on"] = "left"
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})


def test_all_that_is_opened_at_the_roadside_is_away_from_traffic(pair):
    pair.things[0]["needed_when"] = ["roadside at night"]
    pair.vehicle["openings"].append({"name": "inner lid", "side": "rear", "after": ["left flap"]})
    pair.vehicle["spaces"][0]["opening"] = "inner lid"
    pair.vehicle["spaces"][1]["opening"] = "right flap"
    pair.trip["traffic_on"] = "left"
    assert not pair.allows(incident.add, places={"one": "low"})
    assert pair.allows(incident.add, places={"one": "high"})
    pair.vehicle["openings"][-1]["after"] = ["tailgate"]
    assert pair.allows(incident.add, places={"one": "low"})


def test_fire(pair):
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "low", "two": "low"})
    assert not pair.allows(incident.add, places={"one": "high", "two": "high"})
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})


def test_against_fire_behind_the_cabin_is_not_outside(pair):
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    pair.vehicle["openings"].append({"name": "hatch", "side": "rear", "after": ["tailgate"]})
    pair.vehicle["spaces"][1]["opening"] = "hatch"
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})
    pair.vehicle["openings"][-1]["after"] = ["door"]
    assert not pair.allows(incident.add, places={"one": "low", "two": "high"})
