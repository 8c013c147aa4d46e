"""apart: pairs of things or kits are not in one space."""


def test_two_things_in_one_space(world):
    world.trip["apart"] = [["fridge", "tool box"]]
    assert world.broken() == {("apart", "fridge and tool box")}


def test_a_thing_and_a_kit(world):
    world.trip["apart"] = [["kitchen", "tool box"]]
    assert world.broken() == {("apart", "kitchen and tool box")}


def test_in_two_spaces(world):
    world.trip["apart"] = [["kitchen", "petrol can"], ["water jug", "fridge"]]
    assert world.broken() == set()
