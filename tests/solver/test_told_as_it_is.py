"""What is said of a plan, of what stays at home and of what stands in the way is no more than what was found."""

from random import Random

import pytest

from models.trip import Lock
from solver import SILENT, Options, Status, propose
from solver.asking import Asked
from solver.choose import Terms, take
from solver.clock import Clock
from solver.insert import put
from solver.members import unrelated
from solver.plain import plain_conflict
from solver.state import State
from solver.wording import lock_demand

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


@pytest.fixture
def lifted(tiny):
    """A tent locked so high above the floor, which is at 500, that a box of 100 mm just goes under it."""
    tiny.space("bay", size_mm=[1300, 1200, 900])
    tiny.thing("tent", carry="must", size_mm=[220, 220, 220])
    tiny.thing("box", carry="must", size_mm=[400, 400, 100], bears_kg=50)
    tiny.trip["locks"] = [{"thing": "tent", "in": "bay", "at_mm": [2100, 0, 600]}]
    return tiny


def test_a_corner_under_which_something_can_lie_is_no_broken_rule(lifted):
    assert propose(lifted.case(), QUICK).plan is not None


def test_a_corner_under_which_nothing_can_lie_breaks_a_rule_by_itself(lifted):
    lifted.trip["locks"][0]["at_mm"][2] = 599
    found = propose(lifted.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert found.conflict.says == (
        "tent is locked in bay at its corner [2100, 0, 599]: by itself this lock breaks a rule.",
        (
            "support: at [2100, 0, 599] in bay it is 99 mm above the floor, which is at 500, and nothing else on the "
            "list is less than 100 mm in any turn, so that none lies under it."
        ),
    )
    assert [way.says for way in found.conflict.ways_out] == [
        "Without this lock: tent is locked in bay at its corner [2100, 0, 599]."
    ]


@pytest.mark.parametrize(("z", "refused"), [(579, True), (580, False)])
def test_under_a_corner_a_soft_thing_may_be_as_low_as_its_least_side(lifted, z, refused):
    lifted.thing("clothes", size_mm=None, volume_l=20, shape="soft")
    lifted.trip["locks"][0]["at_mm"][2] = z
    assert (plain_conflict(lifted.problem()) is not None) is refused


def test_a_corner_level_with_the_floor_or_with_what_is_fixed_there_needs_nothing_under_it(lifted):
    lifted.things.pop()
    for z, refused in ((500, False), (560, True), (600, True)):
        lifted.trip["locks"][0]["at_mm"][2] = z
        assert (plain_conflict(lifted.problem()) is not None) is refused
    lifted.vehicle["spaces"][-1]["solid"] = [{"corner_mm": [2100, 0, 500], "size_mm": [400, 400, 60]}]
    lifted.trip["locks"][0]["at_mm"][2] = 560
    assert plain_conflict(lifted.problem()) is None


def test_another_copy_may_lie_under_a_corner(lifted):
    lifted.things.pop()
    lifted.trip["locks"][0]["at_mm"][2] = 720
    assert plain_conflict(lifted.problem()) is not None
    lifted.things[0]["count"] = 2
    lifted.trip["locks"][0]["copy"] = 1
    assert plain_conflict(lifted.problem()) is None


def test_two_locks_that_each_break_a_rule_are_both_explained_and_not_told_as_a_clash(lifted):
    lifted.trip["locks"][0]["at_mm"][2] = 599
    lifted.space("slot", (2000, -500, 500), size_mm=[300, 300, 300])
    lifted.trip["locks"].append({"thing": "box", "in": "slot"})
    conflict = propose(lifted.case(), QUICK).conflict
    assert conflict is not None
    assert [one for one in conflict.says if "by itself this lock breaks a rule" in one] == [
        "tent is locked in bay at its corner [2100, 0, 599]: by itself this lock breaks a rule.",
        "box is locked in slot: by itself this lock breaks a rule.",
    ]
    (member,) = conflict.demands
    assert member.says.endswith(
        "tent is locked in bay at its corner [2100, 0, 599]; box is locked in slot (each breaks a rule by itself)"
    )
    # Of two that clash in a space, or of which one is lawful, it is not said.
    asked = Asked(lifted.case(), (), True, None)
    lawful = Lock.model_validate({"thing": "box", "in": "bay"})
    both = lock_demand(asked.every_lock[0], lawful)
    assert unrelated(asked, both) == both


def test_where_nothing_drives_no_height_keeps_anything_at_home(pair):
    pair.thing("tall", size_mm=[200, 200, 400], carry=5)
    pair.vehicle["spaces"][0]["size_mm"] = [400, 400, 200]
    pair.trip["choose_within_mm"] = 0
    assert propose(pair.case(), QUICK).plan is not None
    pair.trip["stages"][0]["surface"] = "parked"
    found = propose(pair.case(), QUICK)
    assert found.plan is not None
    assert "tall" in {place.thing for place in found.plan.placements}
