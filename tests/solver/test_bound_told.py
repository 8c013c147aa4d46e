"""What is told of a height beside its bound."""

from types import SimpleNamespace

import pytest

from report.terminal.proof import proof
from solver.better import PROVEN_MM, _height_level
from solver.bound import Bound


@pytest.mark.parametrize(("bound_mm", "state"), [(799.9, "found"), (800 - PROVEN_MM / 2, "proven"), (None, "found")])
def test_a_height_near_its_bound_is_proven(bound_mm, state):
    assert _height_level(800.0, Bound(bound_mm)).state == state


def test_a_bound_that_rounding_puts_above_the_height_is_the_height():
    found = _height_level(800.0, Bound(800 + PROVEN_MM / 2))
    assert (found.bound, found.state) == (800.0, "proven")


def test_a_layout_below_its_bound_is_told_as_our_own_fault_and_is_not_lost(pair):
    level = _height_level(800.0, Bound(800 + 2 * PROVEN_MM))
    assert (level.state, level.value) == ("unknown", 800.0)
    totals = {"leaving": SimpleNamespace(cg_mm=(0.0, 0.0, 800.0))}
    verdict = SimpleNamespace(drives=True, highest_stage="leaving", totals=totals)
    proposal = SimpleNamespace(levels=[level], must_only_height_mm=None)
    told = " ".join(" ".join(proof(pair.case(), verdict, proposal, 80)).split())
    assert "is unknown, as what was worked out as the least, 800.01 mm, is above it: a mistake of lowstow's own" in told
