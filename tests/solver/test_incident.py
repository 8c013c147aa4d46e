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


def test_fire(pair):
    for thing in pair.things:
        thing["needed_when"] = ["fire"]
    pair.vehicle["spaces"][0] |= {"opening": "door", "in_reach_when": ["belted driver"], "air": "cabin"}
    assert pair.allows(incident.add)
    assert not pair.allows(incident.add, places={"one": "low", "two": "low"})
    assert not pair.allows(incident.add, places={"one": "high", "two": "high"})
    assert pair.allows(incident.add, places={"one": "low", "two": "high"})
