"""Height of the centre of gravity, stability factor and tilt: worked examples with published formulas."""

from math import acos, hypot, tan
from typing import Any

import pytest

import verifier
from verifier import PointMass, height_from_axle_lift, lift_angle_deg, static_stability_factor, tip_angles_deg

centre: Any = verifier.centre
"""Every place is known in these examples, so no sum is unknown."""


def h1(lifted_kg: float) -> float:
    # ISO 10392:2011 6.2; rear raised by 600 mm: 2,300 kg, wheelbase 2,850, wheel radius 370, level front 1,150 kg.
    return height_from_axle_lift(2300, 2850, 370, 1150, lifted_kg, 600)


def test_h1_height_by_lifting_an_axle():
    assert lift_angle_deg(2850, 600) == pytest.approx(12.153197, abs=5e-7)
    assert h1(1210.827710) == pytest.approx(720, abs=5e-4)
    assert h1(1210.8) == pytest.approx(719.841, abs=5e-4)
    assert h1(1211) == pytest.approx(720.991, abs=5e-4)


def test_h1_a_kilogram_on_the_scale_is_almost_six_millimetres():
    assert h1(1212) - h1(1211) == pytest.approx(5.754, abs=5e-4)


LIFTS = [
    (2300, 2850, 370, 1150, 1210.827710, 600),
    (2798, 3085, 390, 1408.8, 1470, 800),
    (3100, 3220, 405, 1800, 1841, 650),
]
"""Total, wheelbase, wheel radius, the axle that stays down level and lifted, lift; the first is H1."""


@pytest.mark.parametrize(("kg", "length", "radius", "level", "lifted", "lift"), LIFTS)
def test_the_form_of_a_workshop_gives_the_same(kg, length, radius, level, lifted, lift):
    # A workshop note: wheelbase x more load / (total x tan) + height of the axle, tan = lift / root(base2 - lift2).
    slope = lift / (length**2 - lift**2) ** 0.5
    found = height_from_axle_lift(kg, length, radius, level, lifted, lift)
    assert found == pytest.approx(length * (lifted - level) / (kg * slope) + radius, rel=1e-12)


@pytest.mark.parametrize(("kg", "length", "radius", "level", "lifted", "lift"), LIFTS)
def test_the_form_of_a_body_builder_gives_the_same(kg, length, radius, level, lifted, lift):
    # A van maker's guide for body builders, 3.5, by the front axle while the front is lifted; z above the axles.
    xh1, rs2 = (kg - level) * length / kg, (length**2 - lift**2) ** 0.5
    xh2 = (kg - lifted) * rs2 / kg
    z = (xh1 - hypot(lift * xh2 / rs2, xh2)) * tan(acos(lift / length))
    assert height_from_axle_lift(kg, length, radius, level, lifted, lift) == pytest.approx(radius + z, rel=1e-9)


@pytest.mark.parametrize(("track", "height", "factor", "tilt"), [
    (1570, 670, 1.171642, 49.519138),  # S1
    (1600, 720, 1.111111, 48.012788),  # S2
])  # fmt: skip
def test_s1_s2_factor_and_tilt(track, height, factor, tilt):
    # NHTSA, 66 FR 3388: T / 2h; statics: atan(T / 2h).
    assert static_stability_factor(track, height) == pytest.approx(factor, abs=5e-7)
    assert tip_angles_deg(track, 0, height) == pytest.approx((tilt, tilt), abs=5e-7)


@pytest.mark.parametrize(("factor", "tilt"), [
    (1.41, 54.655), (1.24, 51.116), (1.18, 49.720), (1.17, 49.479), (1.12, 48.240), (1.00, 45.000),
])  # fmt: skip
def test_s3_tilt_of_published_factors(factor, tilt):
    # Factors: NHTSA HS-809 868 (2005), by class, model year 2003.
    assert tip_angles_deg(2 * factor, 0, 1)[1] == pytest.approx(tilt, abs=0.001)


def test_s4_a_hundred_kilograms_on_the_roof():
    # Constructed: 100 kg at 1,950 mm on 2,400 kg at 720 mm.
    _, _, height = centre((PointMass(2400, 0, 0, 720), PointMass(100, 0, 0, 1950)))
    assert height == pytest.approx(769.2, rel=1e-12)
    assert static_stability_factor(1600, height) == pytest.approx(1.040042, abs=5e-7)
