"""Waste and food in one space are asked about, and nothing else is."""

from typing import Any

import pytest


def toilet(world: Any, name: str = "portable toilet", **more: Any) -> None:
    """The tool box, on which the food box stands, becomes a toilet."""
    world.gear["tool box"] |= {"name": name, **more}
    world.places["tool box"]["thing"] = name


def test_a_toilet_beside_food_is_asked_about(world):
    assert world.questions() == ()
    toilet(world)
    (told,) = world.questions()
    assert told.startswith("portable toilet holds waste and is in right bay with food box: ")
    assert "`apart: [[portable toilet, food box]]`" in told
    world.gear["tool box"]["hazard"] = "none"
    assert world.questions() == ()


def test_what_fills_with_waste_is_asked_about_under_any_name(world):
    toilet(world, "drum", fills={"rubbish": 1})
    assert len(world.questions()) == 1
    toilet(world, "drum", fills={"soil": 1})
    assert world.questions() == ()


@pytest.mark.parametrize(
    "name", ["toilet bucket", "Toilet 20 L", "toilet with its tent", "camp toilet, folding", "potties"]
)
def test_a_toilet_is_known_by_what_it_is_called(world, name):
    toilet(world, name)
    assert len(world.questions()) == 1


@pytest.mark.parametrize("name", ["toilet paper", "toilet bag", "toiletries", "toilet paper with a holder"])
def test_what_only_goes_with_a_toilet_is_left_alone(world, name):
    toilet(world, name)
    assert world.questions() == ()


def test_a_toilet_without_food_in_its_space_is_left_alone(world):
    toilet(world)
    world.gear["food box"]["food"] = False
    assert len(world.questions()) == 1  # by what it uses up it is food all the same
    world.not_food("food box")
    assert world.questions() == ()
