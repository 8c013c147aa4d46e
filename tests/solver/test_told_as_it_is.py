"""What is said of a plan, of what stays at home and of what stands in the way is no more than what was found."""

from random import Random

import pytest

from solver import SILENT, Options, Status, propose
from solver.choose import Terms, take
from solver.clock import Clock
from solver.insert import put
from solver.state import State

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")
QUICK = Options(effort=0.02, seconds=600.0)


def test_one_more_thing_comes_where_only_another_place_than_the_lowest_holds_all(tiny):
    # Both shelves take it; on the lower one, right of the middle, the sides would differ too much.
    tiny.space("lower right", (2000, 500, 500), size_mm=[400, 200, 200])
    tiny.space("higher middle", (2000, -100, 900), size_mm=[400, 200, 200])
    tiny.thing("anvil", 60, carry=50)
    tiny.vehicle["limits"]["side_difference_share"] = 0.01
    problem = tiny.problem()
    state, anvil = State(problem), problem.pieces[0]
    alone = state.copy()
    assert put(alone, anvil)
    assert alone.at[0].room == problem.room_of["lower right"]
    free_places_only = Terms(1e9, Random(0), Clock(600, SILENT), 0.0)  # noqa: S311
    found = take(state, [], [anvil], free_places_only)
    assert isinstance(found, State)
    assert found.at[0].room == problem.room_of["higher middle"]


def test_a_corner_in_a_wheel_arch_is_told_as_that(tiny):
    tiny.space("bay", size_mm=[1300, 1200, 900], solid=[{"corner_mm": [2100, 0, 500], "size_mm": [400, 200, 300]}])
    tiny.thing("tent", carry="must", size_mm=[900, 220, 220])
    tiny.trip["locks"] = [{"thing": "tent", "in": "bay", "at_mm": [2000, 0, 500]}]
    found = propose(tiny.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert "at [2000, 0, 500] in bay it does not lie within the walls, or meets what is fixed" in found.conflict.says[1]
    assert [demand.kind for demand in found.conflict.demands] == ["lock"]


def test_where_nothing_drives_no_height_keeps_anything_at_home(pair):
    pair.thing("tall", size_mm=[200, 200, 400], carry=5)
    pair.vehicle["spaces"][0]["size_mm"] = [400, 400, 200]
    pair.trip["choose_within_mm"] = 0
    assert propose(pair.case(), QUICK).plan is not None
    pair.trip["stages"][0]["surface"] = "parked"
    found = propose(pair.case(), QUICK)
    assert found.plan is not None
    assert "tall" in {place.thing for place in found.plan.placements}
