"""A plan made anew, and one near the plan in hand: the clock never leaves a worse one."""

from importlib import import_module
from typing import Any

import pytest

from models.case import Copy, copy_of, fresh
from models.plan import Plan
from solver import Options, Status, made_anew, propose, revise
from solver.answers import SILENT, Level, Proposal
from solver.asking import Asked
from solver.clock import Clock
from solver.few import back_where_it_was
from solver.going_back import gone_back
from solver.handling import handling_seconds
from solver.near import NearPlan
from solver.plans import from_plan
from solver.problem import Problem
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

REVISE: Any = import_module("solver.revise")
PLENTY = Options(effort=0.02, seconds=600.0)


def placed(*rows: tuple[str, int, str, tuple[int, int, int]]) -> Plan:
    """A plan of cubes of 200 mm: thing, copy, space and corner."""
    cubes = ({"thing": t, "copy": n, "space": s, "corner_mm": c, "size_mm": (200, 200, 200)} for t, n, s, c in rows)
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(cubes)})


def made(found: Proposal) -> Plan:
    assert found.plan is not None
    return found.plan


@pytest.fixture
def shelves(tiny):
    """A low space and a high one, a thing that must come and one that may."""
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.space("high", (2600, 0, 900), size_mm=[400, 200, 200])
    tiny.thing("rope", 10)
    tiny.thing("stove", 5, carry=50)
    tiny.trip["allow_mm"] = 0
    return tiny.case()


BOTH = placed(("rope", 1, "low", (2000, 0, 500)), ("stove", 1, "low", (2200, 0, 500)))
LESS = placed(("rope", 1, "low", (2000, 0, 500)))
HIGHER = placed(("rope", 1, "high", (2600, 0, 900)), ("stove", 1, "low", (2200, 0, 500)))


@pytest.mark.parametrize("anew", [LESS, HIGHER], ids=["of less value", "higher"])
@pytest.mark.parametrize(("interrupted", "cut_short"), [(False, False), (False, True), (True, False)])
def test_one_that_is_worse_than_the_plan_in_hand_is_not_taken(shelves, monkeypatch, anew, interrupted, cut_short):
    found = Proposal(Status.FOUND, plan=anew, interrupted=interrupted, cut_short=cut_short)
    monkeypatch.setattr(REVISE, "propose", lambda *_, **__: found)
    told = made_anew(shelves, BOTH, PLENTY)
    assert told.proposal.plan is not None
    assert told.proposal.plan.placements == BOTH.placements
    assert (told.moves.moves, told.left_behind) == ((), ())
    assert (told.proposal.interrupted, told.proposal.cut_short) == (interrupted, cut_short)


def told_of(monkeypatch, case, anew: Plan, in_hand: Plan, **about: Any) -> Plan:
    """What is told where a search that was cut short has found a plan."""
    found = Proposal(Status.FOUND, plan=anew, **{"cut_short": True, **about})
    monkeypatch.setattr(REVISE, "propose", lambda *_, **__: found)
    told = made_anew(case, in_hand, PLENTY).proposal.plan
    assert told is not None
    return told


def test_height_that_is_allowed_for_handling_makes_it_no_worse(shelves, monkeypatch):
    allowed = fresh(shelves, trip=shelves.trip.model_copy(update={"allow_mm": 2.0}))
    assert told_of(monkeypatch, allowed, HIGHER, BOTH).placements == HIGHER.placements


@pytest.mark.parametrize(("musts_mm", "stays"), [(698.9, True), (690.0, False)])
def test_more_value_counts_up_to_the_height_that_is_allowed(shelves, monkeypatch, musts_mm, stays):
    told = told_of(monkeypatch, shelves, LESS, BOTH, must_only_height_mm=musts_mm)
    assert told.placements == (BOTH if stays else LESS).placements


@pytest.mark.parametrize(("kept_kg", "stays"), [(0.0, True), (5.0, False)])
def test_more_reserve_comes_before_height(shelves, monkeypatch, kept_kg, stays):
    """The plan in hand is higher; 15 kg are left of the total, of which 5 with it."""
    case = fresh(shelves, trip=shelves.trip.model_copy(update={"reserve_kg": 8.0}))
    asked = {"reserve_asked_kg": 8.0}
    in_hand = HIGHER.model_copy(update={**asked, "reserve_kept_kg": 5.0})
    anew = BOTH.model_copy(update={**asked, "reserve_kept_kg": kept_kg})
    told = told_of(monkeypatch, case, anew, in_hand)
    assert told.placements == (in_hand if stays else anew).placements
    assert told.reserve_kept_kg == 5.0


def test_whoever_cuts_in_once_more_has_the_new_plan(shelves, monkeypatch):
    def cut_in(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(REVISE, "_attempt", cut_in)
    assert told_of(monkeypatch, shelves, HIGHER, BOTH).placements == HIGHER.placements


@pytest.mark.parametrize("in_hand", [LESS, HIGHER], ids=["of less value", "higher"])
def test_one_that_is_better_is_taken(shelves, in_hand):
    told = made_anew(shelves, in_hand, PLENTY)
    assert told.proposal.plan is not None
    assert {copy_of(one): one.space for one in told.proposal.plan.placements} == {
        Copy("rope", 1): "low",
        Copy("stove", 1): "low",
    }


def test_a_plan_in_hand_that_no_longer_holds_is_no_better(tiny, monkeypatch):
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.thing("rope", 10)
    tiny.thing("stove", 5, carry=50)
    tiny.vehicle["limits"]["gvm_kg"] = 2012
    case = tiny.case()
    told = told_of(monkeypatch, case, made(propose(case, PLENTY)), BOTH)
    assert check(case, told).holds is True
    assert [one.thing for one in told.placements] == ["rope"]


def backed(case, now: Plan, before: Plan) -> set[tuple[str, tuple[int, int, int]]]:
    problem = Problem(case)
    state, old = from_plan(problem, now), from_plan(problem, before)
    found = back_where_it_was(state, state.carried(), old)
    return {(problem.pieces[i].copy.thing, it.box[:3]) for i, it in found.at.items()}


def test_two_that_have_changed_places_without_need_change_back(shelves):
    crossed = placed(("rope", 1, "low", (2200, 0, 500)), ("stove", 1, "low", (2000, 0, 500)))
    assert backed(shelves, crossed, BOTH) == {("rope", (2000, 0, 500)), ("stove", (2200, 0, 500))}


def test_what_is_in_the_way_goes_elsewhere_where_that_takes_less(tiny):
    tiny.space("low", (2000, 0, 500), size_mm=[200, 200, 200])
    tiny.space("high", (2600, 0, 900), size_mm=[400, 200, 200])
    tiny.thing("rope", 10)
    tiny.thing("tent", 5)  # it was nowhere before
    now = placed(("rope", 1, "high", (2600, 0, 900)), ("tent", 1, "low", (2000, 0, 500)))
    found = backed(tiny.case(), now, LESS)
    assert ("rope", (2000, 0, 500)) in found
    assert {name for name, _ in found} == {"rope", "tent"}


def test_what_is_locked_in_its_old_place_stays_there(shelves):
    crossed = placed(("rope", 1, "low", (2200, 0, 500)), ("stove", 1, "low", (2000, 0, 500)))
    problem = Problem(shelves)
    old = from_plan(problem, BOTH)
    stove = next(piece.index for piece in problem.pieces if piece.thing.name == "stove")
    state = from_plan(problem, crossed, frozenset({stove}))
    found = back_where_it_was(state, state.carried(), old)
    assert found.at == state.at


def test_like_copies_that_have_changed_places_are_left_where_that_takes_fewer_minutes(tiny, monkeypatch):
    """By their numbers one of them has moved; whoever packs sees none."""
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.thing("can", count=2)
    before = placed(("can", 1, "low", (2000, 0, 500)), ("can", 2, "low", (2200, 0, 500)))
    crossed = placed(("can", 2, "low", (2000, 0, 500)), ("can", 1, "low", (2200, 0, 500)))
    case = tiny.case()
    monkeypatch.setattr("solver.near.back_where_it_was", lambda state, *_: from_plan(state.problem, before))
    work = NearPlan(Asked(case, (), True, before), before, Clock(600.0, SILENT), PLENTY)
    monkeypatch.setattr(work, "_few_moves", lambda *_: from_plan(work.problem, crossed))
    found = work.search()
    assert found is not None
    assert found.at == from_plan(work.problem, crossed).at


def test_revise_puts_back_what_a_search_without_time_has_moved(shelves, monkeypatch):
    crossed = placed(("rope", 1, "low", (2200, 0, 500)), ("stove", 1, "low", (2000, 0, 500)))
    monkeypatch.setattr(NearPlan, "_few_moves", lambda work, *_: from_plan(work.problem, crossed))
    monkeypatch.setattr("solver.near.again", lambda *_: [])
    found = revise(shelves, BOTH, PLENTY)
    assert made(found.proposal).placements == BOTH.placements
    assert found.moves.moves == ()


def test_whoever_cuts_in_while_it_is_put_back_has_the_plan(shelves, monkeypatch):
    def cut_in(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("solver.near.back_where_it_was", cut_in)
    found = revise(shelves, BOTH, PLENTY)
    assert found.proposal.interrupted
    assert made(found.proposal).placements == BOTH.placements


def test_what_may_no_longer_lie_where_it_was_stays_where_it_is(tiny):
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200], limit_kg=9)
    tiny.space("high", (2600, 0, 900), size_mm=[400, 200, 200])
    tiny.thing("rope", 10)
    tiny.thing("stove", 5)
    assert backed(tiny.case(), HIGHER, BOTH) == {("rope", (2600, 0, 900)), ("stove", (2200, 0, 500))}


@pytest.mark.parametrize(("count", "moves", "stays"), [(2, 2, 1), (3, 1, 3)], ids=["exchanged", "one stays at home"])
def test_like_copies_keep_the_numbers_that_they_are_marked_by(tiny, monkeypatch, count, moves, stays):
    """Number 2 of the sheet in hand is number 2 in the moves and in the new plan, whatever a search calls it."""
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.space("high", (2600, 0, 900), size_mm=[400, 200, 200])
    tiny.thing("can", count=count, carry=50)
    case = tiny.case()
    in_hand = placed(("can", 1, "high", (2600, 0, 900)), ("can", 2, "low", (2000, 0, 500)))
    home = [n for n in range(1, count + 1) if n not in {moves, stays}]
    left = [{"thing": "can", "copy": n} for n in home]
    moved = placed(("can", moves, "low", (2200, 0, 500)), ("can", stays, "low", (2000, 0, 500)))
    anew = Plan.model_validate({**moved.model_dump(by_alias=True), "left_at_home": left})
    found = Proposal(Status.FOUND, plan=anew, home_reasons={Copy("can", n): "no room" for n in home})
    monkeypatch.setattr(REVISE, "propose", lambda *_, **__: found)
    told = made_anew(case, in_hand, PLENTY)
    assert told.proposal.plan is not None
    assert {one.copy_number: one.corner_mm for one in told.proposal.plan.placements} == {
        1: (2200, 0, 500),
        2: (2000, 0, 500),
    }
    assert {one.copy_number for one in told.proposal.plan.left_at_home} == set(range(3, count + 1))
    assert set(told.proposal.home_reasons) == {Copy("can", n) for n in range(3, count + 1)}
    assert [one.copy for one in told.moves.moves] == [Copy("can", 1)]


def test_a_copy_that_a_lock_names_keeps_its_own_number(tiny, monkeypatch):
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.space("high", (2600, 0, 900), size_mm=[400, 200, 200])
    tiny.thing("can", count=2, carry=50)
    tiny.trip["locks"] = [{"thing": "can", "copy": 1, "in": "low"}]
    in_hand = placed(("can", 1, "high", (2600, 0, 900)), ("can", 2, "low", (2000, 0, 500)))
    anew = placed(("can", 1, "low", (2000, 0, 500)), ("can", 2, "low", (2200, 0, 500)))
    monkeypatch.setattr(REVISE, "propose", lambda *_, **__: Proposal(Status.FOUND, plan=anew))
    monkeypatch.setattr(REVISE, "gone_back", lambda _, __, found, **___: found)
    told = made_anew(tiny.case(), in_hand, PLENTY).proposal.plan
    assert told is not None
    assert told.placements == anew.placements


@pytest.mark.parametrize("purpose", ["none", "lower", "at hand"])
def test_what_is_made_anew_moves_nothing_to_no_purpose(tiny, monkeypatch, purpose):
    """The rope and the stove have changed places in two spaces of one height; one of them may be lower or nearer."""
    tiny.space("left", (2000, 0, 500), size_mm=[200, 200, 200])
    near = {"opening": "left flap", "face": "left"} if purpose == "at hand" else {}
    low_mm = 400 if purpose == "lower" else 500
    tiny.space("right", (2000, 600, low_mm), size_mm=[200, 200, 200], **near)
    tiny.vehicle["openings"][1]["seconds"] = 30
    tiny.vehicle["openings"][2]["seconds"] = 5
    tiny.thing("rope", 10, access="each_camp")
    tiny.thing("stove", 5)
    in_hand = placed(("rope", 1, "left", (2000, 0, 500)), ("stove", 1, "right", (2000, 600, low_mm)))
    anew = placed(("rope", 1, "right", (2000, 600, low_mm)), ("stove", 1, "left", (2000, 0, 500)))
    case = tiny.case()
    found = Proposal(Status.FOUND, plan=anew, levels=(Level("handling", 1e6, None, "s a day", "found"),))
    monkeypatch.setattr(REVISE, "propose", lambda *_, **__: found)
    told = made_anew(case, in_hand, PLENTY)
    assert made(told.proposal).placements == (in_hand if purpose == "none" else anew).placements
    assert bool(told.moves.moves) is (purpose != "none")
    seconds = handling_seconds(from_plan(Problem(case), in_hand))
    assert told.proposal.levels[0].value == (seconds if purpose == "none" else 1e6)
    assert check(case, made(told.proposal)).holds is True


def test_what_goes_back_keeps_the_reserve_that_the_new_plan_keeps(shelves):
    """Two that have changed places go back: with 15 kg kept they hold, and so they do with 10 of 20 kg."""
    case = fresh(shelves, trip=shelves.trip.model_copy(update={"reserve_kg": 20.0}))
    crossed = placed(("rope", 1, "low", (2200, 0, 500)), ("stove", 1, "low", (2000, 0, 500)))
    anew = crossed.model_copy(update={"reserve_kept_kg": 10.0, "reserve_asked_kg": 20.0})
    found = made(gone_back(case, BOTH, Proposal(Status.FOUND, plan=anew), use_reserve=True))
    assert (found.placements, found.reserve_kept_kg) == (BOTH.placements, 10.0)
