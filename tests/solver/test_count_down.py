"""The list has fewer copies than the plan: of like ones the easiest to get at goes, and nothing is dug out for it."""

import pytest

from models.case import Copy, copy_of
from models.plan import Placement, Plan
from models.trip import Lock
from packing import easiest_gone
from solver import Options, as_it_is, made_anew, revise
from tests.solver.conftest import Tiny

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600.0)
CORNERS = {1: (2400, 0, 500), 2: (2200, 0, 500), 3: (2000, 0, 500)}
"""By copy where it stands in a bay that opens to the rear: the third is behind the others."""


def plan_of(numbers: list[int], home: list[int]) -> Plan:
    places = [
        {"thing": "crate", "copy": n, "space": "bay", "corner_mm": CORNERS[n], "size_mm": (200, 200, 200)}
        for n in numbers
    ]
    left = [{"thing": "crate", "copy": n} for n in home]
    return Plan.model_validate({"trip": "trip.yaml", "placements": places, "left_at_home": left})


@pytest.fixture
def bay(tiny: Tiny) -> Tiny:
    tiny.space("bay", size_mm=[600, 200, 200])
    tiny.thing("crate", count=2, carry=50)
    return tiny


def corners(plan: Plan | None) -> set[tuple[int, int, int]]:
    assert plan is not None
    return {place.corner_mm for place in plan.placements}


def test_nothing_is_dug_out_for_a_copy_that_goes(bay):
    found = revise(bay.case(), plan_of([1, 2, 3], []), QUICK)
    assert corners(found.proposal.plan) == {CORNERS[2], CORNERS[3]}
    assert [move.copy.thing for move in found.moves.moves] == ["crate"]


def test_of_three_that_are_one_now_the_last_one_stays(bay):
    bay.things[0]["count"] = 1
    found = revise(bay.case(), plan_of([1, 2, 3], []), QUICK)
    assert corners(found.proposal.plan) == {CORNERS[3]}
    assert len(found.moves.moves) == 2


def test_a_copy_that_stayed_at_home_gives_its_number_to_one_aboard(bay):
    found = revise(bay.case(), plan_of([1, 3], [2]), QUICK)
    assert corners(found.proposal.plan) == {CORNERS[1], CORNERS[3]}
    assert found.moves.moves == ()


def test_no_copy_is_at_home_and_aboard(bay):
    plan = easiest_gone(bay.case(), plan_of([1, 3], [2]), ())
    assert {copy_of(place) for place in plan.placements} == {Copy("crate", 1), Copy("crate", 2)}
    assert [one.copy_number for one in plan.left_at_home] == [3]


LOCK = {"thing": "crate", "copy": 1, "in": "bay"}


def numbers(plan: Plan) -> dict[tuple[int, int, int], int]:
    return {place.corner_mm: place.copy_number for place in plan.placements}


def test_a_copy_that_a_lock_names_keeps_its_number(bay):
    bay.trip["locks"] = [LOCK]
    kept = numbers(easiest_gone(bay.case(), plan_of([1, 2, 3], []), ()))
    assert kept == {CORNERS[1]: 1, CORNERS[2]: 3, CORNERS[3]: 2}


def test_a_copy_that_an_added_lock_names_keeps_its_number(bay):
    kept = numbers(easiest_gone(bay.case(), plan_of([1, 2, 3], []), (Lock.model_validate(LOCK),)))
    assert kept == {CORNERS[1]: 1, CORNERS[2]: 3, CORNERS[3]: 2}


def locked(copy: int, count: int, bay: Tiny, **says: object) -> Plan:
    bay.things[0]["count"] = count
    lock = Lock.model_validate({"thing": "crate", "copy": copy, **says})
    return plan_of([1, 2, 3], []).model_copy(update={"locks": (lock,)})


def test_a_locked_copy_beyond_the_list_stays_with_its_lock_and_a_free_one_goes(bay):
    plan = locked(2, 1, bay, **{"in": "bay", "at_mm": CORNERS[2]})
    anew = easiest_gone(bay.case(), plan)
    assert numbers(anew)[CORNERS[2]] == 1
    assert [lock.copy_number for lock in anew.locks] == [1]
    found = revise(bay.case(), plan, QUICK)
    assert corners(found.proposal.plan) == {CORNERS[2]}


def test_the_easiest_to_get_at_stays_where_a_lock_names_it(bay):
    plan = locked(1, 1, bay, **{"in": "bay", "at_mm": CORNERS[1]})
    found = revise(bay.case(), plan, QUICK)
    assert corners(found.proposal.plan) == {CORNERS[1]}
    assert [lock.copy_number for lock in easiest_gone(bay.case(), plan).locks] == [1]


def test_of_copies_that_are_all_locked_those_with_numbers_of_the_list_stay(bay):
    locks = tuple(Lock.model_validate({**LOCK, "copy": n}) for n in (1, 2, 3))
    plan = plan_of([1, 2, 3], []).model_copy(update={"locks": locks})
    assert easiest_gone(bay.case(), plan) is plan


def test_a_lock_on_a_copy_that_is_not_aboard_brings_nothing_onto_the_list(bay):
    lock = Lock.model_validate({"thing": "crate", "copy": 3, "at_home": True})
    plan = plan_of([1, 2], [3]).model_copy(update={"locks": (lock,)})
    assert easiest_gone(bay.case(), plan) is plan


def test_a_copy_that_the_plan_keeps_at_home_puts_none_out_that_is_aboard(bay):
    bay.things[0]["count"] = 1
    lock = Lock.model_validate({"thing": "crate", "copy": 1, "at_home": True})
    plan = plan_of([2, 3], [1]).model_copy(update={"locks": (lock,)})
    anew = easiest_gone(bay.case(), plan)
    assert 1 in {place.copy_number for place in anew.placements}
    assert [one.copy_number for one in anew.locks] != [1]
    found = revise(bay.case(), anew, QUICK).proposal.plan
    assert found is not None
    assert [place.copy_number for place in found.placements] == [1]


def test_a_plan_numbered_anew_is_not_numbered_again(bay):
    plan = locked(2, 1, bay, **{"in": "bay"})
    once = easiest_gone(bay.case(), plan)
    assert once is not plan
    assert easiest_gone(bay.case(), once) is once


@pytest.mark.parametrize("made", [as_it_is, lambda case, plan: made_anew(case, plan, QUICK)])
def test_a_lock_goes_along_with_its_copy_wherever_copies_are_counted_anew(bay, made):
    plan = locked(2, 1, bay, **{"in": "bay", "at_mm": CORNERS[2]})
    found = made(bay.case(), plan).proposal.plan
    assert found is not None
    assert [lock.copy_number for lock in found.locks] == [1]
    assert numbers(found) == {CORNERS[2]: 1}


def test_where_the_list_has_them_all_nothing_is_renumbered(bay):
    bay.things[0]["count"] = 3
    plan = plan_of([1, 2, 3], [])
    assert easiest_gone(bay.case(), plan, ()) is plan


def with_a_lamp(bay: Tiny, around: int) -> Plan:
    """Three crates with a lamp in a space that is part of the one at a corner."""
    x, y, z = CORNERS[around]
    bay.space("in the crate", (x + 10, y + 10, z + 10), size_mm=[150, 150, 150], inside_of="crate", accepts=["lamp"])
    bay.thing("lamp", size_mm=[100, 100, 100], holder="lamp")
    lamp = {"thing": "lamp", "space": "in the crate", "corner_mm": (x + 10, y + 10, z + 10), "size_mm": (100, 100, 100)}
    plan = plan_of([1, 2, 3], [])
    return plan.model_copy(update={"placements": (*plan.placements, Placement.model_validate(lamp))})


@pytest.mark.parametrize("around", [1, 2, 3])
def test_a_copy_around_a_space_that_holds_something_stays(bay, around):
    bay.things[0]["count"] = 1
    plan = with_a_lamp(bay, around)
    assert numbers(easiest_gone(bay.case(), plan))[CORNERS[around]] == 1
    found = revise(bay.case(), plan, QUICK)
    assert CORNERS[around] in corners(found.proposal.plan)
    assert found.left_behind == ()
    assert Copy("lamp", 1) not in found.moved


def test_a_lock_goes_before_what_lies_in_a_copy(bay):
    bay.things[0]["count"] = 1
    plan = with_a_lamp(bay, 1).model_copy(update={"locks": (Lock.model_validate({**LOCK, "copy": 2}),)})
    assert numbers(easiest_gone(bay.case(), plan))[CORNERS[2]] == 1


def test_a_space_that_holds_nothing_keeps_no_copy(bay):
    bay.things[0]["count"] = 1
    plan = with_a_lamp(bay, 1)
    empty = plan.model_copy(update={"placements": plan.placements[:3]})
    assert numbers(easiest_gone(bay.case(), empty))[CORNERS[3]] == 1
