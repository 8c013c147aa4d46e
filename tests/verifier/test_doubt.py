"""Doubt: two standard deviations beside the reserve, and what to weigh first. It moves no limit."""

from typing import Any

import pytest

from models.plan import Plan
from verifier.doubt import deviation_kg
from verifier.layout import layout_of


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


def parts(world: Any, stage: str, axle: str) -> dict[str, float]:
    """One deviation of each thing on an axle by hand: of the front, 1 - x/L; copies of a thing are off together."""
    left = {"food": 1.0 if stage == "leaving" else 0.5}
    found = {}
    for name, thing in world.gear.items():
        share = {"weighed": 0.01, "label": 0.03}.get(thing.get("known_from", ""), 0.10)
        placed = [place for place in world.places.values() if place["thing"] == name]
        behind = [(place["corner_mm"][0] + place["size_mm"][0] / 2) / 3200 for place in placed]
        acting = sum(at if axle == "rear" else 1 - at for at in behind)
        gone = sum(kg * (1 - left.get(stream, 1.0)) for stream, kg in thing.get("uses_up", {}).items())
        found[name] = acting * share * (thing["mass_kg"] - gone)
    return found


@pytest.mark.parametrize(("axle", "kerb_kg"), [("front", 1190), ("rear", 960)])
def test_the_deviation_of_each_axle_by_hand(world, axle, kerb_kg):
    doubt = getattr(world.verdict().doubts["track"], f"{axle}_axle_kg")
    squares = (kerb_kg * 0.01) ** 2 + sum(part**2 for part in parts(world, "track", axle).values())
    assert doubt == pytest.approx(2 * squares**0.5, rel=1e-12)


def worth(world: Any) -> dict[str, tuple[float, float]]:
    return {one.thing: (one.doubt_kg, one.share) for one in world.verdict().worth_weighing}


def worth_by_hand(world: Any, stage: str, axle: str) -> dict[str, Any]:
    acting = parts(world, stage, axle)
    squares = sum(part**2 for part in acting.values())
    # The fridge is weighed; two jugs before and behind the rear axle may put nothing on the front together.
    seen = {name: part for name, part in acting.items() if name != "fridge" and part != 0}
    return {name: pytest.approx((2 * abs(part), part**2 / squares), rel=1e-9) for name, part in seen.items()}


def test_what_is_left_of_the_doubt_of_the_load_once_a_thing_is_weighed(world):
    """Its own part is told in kg of the same whole: squares are taken away, not kilograms."""
    world.vehicle["limits"]["rear_axle_kg"] = 1500
    told = world.verdict().worth_weighing[0]
    acting = parts(world, "leaving", "rear")
    assert told.load_kg == pytest.approx(2 * sum(part**2 for part in acting.values()) ** 0.5)
    assert told.share == pytest.approx((told.doubt_kg / told.load_kg) ** 2)
    world.gear[told.thing]["known_from"] = "weighed"
    now = parts(world, "leaving", "rear")
    assert told.once_weighed_kg == pytest.approx(2 * sum(part**2 for part in now.values()) ** 0.5)
    assert told.once_weighed_kg < told.load_kg


@pytest.mark.parametrize("axle", ["front", "rear"])
@pytest.mark.parametrize("stage", ["leaving", "track"])
def test_what_is_worth_weighing_is_seen_from_the_tightest_axle_and_stage(world, axle, stage):
    # Where it is the track, only the driver is aboard when leaving, and the tanks are no fuller then.
    world.vehicle["limits"][f"{axle}_axle_kg"] = 1300
    if stage == "track":
        world.stage("leaving").update({"people": ["Mara"], "tanks": {"main tank": 0.5, "water tank": 0.5}})
    assert worth(world) == worth_by_hand(world, stage, axle)


def test_without_limits_it_is_the_rear_axle_at_the_first_stage(world):
    world.vehicle["limits"] |= {"front_axle_kg": "unknown", "rear_axle_kg": "unknown"}
    assert worth(world) == worth_by_hand(world, "leaving", "rear")


def range_of(world: Any, least: float, most: float, known_from: str = "estimated") -> float:
    """One deviation of the tool box, most likely 20 kg, as it is listed."""
    world.gear["tool box"] |= {"mass_kg": {"least": least, "likely": 20, "most": most}, "known_from": known_from}
    case = world.case()
    layout = layout_of(case, Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values())}))
    return deviation_kg(layout, case.thing_named["tool box"], case.trip.stages[0])


@pytest.mark.parametrize(
    ("least", "most", "known_from", "expected"),
    [
        (20, 20, "estimated", 2.0),
        (18, 24, "estimated", 2.0),  # the farther side is 4 kg: two deviations of what an estimate gives
        (18, 25, "estimated", 2.5),
        (14, 24, "estimated", 3.0),
        (19, 22, "guess", 5.0),
        (12, 20, "weighed", 4.0),
    ],
)
def test_a_listed_range_is_at_least_two_deviations_wide_to_its_farther_side(world, least, most, known_from, expected):
    assert range_of(world, least, most, known_from) == pytest.approx(expected)


def test_a_listed_range_counts_in_the_doubt_of_the_total_and_in_what_is_worth_weighing(world):
    world.vehicle["limits"]["rear_axle_kg"] = 1500
    range_of(world, 20, 20)
    before = world.verdict()
    range_of(world, 10, 60)
    after = world.verdict()
    more = after.doubts["leaving"].total_kg ** 2 - before.doubts["leaving"].total_kg ** 2
    assert more == pytest.approx(40**2 - 4**2)
    assert before.worth_weighing[0].thing != "tool box"
    assert after.worth_weighing[0].thing == "tool box"


def test_a_range_stays_as_wide_where_the_mass_gets_less(world):
    """Of 20 kg, 12 are gone: a quarter of what is left is 2 kg, and 6 kg are still the farther side."""
    assert range_of(world, 18, 26, "guess") == pytest.approx(5.0)
    world.gear["tool box"]["uses_up"] = {"food": 12}
    world.stage("track").setdefault("left", {})["food"] = 0.0
    case = world.case()
    layout = layout_of(case, Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values())}))
    track = next(one for one in case.trip.stages if one.name == "track")
    assert deviation_kg(layout, case.thing_named["tool box"], track) == pytest.approx(3.0)


def test_the_deviation_of_what_hangs_on_a_rack_by_hand(world):
    """Through others too: the tent, with the bag in it, hangs on the cab roof by the rack that lies there."""
    squares = sum((kg * 0.10) ** 2 for kg in (55, 1.5))
    racks = world.verdict().doubts["camp"].racks_kg
    assert racks["cab rack"] == racks["cab roof"] == pytest.approx(2 * squares**0.5, rel=1e-12)


def test_copies_on_a_rack_are_off_together_as_at_the_stage(world):
    # Two jugs of 11 kg and a bag; half of the water gone leaves 6 kg of each.
    world.stage("track")["left"] = {"water": 0.5}
    racks = {stage: doubt.racks_kg["drawer frame"] for stage, doubt in world.verdict().doubts.items()}
    for stage, jug_kg in (("leaving", 11), ("track", 6)):
        assert racks[stage] == pytest.approx(2 * ((2 * jug_kg * 0.10) ** 2 + (1.5 * 0.10) ** 2) ** 0.5, rel=1e-12)


def test_nothing_on_a_rack_is_no_doubt(world):
    world.vehicle["racks"].append({"name": "spare frame", "limits": {"any_kg": 50}})
    assert world.verdict().doubts["camp"].racks_kg["spare frame"] == 0
