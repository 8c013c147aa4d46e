"""What locks keep a thing from, and what that would cost: tried without them, and told so."""

from typing import Any

import pytest

from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.rules import Rule
from models.trip import Lock
from solver import Explanation, Options, Row, lock_words, unlocked, why_home, why_not, with_more
from tests.chances import some
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

PLENTY = Options(effort=0.1, seconds=600.0)
ONE = Copy("one", 1)
LOW, BESIDE, HIGH = ("low", (2000, 0, 500)), ("low", (2200, 0, 500)), ("high", (2600, 0, 900))


def lock(thing: str = "one", /, **says: Any) -> Lock:
    return Lock.model_validate({"thing": thing, **says})


def plan_at(*locks: Lock, **places: Any) -> Plan:
    """Cubes of 200 mm at corners, by name; `_2` at the end is the second copy."""
    made = []
    for name, (space, corner) in places.items():
        thing, _, number = name.partition("_")
        at = {"space": space, "corner_mm": corner, "size_mm": (200, 200, 200)}
        made.append({"thing": thing, "copy": int(number or 1), **at})
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(made), "locks": locks})


def lock_on_rack(tiny: Any) -> Lock:
    """The space above hangs on a rack, and the lock names that."""
    tiny.vehicle["racks"] = [{"name": "shelf", "at_mm": [2600, 0, 900], "limits": {"any_kg": 500}}]
    tiny.vehicle["spaces"][1]["on"] = ["shelf"]
    return lock(not_in="shelf")


LOCKS = {
    "in": lambda _: lock(**{"in": "low"}),
    "at its corner": lambda _: lock(**{"in": "low", "at_mm": (2000, 0, 500)}),
    "out of a space": lambda _: lock(not_in="high"),
    "out of a rack": lock_on_rack,
    "of one copy": lambda _: lock(copy=1, not_in="high"),
}
ANY_LOCK = pytest.mark.parametrize("made", LOCKS.values(), ids=LOCKS)
ANY_OWNER = pytest.mark.parametrize("of_trip", [True, False], ids=["of the trip", "of the plan"])


def asked(pair: Any, of_trip: bool, *locks: Lock, **places: Any) -> tuple[Case, Plan]:
    """Locks in the trip or in the plan."""
    if of_trip:
        pair.trip["locks"] = [one.model_dump(by_alias=True, exclude_defaults=True) for one in locks]
    return pair.case(), plan_at(*(() if of_trip else locks), **places)


def row_of(found: Explanation, space: str) -> Row:
    (row,) = [one for one in found.rows if one.space == space]
    return row


def broken(case: Case, plan: Plan | None) -> set[Rule]:
    assert plan is not None
    return {one.rule for one in check(case, plan).broken}


def spaces(plan: Plan | None) -> dict[Copy, str]:
    assert plan is not None
    return {copy_of(place): place.space for place in plan.placements}


@ANY_LOCK
@ANY_OWNER
@pytest.mark.parametrize("only", some([None, "high"], 1), ids=["every space", "one space"])
def test_a_space_that_a_lock_forbids_is_priced_without_it_and_says_so(pair, made, of_trip, only):
    it = made(pair)
    case, plan = asked(pair, of_trip, it, one=LOW, two=BESIDE)
    assert broken(case, plan) == set()
    found = why_not(case, plan, ONE, PLENTY, only)
    row = row_of(found, "high")
    assert (found.locks, row.kind, row.lifted) == ((it,), "could", (it,))
    assert row.higher_mm == pytest.approx(10 * 400 / 2020)
    for offered in (row.plan, row.lowest):
        assert spaces(offered)[ONE] == "high"
        # The plan's own lock is gone from it; the trip's is not, and the verifier says so.
        assert broken(case, offered) == ({Rule.LOCK} if of_trip else set())
        assert broken(unlocked(case, row.lifted, ONE), offered) == set()


@ANY_OWNER
def test_a_lock_that_does_not_stand_against_a_space_stays(pair, of_trip):
    pair.space("higher", (2000, 600, 1100))
    case, plan = asked(pair, of_trip, lock(not_in="higher"), one=LOW, two=BESIDE)
    row = row_of(why_not(case, plan, ONE, PLENTY), "high")
    assert (row.kind, row.lifted) == ("could", ())
    assert row.plan is not None
    assert row.plan.locks == plan.locks
    assert broken(case, row.plan) == set()


@ANY_OWNER
def test_a_lock_on_all_copies_stays_on_the_others(pair, of_trip):
    pair.things[0]["count"] = 2
    case, plan = asked(pair, of_trip, lock(not_in="high"), one=LOW, one_2=BESIDE, two=HIGH)
    row = row_of(why_not(case, plan, ONE, PLENTY), "high")
    assert spaces(row.plan) == {ONE: "high", Copy("one", 2): "low", Copy("two", 1): "high"}
    assert row.plan is not None
    left = unlocked(case, row.lifted, ONE).trip.locks if of_trip else row.plan.locks
    assert left == (lock(copy=2, not_in="high"),)


@ANY_OWNER
def test_a_proof_leaves_a_lock_on_all_copies_to_the_others(pair, of_trip):
    """All copies are locked above, where there is mass for one of them: the other copy stays there."""
    pair.things = [{**pair.things[0], "count": 2}]
    pair.vehicle["spaces"][1]["limit_kg"] = 15
    case, plan = asked(pair, of_trip, lock(**{"in": "high"}), one=LOW, one_2=HIGH)
    row = row_of(why_not(case, plan, ONE, PLENTY, only="high"), "high")
    assert (row.kind, row.in_any_plan, row.lifted) == ("cannot", True, ())
    assert row.conflict is not None
    locked = {one for demand in row.conflict.demands for one in demand.locks}
    assert locked == {lock(copy=number, **{"in": "high"}) for number in (1, 2)}


def test_what_was_tried_without_a_lock_and_not_found_names_it(pair):
    pair.vehicle["spaces"][1]["limit_kg"] = 15
    mine, others = lock(**{"in": "low"}), lock("two", **{"in": "high"})
    case, plan = asked(pair, True, mine, others, one=LOW, two=HIGH)
    for only, kind in ((None, "none found"), ("high", "cannot")):
        row = row_of(why_not(case, plan, ONE, PLENTY, only), "high")
        assert (row.kind, row.lifted) == (kind, (mine,))
        assert row.rules == (
            (Rule.LOCK, "it is locked in low"),
            (Rule.SPACE_MASS, "high has 5.0 kg left and it weighs 10.0 kg"),
        )


@ANY_OWNER
def test_a_corner_that_is_taken_is_lifted_in_the_space_that_the_lock_names(pair, of_trip):
    """The plan has it above against its lock, and the other thing is locked where it should stand."""
    corner = (2000, 0, 500)
    mine, others = lock(**{"in": "low", "at_mm": corner}), lock("two", **{"in": "low", "at_mm": corner})
    case, plan = asked(pair, of_trip, others, mine, one=HIGH, two=LOW)
    row = row_of(why_not(case, plan, ONE, PLENTY), "low")
    assert (row.kind, row.lifted, row.corner_mm) == ("could", (mine,), None)
    assert row.against_corner == ((Rule.OVERLAP, "two, which stays where it is for a lock, lies at [2000, 0, 500]"),)
    assert broken(unlocked(case, row.lifted, ONE), row.plan) == set()


FAR = (2200, 200, 500)
AT_FAR = lock(**{"in": "low", "at_mm": FAR})


@ANY_OWNER
@pytest.mark.parametrize(
    ("places", "higher_mm"),
    [
        ({"one": HIGH, "two": LOW}, -10 * 400 / 2020),
        ({"one": HIGH, "two": ("low", FAR)}, -10 * 400 / 2020),
        ({"one": LOW, "two": BESIDE}, 0.0),
        ({"one": LOW, "two": ("low", FAR)}, 0.0),
    ],
    ids=["free", "taken by what may move", "in its own space", "taken there"],
)
def test_a_corner_that_the_plan_does_not_keep_is_tried_first(pair, of_trip, places, higher_mm):
    case, plan = asked(pair, of_trip, AT_FAR, **places)
    assert broken(case, plan) == {Rule.LOCK}
    row = row_of(why_not(case, plan, ONE, PLENTY), "low")
    assert (row.kind, row.lifted, row.corner_mm, row.against_corner) == ("could", (), FAR, ())
    assert row.higher_mm == pytest.approx(higher_mm)
    for offered in (row.plan, row.lowest):
        assert offered is not None
        assert {copy_of(place): place.corner_mm for place in offered.placements}[ONE] == FAR
        assert (offered.locks, broken(case, offered)) == (plan.locks, set())


@pytest.mark.parametrize(
    ("corner", "why"),
    [
        ((2300, 0, 500), (Rule.INSIDE, "at [2300, 0, 500] it does not lie within what is allowed in low")),
        ((2000, 0, 600), (Rule.SUPPORT, "at [2000, 0, 600] too little would be under it")),
        ((2100, 0, 500), (Rule.OVERLAP, "two, which stays where it is for a lock, lies at [2100, 0, 500]")),
    ],
    ids=["beyond a wall", "in the air", "taken"],
)
def test_what_stands_against_a_corner_in_its_own_space_is_told(pair, corner, why):
    mine, others = lock(**{"in": "low", "at_mm": corner}), lock("two", **{"in": "low", "at_mm": BESIDE[1]})
    case, plan = asked(pair, False, others, mine, one=("low", (2000, 200, 500)), two=BESIDE)
    row = row_of(why_not(case, plan, ONE, PLENTY), "low")
    assert (row.kind, row.rules, row.lifted, row.corner_mm) == ("none found", (why,), (), corner)


@ANY_OWNER
def test_what_lies_elsewhere_than_its_lock_says_makes_room(pair, of_trip):
    """Each lies where the other is locked: neither stays where it is for a lock."""
    mine, others = lock(**{"in": "low", "at_mm": BESIDE[1]}), lock("two", **{"in": "low", "at_mm": LOW[1]})
    case, plan = asked(pair, of_trip, others, mine, one=LOW, two=BESIDE)
    row = row_of(why_not(case, plan, ONE, PLENTY), "low")
    assert (row.kind, row.lifted, row.corner_mm) == ("could", (), BESIDE[1])
    for offered in (row.plan, row.lowest):
        assert offered is not None
        assert {copy_of(place): place.corner_mm for place in offered.placements}[ONE] == BESIDE[1]


def test_what_lies_elsewhere_than_its_lock_says_is_no_reason_against_a_space(pair):
    """The other thing fills the space above, which its lock never wanted."""
    pair.vehicle["spaces"][1]["size_mm"] = [200, 200, 200]
    others = lock("two", **{"in": "low", "at_mm": BESIDE[1]})
    case, plan = asked(pair, False, others, one=LOW, two=HIGH)
    row = row_of(why_not(case, plan, ONE, PLENTY), "high")
    assert (row.kind, row.rules, row.lifted) == ("could", (), ())
    assert spaces(row.plan) == {ONE: "high", Copy("two", 1): "low"}


def test_a_lock_of_the_trip_and_the_plan_alike_is_lifted_from_both(pair):
    pair.trip["locks"] = [{"thing": "one", "not_in": "high"}]
    case, plan = pair.case(), plan_at(lock(not_in="high"), one=LOW, two=BESIDE)
    row = row_of(why_not(case, plan, ONE, PLENTY), "high")
    assert row.lifted == (lock(not_in="high"),)
    assert row.plan is not None
    assert row.plan.locks == ()
    assert broken(unlocked(case, row.lifted, ONE), row.plan) == set()


def test_what_is_asked_for_says_who_asked(pair):
    case, plan = asked(pair, True, lock(**{"in": "low"}, by="Mara", because="always there"), one=LOW, two=BESIDE)
    assert [lock_words(one) for one in why_not(case, plan, ONE, PLENTY).locks] == [
        "one is locked in low (Mara: always there)"
    ]


@ANY_OWNER
def test_what_stays_at_home_by_a_lock_is_taken_without_it_and_its_copies_stay(pair, of_trip):
    pair.thing("three", carry=40, count=2)
    case, plan = asked(pair, of_trip, lock("three", at_home=True), one=LOW, two=BESIDE)
    found = why_home(case, plan, Copy("three", 1), PLENTY)
    (way,) = found.ways
    assert found.locks == way.lifted == (lock("three", at_home=True),)
    assert set(spaces(way.plan)) == {ONE, Copy("two", 1), Copy("three", 1)}
    assert broken(case, way.plan) == ({Rule.LOCK} if of_trip else set())
    free = unlocked(case, way.lifted, Copy("three", 1))
    assert broken(free, way.plan) == set()
    left = free.trip.locks if of_trip else way.plan.locks
    assert left == (lock("three", copy=2, at_home=True),)


@ANY_OWNER
@pytest.mark.parametrize("taken", [False, True])
def test_what_comes_goes_to_the_corner_where_a_lock_wants_it(pair, of_trip, taken):
    pair.thing("three", carry=40)
    mine, others = lock("three", **{"in": "low", "at_mm": FAR}), lock("two", **{"in": "low", "at_mm": FAR})
    locks, two = ((mine, others), ("low", FAR)) if taken else ((mine,), BESIDE)
    case, plan = asked(pair, of_trip, *locks, one=LOW, two=two)
    (way,) = why_home(case, plan, Copy("three", 1), PLENTY).ways
    at_far = {copy_of(place) for place in way.plan.placements if place.corner_mm == FAR}
    assert (at_far, way.lifted) == (({Copy("two", 1)}, (mine,)) if taken else ({Copy("three", 1)}, ()))
    assert [rule for rule, _ in way.against_corner] == [Rule.OVERLAP] * taken
    assert broken(unlocked(case, way.lifted, Copy("three", 1)), way.plan) == set()


@ANY_OWNER
def test_what_comes_along_keeps_the_locks_on_its_place(pair, of_trip):
    pair.thing("three", carry=40)
    case, plan = asked(pair, of_trip, lock("three", not_in="low"), one=LOW, two=BESIDE)
    found = why_home(case, plan, Copy("three", 1), PLENTY)
    (way,) = found.ways
    assert (found.lawful, way.lifted, spaces(way.plan)[Copy("three", 1)]) == (("high",), (), "high")
    assert broken(case, way.plan) == set()


def test_where_its_locks_leave_no_place_it_is_tried_without_them(pair):
    pair.thing("three", carry=40)
    out = (lock("three", not_in="low"), lock("three", not_in="high"))
    case, plan = asked(pair, True, *out, one=LOW, two=BESIDE)
    (way,) = why_home(case, plan, Copy("three", 1), PLENTY).ways
    (lifted,) = way.lifted
    assert lifted.not_in == spaces(way.plan)[Copy("three", 1)]
    assert broken(unlocked(case, way.lifted, Copy("three", 1)), way.plan) == set()


@ANY_OWNER
@pytest.mark.parametrize("says", some([{"in": "low"}, {"carried": True}], 1), ids=["in its space", "coming along"])
def test_what_is_locked_to_come_is_not_left_at_home_instead(pair, of_trip, says):
    pair.thing("dear", carry=90)
    pair.thing("cheap", carry=20)
    pair.vehicle["limits"]["gvm_kg"] = 2034
    places = {"one": LOW, "two": BESIDE, "cheap": ("low", (2000, 200, 500))}
    case, plan = asked(pair, of_trip, lock("cheap", **says), **places)
    (way,) = why_home(case, plan, Copy("dear", 1), PLENTY).ways
    assert (way.leave, way.limit) == (None, "total")
    assert broken(with_more(case, "total", way.more_kg), way.plan) == set()


@pytest.mark.long
def test_one_copy_is_not_left_for_another(pair):
    pair.thing("rug", count=2, carry=20)
    pair.vehicle["limits"]["gvm_kg"] = 2034
    case, plan = asked(pair, True, one=LOW, two=BESIDE, rug=("low", (2000, 200, 500)))
    (way,) = why_home(case, plan, Copy("rug", 2), PLENTY).ways
    assert (way.leave, way.limit) == (None, "total")
