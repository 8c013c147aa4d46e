"""Soft things by their volume: what holds it to the last cubic millimetre will do."""

import pytest

from models.case import Copy
from solver import Options, Status, propose
from solver.soft import soft_mm3
from verifier import check
from verifier.alone import broken_in

QUICK = Options(effort=0.02, seconds=600.0)

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_out")


@pytest.fixture
def bag(tiny):
    """A bag of 4.03 L, which are 4030000.0000000005 mm3 to the machine, and a space of as much."""
    tiny.space("low", (2000, 0, 500), size_mm=[130, 155, 200])
    tiny.thing("bag", 1, size_mm=None, shape="soft", volume_l=4.03)
    return tiny


def test_it_goes_into_a_space_that_it_just_fills(bag):
    case = bag.case()
    assert soft_mm3(case.thing_named["bag"]) == 130 * 155 * 200
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert broken_in(case, plan, Copy("bag", 1), "low") == ()
    assert check(case, plan).holds is True
    assert plan.placements[0].size_mm == (130, 155, 200)


def test_into_one_a_millimetre_lower_it_does_not_go_and_is_told_by_what(bag):
    bag.vehicle["spaces"][0]["size_mm"] = [130, 155, 199]
    found = propose(bag.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert "seat back" not in " ".join(found.conflict.says)
