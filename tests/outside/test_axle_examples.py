"""Axle loads: published and constructed examples, and misprints that must not be met."""

from typing import Any

import pytest

import verifier
from verifier import PointMass, static_stability_factor, total_kg

axle_loads: Any = verifier.axle_loads
centre: Any = verifier.centre
wheel_loads: Any = verifier.wheel_loads
"""Every place is known in these examples, so no sum is unknown."""

REFERENCE_UTE = (  # kg, x, y, z in mm; constructed (U1)
    PointMass(2150, 960 * 3085 / 2150, 0, 700),
    PointMass(75, 1550, 370, 750),
    PointMass(75, 1550, -370, 750),
    PointMass(60, -750, 0, 800),
    PointMass(160, 3050, 0, 1250),
    PointMass(62, 2750, 500, 950),
    PointMass(60, 2250, -300, 600),
    PointMass(30, 2350, -550, 800),
    PointMass(40, 3600, 450, 850),
    PointMass(21, 4050, -550, 1050),
    PointMass(65, 1600, 0, 2000),
)


def one(mass: float, x: float) -> tuple[PointMass, ...]:
    return (PointMass(mass, x, 0.0, 0.0),)


def test_a1_a_body_behind_the_cab():
    # Truck body-builder manual, app. B: 14,500 lb at 156 in on 214 in; printed 10,570 and 3,929.9.
    front, rear = axle_loads(one(14500, 168 / 2 + 72), 214)
    assert (front, rear) == pytest.approx((3929.907, 10570.093), abs=5e-4)


def test_a1_the_caption_is_a_misprint():
    # T2: the caption of fig. B-5 says 184.7 in, which does not give the printed 10,570 lb.
    assert axle_loads(one(14500, 184.7), 214).rear_kg != pytest.approx(10570, abs=0.5)


def test_a2_front_and_rear_make_the_load():
    # Same manual, 100 lb at 133 in; it prints a front of 38.86 lb (T1), which does not add up.
    front, rear = axle_loads(one(100, 133), 214)
    assert (front, rear) == pytest.approx((37.850467, 62.149533), abs=5e-7)
    assert front != pytest.approx(38.86, abs=0.005)


def test_a4_the_ball_presses_and_lifts():
    # Statics: 250 kg on a ball 1.25 m behind the rear axle of a wheelbase of 3.085 m.
    front, rear = axle_loads((), 3085, 250, 1250)
    assert (front, rear) == pytest.approx((-101.297, 351.297), abs=5e-4)
    assert front + rear == pytest.approx(250, rel=1e-12)
    # T7: ball x lever / wheelbase is only what leaves the front axle, not what the rear axle gains.
    assert rear != pytest.approx(250 * 1250 / 3085, abs=1)


def test_a6_half_as_much_again_on_the_rear_axle():
    # Rule of thumb for dual-cab pickups, the ball half a wheelbase behind: 300 kg put 450 on the rear axle and
    # take 150 off the front.
    assert axle_loads((), 3200, 300, 1600) == pytest.approx((-150, 450), rel=1e-12)


def test_u1_the_reference_ute():
    assert total_kg(REFERENCE_UTE) == 2798
    x, y, z = centre(REFERENCE_UTE)
    assert (x, y, z) == pytest.approx((1553.306, 1.054, 775.715), abs=5e-4)
    front, rear = axle_loads(REFERENCE_UTE, 3085)
    assert (front, rear) == pytest.approx((1389.199352, 1408.800648), abs=5e-7)
    assert static_stability_factor(1570, z) == pytest.approx(1.011970, abs=5e-7)
    assert static_stability_factor(1570 - 2 * abs(y), z) == pytest.approx(1.010611, abs=5e-7)
    _, right = wheel_loads(REFERENCE_UTE, 1570)
    assert right / 2798 == pytest.approx(0.500672, abs=5e-7)


BOARD = ((3, 0), (4, -8), (10, -4), (10, -3), (4, 2), (7, 5), (8, 8))


def supports(loads: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """Reactions of supports at -1.5 and +1.5: two axles three apart, measured from the first."""
    reactions = axle_loads(tuple(PointMass(kg, at + 1.5, 0.0, 0.0) for kg, at in loads), 3)
    assert reactions is not None
    return (reactions.front_kg, reactions.rear_kg)


def middle(loads: tuple[tuple[float, float], ...]) -> float:
    (at, _, _) = centre(tuple(PointMass(kg, at, 0.0, 0.0) for kg, at in loads))
    return float(at)


def test_w12_a_beam_on_two_supports():
    # Inputs: Scientific American puzzle "No tipping"; results recomputed.
    assert supports(BOARD) == pytest.approx((21.333333, 24.666667), abs=5e-7)
    assert middle(BOARD) == pytest.approx(0.108696, abs=5e-7)
    assert middle(BOARD[:-1]) == pytest.approx(-1.5526, abs=5e-5)


@pytest.mark.parametrize("gone", BOARD[1:])
def test_w12_only_the_last_package_holds_the_board(gone):
    left = tuple(load for load in BOARD if load != gone)
    assert (min(supports(left)) < 0) is (gone == (8, 8))
