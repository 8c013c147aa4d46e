"""kit: together means one space."""


def test_a_kit_in_two_places(world):
    world.put("stove", (1900, -640, 750), space="rear bench", turn="lwh")
    world.space("rear bench")["holds"] = "enclosed"
    world.put("jackets", (1950, -460, 750))
    assert world.broken() == {("kit", "kitchen")}


def test_a_kit_that_does_not_insist(world):
    world.gear["water jug"]["kit"] = "kitchen"
    assert world.broken() == set()


def test_all_copies_count(world):
    world.gear["extinguisher"] |= {"kit": "safety", "together": True}
    assert world.broken() == {("kit", "safety")}
