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
