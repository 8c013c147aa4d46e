"""segregation: not in one space, one air, or through one wall."""

from typing import Any


def test_a_pair_in_one_space(world):
    world.gear["tool box"]["hazard"] = "oil"
    assert world.broken() == {("segregation", "tool box and food box")}


def test_the_same_pair_in_two_spaces(world):
    world.gear["water jug"]["hazard"] = "oil"
    world.put("sleeping bag", (1950, -300, 750), space="rear bench", size_mm=(400, 125, 400))
    world.put("jackets", (3500, -500, 900), space="left drawer")
    assert world.broken() == set()


def test_food_in_the_air_of_a_burning_liquid(world):
    world.vehicle["air"]["canopy"] = "vented"
    world.gear["water jug"] |= {"hazard": "ethanol", "holds_l": 2, "suits": []}
    world.put("sleeping bag", (1900, -300, 750), space="rear bench", size_mm=(400, 125, 400))
    assert world.broken() == {("segregation", "water jug and food box")}


def test_bedding_beside_oil(world):
    world.gear["water jug"]["hazard"] = "oil"
    assert world.broken() == {("segregation", "water jug and sleeping bag")}


def chlorine_through_the_wall(world: Any, gap_mm: int) -> None:
    # The petrol can's holder lies behind the right bay, 100 mm away; the recovery kit becomes chlorine.
    world.gear["recovery kit"] |= {"hazard": "oxidiser"}
    world.gear["food box"]["food"] = False
    holder = world.space("can holder")
    holder["corner_mm"] = [3600 + gap_mm, 200, 900]
    world.put("petrol can", (3600 + gap_mm, 200, 900))


def test_fifty_millimetres_are_a_wall(world):
    chlorine_through_the_wall(world, 50)
    assert world.broken() == {("segregation", "petrol can and recovery kit")}


def test_fifty_one_millimetres_are_not(world):
    chlorine_through_the_wall(world, 51)
    assert world.broken() == set()


def test_a_solid_wall_between(world):
    chlorine_through_the_wall(world, 50)
    world.space("can holder")["solid_wall_between"] = ["right bay"]
    assert world.broken() == set()


def test_spaces_that_touch_only_at_an_edge_are_no_neighbours(world):
    chlorine_through_the_wall(world, 0)
    world.space("can holder")["corner_mm"] = [3600, 640, 900]
    world.put("petrol can", (3600, 640, 900))
    world.vehicle["outline_mm"]["width"] = 2200
    assert not any(rule == "segregation" for rule, _ in world.broken())


def test_open_air_is_one_air_only_for_neighbours(world):
    world.gear["roof tent"]["food"] = True
    assert world.broken() == set()
