"""What a changed plan leaves behind is told with what stands against it."""

import pytest

from models.case import Copy
from models.plan import Plan
from solver import Options, Revision, revise
from solver.insert import put_all
from solver.near import NearPlan
from solver.problem import Problem
from solver.state import State
from solver.staying import NO_ROOM
from solver.still_home import reasons_behind

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600.0)


@pytest.fixture
def carried(pair):
    """Two spaces, and two things of 10 kg in them that may stay at home."""
    for thing, worth in zip(pair.things, (20, 60), strict=True):
        thing["carry"] = worth
    return pair


def changed(made) -> Revision:
    places = [
        {"thing": "one", "space": "low", "corner_mm": (2000, 0, 500), "size_mm": (200, 200, 200)},
        {"thing": "two", "space": "high", "corner_mm": (2600, 0, 900), "size_mm": (200, 200, 200)},
    ]
    return revise(made.case(), Plan.model_validate({"trip": "trip.yaml", "placements": places}), QUICK)


def test_more_reserve_is_told_as_the_reason(carried):
    carried.vehicle["limits"]["gvm_kg"] = 2025
    carried.trip["reserve_kg"] = 12
    found = changed(carried)
    assert found.left_behind == (Copy("one", 1),)
    assert found.proposal.home_reasons == {
        Copy("one", 1): "the vehicle with it is 7.0 kg over the total allowed at go, 12 kg of reserve kept"
    }


def test_a_space_that_holds_less_is_told_as_the_reason(carried):
    carried.vehicle["spaces"][1]["limit_kg"] = 5
    carried.vehicle["spaces"][0]["limit_kg"] = 15
    found = changed(carried)
    assert len(found.left_behind) == 1
    (why,) = found.proposal.home_reasons.values()
    assert why == (
        "as the rest lies, it is kept out of every space by the limit of a space, of a rack or of its tie-downs"
    )


def test_where_all_come_nothing_is_told(carried):
    assert changed(carried).proposal.home_reasons == {}


def test_what_a_person_locked_at_home_needs_no_reason(carried):
    carried.trip["locks"] = [{"thing": "one", "at_home": True}]
    found = changed(carried)
    assert found.left_behind == (Copy("one", 1),)
    assert found.proposal.home_reasons == {}


def test_what_no_space_holds_any_more_is_told_so(carried):
    carried.things[0]["size_mm"] = [900, 900, 900]
    assert changed(carried).proposal.home_reasons == {Copy("one", 1): "no space of this vehicle may hold it"}


def test_what_locks_keep_out_of_every_space_is_told_so(carried):
    carried.trip["locks"] = [{"thing": "one", "not_in": "low"}, {"thing": "one", "not_in": "high"}]
    assert changed(carried).proposal.home_reasons == {Copy("one", 1): "its locks leave no space open that may hold it"}


def test_copies_that_come_all_or_none_are_told_together(tiny):
    tiny.space("low")
    tiny.thing("set", count=3, carry=20, all_or_none=True)
    tiny.vehicle["limits"]["gvm_kg"] = 2015
    places = [
        {"thing": "set", "copy": n + 1, "space": "low", "corner_mm": corner, "size_mm": (200, 200, 200)}
        for n, corner in enumerate([(2000, 0, 500), (2200, 0, 500), (2000, 200, 500)])
    ]
    found = revise(tiny.case(), Plan.model_validate({"trip": "trip.yaml", "placements": places}), QUICK)
    says = "the vehicle with all 3 of it is 15.0 kg over the total allowed at go"
    assert found.proposal.home_reasons == {Copy("set", n): says for n in (1, 2, 3)}


def test_what_does_not_come_without_another_is_told_so(carried):
    carried.vehicle["limits"]["gvm_kg"] = 2015
    carried.things[0] |= {"with": ["two"], "mass_kg": 4}
    carried.things[1] |= {"mass_kg": 16}
    found = changed(carried)
    assert found.proposal.home_reasons[Copy("one", 1)] == "it does not come without two"


@pytest.fixture
def hurried(monkeypatch):
    """The clock ends the search where both things are at home, before anything is tried with either of them again."""

    def stopped(self: NearPlan) -> State:
        self.wanted = []
        return self.base.copy()

    monkeypatch.setattr(NearPlan, "_leaving_some", stopped)
    monkeypatch.setattr(NearPlan, "_few_moves", lambda *_: None)
    monkeypatch.setattr("solver.near.again", lambda *_: [])
    monkeypatch.setattr(NearPlan, "proof", lambda _: None)


@pytest.mark.usefixtures("hurried")
def test_what_has_room_when_the_search_is_over_comes(carried):
    found = changed(carried)
    assert (found.left_behind, found.proposal.home_reasons) == ((), {})


@pytest.mark.usefixtures("hurried")
def test_of_what_has_room_when_the_search_is_over_the_most_wanted_comes(carried):
    carried.vehicle["limits"]["gvm_kg"] = 2015
    found = changed(carried)
    assert found.left_behind == (Copy("one", 1),)
    assert "over the total" in found.proposal.home_reasons[Copy("one", 1)]


@pytest.mark.usefixtures("hurried")
def test_what_has_room_comes_with_what_it_does_not_come_without_or_not_at_all(carried):
    carried.things[1]["with"] = ["one"]
    assert changed(carried).left_behind == ()
    carried.vehicle["limits"]["gvm_kg"] = 2015
    assert changed(carried).left_behind == (Copy("two", 1),)


@pytest.mark.parametrize(("cut_short", "end"), [(True, " in the time given"), (False, "")])
def test_that_the_time_was_short_is_told_of_what_found_no_room(carried, cut_short, end):
    for space in carried.vehicle["spaces"]:
        space["size_mm"] = [200, 200, 200]
    carried.thing("three", carry=10)
    problem = Problem(carried.case())
    state = State(problem)
    (left,) = put_all(state, problem.pieces)
    assert reasons_behind(state, {left.copy}, cut_short=cut_short) == {left.copy: f"{NO_ROOM}{end}"}


@pytest.mark.parametrize(("cut_short", "end"), [(True, " in the time given"), (False, "")])
def test_what_the_search_alone_left_is_told_as_not_found_near_the_plan(carried, cut_short, end):
    told = reasons_behind(State(Problem(carried.case())), {Copy("two", 1)}, cut_short=cut_short)
    assert told == {Copy("two", 1): f"no room was found for it near this plan{end}"}
