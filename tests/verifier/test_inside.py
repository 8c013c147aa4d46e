"""inside: turned as allowed, of its size, within the walls of a space that takes it."""

import pytest


def test_one_millimetre_through_the_wall(world):
    world.put("jackets", (1899, -600, 750))
    assert world.broken() == {("inside", "jackets")}


def test_touching_the_wall(world):
    world.put("jackets", (1900, -640, 750))
    assert world.broken() == set()


def test_a_turn_that_is_not_allowed(world):
    world.gear["jackets"] |= {"turns": "upright"}
    world.put("jackets", (1950, -600, 750), turn="lhw", size_mm=(300, 200, 300))
    assert world.broken() == {("inside", "jackets")}


def test_a_size_that_is_not_the_listed_one_under_its_turn(world):
    world.put("jackets", (1950, -600, 750), size_mm=(300, 299, 200))
    assert world.broken() == {("inside", "jackets")}


def test_every_turn_has_its_own_size(world):
    world.put("stove", (2620, 460, 900), turn="hwl", size_mm=(100, 170, 300))
    assert world.broken() == set()


def test_a_solid_part(world):
    world.gear["tool box"] |= {"size_mm": [440, 240, 200]}
    world.put("tool box", (3150, 100, 900), size_mm=(440, 240, 200))
    assert world.broken() == {("inside", "tool box")}
    world.put("tool box", (3140, 100, 900))
    assert world.broken() == set()


def test_air_ends_at_the_wall(world):
    world.put("fridge", (2600, 149, 900))
    assert world.broken() == {("inside", "fridge")}


def test_air_turns_with_the_thing(world):
    # Facing front its gaps lie ahead of it and to its right.
    world.put("fridge", (2600, 150, 900), facing="front")
    assert ("inside", "fridge") in world.broken()
    world.put("fridge", (2700, 100, 900), facing="front")
    assert world.broken() == set()


def test_a_facing_that_its_turn_does_not_have(world):
    world.put("fridge", (2600, 150, 900), facing="left")
    assert ("inside", "fridge") in world.broken()


@pytest.mark.parametrize(
    ("size_mm", "held"),
    [((400, 500, 100), True), ((400, 499, 100), False), ((500, 510, 79), False), ((250, 1000, 80), True)],
)
def test_a_soft_thing_needs_its_volume_and_eighty_millimetres(world, size_mm, held):
    world.space("left drawer")["size_mm"] = [1000, 1040, 280]
    world.space("left drawer")["corner_mm"] = [3000, -1120, 900]
    world.gear["jackets"] |= {"size_mm": None, "volume_l": 20}
    world.put("jackets", (3450, -1120, 900), size_mm=size_mm, space="left drawer")
    world.put("sleeping bag", (3000, -1120, 900))
    world.put("water jug", (3000, -300, 900))
    world.put("water jug #2", (3200, -300, 900))
    world.vehicle["outline_mm"]["width"] = 2600
    assert world.broken() == (set() if held else {("inside", "jackets")})


def test_a_thing_with_a_holder_in_a_space_for_anything(world):
    world.gear["jackets"] |= {"holder": "bracket"}
    assert world.broken() == {("inside", "jackets")}


def test_a_space_of_words_takes_only_what_suits(world):
    world.space("rear bench")["accepts"] = ["coats"]
    assert world.broken() == {("inside", "jackets")}
    world.gear["jackets"] |= {"suits": ["coats"]}
    assert world.broken() == set()


def test_a_space_in_a_thing_that_stands_elsewhere(world):
    world.space("roof place")["corner_mm"] = [1500, -500, 1950]
    world.space("roof place")["size_mm"] = [1400, 1000, 500]
    world.space("in the tent")["size_mm"] = [1100, 600, 250]
    world.put("roof tent", (1600, -500, 1950))
    assert world.broken() == set()
    world.put("roof tent", (1599, -500, 1950))
    assert world.broken() == {("inside", "sleeping bag #2")}


def test_a_space_that_does_not_exist(world):
    world.put("jackets", (1950, -600, 750), space="attic")
    assert world.broken() == {("inside", "jackets")}


def test_the_finding_says_how_far_and_where(world):
    world.put("jackets", (1880, -650, 750))
    (finding,) = world.verdict().broken
    assert finding.says == "jackets sticks out of rear bench: 20 mm at the front, 10 mm at the left."
