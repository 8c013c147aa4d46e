"""lock: what people fixed stays, in the trip and in the plan."""

import pytest

HELD = [
    {"thing": "jackets", "in": "rear bench"},
    {"thing": "jackets", "in": "rear bench", "at_mm": (1950, -600, 750)},
    {"thing": "jackets", "not_in": "left drawer"},
    {"thing": "water jug", "in": "left drawer"},
    {"thing": "jackets", "not_in": "cab rack"},
    {"thing": "roof tent", "not_in": "in the tent"},
    {"thing": "sleeping bag", "copy": 2, "not_in": "rear bench"},
    {"thing": "camp oven", "at_home": True},
    {"thing": "stove", "carried": True},
    {"thing": "sleeping bag", "copy": 2, "in": "in the tent"},
]
BROKEN = [
    ({"thing": "jackets", "in": "left drawer"}, "jackets"),
    ({"thing": "jackets", "in": "rear bench", "at_mm": (1951, -600, 750)}, "jackets"),
    ({"thing": "jackets", "not_in": "rear bench"}, "jackets"),
    ({"thing": "roof tent", "not_in": "cab roof"}, "roof tent"),
    ({"thing": "sleeping bag", "copy": 2, "not_in": "roof place"}, "sleeping bag #2"),
    ({"thing": "stove", "at_home": True}, "stove"),
    ({"thing": "camp oven", "carried": True}, "camp oven"),
    ({"thing": "camp oven", "in": "right bay"}, "camp oven"),
    ({"thing": "sleeping bag", "in": "left drawer"}, "sleeping bag #2"),
    ({"thing": "sleeping bag", "copy": 1, "in": "in the tent"}, "sleeping bag #1"),
]


@pytest.mark.parametrize("lock", HELD)
def test_a_lock_that_holds(world, lock):
    world.plan["locks"] = (lock,)
    assert world.broken() == set()


@pytest.mark.parametrize(("lock", "subject"), BROKEN)
def test_a_broken_lock_of_the_plan(world, lock, subject):
    world.plan["locks"] = (lock,)
    assert world.broken() == {("lock", subject)}


def test_a_broken_lock_of_the_trip_tells_who_and_why(world):
    world.trip["locks"] = [{"thing": "jackets", "in": "left drawer", "by": "Mara", "because": "they are mine"}]
    (finding,) = world.verdict().broken
    assert finding.says == "jackets should be in left drawer and is in rear bench (Mara): they are mine."
