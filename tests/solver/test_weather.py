"""weather: the solver's side."""

from solver.rules import weather


def test_dry_things_stay_dry(pair):
    pair.things[0]["weather"] = "dry"
    pair.vehicle["spaces"][0]["weather"] = "splash"
    assert pair.allows(weather.add)
    assert not pair.allows(weather.add, places={"one": "low"})
    assert pair.allows(weather.add, places={"one": "high"})


def test_cool_things_stay_cool(pair):
    pair.things[0]["keep"] = "cool"
    pair.vehicle["spaces"][0]["heat"] = "cool"
    assert not pair.allows(weather.add, places={"one": "high"})
    assert pair.allows(weather.add, places={"one": "low"})


def test_wet_things_are_apart_from_dry_ones(pair):
    pair.things[0]["wet"] = True
    pair.things[1]["weather"] = "dry"
    assert not pair.allows(weather.add, places={"one": "low", "two": "low"})
    assert pair.allows(weather.add, places={"one": "low", "two": "high"})


def test_electrical_things_above_the_wading_line(pair):
    pair.things[0]["electrical"] = True
    pair.vehicle["wading_line_mm"] = 600
    assert not pair.allows(weather.add, places={"one": ("low", (2000, 0, 599))})
    assert pair.allows(weather.add, places={"one": ("low", (2000, 0, 600))})
