"""A thing whose kit stays together is tried elsewhere with its kit."""

import pytest

from models.case import Copy, copy_of
from solver import Options, why_not
from solver.trying import Trial
from tests.solver.test_explain import BESIDE, LOW, PLENTY, plan_at, row_of

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


@pytest.fixture
def kit(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    return pair


def test_a_layout_with_a_thing_elsewhere_has_its_kit_there_too(kit):
    trial = Trial(kit.case(), plan_at(one=LOW, two=BESIDE), PLENTY)
    index, room = trial.problem.piece_of[Copy("one", 1)], trial.problem.room_of["high"]
    state = trial.forced(trial.bound_to(index, [room]), trial.now, index, room)
    assert {it.room for it in state.at.values()} == {room}
    assert len(state.at) == 2


def test_it_needs_no_search_to_be_found(kit):
    found = why_not(kit.case(), plan_at(one=LOW, two=BESIDE), Copy("one", 1), Options(effort=0.01, seconds=600.0))
    row = row_of(found, "high")
    assert row.kind == "could"
    assert row.plan is not None
    assert {copy_of(p): p.space for p in row.plan.placements} == {Copy("one", 1): "high", Copy("two", 1): "high"}


def test_what_is_of_the_kit_and_need_not_be_together_stays(kit):
    del kit.things[1]["together"]
    trial = Trial(kit.case(), plan_at(one=LOW, two=BESIDE), PLENTY)
    index, room = trial.problem.piece_of[Copy("one", 1)], trial.problem.room_of["high"]
    state = trial.forced(trial.bound_to(index, [room]), trial.now, index, room)
    assert state.at[trial.problem.piece_of[Copy("two", 1)]].room == trial.problem.room_of["low"]


def test_a_kit_that_a_lock_keeps_where_it_is_bars_the_other_space(kit):
    kit.trip["locks"] = [{"thing": "two", "in": "low"}]
    found = why_not(kit.case(), plan_at(one=LOW, two=BESIDE), Copy("one", 1), Options(effort=0.01, seconds=600.0))
    assert row_of(found, "high").kind != "could"
