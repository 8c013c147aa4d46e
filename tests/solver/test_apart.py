"""apart: the solver's side."""

from solver.rules import apart


def test_what_people_want_apart(pair):
    pair.trip["apart"] = [["one", "two"]]
    assert pair.allows(apart.add)
    assert not pair.allows(apart.add, places={"one": "low", "two": "low"})
    assert pair.allows(apart.add, places={"one": "low", "two": "high"})


def test_a_kit_apart_from_a_thing(pair):
    pair.things[0]["kit"] = "kitchen"
    pair.trip["apart"] = [["kitchen", "two"]]
    assert not pair.allows(apart.add, places={"one": "high", "two": "high"})
    assert pair.allows(apart.add, places={"one": "high"}, home=("two",))
