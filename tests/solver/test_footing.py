"""What a lock keeps at a corner stands on something in every layout, whoever makes it."""

from typing import Any

import pytest

from benchmarks.generate import Wanted, made_case
from models.case import Copy, copy_of
from models.plan import Plan
from models.trip import Lock
from solver import Options, propose, revise, why_not
from solver.contrast import Explanation
from solver.footing import floating, held
from solver.plans import from_plan
from tests.solver.test_explain import plan_at, row_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600)


def lock(thing: str, space: str, corner: tuple[int, int, int] | None = None) -> Lock:
    asked: dict[str, Any] = {"thing": thing, "copy": 1, "in": space}
    return Lock.model_validate(asked if corner is None else {**asked, "at_mm": corner})


TOP = lock("top", "bay", (2000, 0, 700))
STACKED = {"base": ("bay", (2000, 0, 500)), "top": ("bay", (2000, 0, 700))}


@pytest.fixture
def stack(tiny):
    """Two cubes on each other in a room without more space, and a lower room beside it."""
    tiny.space("bay", size_mm=[200, 200, 400])
    tiny.space("aside", (2600, 0, 400))
    tiny.thing("base", mass_kg=20, bears_kg=50)
    tiny.thing("top", mass_kg=5)
    return tiny


def holds(stack, plan: Plan | None) -> bool:
    assert plan is not None
    return check(stack.case(), plan).holds is True


def spaces(plan: Plan | None) -> dict[str, str]:
    assert plan is not None
    return {place.thing: place.space for place in plan.placements}


def test_what_a_locked_thing_stands_on_stays(stack):
    case, plan = stack.case(), plan_at(**STACKED)
    found = propose(case, QUICK, locks=(TOP,), before=plan)
    assert spaces(found.plan) == {"base": "bay", "top": "bay"}
    assert holds(stack, found.plan)


def test_something_is_put_under_a_thing_that_the_trip_locks_up_in_the_air(stack):
    stack.trip["locks"] = [{"thing": "top", "copy": 1, "in": "bay", "at_mm": [2000, 0, 700]}]
    found = propose(stack.case(), QUICK)
    assert spaces(found.plan) == {"base": "bay", "top": "bay"}
    assert holds(stack, found.plan)


def test_no_plan_has_a_thing_in_the_air(stack):
    # A strip just goes under it, and is too small to bear it; without it this is seen before any search.
    stack.thing("strip", 1, carry=1, size_mm=[150, 150, 150])
    stack.trip["locks"] = [{"thing": "top", "copy": 1, "in": "bay", "at_mm": [2000, 0, 650]}]
    found = propose(stack.case(), QUICK)
    assert (found.status, found.plan) == ("not found", None)
    assert any("leaves too little under top" in says for says in found.closest)
    assert found.conflict is not None
    assert [way.plan is not None for way in found.conflict.ways_out] == [True]


def test_what_a_locked_thing_stands_on_cannot_be_locked_elsewhere(stack):
    case = stack.case()
    found = revise(case, plan_at(**STACKED), QUICK, extra_locks=(TOP, lock("base", "aside")))
    assert found.proposal.plan is None


def explained(stack, name: str) -> Explanation:
    plan = plan_at(**STACKED).model_copy(update={"locks": (TOP,)})
    return why_not(stack.case(), plan, Copy(name, 1), QUICK)


def test_no_part_of_a_stack_under_a_lock_is_left_in_the_air(tiny):
    tiny.space("bay", size_mm=[200, 200, 600])
    tiny.space("aside", (2600, 0, 400))
    tiny.thing("base", mass_kg=20, bears_kg=90)
    tiny.thing("middle", mass_kg=10, bears_kg=50)
    tiny.thing("top", mass_kg=5)
    stacked = {name: ("bay", (2000, 0, 500 + 200 * n)) for n, name in enumerate(("base", "middle", "top"))}
    top = lock("top", "bay", (2000, 0, 900))
    plan = plan_at(**stacked).model_copy(update={"locks": (top,)})
    assert row_of(why_not(tiny.case(), plan, Copy("base", 1), QUICK), "aside").kind == "none found"
    found = revise(tiny.case(), plan_at(**stacked), QUICK, extra_locks=(top, lock("base", "aside")))
    assert found.proposal.plan is None


def test_it_is_told_what_would_be_left_in_the_air(stack):
    row = row_of(explained(stack, "base"), "aside")
    assert (row.kind, row.plan) == ("none found", None)
    assert [says for _, says in row.rules] == [
        "top, which stays where it is for a lock, would have too little under it"
    ]


@pytest.mark.long
def test_another_thing_under_it_sets_the_first_free(stack):
    stack.thing("stool", mass_kg=3, bears_kg=50)
    stack.space("shelf", (3200, 0, 600))
    plan = plan_at(**STACKED, stool=("shelf", (3200, 0, 600))).model_copy(update={"locks": (TOP,)})
    row = row_of(why_not(stack.case(), plan, Copy("base", 1), Options(effort=1, seconds=600)), "aside")
    assert spaces(row.plan) == {"base": "aside", "stool": "bay", "top": "bay"}
    assert holds(stack, row.plan)


def test_two_locks_at_corners_that_a_room_cannot_bear_give_no_plan(tiny):
    tiny.space("bay", size_mm=[400, 200, 200], limit_kg=25)
    tiny.space("aside", (2600, 0, 400), size_mm=[400, 200, 200])
    tiny.thing("one", mass_kg=15)
    tiny.thing("other", mass_kg=15)
    both = (lock("one", "bay", (2000, 0, 500)), lock("other", "bay", (2200, 0, 500)))
    assert propose(tiny.case(), QUICK, locks=both).plan is None
    assert propose(tiny.case(), QUICK, locks=both[:1]).plan is not None


def test_a_locked_load_is_not_kept_on_what_bears_less_now(stack):
    stack.things[0]["bears_kg"] = 3
    found = propose(stack.case(), QUICK, locks=(TOP,), before=plan_at(**STACKED))
    assert found.plan is None


def test_held_is_the_whole_stack_and_the_thing_that_the_room_is_part_of(tiny):
    tiny.space("bay", size_mm=[600, 400, 800])
    tiny.space("in the tent", (2100, 0, 620), size_mm=[300, 200, 400], inside_of="tent")
    tiny.thing("table", size_mm=[600, 400, 100], bears_kg=200)
    tiny.thing("tent", size_mm=[600, 400, 600])
    tiny.thing("lamp", mass_kg=1)
    tiny.thing("mug", mass_kg=1, size_mm=[50, 50, 50])
    case = tiny.case()
    found = propose(case, QUICK, locks=(lock("lamp", "in the tent", (2100, 0, 620)),))
    assert found.plan is not None
    problem = tiny.problem()
    state = from_plan(problem, found.plan)
    state.locked = frozenset({problem.piece_of[Copy("lamp", 1)]})
    assert {problem.pieces[i].thing.name for i in held(state)} >= {"lamp", "tent"}
    assert floating(state) == []
    assert {copy_of(place) for place in found.plan.placements} == set(case.copies)


@pytest.mark.usefixtures("no_ways_out", "soon_given_up")
@pytest.mark.parametrize("seed", [33, *(pytest.param(seed, marks=pytest.mark.long) for seed in (48, 26, 40))])
def test_on_made_trips_no_plan_leaves_a_locked_thing_in_the_air(seed):
    case = made_case(seed, Wanted(14, 5, 2))
    plan = propose(case, QUICK).plan
    assert plan is not None
    floor = {space.name: space.corner_mm[2] for space in case.vehicle.spaces}
    raised = [place for place in plan.placements if place.corner_mm[2] > floor[place.space]]
    assert raised
    locks = tuple(lock(place.thing, place.space, place.corner_mm) for place in raised[:3] if place.copy_number == 1)
    found = [propose(case, QUICK, locks=locks, before=before).plan for before in (plan, None)]
    assert found[0] is not None
    assert [check(case, one).broken for one in found if one is not None] == [()] * sum(one is not None for one in found)
