"""How high the laden vehicle stands, and what is lifted before the water."""


def test_the_highest_thing_that_is_carried(world):
    tallest = world.verdict().tallest
    assert (tallest.top_mm, tallest.what) == (2300, "roof tent")


def test_where_nothing_is_higher_it_is_the_body(world):
    world.vehicle["outline_mm"]["height"] = 2600
    tallest = world.verdict().tallest
    assert (tallest.top_mm, tallest.what) == (2600, "the body")


def test_a_closed_box_on_the_roof_stands_there_when_empty(world):
    world.places["roof tent"]["space"] = "nowhere"
    del world.places["roof tent"], world.places["sleeping bag #2"]
    assert world.verdict().tallest.what == "the body"
    world.space("roof place")["holds"] = "enclosed"
    tallest = world.verdict().tallest
    assert (tallest.top_mm, tallest.what) == (2450, "roof place")


def test_what_must_stay_dry_below_the_line_is_lifted_before_the_water(world):
    world.vehicle["wading_line_mm"] = 901
    world.gear["fridge"]["electrical"] = False
    told = world.verdict().before_water
    assert told == (
        "Before water up to the wading line of 901 mm and a bow wave of 150 mm (common practice, no source), "
        "lift these or bag them: sleeping bag #1 (900 mm)."
    )


def test_a_bow_wave_reaches_above_the_line(world):
    world.gear["fridge"]["electrical"] = False
    world.vehicle["wading_line_mm"] = 750
    assert world.verdict().before_water is None
    world.vehicle["wading_line_mm"] = 751
    assert "sleeping bag #1 (900 mm)" in (world.verdict().before_water or "")


def test_what_is_electrical_between_the_line_and_the_wave_is_lifted_too(world):
    world.vehicle["wading_line_mm"] = 900
    assert "fridge (900 mm)" in (world.verdict().before_water or "")
    assert world.broken() == set()
    world.vehicle["wading_line_mm"] = 750
    assert world.verdict().before_water is None


def test_what_bears_a_splash_does_not_bear_to_stand_in_the_water(world):
    world.vehicle["wading_line_mm"] = 901
    world.gear["fridge"]["electrical"] = False
    world.gear["tool box"]["weather"] = "splash"
    assert "tool box (900 mm)" in (world.verdict().before_water or "")
    world.gear["tool box"]["weather"] = "any"
    assert "tool box" not in (world.verdict().before_water or "")


def test_what_stands_as_high_as_the_wave_stays_dry(world):
    world.vehicle["wading_line_mm"] = 750
    world.gear["fridge"]["electrical"] = False
    assert world.verdict().before_water is None


def test_electrical_things_are_left_to_the_rule(world):
    world.vehicle["wading_line_mm"] = 901
    world.gear["fridge"]["weather"] = "dry"
    assert "fridge" not in (world.verdict().before_water or "")
    assert ("weather", "fridge") in world.broken()


def test_without_a_line_nothing_is_told(world):
    del world.vehicle["wading_line_mm"]
    world.gear["jackets"]["weather"] = "dry"
    assert world.verdict().before_water is None
