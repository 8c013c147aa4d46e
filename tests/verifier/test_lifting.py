"""The lifting equation, multiplier by multiplier, at the ends of their ranges."""

import pytest

from models.reading import shipped_rulebook
from verifier import Hands, recommended_kg, turned_kg, zone_kg
from verifier.lifting import (
    grip_multiplier,
    height_multiplier,
    reach_multiplier,
    travel_multiplier,
    turn_multiplier,
)

BOOK = shipped_rulebook().lifting


@pytest.mark.parametrize(("out", "found"), [(0, 1), (250, 1), (500, 0.5), (630, 250 / 630), (630.1, 0), (2000, 0)])
def test_reach(out, found):
    assert reach_multiplier(out) == pytest.approx(found)


@pytest.mark.parametrize(("up", "found"), [
    (-1, 0), (0, 0.775), (450, 0.91), (750, 1), (1050, 0.91), (1750, 0.7), (1751, 0),
])  # fmt: skip
def test_height(up, found):
    assert height_multiplier(up) == pytest.approx(found)


@pytest.mark.parametrize(("way", "found"), [(0, 1), (250, 1), (450, 0.92), (900, 0.87), (1750, 0.82 + 45 / 1750)])
def test_travel(way, found):
    assert travel_multiplier(way) == pytest.approx(found)


@pytest.mark.parametrize(("degrees", "found"), [(0, 1), (45, 0.856), (135, 0.568), (135.1, 0)])
def test_turn(degrees, found):
    assert turn_multiplier(degrees) == pytest.approx(found)


@pytest.mark.parametrize(("grip", "up", "found"), [
    ("good", 0, 1), ("good", 800, 1), ("fair", 749, 0.95), ("fair", 750, 1), ("poor", 0, 0.9), ("poor", 800, 0.9),
])  # fmt: skip
def test_grip(grip, up, found):
    assert grip_multiplier(grip, up) == found


def test_all_multipliers_together():
    at = Hands(500, 450, turned_deg=45)
    found = recommended_kg(at, 450, "fair", 20, 0.9)
    assert found == pytest.approx(20 * 0.5 * 0.91 * 0.92 * 0.856 * 0.9 * 0.95)


@pytest.mark.parametrize("beyond", [
    Hands(631, 750), Hands(250, 1751), Hands(250, -1), Hands(250, 750, turned_deg=136),
])  # fmt: skip
def test_nothing_is_recommended_beyond_a_range(beyond):
    assert recommended_kg(beyond, 250, "good", 23, 1) == 0


@pytest.mark.parametrize(("up", "men"), [
    (0, 10), (250, 10), (251, 20), (749, 20), (750, 20), (751, 25), (1049, 25), (1050, 20), (1399, 20), (1400, 10),
    (1750, 10),
])  # fmt: skip
def test_on_the_border_of_two_zones_the_smaller_figure_counts(up, men):
    found = zone_kg(up, up, True, BOOK)
    assert found is not None
    assert found.men == men


def test_above_the_last_zone_there_is_no_figure():
    assert zone_kg(100, 1750, True, BOOK) is not None
    assert zone_kg(100, 1750.1, True, BOOK) is None


def test_the_greater_turn_takes_off_more():
    assert [turned_kg(100, degrees, BOOK) for degrees in (45, 45.1, 90, 90.1)] == pytest.approx([100, 90, 90, 80])
