"""The assignment part of small trips, solved again by a general-purpose solver: same height, same impossibility."""

import pytest

from benchmarks.assignment import Bars, bars_by_chance, case_of, second_opinion_mm
from benchmarks.second_opinion import verdict
from solver import Options, Status, propose
from tests.chances import seeds

pytestmark = pytest.mark.usefixtures("no_ways_out")


@pytest.mark.parametrize("nth", seeds(1, of=8))
def test_the_two_opinions_agree(nth):
    found = [verdict(seed) for seed in range(3 * nth, 3 * nth + 3)]
    assert [one for one in found if one.startswith(("disagree", "the second"))] == []
    assert any(one.startswith("same height") for one in found)


def test_a_trip_worked_by_hand():
    # Two bars of 500 mm; the low shelf holds one: the heavy one belongs there.
    bars = Bars((500, 500), (30.0, 10.0), (0.0, 0.0), (500, 500), (500, 900), (50.0, 50.0), 500.0)
    by_hand = (2000 * 700 + 30 * 600 + 10 * 1000) / 2040
    height_mm, proven = second_opinion_mm(bars)
    assert height_mm == pytest.approx(by_hand)
    assert proven
    proposal = propose(case_of(bars), Options(effort=0.1, seconds=600))
    assert proposal.height is not None
    assert proposal.height.value == pytest.approx(by_hand)


def test_both_say_when_there_is_none():
    bars = Bars((500, 500), (30.0, 10.0), (0.0, 0.0), (900, 400), (500, 900), (50.0, 50.0), 500.0)
    assert second_opinion_mm(bars) == (None, True)
    assert propose(case_of(bars), Options(effort=0.1, seconds=600)).status != Status.FOUND


def test_a_small_trip_has_between_four_and_nine_bars():
    assert {len(bars_by_chance(seed).length_mm) for seed in range(60)} <= set(range(4, 10))


@pytest.mark.long
def test_some_of_the_small_trips_have_no_answer():
    # So that the two opinions are compared on what cannot be, too.
    answers = [second_opinion_mm(bars_by_chance(seed))[0] for seed in range(40)]
    assert 4 <= answers.count(None) <= 16
