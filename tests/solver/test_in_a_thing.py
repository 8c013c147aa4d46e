"""What lies in a space that is part of a thing weighs with that thing: in the search as in the verifier."""

from typing import Any

import pytest

from models.case import copy_of
from solver import Conflict, Status, propose
from solver.problem import Problem
from solver.rules import apart, segregation, weather
from tests.chances import some
from tests.solver.conftest import QUICK
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


@pytest.fixture
def crate(tiny):
    """A crate of 30 kg that just goes into the bay, and tools of 40 kg that go into the crate alone."""
    tiny.space("bay", size_mm=[400, 400, 400])
    tiny.space("in the crate", (2050, 50, 550), size_mm=[250, 250, 250], inside_of="crate", limit_kg=40)
    tiny.thing("crate", 30, size_mm=[400, 400, 400])
    tiny.thing("tools", 40)
    return tiny


def space(made: Any, name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(one for one in made.vehicle["spaces"] if one["name"] == name)
    return found


def told(made: Any) -> Conflict | None:
    """The conflict; None where a plan is found, which then holds and has both in their places."""
    case = made.case()
    found = propose(case, QUICK)
    if found.plan is None:
        assert found.status is Status.IMPOSSIBLE
        return found.conflict
    assert check(case, found.plan).holds is True
    assert {copy_of(one).thing: one.space for one in found.plan.placements} == {"crate": "bay", "tools": "in the crate"}
    return None


def rack(made: Any, kg: float) -> None:
    made.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": kg}}]
    space(made, "bay")["on"] = ["roof"]


def bay(made: Any, kg: float) -> None:
    space(made, "bay")["limit_kg"] = kg


def ties(made: Any, kg: float) -> None:
    # Half of what they are rated for counts: 0.8 · 9.81 · kg newtons.
    space(made, "bay").update(holds="tie_downs", tie_downs=[{"rated_dan": 0.8 * 9.81 * kg / 5 + 1e-6}])


def barrier(made: Any, kg: float) -> None:
    made.vehicle["cargo_barrier"] = {"behind_seats": [], "rated_kg": kg, "top_z_mm": 3000}
    space(made, "bay")["holds"] = "barrier"


@pytest.mark.long
@pytest.mark.parametrize("limit", some([bay, ties, rack, barrier], 1))
def test_both_are_within_it(crate, limit):
    limit(crate, 70)
    assert told(crate) is None
    limit(crate, 69)
    assert told(crate) is not None


@pytest.mark.long
def test_a_space_that_is_too_weak_for_both_is_the_limit_that_is_told(crate):
    bay(crate, 60)
    conflict = told(crate)
    assert conflict is not None
    assert ("limit", "space bay") in [(one.kind, one.subject) for one in conflict.demands]
    assert any("of this limit: bay" in way.says for way in conflict.ways_out)


@pytest.mark.long
def test_what_is_under_the_crate_bears_both(crate):
    crate.thing("board", 1, size_mm=[400, 400, 20], bears_kg=70)
    space(crate, "bay")["size_mm"] = [400, 400, 420]
    space(crate, "in the crate")["corner_mm"] = [2050, 50, 570]
    crate.trip["locks"] = [{"thing": "board", "in": "bay", "at_mm": [2000, 0, 500]}]
    case = crate.case()
    assert propose(case, QUICK).plan is not None
    crate.things[-1]["bears_kg"] = 69
    assert propose(crate.case(), QUICK).plan is None


def test_it_goes_into_no_space_that_is_part_of_it(crate):
    space(crate, "in the crate").update(corner_mm=[2000, 0, 500], size_mm=[400, 400, 400])
    problem = Problem(crate.case())
    index = next(piece.index for piece in problem.pieces if piece.thing.name == "crate")
    assert [problem.rooms[room].space.name for room in problem.fits[index]] == ["bay"]


@pytest.mark.parametrize(
    ("rule", "tools", "bread", "trip"),
    [
        (segregation, {"hazard": "corrosive"}, {"food": True}, {}),
        (weather, {"wet": True}, {"weather": "dry"}, {}),
        (apart, {}, {}, {"apart": [["tools", "bread"]]}),
    ],
)
def test_what_is_in_the_crate_is_in_the_space_around_it(crate, rule, tools, bread, trip):
    space(crate, "bay")["size_mm"] = [800, 400, 400]
    crate.space("box", (2900, 0, 500))
    crate.things[1] |= tools
    crate.thing("bread", **bread)
    crate.trip |= trip
    inside = {"crate": ("bay", (2000, 0, 500)), "tools": "in the crate"}
    assert crate.allows(rule.add, places=inside | {"bread": "box"})
    assert not crate.allows(rule.add, places=inside | {"bread": "bay"})
    case = crate.case()
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert check(case, plan).holds is True


@pytest.fixture
def twice(tiny):
    """In the bay a crate of 30 kg, in that a box of 10 kg, and in the box tools of 40 kg: each just fits."""
    tiny.space("bay", size_mm=[400, 400, 400])
    part = {"opening": "tailgate"}
    tiny.space("in the crate", (2010, 10, 510), size_mm=[380] * 3, inside_of="crate", accepts=["box"], **part)
    tiny.space("in the box", (2020, 20, 520), size_mm=[350] * 3, inside_of="box", accepts=["tools"], **part)
    tiny.thing("crate", 30, size_mm=[400] * 3)
    tiny.thing("box", 10, size_mm=[380] * 3, holder="box")
    tiny.thing("tools", 40, holder="tools")
    return tiny


@pytest.mark.parametrize("limit", some([barrier, bay, ties, rack], 1))
def test_in_a_thing_in_a_thing_too(twice, limit):
    limit(twice, 80)
    found = propose(twice.case(), QUICK)
    assert found.plan is not None
    assert check(twice.case(), found.plan).holds is True
    limit(twice, 79)
    assert propose(twice.case(), QUICK).plan is None


def test_ties_of_one_thing_hold_all_that_is_in_it(twice):
    ties(twice, 80)
    space(twice, "bay")["holds"] = "enclosed"
    twice.things[0]["tied"] = True
    assert propose(twice.case(), QUICK).plan is not None
    ties(twice, 79)
    space(twice, "bay")["holds"] = "enclosed"
    assert propose(twice.case(), QUICK).plan is None


def test_a_barrier_asks_for_what_is_in_the_crate_and_not_for_what_may_be(crate):
    barrier(crate, 60)
    crate.things[1]["mass_kg"] = 5
    crate.space("box", (2900, 0, 500))
    crate.thing("weight", 40)
    crate.trip["locks"] = [{"thing": "tools", "in": "in the crate"}]
    found = propose(crate.case(), QUICK)
    assert found.plan is not None
    assert check(crate.case(), found.plan).holds is True


def test_of_two_crates_for_one_place_the_one_at_home_has_no_limits(crate):
    crate.thing("other crate", 30, size_mm=[400, 400, 400], carry=50)
    weak = {"size_mm": [380, 380, 380], "inside_of": "other crate", "limit_kg": 5}
    crate.space("in the other crate", (2010, 10, 510), **weak)
    assert told(crate) is None


def test_what_is_kept_out_of_a_space_is_not_in_a_thing_that_lies_there(crate):
    crate.trip["locks"] = [{"thing": "crate", "not_in": "in the crate"}]
    assert told(crate) is None
    crate.trip["locks"] = [{"thing": "tools", "not_in": "bay"}]
    assert told(crate) is not None
    crate.space("nook", (3000, 0, 500), size_mm=[400, 400, 400], accepts=["small"])
    crate.things[1]["suits"] = ["small"]
    case = crate.case()
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert {copy_of(one).thing: one.space for one in plan.placements} == {"crate": "bay", "tools": "nook"}
    assert check(case, plan).holds is True


@pytest.mark.parametrize(("tool_kg", "held"), [(0.4, True), (0.401, False)])
def test_a_soft_bag_that_lies_loose_weighs_with_what_is_in_it(crate, tool_kg, held):
    space(crate, "bay").update(holds="none", air="cabin")
    crate.vehicle["seats"][0]["back_top_z_mm"] = 3000
    crate.things[0] |= {"mass_kg": 0.6, "shape": "soft"}
    crate.things[1]["mass_kg"] = tool_kg
    case = crate.case()
    plan = propose(case, QUICK).plan
    assert (plan is not None) is held
    assert plan is None or check(case, plan).holds is True
