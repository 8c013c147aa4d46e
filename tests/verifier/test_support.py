"""support: enough below, the middle over contact, no more on top than a thing bears."""

import pytest

from verifier.rules.support import _covered_mm2


def test_a_thing_in_the_air(world):
    world.put("stove", (2620, 460, 901))
    assert world.broken() == {("support", "stove")}


def test_exactly_seventy_percent_holds(world):
    # The food box is 400 mm long on a box of 400: moved 120 mm rearward it stands on 280 of 400.
    world.space("right bay")["solid"] = []
    world.gear["tool box"]["size_mm"] = [400, 240, 260]
    world.put("tool box", (3080, 100, 900), size_mm=(400, 240, 260))
    world.gear["fridge"]["air_gap_mm"] = {"left": 50}
    world.put("food box", (3200, 100, 1160))
    assert world.broken() == set()
    assert world.found("support", "food box").value == pytest.approx(0.70)
    world.put("tool box", (3079, 100, 900))
    assert world.broken() == {("support", "food box")}


def test_the_middle_over_a_gap(world):
    # Two feet, each 36 % of the base, and nothing between them.
    world.gear["jackets"] |= {"shape": "hard"}
    bench = world.space("rear bench")
    bench["holds"] = "enclosed"
    bench["solid"] = [
        {"corner_mm": [1900, -640, 750], "size_mm": [158, 500, 100]},
        {"corner_mm": [2142, -640, 750], "size_mm": [208, 500, 100]},
    ]
    world.put("jackets", (1950, -600, 850))
    assert world.found("support", "jackets").holds is True
    assert world.broken() == {("support", "jackets")}


def test_a_solid_top_bears(world):
    world.space("rear bench")["solid"] = [{"corner_mm": [1900, -640, 750], "size_mm": [450, 500, 60]}]
    world.put("jackets", (1950, -600, 810))
    assert world.broken() == set()


def test_a_thing_bears_exactly_its_limit(world):
    world.gear["tool box"]["bears_kg"] = 10
    assert world.broken() == set()
    world.gear["tool box"]["bears_kg"] = 9.999
    assert world.broken() == {("support", "tool box")}


def test_what_is_eaten_no_longer_presses(world):
    world.gear["tool box"]["bears_kg"] = 9
    stages = {finding.stage for finding in world.verdict().broken}
    assert stages == {"leaving"}
    assert world.found("support", "tool box", "track").value == pytest.approx(7)


def test_a_soft_thing_bears_nothing_unless_it_says_so(world):
    world.gear["tool box"] |= {"shape": "soft", "bears_kg": None}
    assert world.broken() == {("support", "tool box")}
    world.gear["tool box"] |= {"bears_kg": 10}
    assert world.broken() == set()


def test_a_hard_thing_without_a_limit_bears_anything(world):
    world.gear["tool box"] |= {"bears_kg": None}
    world.gear["food box"] |= {"mass_kg": 60}
    assert world.broken() == set()


def test_a_pile_counts_whole_on_the_lowest(world):
    world.put("stove", (3200, 100, 1350))
    assert world.found("support", "tool box", "leaving").value == pytest.approx(15)
    assert world.broken() == {("support", "tool box")}


def test_patches_of_ground_are_counted_once():
    assert _covered_mm2([]) == 0
    assert _covered_mm2([(0, 0, 10, 10), (0, 0, 10, 10)]) == 100
    assert _covered_mm2([(0, 0, 10, 10), (5, 5, 15, 15)]) == 175
    assert _covered_mm2([(0, 0, 10, 2), (0, 5, 10, 6), (20, 0, 21, 1)]) == 31
