"""A plan in hand that holds is kept, also where the search asks more of a plan than the rules do."""

from typing import Any

import pytest

from models.case import Copy
from models.plan import Plan
from solver import Options, Status, as_it_is, revise
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_told")

QUICK = Options(effort=0.02, seconds=600.0)


def lies(thing: str, space: str, corner: list[int], size: list[int], copy: int = 1) -> dict[str, Any]:
    """A copy as it is listed, at a corner in mm."""
    return {"thing": thing, "copy": copy, "space": space, "corner_mm": corner, "size_mm": size, "turn": "lwh"}


def plan_of(made: Any, *placements: dict[str, Any], holds: bool = True) -> Plan:
    """A plan by hand, what it does not place left at home."""
    here = {(one["thing"], one["copy"]) for one in placements}
    home = [{"thing": c.thing, "copy": c.number} for c in made.case().copies if (c.thing, c.number) not in here]
    plan = Plan.model_validate({"trip": "t", "placements": list(placements), "left_at_home": home})
    told = [one.says for one in check(made.case(), plan).findings if one.holds is not True]
    assert (not told) is holds, told
    return plan


def kept(made: Any, plan: Plan) -> bool:
    """Whether a search finds a plan in hand with nothing to be done."""
    found = revise(made.case(), plan, QUICK)
    assert found.proposal.plan is not None
    assert check(made.case(), found.proposal.plan).holds is True
    return not (found.moves.moves or found.left_behind or found.added)


CHEST, BOARD = [400, 400, 400], [700, 400, 100]


@pytest.fixture
def drawer(tiny):
    """A chest that need not come has a drawer that would go as far as 2700 mm; a board may lie in its way."""
    tiny.space("bay", size_mm=[1100, 400, 400])
    tiny.space("drawer", (2010, 10, 510), size_mm=[290, 290, 290], inside_of="chest", slides={"to": "rear", "mm": 400})
    tiny.thing("chest", size_mm=CHEST, carry=1)
    tiny.thing("board", size_mm=BOARD)
    return tiny


@pytest.mark.parametrize("x", [2000, 2300, 2400])
def test_the_drawer_of_a_thing_left_at_home_keeps_nothing_free(drawer, x):
    assert kept(drawer, plan_of(drawer, lies("board", "bay", [x, 0, 500], BOARD)))


def test_a_lock_on_what_lies_in_the_way_of_a_drawer_left_at_home_is_kept(drawer):
    drawer.trip["locks"] = [{"thing": "board", "in": "bay", "at_mm": [2300, 0, 500]}]
    assert kept(drawer, plan_of(drawer, lies("board", "bay", [2300, 0, 500], BOARD)))


def test_the_drawer_of_a_thing_that_has_to_come_since_keeps_its_way_free(drawer):
    drawer.vehicle["spaces"][0]["size_mm"][0] = 1400
    plan = plan_of(drawer, lies("board", "bay", [2000, 0, 500], BOARD))
    drawer.things[0]["carry"] = "must"
    drawer.thing("spoons", size_mm=[100] * 3)
    drawer.trip["locks"] = [{"thing": "spoons", "in": "drawer"}]
    assert not kept(drawer, plan)


FIRE, BOX = {"needed_when": ["fire"]}, [220, 220, 150]


@pytest.fixture
def blankets(tiny):
    """Something for a fire at a belted seat and outside, and a third under a box in the bay."""
    tiny.space("belt", (1400, 0, 500), opening="door", air="cabin", in_reach_when=["belted driver"])
    tiny.space("rear", (3000, 0, 500))
    tiny.space("bay", face="top")
    tiny.thing("blanket", count=3, **FIRE)
    tiny.thing("box", size_mm=BOX)
    return tiny


def laid(made: Any, *more: dict[str, Any], box: bool = True, holds: bool = True) -> Plan:
    """The blanket in the bay, under the box or not, and others."""
    here = [lies("box", "bay", [2100, 100, 700], BOX)] if box else []
    return plan_of(made, lies("blanket", "bay", [2100, 100, 500], [200] * 3, 3), *here, *more, holds=holds)


def test_what_is_for_a_fire_may_lie_under_things_where_others_are_in_hand(blankets):
    belt = lies("blanket", "belt", [1400, 0, 500], [200] * 3)
    assert kept(blankets, laid(blankets, belt, lies("blanket", "rear", [3000, 0, 500], [200] * 3, 2)))


def test_it_is_dug_out_where_the_others_do_not_do(blankets):
    belt = [lies("blanket", "belt", [1400 + 200 * n, 0, 500], [200] * 3, n + 1) for n in range(2)]
    assert not kept(blankets, laid(blankets, *belt, holds=False))


def test_another_of_them_takes_no_place_that_counts_on_the_one_under_things(blankets):
    # The rear is locked to the box now: of the blankets, the buried one comes out, or another goes where it is in hand.
    belt = lies("blanket", "belt", [1400, 0, 500], [200] * 3)
    plan = laid(blankets, belt, lies("blanket", "rear", [3000, 0, 500], [200] * 3, 2))
    blankets.trip["locks"] = [{"thing": "box", "in": "rear"}]
    assert not kept(blankets, plan)


def test_a_plan_in_hand_is_given_as_it_is_with_what_it_comes_to(drawer):
    plan = plan_of(drawer, lies("board", "bay", [2300, 0, 500], BOARD))
    found = as_it_is(drawer.case(), plan)
    same = found.proposal.plan
    assert same is not None
    assert (found.proposal.status, found.moves.moves) == (Status.FOUND, ())
    assert same.placements == plan.placements
    assert [Copy(one.thing, one.copy_number) for one in same.left_at_home] == [Copy("chest", 1)]
    told = check(drawer.case(), same)
    assert told.holds is True
    assert told.claims_off == ()
    assert same.claims.cg_height_mm
