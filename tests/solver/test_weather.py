"""weather: the solver's side."""

import pytest

from solver import Options, propose
from solver.rules import weather

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


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


def test_wet_food_is_apart_from_its_copies(tiny):
    tiny.space("low")
    tiny.space("high", (2600, 0, 900))
    tiny.thing("fish box", wet=True, food=True, count=2, carry="must")
    assert not tiny.allows(weather.add, places={"fish box #1": "low", "fish box #2": "low"})
    assert tiny.allows(weather.add, places={"fish box #1": "low", "fish box #2": "high"})


@pytest.mark.usefixtures("no_bound", "no_ways_out")
@pytest.mark.parametrize("count", [2, 3])
def test_what_is_proposed_keeps_copies_of_wet_food_apart(tiny, count):
    tiny.space("low")
    tiny.space("high", (2600, 0, 900))
    tiny.thing("fish box", wet=True, food=True, count=count, carry="must")
    plan = propose(tiny.case(), Options(effort=0.02, seconds=600.0)).plan
    spaces = None if plan is None else sorted(one.space for one in plan.placements)
    assert spaces == (["high", "low"] if count == 2 else None)


def test_electrical_things_above_the_wading_line(pair):
    pair.things[0]["electrical"] = True
    pair.vehicle["wading_line_mm"] = 600
    assert not pair.allows(weather.add, places={"one": ("low", (2000, 0, 599))})
    assert pair.allows(weather.add, places={"one": ("low", (2000, 0, 600))})
