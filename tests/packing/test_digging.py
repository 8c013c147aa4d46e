"""What is moved first, and how long a thing takes to hand."""

from math import inf

import pytest

from models.case import Copy
from packing import handling_seconds, seconds_to_hand, to_move_first


def test_nothing_is_in_the_way_of_what_stands_at_the_face(bay):
    front = bay.put("crate", (600, 0, 0), (400, 400, 400))
    bay.put("behind it", (0, 0, 0), (400, 400, 400))
    assert to_move_first(bay.case, bay.placed, front) == ()


def test_what_stands_between_thing_and_face_is_moved(bay):
    deep = bay.put("deep", (0, 0, 0), (400, 400, 400))
    bay.put("in the way", (500, 390, 390), (400, 400, 400))
    bay.put("beside the way", (500, 400, 0), (400, 400, 390))
    bay.put("above the way", (500, 0, 400), (400, 390, 400))
    assert bay.dug(deep) == {"in the way"}


def test_what_rests_on_it_is_moved_however_little(bay):
    low = bay.put("low", (600, 0, 0), (400, 400, 300))
    bay.put("on it", (300, 399, 300), (400, 400, 200))
    bay.put("near it", (600, 0, 301), (100, 100, 100))
    assert bay.dug(low) == {"on it"}


def test_their_own_obstacles_come_first_and_each_counts_once(bay):
    deep = bay.put("deep", (0, 0, 0), (300, 300, 300))
    bay.put("first", (400, 0, 0), (300, 300, 300))
    bay.put("on first", (400, 0, 300), (300, 300, 100))
    bay.put("before both", (800, 0, 0), (200, 300, 400))
    found = to_move_first(bay.case, bay.placed, deep)
    names = [one.thing for one in found]
    assert sorted(names) == ["before both", "first", "on first"]
    assert names.index("first") == 2


@pytest.mark.parametrize("stack", [("low", "middle", "high"), ("high", "low", "middle"), ("middle", "high", "low")])
def test_they_are_told_in_the_order_in_which_they_are_lifted(bay, stack):
    jack = bay.put("jack", (0, 0, 0), (400, 300, 200))
    at = {"low": 200, "middle": 400, "high": 600}
    for name in stack:
        bay.put(name, (0, 0, at[name]), (400, 300, 200))
    found = to_move_first(bay.case, bay.placed, jack)
    assert [one.thing for one in found] == ["high", "middle", "low"]


def test_what_is_in_front_goes_before_what_is_behind_it(bay):
    deep = bay.put("deep", (0, 0, 0), (200, 300, 300))
    bay.put("near", (300, 0, 0), (200, 300, 300))
    bay.put("nearest", (600, 0, 0), (200, 300, 300))
    bay.put("on near", (300, 0, 300), (200, 300, 300))
    bay.put("in its way", (600, 0, 310), (200, 300, 100))
    found = [one.thing for one in to_move_first(bay.case, bay.placed, deep)]
    assert sorted(found) == ["in its way", "near", "nearest", "on near"]
    assert found.index("in its way") < found.index("on near") < found.index("near")
    assert found.index("nearest") < found.index("near")


def test_what_blocks_each_other_is_told_once(bay):
    deep = bay.put("deep", (0, 0, 0), (200, 200, 200))
    bay.put("hook", (300, 0, 0), (200, 400, 100))
    bay.put("bar", (300, 0, 100), (400, 200, 100))
    bay.put("post", (600, 0, 0), (100, 200, 100))
    found = [one.thing for one in to_move_first(bay.case, bay.placed, deep)]
    assert sorted(found) == ["bar", "hook", "post"]


@pytest.mark.parametrize(
    ("face", "moved"), [("front", "ahead"), ("left", "left of it"), ("right", "right of it"), ("top", "over it")]
)
def test_the_face_decides_what_is_in_the_way(new_bay, face, moved):
    bay = new_bay(face)
    middle = bay.put("middle", (400, 400, 400), (200, 200, 200))
    bay.put("ahead", (0, 400, 400), (200, 200, 200))
    bay.put("left of it", (400, 0, 400), (200, 200, 200))
    bay.put("right of it", (400, 800, 400), (200, 200, 200))
    bay.put("over it", (400, 400, 700), (200, 200, 200))
    assert bay.dug(middle) == {moved}


def test_other_spaces_do_not_count(bay):
    bay.add_space("shelf", (2600, -500, 1600), (1000, 1000, 300))
    top = bay.put("tall", (0, 0, 0), (400, 400, 1000))
    bay.put_in("over the wall", (2600, -500, 1600), (400, 400, 200))
    assert bay.dug(top) == set()


@pytest.mark.parametrize(("kg", "seconds"), [(0, 6), (8, 6), (8.001, 12), (15, 12), (15.001, 20), (400, 20)])
def test_lifting_takes_what_the_rule_book_says(bay, kg, seconds):
    assert handling_seconds(kg, bay.case.rulebook) == seconds


def test_seconds_are_the_openings_and_what_is_moved(bay):
    deep = bay.put("deep", (0, 0, 0), (300, 300, 300), kg=30)
    bay.put("first", (400, 0, 0), (300, 300, 300), kg=8)
    bay.put("second", (700, 0, 0), (300, 300, 300), kg=16)
    assert seconds_to_hand(bay.case, bay.placed, deep) == 8 + 4 + 6 + 20
    assert seconds_to_hand(bay.case, bay.placed, Copy("second", 1)) == 8 + 4


def test_a_stuck_opening_of_the_chain_takes_for_ever(bay):
    crate = bay.put("crate", (0, 0, 0), (300, 300, 300))
    assert seconds_to_hand(bay.case, bay.placed, crate, frozenset({"tail blocked"})) == inf
    assert seconds_to_hand(bay.case, bay.placed, crate, frozenset({"on left side"})) == 12


def test_a_copy_that_is_not_placed_has_no_answer(bay):
    bay.put("crate", (0, 0, 0), (300, 300, 300))
    with pytest.raises(KeyError):
        to_move_first(bay.case, bay.placed, Copy("crate", 2))
