"""carried: the solver's side."""

from solver.rules import carried


def test_what_must_come_comes(pair):
    assert pair.allows(carried.add)
    assert not pair.allows(carried.add, home=("one",))
    pair.things[0]["carry"] = 50
    assert pair.allows(carried.add, home=("one",))


def test_a_companion_comes_along(pair):
    pair.things[0] |= {"carry": 50, "with": ["two"]}
    pair.things[1]["carry"] = 50
    assert pair.allows(carried.add, places={"one": "low"})
    assert not pair.allows(carried.add, places={"one": "low"}, home=("two",))
    assert pair.allows(carried.add, places={"two": "low"}, home=("one",))


def test_all_or_none(pair):
    pair.things[0] |= {"carry": 50, "count": 2, "all_or_none": True}
    assert pair.allows(carried.add, places={"one": "low", "one #2": "high"})
    assert not pair.allows(carried.add, places={"one": "low"}, home=("one #2",))
    assert pair.allows(carried.add, home=("one", "one #2"))
