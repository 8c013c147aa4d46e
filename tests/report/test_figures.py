"""Numbers as people act on them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from report.figures import degrees_per_mm, left, limit, over, seconds, share_beside, told_beside, whole
from verifier.finding import against_least


@pytest.mark.parametrize(("value", "text"), [(0.49, "0"), (0.5, "1"), (2.5, "3"), (-22.4, "-22"), (None, "unknown")])
def test_masses_and_lengths_are_told_to_one(value, text):
    assert whole(value) == text


@pytest.mark.parametrize(("margin", "text"), [(12.99, "12"), (0.0, "0"), (-1e-9, "0")])
def test_what_is_left_is_rounded_down(margin, text):
    assert left(margin, True) == text


@pytest.mark.parametrize(
    ("margin", "text"),
    [
        (-51.2, "over 52"), (-1.0, "over 1"), (-0.3, "over 0.3"), (-0.44, "over 0.5"), (-0.95, "over 1.0"),
        (-0.04, "over 0.04"), (-0.0001, "over less than 0.001"),
    ],
)  # fmt: skip
def test_what_is_broken_never_looks_held_and_is_rounded_up(margin, text):
    assert left(margin, False) == text


@given(st.floats(0.001, 5000))
def test_who_takes_away_what_is_too_much_is_within_the_limit(excess):
    assert float(over(excess)) >= excess - 1e-6


def test_an_unknown_limit_leaves_nobody_knows_what():
    assert left(None, None) == "?"


@pytest.mark.parametrize(("value", "text"), [(3, "3"), (12, "10"), (12.5, "15"), (118, "120"), (float("inf"), "never")])
def test_times_are_told_to_five_seconds(value, text):
    assert seconds(value) == text


def test_a_limit_is_rounded_down():
    assert (limit(2393.8), limit(3200.0), limit(None)) == ("2393", "3200", "unknown")


@pytest.mark.parametrize(
    ("share", "least", "holds", "told"),
    [
        (0.5229, 0.35, True, ("52.2%", "35.0%")),
        (0.403602, 0.4038, False, ("40.36%", "40.38%")),
        (0.4038, 0.4038, True, ("40.38%", "40.38%")),
        (0.403602, 0.41, False, ("40.3%", "41.0%")),
        (0.34999, 0.35, False, ("34.999%", "35.000%")),
        (0.35 - 4e-10, 0.35, False, ("less than 35.000000%", "35.000000%")),
        (0.35 - 3e-10, 0.35, True, ("35.0%", "35.0%")),
    ],
)
def test_a_share_is_rounded_down_and_its_least_told_exactly_as_the_verifier_tells_both(share, least, holds, told):
    assert share_beside(share, least, holds) == told
    assert against_least(share, least) == told


def test_what_a_millimetre_means():
    assert degrees_per_mm(1570, 850) == pytest.approx(0.0336, abs=5e-5)


@pytest.mark.parametrize(
    ("value", "allowed", "holds", "told"),
    [(82.6, 82.9, True, "82"), (82.4, 82.9, True, "82"), (83.6, 83.2, False, "84"), (82.6, None, None, "83")],
)
def test_what_holds_never_looks_broken_beside_its_limit(value, allowed, holds, told):
    assert told_beside(value, allowed, holds) == told
