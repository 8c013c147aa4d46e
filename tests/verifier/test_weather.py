"""weather: dry, clean, cool, above the water."""


def test_a_dry_thing_in_a_splashed_space(world):
    world.space("left drawer")["weather"] = "splash"
    assert world.broken() == {("weather", "sleeping bag #1")}


def test_a_splash_thing(world):
    world.gear["petrol can"]["weather"] = "splash"
    assert world.broken() == {("weather", "petrol can")}
    world.space("can holder")["weather"] = "splash"
    assert world.broken() == set()


def test_a_wet_thing_beside_a_dry_one(world):
    world.gear["water jug"]["wet"] = True
    assert world.broken() == {("weather", "water jug #1"), ("weather", "water jug #2")}


def test_a_wet_thing_beside_food(world):
    world.gear["food box"]["weather"] = "any"
    world.gear["recovery kit"]["wet"] = True
    assert world.broken() == {("weather", "recovery kit")}


def test_a_cool_thing_in_a_warm_space(world):
    world.gear["water jug"]["keep"] = "cool"
    assert world.broken() == set()
    world.space("left drawer")["heat"] = "cabin"
    assert world.broken() == {("weather", "water jug #1"), ("weather", "water jug #2")}


def test_a_cabin_thing_in_a_hot_space(world):
    world.gear["roof tent"]["keep"] = "cabin"
    assert world.broken() == {("weather", "roof tent")}


def test_electrical_things_at_the_wading_line(world):
    world.vehicle["wading_line_mm"] = 900
    assert world.broken() == set()
    world.vehicle["wading_line_mm"] = 901
    assert world.broken() == {("weather", "fridge")}


def test_no_wading_line_asks_nothing(world):
    world.vehicle["wading_line_mm"] = None
    world.gear["jackets"]["electrical"] = True
    assert world.broken() == set()
