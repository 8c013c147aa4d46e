"""Ways out that give up several demands at once."""

import pytest

from tests.solver.conftest import conflict_of

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def test_a_way_out_gives_up_nothing_that_need_not_go_and_none_is_told_twice(tiny):
    tiny.space("bay")
    tiny.thing("big", size_mm=[500, 500, 500])
    tiny.thing("long", size_mm=[900, 100, 100], carry=10)
    tiny.trip["locks"] = [{"thing": "long", "at_home": True, "by": "Ada"}, {"thing": "long", "carried": True}]
    conflict = conflict_of(tiny)
    assert [(one.kind, one.not_enough) for one in conflict.demands] == [("lock", True), ("lock", True)]
    # Without Ada's lock the other one has to go as well, as it has no place, and then hers need not.
    assert [way.says for way in conflict.ways_out] == ["Leaving at home: big. And without this lock: long has to come."]
    assert conflict.ways_out[0].case is not None
    assert [lock.by for lock in conflict.ways_out[0].case.trip.locks] == ["Ada"]


def test_ways_out_that_give_up_several_things_are_all_told_where_none_contains_another(tiny):
    tiny.space("bay")
    tiny.thing("big", size_mm=[500, 500, 500])
    tiny.thing("small", carry=10)
    tiny.trip["locks"] = [{"thing": "small", "at_home": True, "by": "Ada"}, {"thing": "small", "carried": True}]
    assert [way.says for way in conflict_of(tiny).ways_out] == [
        "Without this lock: small stays at home (Ada). And leaving at home: big.",
        "Without this lock: small has to come. And leaving at home: big.",
    ]


def test_a_way_out_that_is_come_upon_twice_is_told_once(tiny):
    tiny.space("bay")
    tiny.thing("big", size_mm=[500, 500, 500])
    tiny.thing("two", carry=10, **{"with": ["three"]})
    tiny.thing("three", carry=1)
    locks = [{"thing": "two", "carried": True}, {"thing": "three", "at_home": True}]
    tiny.trip["locks"] = [*locks, {"thing": "three", "carried": True}]
    # Whether it is begun with that three stays at home or with that it has to come, the same is given up in the end.
    assert [way.says for way in conflict_of(tiny).ways_out] == [
        "Without this lock: three stays at home. And leaving at home: big."
    ]
