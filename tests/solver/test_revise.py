"""A plan changed as little as possible."""

import itertools
from typing import Any

import pytest

from models.case import Case, Copy, copy_of, fresh
from models.plan import Placement, Plan
from models.trip import Lock
from solver import SILENT, Options, Proposal, Status, propose, revise
from solver.asking import Asked
from solver.clock import Clock
from solver.keeping import kept
from solver.near import NearPlan
from solver.plans import from_plan
from solver.problem import Problem
from solver.reserve import Reserve
from solver.state import State
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound")

QUICK = Options(effort=0.02, seconds=600.0)
PLENTY = Options(effort=0.2, seconds=600.0)


def made(proposal: Proposal) -> Plan:
    assert proposal.plan is not None
    return proposal.plan


def plan_of(case: Case) -> Plan:
    return made(propose(case, QUICK))


def where(plan: Plan) -> dict[Copy, Any]:
    return {copy_of(place): (place.space, place.corner_mm) for place in plan.placements}


def locks_in_place(plan: Plan, *names: str) -> tuple[Lock, ...]:
    return tuple(
        Lock.model_validate({"thing": p.thing, "copy": p.copy_number, "in": p.space, "at_mm": p.corner_mm})
        for p in plan.placements
        if not names or p.thing in names
    )


def weighing(case: Case, name: str, times: float) -> Case:
    def heavier(thing: Any) -> Any:
        masses = {key: getattr(thing.mass_kg, key) * times for key in ("least", "likely", "most")}
        return thing.model_copy(update={"mass_kg": thing.mass_kg.model_copy(update=masses)})

    return fresh(case, things=tuple(heavier(one) if one.name == name else one for one in case.things))


def test_a_plan_that_holds_stays_as_it_is(pair):
    case = pair.case()
    plan = plan_of(case)
    found = revise(case, plan, PLENTY)
    assert (found.moved, found.minutes, found.left_behind, found.added) == ((), 0, (), ())
    assert where(made(found.proposal)) == where(plan)


def test_a_thing_locked_where_it_is_moves_nothing(pair):
    case = pair.case()
    plan = plan_of(case)
    found = revise(case, plan, PLENTY, extra_locks=locks_in_place(plan, "one"))
    assert found.minutes == 0
    assert where(made(found.proposal)) == where(plan)
    assert made(found.proposal).locks == locks_in_place(plan, "one")


def test_only_what_is_locked_elsewhere_moves(pair):
    case = pair.case()
    plan = plan_of(case)
    assert where(plan)[Copy("one", 1)][0] == "low"
    found = revise(case, plan, PLENTY, extra_locks=(Lock.model_validate({"thing": "one", "in": "high"}),))
    assert found.moved == (Copy("one", 1),)
    assert found.minutes > 0
    assert check(case, made(found.proposal)).holds is True


@pytest.mark.long
def test_a_space_that_holds_less_sends_one_thing_away_and_not_two(pair):
    plan = plan_of(pair.case())
    pair.vehicle["spaces"][0]["limit_kg"] = 15
    case = pair.case()
    found = revise(case, plan, PLENTY)
    assert len(found.moved) == 1
    assert check(case, made(found.proposal)).holds is True


def test_what_came_before_still_comes_and_what_stayed_still_stays(pair):
    pair.thing("three", carry=50)
    plan = plan_of(pair.case())
    pair.thing("four", carry=90)
    found = revise(pair.case(), plan, PLENTY)
    assert {p.thing for p in made(found.proposal).placements} == {"one", "two", "three"}
    pair.things[-1].pop("carry")
    assert revise(pair.case(), plan, PLENTY).added == (Copy("four", 1),)


def test_the_least_wanted_stays_behind_where_not_all_can_come(pair):
    pair.thing("dear", carry=90)
    pair.thing("cheap", carry=10)
    plan = plan_of(pair.case())
    assert len(plan.placements) == 4
    pair.vehicle["limits"]["gvm_kg"] = 2035
    found = revise(pair.case(), plan, PLENTY)
    assert found.left_behind == (Copy("cheap", 1),)


def test_the_reserve_is_given_up_only_where_nothing_else_helps(pair):
    plan = plan_of(pair.case())
    pair.vehicle["limits"]["gvm_kg"] = 2030
    pair.trip["reserve_kg"] = 10
    kept = revise(pair.case(), plan, PLENTY).proposal
    assert (kept.reserve_given_up, made(kept).reserve_kept_kg) == (False, 10)
    pair.trip["reserve_kg"] = 15
    given = revise(pair.case(), plan, PLENTY).proposal
    assert (given.reserve_given_up, made(given).reserve_kept_kg) == (True, 10)


def test_suggest_gives_up_the_reserve_and_says_so(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2030
    pair.trip["reserve_kg"] = 15
    found = propose(pair.case(), QUICK)
    assert (found.status, found.reserve_given_up, made(found).reserve_kept_kg) == (Status.FOUND, True, 10)


def test_a_plan_whose_locks_are_all_where_it_lies_is_found_again(pair):
    plan = plan_of(pair.case())
    again = propose(pair.case(), QUICK, locks=locks_in_place(plan), before=plan)
    assert where(made(again)) == where(plan)


def test_a_corner_that_the_trip_locks_is_kept_without_a_plan_before(pair):
    pair.trip["locks"] = [{"thing": "one", "in": "high", "at_mm": [2750, 100, 900]}]
    plan = plan_of(pair.case())
    assert where(plan)[Copy("one", 1)] == ("high", (2750, 100, 900))
    assert check(pair.case(), plan).holds is True


def test_what_a_locked_thing_stands_on_stays_under_it(tiny):
    tiny.space("bay", size_mm=[200, 200, 400])
    tiny.space("aside", (2600, 0, 400))
    tiny.thing("base", mass_kg=20, bears_kg=50)
    tiny.thing("top", mass_kg=5)
    plan = Plan.model_validate(
        {
            "trip": "trip.yaml",
            "placements": (
                {"thing": "base", "space": "bay", "corner_mm": (2000, 0, 500), "size_mm": (200, 200, 200)},
                {"thing": "top", "space": "bay", "corner_mm": (2000, 0, 700), "size_mm": (200, 200, 200)},
            ),
        }
    )
    found = propose(tiny.case(), QUICK, locks=locks_in_place(plan, "top"), before=plan)
    assert check(tiny.case(), made(found)).holds is True
    assert where(made(found))[Copy("base", 1)][0] == "bay"


def test_locked_copies_keep_space_and_corner_when_a_mass_changes(herd):
    case, plan = herd
    names = tuple(sorted({place.thing for place in plan.placements} - {"spares box"}))[3:40:12]
    changed = weighing(case, "spares box", 1.2)
    locks = locks_in_place(plan, *names)
    found = revise(changed, plan, QUICK, extra_locks=locks)
    new = made(found.proposal)
    assert check(changed, new).broken == ()
    for lock in locks:
        assert where(new)[Copy(lock.thing, lock.copy_number or 1)] == (lock.in_, lock.at_mm)


def test_a_revision_of_nothing_moves_nothing_on_a_worked_trip(herd):
    case, plan = herd
    found = revise(case, plan, PLENTY)
    assert found.moves.moves == ()
    assert where(made(found.proposal)) == where(plan)


def test_a_heavy_thing_locked_on_the_frame_ends_lawfully_or_in_a_conflict(herd):
    case, plan = herd
    heavy = max(plan.placements, key=lambda place: case.thing_named[place.thing].mass_kg.most)
    there = {"thing": heavy.thing, "copy": heavy.copy_number, "in": "on the ladder frame"}
    found = revise(case, plan, PLENTY, extra_locks=(Lock.model_validate(there),))
    if found.proposal.plan is not None:
        assert check(case, found.proposal.plan).broken == ()
        places = {copy_of(place): place.space for place in found.proposal.plan.placements}
        assert places[copy_of(heavy)] == "on the ladder frame"
    else:
        assert found.proposal.conflict is not None
        assert found.proposal.conflict.demands


def stacked(names: list[str]) -> Plan:
    """A plan with cubes on one another, the first one lowest."""
    placements = [
        {
            "thing": name.partition(" #")[0],
            "copy": int(name.partition(" #")[2] or 1),
            "space": "bay",
            "corner_mm": (2000, 0, 500 + 200 * n),
            "size_mm": (200, 200, 200),
        }
        for n, name in enumerate(names)
    ]
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(placements)})


def test_of_like_copies_the_one_stays_behind_that_takes_the_fewest_minutes(tiny):
    tiny.space("bay", size_mm=[200, 200, 600])
    tiny.thing("can", count=3, carry=50)
    plan = stacked(["can", "can #2", "can #3"])
    assert revise(tiny.case(), plan, PLENTY).left_behind == ()
    tiny.vehicle["limits"]["gvm_kg"] = 2025
    found = revise(tiny.case(), plan, PLENTY)
    assert found.left_behind == (Copy("can", 3),)
    assert [move.kind for move in found.moves.moves] == ["take out"]


def test_one_that_is_enough_stays_behind_and_not_two_that_are_wanted_less(tiny):
    tiny.space("bay", size_mm=[200, 200, 600])
    tiny.thing("rope", 5, carry=10)
    tiny.thing("mat", 5, carry=20)
    tiny.thing("can", 20, carry=50)
    plan = stacked(["rope", "mat", "can"])
    tiny.vehicle["limits"]["gvm_kg"] = 2015
    found = revise(tiny.case(), plan, PLENTY)
    assert found.left_behind == (Copy("can", 1),)
    assert len(found.moves.moves) == 1


def test_what_does_not_come_without_what_stays_behind_stays_too(tiny):
    tiny.space("bay", size_mm=[200, 200, 600])
    tiny.thing("gas", 10, carry=10)
    tiny.thing("stove", 10, carry=50, **{"with": ["gas"]})
    tiny.thing("base")
    tiny.space("shelf", (2600, 0, 500))
    plan = stacked(["base", "stove", "gas"])
    tiny.vehicle["limits"]["gvm_kg"] = 2015
    found = revise(tiny.case(), plan, PLENTY)
    assert found.left_behind == (Copy("gas", 1), Copy("stove", 1))
    assert check(tiny.case(), made(found.proposal)).holds is True


@pytest.mark.long
def test_four_heavy_ones_stay_behind_and_not_more_light_ones_that_are_wanted_less(tiny):
    tiny.space("bay", size_mm=[200, 200, 2000])
    tiny.thing("mat", 5, count=6, carry=1)
    tiny.thing("can", 20, count=4, carry=50)
    plan = stacked([f"{name} #{n}" for name, count in (("can", 4), ("mat", 6)) for n in range(1, count + 1)])
    tiny.vehicle["limits"]["gvm_kg"] = 2032
    found = revise(tiny.case(), plan, PLENTY)
    assert found.left_behind == tuple(Copy("can", n) for n in range(1, 5))


@pytest.mark.long
def test_the_plan_does_not_hang_on_how_far_the_clock_went(herd, monkeypatch):
    case, plan = herd
    heavy = weighing(weighing(case, "spares box", 3.5), "tool chest", 3.5)
    reads = itertools.count()
    monkeypatch.setattr("solver.clock.time.monotonic", lambda: 0.0 * next(reads))
    still = revise(heavy, plan, Options(seconds=1.0, effort=0.1))
    assert still.left_behind
    # A clock that goes on by a second each time that it is read, and leaves little more than what that took.
    seconds = 2.5 * next(reads)
    monkeypatch.setattr("solver.clock.time.monotonic", lambda: float(next(reads)))
    found = revise(heavy, plan, Options(seconds=seconds, effort=0.1))
    assert not found.proposal.cut_short
    assert found.left_behind == still.left_behind
    assert where(made(found.proposal)) == where(made(still.proposal))


def test_what_comes_anew_is_put_where_something_lay_that_is_gone(tiny):
    tiny.space("bay", size_mm=[400, 200, 400])
    tiny.space("chest", (2600, 0, 500), size_mm=[200, 200, 200])
    tiny.thing("under", size_mm=[400, 200, 200], turns="any")
    tiny.thing("on it")
    tiny.thing("beside")
    gone = {"thing": "below", "space": "bay", "corner_mm": (2000, 0, 500), "size_mm": (400, 200, 200)}
    places = [
        {"thing": "on it", "space": "bay", "corner_mm": (2200, 0, 700), "size_mm": (200, 200, 200)},
        {"thing": "beside", "space": "bay", "corner_mm": (2000, 0, 700), "size_mm": (200, 200, 200)},
    ]
    case, plan = tiny.case(), Plan.model_validate({"trip": "trip.yaml", "placements": places})
    vacated = (Placement.model_validate(gone),)
    problem = Problem(case)
    begun = kept(State(problem), problem.pieces, from_plan(problem, plan), vacated)
    assert {problem.pieces[i].name: it.box[:3] for i, it in begun.at.items()} == {
        "under": (2000, 0, 500),
        "on it": (2200, 0, 700),
        "beside": (2000, 0, 700),
    }
    found = revise(case, plan, QUICK, vacated=vacated)
    assert (found.moved, found.added) == ((), (Copy("under", 1),))


def test_other_chances_come_before_anything_stays_behind(pair, monkeypatch):
    case = pair.case()
    plan = plan_of(case)
    monkeypatch.setattr(NearPlan, "_few_moves", lambda *_: None)
    monkeypatch.setattr("solver.near.few_behind", lambda *_: pytest.fail("something was to stay behind"))
    found = revise(case, plan, QUICK, extra_locks=(Lock.model_validate({"thing": "one", "in": "high"}),))
    assert found.left_behind == ()
    assert where(made(found.proposal))[Copy("one", 1)][0] == "high"


@pytest.mark.parametrize("at", ["fewer", "again"])
def test_who_cuts_in_once_a_layout_is_there_has_it(pair, monkeypatch, at):
    case = pair.case()
    plan = plan_of(case)

    def cut_in(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(f"solver.near.{at}", cut_in)
    found = revise(case, plan, QUICK, extra_locks=(Lock.model_validate({"thing": "one", "in": "high"}),))
    assert found.proposal.interrupted
    assert where(made(found.proposal))[Copy("one", 1)][0] == "high"


def test_who_cuts_in_before_has_none(pair, monkeypatch):
    case = pair.case()
    plan = plan_of(case)

    def cut_in(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(NearPlan, "_few_moves", lambda *_: None)
    monkeypatch.setattr("solver.near.again", cut_in)
    with pytest.raises(KeyboardInterrupt):
        revise(case, plan, QUICK, extra_locks=(Lock.model_validate({"thing": "one", "in": "high"}),))


def test_a_clock_that_cuts_in_is_told(herd, monkeypatch):
    case, plan = herd
    monkeypatch.setattr("solver.clock.Clock.late", lambda _: True)
    assert revise(case, plan, PLENTY).proposal.cut_short


def test_a_layout_made_anew_from_the_one_with_the_most_reserve_keeps_what_a_lock_keeps_at_a_corner(pair, monkeypatch):
    case = pair.case()
    plan = plan_of(case)
    asked = Asked(case, locks_in_place(plan, "one"), use_reserve=False, before=plan)
    work = NearPlan(asked, plan, Clock(600.0, SILENT), QUICK, looked=True, most=Reserve(0.0, 0.0, plan))
    monkeypatch.setattr(work, "_few_moves", lambda state, _: state)
    monkeypatch.setattr("solver.near.few_behind", lambda *_: [])
    monkeypatch.setattr("solver.near.too_heavy", lambda *_: True)
    found = work.search()
    assert found is not None
    assert found.locked == {work.problem.piece_of[Copy("one", 1)]}


@pytest.mark.parametrize("late", [False, True], ids=["time enough", "no time"])
def test_a_clock_that_cuts_into_a_refusal_is_told(pair, late):
    pair.things[0]["size_mm"] = [400, 400, 400]
    case = pair.case()
    plan = plan_of(case)
    tight = fresh(case, vehicle=case.vehicle.model_copy(update={"spaces": case.vehicle.spaces[:1]}))
    found = revise(tight, plan, Options(effort=0.02, seconds=0.0 if late else 600.0)).proposal
    assert found.plan is None
    assert found.cut_short is late
