"""space_mass: contents within the limit at every stage."""

import pytest


def test_exactly_the_limit_holds(world):
    world.space("right bay")["limit_kg"] = 77
    assert world.broken() == set()
    assert world.found("space_mass", "right bay", "leaving").margin == pytest.approx(0)


def test_a_gram_too_much(world):
    world.space("right bay")["limit_kg"] = 76.999
    assert world.broken() == {("space_mass", "right bay")}
    assert {finding.stage for finding in world.verdict().broken} == {"leaving"}


def test_the_heaviest_it_may_be_counts(world):
    world.space("right bay")["limit_kg"] = 78
    world.gear["recovery kit"]["mass_kg"] = {"least": 10, "likely": 14, "most": 16}
    assert world.broken() == {("space_mass", "right bay")}


def test_an_unknown_limit(world):
    del world.space("right bay")["limit_kg"]
    assert world.unknown() == {("space_mass", "right bay")}


def test_an_empty_space_needs_no_limit(world):
    del world.space("rear bench")["limit_kg"]
    world.gear["jackets"]["carry"] = 5
    del world.places["jackets"]
    assert world.verdict().holds is True
