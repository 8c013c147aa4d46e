"""Weight and balance by moments: published worked examples through the verifier's own sums.

Exact inputs are met to 1e-9; a printed result to half a unit of its last digit. The sums know no units: these are
pounds and inches.
"""

from typing import Any

import pytest

from verifier import PointMass, centre, moment_kg_mm, total_kg

EXACT: dict[str, Any] = {"rel": 1e-9}


def line(*loads: tuple[float, float]) -> tuple[PointMass, ...]:
    return tuple(PointMass(mass, arm, 0.0, 0.0) for mass, arm in loads)


def test_w1_balance_beam():
    # FAA-H-8083-25C, fig. 10-3 and 10-4.
    assert moment_kg_mm(line((100, 25), (50, 50), (50, -100)), "x_mm") == 0


def test_w2_loaded_aircraft():
    # FAA-H-8083-25C, fig. 10-5: weights, limits and answer; arms from a retelling.
    points = line((2100, 78.3), (340, 85.0), (350, 121.0), (450, 75.0), (80, 150.0))
    assert total_kg(points) == 3320
    assert moment_kg_mm(points, "x_mm") == pytest.approx(281430, **EXACT)
    assert centre(points)[0] == pytest.approx(84.768072, abs=5e-7)
    assert centre(points)[0] == pytest.approx(84.8, abs=0.05)


def test_w3_shift():
    # FAA-H-8083-25C p. 10-10: 100 lb from station 30 to 150.
    assert centre(line((8000, 77.0), (-100, 30), (100, 150)))[0] == pytest.approx(78.5, **EXACT)


def test_w4_shift_of_an_unknown_mass():
    # FAA-H-8083-25C p. 10-10: 65 lb from 150 to 30 bring 81.5 to the aft limit of 80.5.
    assert centre(line((7800, 81.5), (-65, 150), (65, 30)))[0] == pytest.approx(80.5, **EXACT)


def test_w5_add():
    # FAA-H-8083-25C p. 10-10.
    points = line((6860, 80.0), (140, 150))
    assert (total_kg(points), centre(points)[0]) == pytest.approx((7000, 81.4), **EXACT)


def test_w6_remove():
    # FAA-H-8083-25C p. 10-10; printed 78.8.
    assert centre(line((6100, 80.0), (-100, 150)))[0] == pytest.approx(78.833333, abs=5e-7)


def test_w7_a_negative_arm():
    # AC 43.13-1B fig. 10-10; printed 16,104 and 11.2.
    points = line((1169, 10.6), (17, -49), (170, 16), (83, 22))
    assert total_kg(points) == 1439
    assert moment_kg_mm(points, "x_mm") == pytest.approx(16104.4, **EXACT)
    assert centre(points)[0] == pytest.approx(11.191383, abs=5e-7)


def test_w9_at_the_mass_limit_and_the_misprinted_centre():
    # AC 43.13-1B fig. 10-13. The web copy prints +18.6 (T3), which is not 38466 / 2100.
    points = line((1169, 10.6), (17, -49), (170, 16), (170, 16), (340, 48), (234, 22))
    assert total_kg(points) == 2100
    assert centre(points)[0] == pytest.approx(18.317333, abs=5e-7)
    assert centre(points)[0] != pytest.approx(18.6, abs=0.05)


def test_w10_permanent_ballast():
    # FAA-H-8083-1A/1B ch. 7: 1,876 lb at 32.2, limit 33.0, bulkhead at 228; formula from memory.
    assert centre(line((1876, 32.2), (7.696410, 228)))[0] == pytest.approx(33.0, abs=1e-7)
    assert centre(line((1876, 32.2), (7.69, 228)))[0] != pytest.approx(33.0, abs=5e-4)


def test_w13_lever_law():
    # FAA-H-8083-1A/1B ch. 2, from memory.
    points = line((100, 50), (100, 90), (200, 150))
    assert (total_kg(points), moment_kg_mm(points, "x_mm"), centre(points)[0]) == (400, 44000, 110)
