"""Nothing comes to lie under what it cannot bear."""

import pytest

from solver import Options, propose
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def test_a_soft_bag_is_not_slid_under_a_board_that_reaches_over_it(tiny):
    tiny.space("bay", size_mm=[400, 200, 320])
    tiny.thing("anvil", 20, carry="must")
    tiny.thing("board", 10, size_mm=[280, 200, 100], carry="must")
    tiny.thing("bag", 3, shape="soft", carry="must")
    case = tiny.case()
    found = propose(case, Options(effort=0.02, seconds=600))
    assert found.plan is None or not check(case, found.plan).broken
