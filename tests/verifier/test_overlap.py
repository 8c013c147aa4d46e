"""overlap: no shared room, no thing in another's air, no thing in a slide's way."""

import pytest


def test_two_things_share_a_millimetre(world):
    world.put("water jug #2", (3199, -640, 900))
    assert world.broken() == {("overlap", "water jug #1 and water jug #2")}


def test_touching_is_no_overlap(world):
    world.put("water jug #2", (3200, -640, 900))
    assert world.broken() == set()


def test_a_thing_in_the_air_of_another(world):
    world.put("tool box", (3099, 100, 900))
    world.put("food box", (3100, 100, 1100))
    assert world.broken() == {("overlap", "fridge and tool box")}
    world.put("tool box", (3100, 100, 900))
    assert world.broken() == set()


def test_only_what_is_in_a_space_of_a_thing_may_share_its_room(world):
    # The sleeping bag lies in the folded tent; jackets in the same room, but not in that space, overlap both.
    world.put("jackets", (1900, -400, 1980), space="roof place")
    overlaps = {subject for rule, subject in world.broken() if rule == "overlap"}
    assert overlaps == {"jackets and roof tent", "sleeping bag #2 and jackets"}


def test_a_slide_meets_a_thing_of_another_space(world):
    holder = world.space("can holder")
    holder["corner_mm"] = [4000, -100, 900]
    world.put("petrol can", (4000, -100, 900))
    assert world.broken() == {("overlap", "left drawer and petrol can")}
    world.put("petrol can", (4000, -80, 900))
    assert world.broken() == set()


def test_a_slide_ends_where_it_ends(world):
    world.vehicle["outline_mm"]["rear"] = 6000
    world.space("can holder")["corner_mm"] = [4899, -200, 900]
    world.put("petrol can", (4899, -200, 900))
    assert ("overlap", "left drawer and petrol can") in world.broken()
    world.put("petrol can", (4900, -200, 900))
    assert not any(rule == "overlap" for rule, _ in world.broken())


def test_air_counts_whichever_thing_the_plan_names_first(world):
    world.places["fridge"] = world.places.pop("fridge")
    world.put("tool box", (3099, 100, 900))
    world.put("food box", (3100, 100, 1100))
    assert world.broken() == {("overlap", "tool box and fridge")}


def test_a_space_in_a_thing_slides_out_of_it(world):
    world.space("in the tent")["slides"] = {"to": "left", "mm": 300}
    assert world.broken() == set()


def test_what_is_in_a_thing_slides_with_it(world):
    world.space("roof place")["slides"] = {"to": "left", "mm": 300}
    assert world.broken() == set()


@pytest.fixture
def drawers(world):
    """A drawer of two jugs alike goes 200 mm to the rear, as far as 3290 mm."""
    inner = {"name": "in the jug", "corner_mm": [3010, -630, 910], "size_mm": [80, 150, 200], "inside_of": "water jug"}
    world.vehicle["spaces"].append(world.space("door pocket") | inner | {"slides": {"to": "rear", "mm": 200}})
    return world


@pytest.mark.parametrize(("around", "other"), [("water jug", "water jug #2"), ("water jug #2", "water jug")])
@pytest.mark.parametrize(("x", "free"), [(3289, False), (3290, True)])
def test_the_drawer_of_one_copy_meets_no_other_copy(drawers, around, other, x, free):
    drawers.put(around, (3000, -640, 900))
    drawers.put(other, (x, -640, 900))
    number = "#2" if other.endswith("2") else "#1"
    assert drawers.broken() == (set() if free else {("overlap", f"in the jug and water jug {number}")})


@pytest.mark.parametrize("x", [3100, 3210])
def test_what_lies_in_another_part_of_a_copy_does_not_slide_with_its_drawer(drawers, x):
    # Beside the drawer in the first jug, or in the second one.
    cup = {"name": "cup", "corner_mm": [x, -630, 910], "size_mm": [90, 100, 100], "inside_of": "water jug"}
    drawers.vehicle["spaces"].append(drawers.space("door pocket") | cup)
    drawers.gear["first aid"]["size_mm"] = [80, 90, 90]
    drawers.put("first aid", (x, -630, 910), space="cup", size_mm=(80, 90, 90))
    assert ("overlap", "in the jug and first aid") in drawers.broken()
    drawers.put("first aid", (3010, -630, 910), space="in the jug", size_mm=(80, 90, 90))
    assert ("overlap", "in the jug and first aid") not in drawers.broken()


def test_a_drawer_whose_thing_stands_elsewhere_is_in_nobodys_way(drawers):
    drawers.put("water jug", (3011, -640, 900))
    drawers.put("water jug #2", (3211, -640, 900))
    assert drawers.broken() == set()


def test_what_lies_in_one_copy_and_meets_another_shares_its_room(world):
    # Two tents: the bag lies in the one around the space; the other stands over it, and is not what it lies in.
    world.gear["roof tent"]["count"] = 2
    world.places["roof tent #2"] = world.places["roof tent"] | {"copy": 2, "corner_mm": (1900, -500, 1950)}
    assert ("overlap", "sleeping bag #2 and roof tent #2") in world.broken()
    assert ("overlap", "sleeping bag #2 and roof tent #1") not in world.broken()
