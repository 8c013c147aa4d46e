"""Ten statements of statics that hold for any load: nothing is compared with a figure, only with itself, moved."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import verifier
from verifier import PointMass, total_kg

axle_loads: Any = verifier.axle_loads
centre: Any = verifier.centre
moment_kg_mm: Any = verifier.moment_kg_mm
"""Every place is known in these examples, so no sum is unknown."""

LENGTH = 3000.0
PLACE = st.integers(-2000, 6000).map(float)
POINT: st.SearchStrategy[Any] = st.builds(
    PointMass, st.integers(1, 500).map(float), PLACE, st.integers(-900, 900).map(float), PLACE
)
LOADS: st.SearchStrategy[Any] = st.lists(POINT, min_size=1, max_size=8).map(tuple)
CLOSE: dict[str, Any] = {"rel": 1e-9, "abs": 1e-6}


def moved(point: PointMass, **to: float) -> PointMass:
    return point._replace(**to)


@given(LOADS, st.integers(0, 300), st.integers(100, 2000))
def test_1_front_and_rear_carry_all(loads, ball, behind):
    assert sum(axle_loads(loads, LENGTH, ball, behind)) == pytest.approx(total_kg(loads) + ball, **CLOSE)


@given(LOADS, st.integers(-3000, 3000))
def test_2_another_datum_moves_x_and_no_load(loads, d):
    shifted = tuple(moved(p, x_mm=p.x_mm + d) for p in loads)
    assert centre(shifted)[0] == pytest.approx(centre(loads)[0] + d, **CLOSE)
    # Measured from the new datum, the front axle stands at d: lever arms and loads are as before.
    rear = (moment_kg_mm(shifted, "x_mm") - total_kg(shifted) * d) / LENGTH
    assert rear == pytest.approx(axle_loads(loads, LENGTH).rear_kg, **CLOSE)


@given(LOADS, st.randoms(use_true_random=False))
def test_3_order_has_no_effect(loads, random):
    shuffled = list(loads)
    random.shuffle(shuffled)
    assert centre(shuffled) == pytest.approx(centre(loads), **CLOSE)
    assert axle_loads(shuffled, LENGTH) == pytest.approx(axle_loads(loads, LENGTH), **CLOSE)


@given(LOADS, POINT)
def test_4_over_the_rear_axle_adds_nothing_to_the_front(loads, point):
    more = (*loads, moved(point, x_mm=LENGTH))
    assert axle_loads(more, LENGTH).front_kg == pytest.approx(axle_loads(loads, LENGTH).front_kg, **CLOSE)


@given(LOADS, POINT, st.integers(1, 3000))
def test_5_beyond_an_axle_the_other_is_relieved(loads, point, beyond):
    before = axle_loads(loads, LENGTH)
    assert axle_loads((*loads, moved(point, x_mm=LENGTH + beyond)), LENGTH).front_kg < before.front_kg
    assert axle_loads((*loads, moved(point, x_mm=float(-beyond))), LENGTH).rear_kg < before.rear_kg


@given(LOADS, st.integers(1, 500))
def test_6_a_thing_at_the_centre_leaves_the_centre(loads, mass):
    here = centre(loads)
    assert centre((*loads, PointMass(mass, *here))) == pytest.approx(here, **CLOSE)


@given(LOADS, POINT)
def test_7_splitting_a_thing_changes_nothing(loads, point):
    half = point._replace(mass_kg=point.mass_kg / 2)
    assert centre((*loads, half, half)) == pytest.approx(centre((*loads, point)), **CLOSE)


@given(LOADS, POINT, POINT)
def test_8_swapping_equal_masses_changes_nothing(loads, one, other):
    twin = other._replace(mass_kg=one.mass_kg)
    swapped = (moved(one, x_mm=twin.x_mm, z_mm=twin.z_mm), moved(twin, x_mm=one.x_mm, z_mm=one.z_mm))
    assert centre((*loads, *swapped))[0] == pytest.approx(centre((*loads, one, twin))[0], **CLOSE)
    assert centre((*loads, *swapped))[2] == pytest.approx(centre((*loads, one, twin))[2], **CLOSE)


@given(LOADS)
def test_9_a_mirror_turns_y_alone(loads):
    x, y, z = centre(loads)
    assert centre(tuple(moved(p, y_mm=-p.y_mm) for p in loads)) == pytest.approx((x, -y, z), **CLOSE)


@given(LOADS, POINT, st.integers(-500, 500))
def test_10_raising_a_thing_raises_the_centre_by_its_share(loads, point, dz):
    before, after = (*loads, point), (*loads, moved(point, z_mm=point.z_mm + dz))
    assert centre(after)[2] == pytest.approx(centre(before)[2] + point.mass_kg * dz / total_kg(before), **CLOSE)
    assert axle_loads(after, LENGTH) == axle_loads(before, LENGTH)
