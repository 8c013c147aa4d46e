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


def test_what_stands_before_an_opening_of_the_chain_is_asked_about(outer):
    outer.gear["fridge"] |= WANTED
    outer.vehicle["openings"].append({"name": "inner flap", "side": "right", "after": ["right flap"]})
    outer.space("right bay")["opening"] = "inner flap"
    assert len(asked(outer)) == 1
    outer.vehicle["openings"][-1]["after"] = []
    assert asked(outer) == []


@pytest.fixture
def well(world: Any) -> Any:
    """A jack in a well under the right bay, in which the fridge and more stands; both have the right flap."""
    low = {
        "name": "well",
        "corner_mm": [2600, 100, 500],
        "size_mm": [1000, 540, 400],
        "face": "top",
        "holds": "enclosed",
    }
    world.vehicle["spaces"].append(world.space("right bay") | low)
    del world.space("well")["solid"]
    world.gear["jack"] = {"name": "jack", "mass_kg": 3, "size_mm": [200, 200, 100]}
    lies = {"thing": "jack", "space": "well", "corner_mm": (2600, 100, 500), "size_mm": (200, 200, 100), "facing": None}
    world.places["jack"] = world.places["fridge"] | lies
    return world


def lids(world: Any) -> list[str]:
    return [says for says in world.questions() if says.startswith("On ")]


def test_what_lies_on_a_lid_is_asked_about_where_something_below_is_wanted(well):
    assert lids(well) == []
    well.gear["jack"] |= WANTED
    (says,) = lids(well)
    assert says.startswith("On the lid of well, in which jack lies, stands fridge and ")
    assert " more in right bay: " in says


def test_what_an_incident_needs_below_a_lid_is_asked_about(well):
    well.gear["jack"]["needed_when"] = ["bogged"]
    assert len(lids(well)) == 1


@pytest.mark.parametrize(("gap_mm", "told"), [(50, 1), (51, 0)])
def test_a_space_well_above_another_has_a_deck_of_its_own(well, gap_mm, told):
    well.gear["jack"] |= WANTED
    well.space("well")["corner_mm"][2] -= gap_mm
    x, y, z = well.places["jack"]["corner_mm"]
    well.places["jack"]["corner_mm"] = (x, y, z - gap_mm)
    assert len(lids(well)) == told


@pytest.mark.parametrize(
    ("space", "more"),
    [
        ("well", {"slides": {"to": "right", "mm": 500}}),
        ("right bay", {"slides": {"to": "right", "mm": 500}}),
        ("right bay", {"opening": "right side"}),
    ],
)
def test_what_is_pulled_out_or_opened_elsewhere_is_under_no_lid(well, space, more):
    well.gear["jack"] |= WANTED
    well.space(space).update(more)
    assert lids(well) == []


def test_what_is_beside_a_lid_is_not_on_it(well):
    well.gear["jack"] |= WANTED
    well.space("well")["size_mm"] = [20, 540, 400]  # the fridge begins at the same x, so only what is moved away is off
    assert lids(well) != []
    well.space("well")["corner_mm"][0] = 2580
    assert lids(well) == []


@pytest.fixture
def tent(world: Any) -> Any:
    """A board on the roof tent in which the sleeping bags lie."""
    x, y, z = world.places["roof tent"]["corner_mm"]
    world.gear["board"] = {"name": "board", "mass_kg": 3, "size_mm": [400, 400, 50]}
    lies = {"thing": "board", "corner_mm": (x, y, z + 350), "size_mm": (400, 400, 50), "facing": None, "turn": "lwh"}
    world.places["board"] = world.places["roof tent"] | lies
    return world


def test_what_lies_on_a_thing_is_asked_about_where_something_in_it_is_wanted(tent):
    assert lids(tent) == []
    tent.gear["sleeping bag"] |= WANTED
    (says,) = lids(tent)
    assert says.startswith("On roof tent, in which sleeping bag #2 lies, stands board in roof place: ")
    tent.space("in the tent")["face"] = "rear"
    assert lids(tent) == []
