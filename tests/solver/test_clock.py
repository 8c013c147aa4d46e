"""The clock of a search."""

import pytest

from solver.answers import SILENT
from solver.clock import Clock


@pytest.mark.parametrize("share", [0.1, 0.97, 1.0])
def test_no_part_of_a_clock_goes_on_when_the_clock_itself_is_late(share):
    late = Clock(0.0, SILENT)
    assert late.late()
    assert late.part(share).late()
    assert late.part(share).part(share).silent().late()


def test_a_part_of_a_clock_ends_before_it():
    whole = Clock(600.0, SILENT)
    part = whole.part(0.5)
    assert not part.late()
    assert 200.0 < part.left() < 301.0 < whole.left()


def test_that_a_part_cut_in_is_known_to_the_whole_and_to_every_other_part():
    whole = Clock(600.0, SILENT)
    other, part, before = whole.silent(), whole.part(0.0), whole.cut_in
    assert (before, part.late(), whole.cut_in, other.cut_in) == (False, True, True, True)


@pytest.mark.parametrize(("cap_s", "fewest_s", "most_s"), [(0.0, 4.0, 5.0), (600.0, 590.0, 600.0)])
def test_a_clock_that_is_late_may_be_given_some_seconds_and_one_that_is_not_is_as_it_was(cap_s, fewest_s, most_s):
    whole = Clock(cap_s, SILENT)
    longer = whole.at_least(5.0)
    assert not longer.late()
    assert fewest_s <= longer.left() <= most_s
    assert whole.late() is (cap_s == 0.0)
