"""Where not the whole reserve can be kept, as much as what has to come leaves is kept, and optional things go first."""

import pytest

from models.case import Copy
from models.reading import case_from
from solver import Level, Options, Proposal, Status, propose, revise
from solver.near import NearPlan
from solver.repack import score
from solver.state import State
from solver.trying import Trial
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600.0)


@pytest.fixture
def full(pair):
    """Musts that leave 10 kg of the total, and an optional thing of 5 kg."""
    pair.thing("chair", 5, carry=90)
    pair.vehicle["limits"]["gvm_kg"] = 2030
    pair.trip["reserve_kg"] = 15
    return pair


def kept_kg(found: Proposal) -> float | None:
    assert found.plan is not None
    return found.plan.reserve_kept_kg


def level(found: Proposal) -> Level:
    return next(one for one in found.levels if one.name == "reserve kept")


def test_suggest_keeps_what_the_musts_leave_and_lets_no_optional_thing_take_it(full):
    found = propose(full.case(), QUICK)
    assert found.reserve_given_up
    assert found.plan is not None
    assert kept_kg(found) == 10
    assert level(found) == Level("reserve kept", 10, 10, "kg", "proven")
    assert "10 kg of reserve kept" in found.home_reasons[Copy("chair", 1)]
    assert check(full.case(), found.plan).holds is True


@pytest.mark.parametrize(("kg", "given_up"), [(10, False), (10.1, True)])
def test_where_the_trip_gives_none_the_rule_book_s_is_kept(full, kg, given_up):
    del full.trip["reserve_kg"]
    book = {"reserve_kg": {"value": kg, "source": "our club"}}
    case = case_from(full.vehicle, full.things, full.trip, book)
    found = propose(case, QUICK)
    assert (kept_kg(found), found.reserve_given_up) == (10, given_up)
    assert Copy("chair", 1) in found.home_reasons
    assert found.plan is not None
    assert check(case, found.plan).holds is True


def test_a_reserve_of_0_is_one(full):
    full.trip["reserve_kg"] = 0
    found = propose(case_from(full.vehicle, full.things, full.trip), QUICK)
    assert (kept_kg(found), found.home_reasons) == (0, {})


def test_revise_leaves_optional_things_behind_before_the_reserve_goes(full):
    full.vehicle["limits"]["gvm_kg"] = 2050
    before = propose(full.case(), QUICK).plan
    assert before is not None
    assert len(before.placements) == 3
    full.vehicle["limits"]["gvm_kg"] = 2030
    found = revise(full.case(), before, QUICK)
    assert found.proposal.plan is not None
    assert found.left_behind == (Copy("chair", 1),)
    assert found.proposal.reserve_given_up
    assert kept_kg(found.proposal) == 10
    assert level(found.proposal).state == "proven"
    assert check(full.case(), found.proposal.plan).holds is True


def test_nothing_is_kept_where_the_musts_take_all(full):
    full.vehicle["limits"]["gvm_kg"] = 2020
    found = propose(full.case(), QUICK)
    assert kept_kg(found) == 0
    assert level(found).state == "proven"


def test_a_reserve_that_hangs_on_where_things_lie_is_found_and_not_proven(tiny):
    tiny.space("front", (0, 0, 900))
    tiny.space("rear", (3900, 0, 300))
    tiny.thing("chest", 30, size_mm=[400, 400, 400])
    tiny.vehicle["limits"]["rear_axle_kg"] = 950
    tiny.trip["reserve_kg"] = 60
    found = propose(tiny.case(), QUICK)
    assert found.plan is not None
    assert [place.space for place in found.plan.placements] == ["front"]
    assert kept_kg(found) == 48
    assert level(found) == Level("reserve kept", 48, 60, "kg", "found")


def test_what_is_tried_with_a_plan_keeps_as_much_as_the_plan(full):
    plan = propose(full.case(), QUICK).plan
    assert plan is not None
    trial = Trial(full.case(), plan, QUICK)
    assert score(trial.now, trial.wanted, State.height_mm).holds
    assert trial.told(trial.now).reserve_kept_kg == 10
    assert trial.problem.constants.stages[0].total_left_g == 20_000


def stopping(*_: object, **__: object) -> None:
    raise KeyboardInterrupt


def test_who_cuts_in_before_the_first_plan_waits_for_no_search_without_the_reserve(full, monkeypatch):
    begun = []

    def stopped(*_: object, **__: object) -> None:
        begun.append("a search")
        raise KeyboardInterrupt

    monkeypatch.setattr("solver.attempt.first", stopped)
    found = propose(full.case(), QUICK)
    assert (found.plan, found.interrupted, found.reserve_given_up) == (None, True, False)
    assert begun == ["a search"]


def test_who_cuts_in_while_the_reserve_is_sought_has_a_plan_that_claims_none(full, monkeypatch):
    monkeypatch.setattr("solver.attempt.most_kept", stopping)
    found = propose(full.case(), QUICK)
    assert found.interrupted
    assert found.plan is not None
    assert kept_kg(found) == 0
    assert check(full.case(), found.plan).holds is True


def test_who_cuts_in_without_a_plan_waits_for_no_way_out(full, monkeypatch):
    monkeypatch.setattr("solver.attempt.first", stopping)
    monkeypatch.setattr("solver.search.why_none", lambda *_: pytest.fail("ways out are sought"))
    found = propose(full.case(), QUICK)
    assert found.plan is None
    assert found.interrupted


def test_a_reserve_that_is_kept_whole_after_all_is_not_given_up(full, monkeypatch):
    full.vehicle["limits"]["gvm_kg"] = 2050
    before = propose(full.case(), QUICK).plan
    assert before is not None
    # As where the first attempt, with the whole reserve, comes upon nothing.
    search, tried = NearPlan.search, list[NearPlan]()

    def second_only(work: NearPlan) -> State | None:
        tried.append(work)
        return search(work) if len(tried) > 1 else None

    monkeypatch.setattr(NearPlan, "search", second_only)
    found = revise(full.case(), before, QUICK).proposal
    assert len(tried) == 2
    assert kept_kg(found) == 15
    assert not found.reserve_given_up


@pytest.mark.parametrize("size_mm", [400, 200], ids=["too large together", "with room for both"])
def test_what_no_reserve_changes_is_told_before_the_reserve(full, size_mm):
    """The musts are over the total by 5 kg of the reserve; both are locked into one shelf."""
    before = propose(full.case(), QUICK).plan
    assert before is not None
    shelf = full.vehicle["spaces"][0]["name"]
    full.trip["locks"] = [{"thing": "one", "in": shelf}, {"thing": "two", "in": shelf}]
    for thing in full.things[:2]:
        thing["size_mm"] = [size_mm, 200, 200]
    full.vehicle["spaces"][0]["size_mm"] = [400, 200, 200]
    for found in (revise(full.case(), before, QUICK).proposal, propose(full.case(), QUICK)):
        if size_mm == 400:
            assert found.status is Status.IMPOSSIBLE
            assert found.conflict is not None
            assert {one.kind for one in found.conflict.demands} == {"lock"}
            assert found.conflict.ways_out
        else:
            assert kept_kg(found) == 10
