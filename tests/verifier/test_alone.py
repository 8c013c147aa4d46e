"""Whether one thing in one space breaks a rule by itself."""

from typing import Any

import pytest

from models.case import Copy
from models.plan import Placement, Plan
from verifier import broken_at, broken_in


def rules(world: Any, thing: str, space: str) -> set[str]:
    plan = Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})
    return {one.rule.value for one in broken_in(world.case(), plan, Copy(thing, 1), space)}


@pytest.mark.parametrize(
    ("thing", "space", "broken"),
    [
        ("tool box", "right bay", set()),
        ("tool box", "left drawer", set()),
        ("tool box", "can holder", {"inside"}),
        ("petrol can", "right bay", {"inside", "hazard"}),
        ("roof tent", "left drawer", {"inside", "restraint"}),
        ("food box", "roof place", {"weather"}),
        ("fridge", "roof place", {"weather"}),
        ("first aid", "left drawer", {"reach"}),
        ("recovery kit", "left drawer", {"incident"}),
        ("tool box", "rear bench", {"restraint"}),
        ("sleeping bag", "in the tent", set()),
        ("extinguisher", "inner bracket", set()),
    ],
)
def test_rules_that_a_place_breaks_by_itself(world, thing, space, broken):
    assert rules(world, thing, space) == broken


def test_too_heavy_for_the_space(world):
    world.space("left drawer")["limit_kg"] = 17.9
    assert rules(world, "tool box", "left drawer") == {"space_mass"}
    world.space("left drawer")["limit_kg"] = 18
    assert rules(world, "tool box", "left drawer") == set()


def test_too_heavy_for_the_rack_below(world):
    world.rack("drawer frame")["limits"] = {"any_kg": 17.9}
    assert rules(world, "tool box", "left drawer") == {"rack"}


def test_a_seat_that_is_taken(world):
    world.trip["people"].append({"name": "Ena", "mass_kg": 50, "seat": "rear left"})
    assert "available" in rules(world, "jackets", "rear bench")


def test_a_turn_and_a_corner_are_looked_for(world):
    """Only standing on its end, beside the solid, does a long thin box fit."""
    world.gear["pole bag"] = {"name": "pole bag", "mass_kg": 3, "size_mm": [560, 30, 30]}
    space = world.space("right bay")
    space["size_mm"] = [300, 540, 400]
    space["solid"] = [{"corner_mm": [2600, 100, 900], "size_mm": [300, 100, 400]}]
    world.places.clear()
    assert rules(world, "pole bag", "right bay") == {"inside"}
    space["size_mm"] = [300, 540, 560]
    assert rules(world, "pole bag", "right bay") == set()


def test_a_soft_thing_takes_the_shape_that_is_left_beside_a_solid(world):
    space = world.space("right bay")
    space["size_mm"] = [500, 400, 400]
    space["solid"] = [{"corner_mm": [2600, 100, 900], "size_mm": [300, 400, 400]}]
    world.places.clear()
    world.gear["sleeping bag"]["volume_l"] = 32.0
    assert rules(world, "sleeping bag", "right bay") == set()
    world.gear["sleeping bag"]["volume_l"] = 32.5
    assert rules(world, "sleeping bag", "right bay") == {"inside"}


def test_one_placement_as_it_is(world):
    case = world.case()
    plan = Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values())})
    for placement in plan.placements:
        assert broken_at(case, plan, placement) == ()
    out = Placement.model_validate({**world.places["tool box"], "corner_mm": (3400, 100, 900)})
    assert {one.rule.value for one in broken_at(case, plan, out)} == {"inside"}


def test_of_several_stages_the_worst_is_told_once(world):
    world.space("left drawer")["limit_kg"] = 5
    world.gear["food box"]["uses_up"] = {"food": 4}
    plan = Plan.model_validate({"trip": "trip.yaml"})
    (found,) = broken_in(world.case(), plan, Copy("food box", 1), "left drawer")
    assert (found.value, found.stage) == (10, "leaving")


def test_a_slide_that_leaves_no_room_and_one_that_leaves_just_enough(world):
    """A drawer as long and as high as the bay runs rightward into it; the tool box is 200 mm at its narrowest."""
    drawer, bay = world.space("left drawer"), world.space("right bay")
    across = bay["corner_mm"][1] + bay["size_mm"][1] - (drawer["corner_mm"][1] + drawer["size_mm"][1])
    drawer["corner_mm"][0], drawer["size_mm"][0] = bay["corner_mm"][0], bay["size_mm"][0]
    drawer["size_mm"][2] = bay["size_mm"][2]
    bay["solid"] = []
    drawer["slides"] = {"to": "right", "mm": across}
    assert rules(world, "tool box", "right bay") == {"overlap"}
    drawer["slides"]["mm"] = across - 200
    assert rules(world, "tool box", "right bay") == set()
    assert rules(world, "tool box", "left drawer") == set(), "its own contents go with it"
    drawer["slides"]["mm"] = across - 199
    assert rules(world, "tool box", "right bay") == {"overlap"}
