"""What is told of a height beside its bound."""

import pytest

from solver.better import PROVEN_MM, _height_level
from solver.bound import Bound


@pytest.mark.parametrize(("bound_mm", "state"), [(799.9, "found"), (800 - PROVEN_MM / 2, "proven"), (None, "found")])
def test_a_height_near_its_bound_is_proven(bound_mm, state):
    assert _height_level(800.0, Bound(bound_mm)).state == state


def test_a_bound_that_rounding_puts_above_the_height_is_the_height():
    found = _height_level(800.0, Bound(800 + PROVEN_MM / 2))
    assert (found.bound, found.state) == (800.0, "proven")


def test_a_layout_below_its_bound_is_our_own_fault():
    with pytest.raises(AssertionError, match=r"800\.000 mm was found below its bound of 800\.010 mm"):
        _height_level(800.0, Bound(800 + 2 * PROVEN_MM))
