"""Doubt: two standard deviations beside the reserve, and what to weigh first. It moves no limit."""

import pytest


def test_the_deviation_of_the_rear_axle_by_hand(world):
    # x/L times the deviation of each thing, squared and added; copies of a thing are off together.
    length = 3200
    parts = [960 * 0.01]
    for name, thing in world.gear.items():
        share = {"weighed": 0.01, "label": 0.03}.get(thing.get("known_from", ""), 0.10)
        placed = [place for place in world.places.values() if place["thing"] == name]
        acting = sum((place["corner_mm"][0] + place["size_mm"][0] / 2) / length for place in placed)
        parts.append(acting * share * thing["mass_kg"])
    expected = 2 * sum(part * part for part in parts) ** 0.5
    assert world.verdict().doubts["leaving"].rear_axle_kg == pytest.approx(expected, rel=1e-12)


def test_doubt_never_breaks_a_limit(world):
    for thing in world.gear.values():
        thing["known_from"] = "guess"
    assert world.verdict().holds is True


def test_weighing_first_what_moves_the_tightest_axle_most(world):
    world.vehicle["limits"]["rear_axle_kg"] = 1500
    worth = world.verdict().worth_weighing
    assert worth[0].thing == "roof tent"
    assert [one.share for one in worth] == sorted((one.share for one in worth), reverse=True)
    assert "fridge" not in {one.thing for one in worth}


def test_weighing_takes_the_told_part_of_the_doubt_away(world):
    before = world.verdict()
    first = before.worth_weighing[0]
    world.gear[first.thing]["known_from"] = "weighed"
    after = world.verdict()
    front, rear = "front_axle_kg", "rear_axle_kg"
    axle = min((front, rear), key=lambda name: before.tightest("axle", "kg", name[:-3].replace("_", " ")).margin)
    gone = getattr(before.doubts["leaving"], axle) ** 2 - getattr(after.doubts["leaving"], axle) ** 2
    assert gone == pytest.approx(first.doubt_kg**2 * (1 - 0.01), rel=0.05)


def test_axles_that_nobody_weighed_have_no_doubt_told(world):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700, "known_from": "handbook"}
    doubt = world.verdict().doubts["leaving"]
    assert (doubt.front_axle_kg, doubt.rear_axle_kg) == (None, None)
    assert doubt.total_kg > 2 * 0.03 * 2150
