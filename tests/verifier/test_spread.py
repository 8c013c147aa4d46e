"""spread: carried copies in so many places."""


def test_two_copies_in_one_place(world):
    world.gear["water jug"]["spread"] = 2
    assert world.broken() == {("spread", "water jug")}
    assert world.found("spread", "water jug").says == "The copies of water jug are in 1 space; 2 are asked for."


def test_exactly_as_many_places_as_asked(world):
    assert world.found("spread", "extinguisher").margin == 0


def test_nothing_carried_nothing_asked(world):
    world.gear["water jug"] |= {"spread": 2, "carry": 5}
    del world.places["water jug"], world.places["water jug #2"]
    assert world.broken() == set()
