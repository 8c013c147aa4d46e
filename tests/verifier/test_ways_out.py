"""What stands in another space on the way out of one is asked about where a thing is wanted at once."""

from typing import Any

import pytest

WANTED = {"access": "at_once"}


@pytest.fixture
def outer(world: Any) -> Any:
    """Jackets on a step outside the right bay, right before the fridge that is in there; both have the right flap."""
    step = {"name": "step", "corner_mm": [2600, 640, 900], "size_mm": [1000, 100, 600], "holds": "enclosed"}
    world.vehicle["spaces"].append(world.space("right bay") | step)
    del world.space("step")["solid"]
    fridge = world.places["fridge"]
    world.gear["board"] = {"name": "board", "mass_kg": 3, "size_mm": [400, 50, 400]}
    x, _, z = fridge["corner_mm"]
    lies = {"thing": "board", "space": "step", "corner_mm": (x, 660, z), "size_mm": (400, 50, 400), "facing": None}
    world.places["board"] = fridge | lies
    return world


def asked(world: Any) -> list[str]:
    return [says for says in world.questions() if says.startswith("Between ")]


def test_nothing_is_asked_of_what_is_seldom_wanted(outer):
    assert asked(outer) == []


def test_what_is_wanted_at_once_is_asked_about(outer):
    outer.gear["fridge"] |= WANTED
    (says,) = asked(outer)
    assert says.startswith("Between fridge in right bay and right flap stands board in step: ")


def test_what_an_incident_needs_is_asked_about(outer):
    outer.gear["fridge"]["needed_when"] = ["bogged"]
    assert len(asked(outer)) == 1


def test_what_lies_beside_the_way_is_not_in_it(outer):
    outer.gear["fridge"] |= WANTED
    outer.gear["board"]["size_mm"] = [100, 50, 400]
    (x, y, z) = outer.places["board"]["corner_mm"]
    outer.places["board"] |= {"corner_mm": (x + 410, y, z), "size_mm": (100, 50, 400)}
    assert asked(outer) == []
    outer.places["board"]["corner_mm"] = (x + 390, y, z)
    assert len(asked(outer)) == 1


@pytest.mark.parametrize(("space", "more"), [("step", {"opening": "right side"}), ("right bay", {"face": "top"})])
def test_what_is_taken_out_another_way_is_not_judged(outer, space, more):
    outer.gear["fridge"] |= WANTED
    outer.space(space).update(more)
    assert asked(outer) == []
