"""Statics of a vehicle that stands still, with masses of 100 and 300 kg on a wheelbase of 4 m and a track of 2 m."""

from math import atan, degrees, hypot

import pytest

from verifier import AxleLoads, PointMass, articulated_lower_bound_deg, axle_loads, grade_front_kg, wheel_loads
from verifier.statics import moment_kg_mm

POINTS = (PointMass(100, 0, -500, 800), PointMass(300, 4000, 500, 800))


def test_nothing_on_the_axles_is_no_share():
    assert AxleLoads(0, 0).front_share == 0
    assert AxleLoads(100, 300).front_share == 0.25


def test_a_ball_right_above_the_rear_axle_loads_that_axle_alone():
    assert axle_loads(POINTS, 4000, 80) == (100, 380)
    assert axle_loads(POINTS, 4000, 80, 1000) == (100 - 20, 380 + 20)
    assert axle_loads(POINTS, 4000) == (100, 300)


def test_both_sides_carry_half_of_the_ball():
    # 300 kg and 100 kg are 500 mm off the middle, each to its side: 200 ± 50 kg.
    assert wheel_loads(POINTS, 2000) == (150, 250)
    assert wheel_loads(POINTS, 2000, 80) == (190, 290)


@pytest.mark.parametrize(("mass_kg", "moment"), [(0.0, 0.0), (1.0, None), (-1.0, None)])
def test_only_what_weighs_nothing_may_be_anywhere(mass_kg, moment):
    assert moment_kg_mm([PointMass(mass_kg, None, 0, 0)], "x_mm") == moment


@pytest.mark.parametrize(("free", "along"), [("front", 1000), ("rear", 3000)])
def test_the_free_axle_is_the_tip_of_the_triangle(free, along):
    # At x = 1 m of 4 m the triangle is 1/4 as wide as at the axle that stands, or 3/4.
    distance = (1000 * along / 4000 - 50) * 4000 / hypot(4000, 1000)
    found = articulated_lower_bound_deg(2000, 4000, 1000, -50, 800, free)
    assert found == pytest.approx(degrees(atan(distance / 800)), rel=1e-12)


def test_a_climb_takes_load_off_the_front():
    assert grade_front_kg(POINTS, 4000, 0) == pytest.approx(100)
    assert grade_front_kg([PointMass(100, 2000, 0, 1000)], 4000, 45) == pytest.approx(100 * 1000 / 4000 / 2**0.5)


@pytest.mark.parametrize("point", [PointMass(100, None, 0, 800), PointMass(100, 2000, 0, None)])
def test_a_climb_with_a_place_that_nobody_knows(point):
    assert grade_front_kg([point], 4000, 20) is None
