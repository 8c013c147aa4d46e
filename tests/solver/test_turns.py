"""A box with two like sides is the same box in two turns: it stays as it was turned, and no search turns it about."""

import pytest

from models.case import Copy
from models.plan import Plan
from models.rules import Rule
from solver import Options, Proposal, Revision, propose, revise
from tests.solver.conftest import Tiny
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound")

QUICK = Options(effort=0.02, seconds=600.0)
TURNED = "hwl"
"""A turn by hand; a search would take `lwh`, which is the same box with another side up."""


@pytest.fixture
def by_hand(tiny: Tiny) -> tuple[Tiny, Plan]:
    """A box with its listed length up, alone in a space that it fills from wall to wall."""
    tiny.space("shelf", size_mm=[200, 300, 400])
    tiny.thing("box", size_mm=[200, 300, 200], turns="any")
    plan = made(propose(tiny.case(), QUICK))
    (place,) = plan.placements
    assert place.turn == "lwh"
    return tiny, plan.model_copy(update={"placements": (place.model_copy(update={"turn": TURNED}),)})


def made(proposal: Proposal) -> Plan:
    assert proposal.plan is not None
    return proposal.plan


def revised(tiny: Tiny, plan: Plan) -> Revision:
    found = revise(tiny.case(), plan, QUICK)
    assert check(tiny.case(), made(found.proposal)).holds is True
    return found


def test_nothing_is_moved_where_nothing_is_new(by_hand):
    tiny, plan = by_hand
    assert check(tiny.case(), plan).holds is True
    found = revised(tiny, plan)
    assert found.moves.moves == ()
    assert made(found.proposal).placements == plan.placements


def test_a_turn_that_it_may_no_longer_have_is_not_kept(by_hand):
    tiny, plan = by_hand
    tiny.things[0]["turns"] = "upright"
    assert revised(tiny, plan).moves.moved == (Copy("box", 1),)


def test_what_has_to_stay_upright_does(by_hand):
    tiny, plan = by_hand
    tiny.things[0] |= {"hazard": "oil", "holds_l": 5}
    assert [finding.rule for finding in check(tiny.case(), plan).broken] == [Rule.HAZARD]
    assert revised(tiny, plan).moves.moved == (Copy("box", 1),)
