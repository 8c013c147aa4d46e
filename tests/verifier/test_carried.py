"""carried: each must copy once, each optional one at most once, companions along."""


def test_a_must_without_a_place(world):
    del world.places["jackets"]
    assert world.broken() == {("carried", "jackets")}


def test_a_copy_placed_twice(world):
    world.places["again"] = world.places["jackets"] | {"corner_mm": (1950, -300, 750), "size_mm": (300, 150, 200)}
    world.gear["jackets"] |= {"size_mm": None, "volume_l": 9.0}
    world.places["jackets"] |= {"size_mm": (300, 150, 200)}
    assert world.broken() == {("carried", "jackets")}


def test_a_copy_that_does_not_exist(world):
    world.places["jackets"] |= {"copy": 2}
    assert world.broken() == {("carried", "jackets"), ("carried", "jackets #2")}


def test_a_thing_that_is_not_listed(world):
    world.places["x"] = world.places["jackets"] | {"thing": "anvil"}
    assert world.broken() == {("carried", "anvil")}


def test_copies_of_a_thing_that_is_not_listed_are_told_apart(world):
    world.places["x"] = world.places["jackets"] | {"thing": "anvil"}
    world.places["y"] = world.places["jackets"] | {"thing": "anvil", "copy": 2}
    assert world.broken() == {("carried", "anvil #1"), ("carried", "anvil #2")}


def test_a_copy_left_at_home_that_is_not_listed(world):
    world.plan["left_at_home"] += ({"thing": "anvil"},)
    assert world.broken() == {("carried", "anvil")}


def test_a_copy_both_placed_and_at_home(world):
    world.plan["left_at_home"] += ({"thing": "stove"},)
    assert world.broken() == {("carried", "stove")}


def test_an_optional_thing_may_stay(world):
    del world.places["stove"]
    assert world.broken() == set()


def test_a_thing_without_its_companion(world):
    world.gear["food box"] |= {"carry": 30}
    del world.places["food box"]
    assert world.broken() == {("carried", "stove")}


def test_a_companion_may_come_alone(world):
    world.gear["food box"] |= {"carry": 30}
    del world.places["stove"]
    assert world.broken() == set()


def test_some_of_all_or_none(world):
    world.gear["water jug"] |= {"carry": 10, "all_or_none": True}
    del world.places["water jug #2"]
    assert world.broken() == {("carried", "water jug")}
    del world.places["water jug"]
    assert world.broken() == set()
