"""A plan beside its case: what is part of what, what rests on what."""

from typing import Any

import pytest

from models.plan import Plan
from verifier.layout import Layout, layout_of


def layout(world: Any) -> Layout:
    plan = {"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan}
    return layout_of(world.case(), Plan.model_validate(plan))


def hosts(world: Any, space: str) -> frozenset[str]:
    here = layout(world)
    return frozenset(one.name for one in here.hosts(here.case.space_named.get(space)))


def test_a_space_is_part_of_a_thing_and_of_what_that_is_in(world):
    assert hosts(world, "in the tent") == {"roof tent"}
    inner = {"name": "in the box", "size_mm": [200, 200, 150], "inside_of": "camp oven"}
    world.vehicle["spaces"].append(world.space("in the tent") | inner)
    oven = {"thing": "camp oven", "space": "in the tent", "corner_mm": (1700, -400, 1980)}
    world.places["camp oven"] = world.places["jackets"] | oven
    assert hosts(world, "in the box") == {"camp oven", "roof tent"}
    world.places["roof tent"]["space"] = "in the box"
    assert hosts(world, "in the box") == {"camp oven", "roof tent"}, "a ring comes to its end"


def test_a_thing_that_does_not_lie_around_a_space_is_not_what_it_is_part_of(world):
    world.put("roof tent", (1701, -500, 1950))
    assert hosts(world, "in the tent") == frozenset()
    world.put("roof tent", (1700, -500, 1950))
    assert hosts(world, "in the tent") == {"roof tent"}


@pytest.mark.parametrize("space", ["right bay", "moon"])
def test_a_space_of_the_vehicle_and_one_that_is_not_there_are_part_of_nothing(world, space):
    assert hosts(world, space) == frozenset()


@pytest.mark.parametrize("around", ["#1", "#2"])
def test_of_like_copies_the_one_that_lies_around_a_space_counts(world, around):
    # One jug stands in a drawer, the other in the tent, and a bottle is in that one.
    inner = {"name": "in the jug", "size_mm": [150, 150, 200], "inside_of": "water jug"}
    world.vehicle["spaces"].append(world.space("in the tent") | inner)
    name = "water jug" if around == "#1" else "water jug #2"
    world.put(name, (1700, -400, 1980), space="in the tent")
    assert hosts(world, "in the jug") == {f"water jug {around}", "roof tent"}


def test_one_copy_that_holds_a_space_is_enough(world):
    world.gear["roof tent"]["count"] = 2
    here = layout(world)
    assert here.exists(here.case.space_named["in the tent"])
    world.places["roof tent #2"] = world.places["roof tent"] | {"copy": 2, "corner_mm": (1900, -500, 1950)}
    here = layout(world)
    assert here.exists(here.case.space_named["in the tent"])
    del world.places["roof tent"]
    here = layout(world)
    assert not here.exists(here.case.space_named["in the tent"])


@pytest.mark.parametrize(("x", "resting"), [(3549, ("stove",)), (3550, ())])
def test_a_square_millimetre_is_contact(world, x, resting):
    # The tool box ends at x = 3550, y = 340 mm.
    world.put("stove", (x, 339, 1100))
    here = layout(world)
    (box,) = here.copies_of("tool box")
    assert tuple(one.name for one in here.above(box) if one.name != "food box") == resting
