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


def test_copies_of_a_thing_that_is_apart_from_its_own_kit(tiny):
    tiny.space("low")
    tiny.space("high", (2600, 0, 900))
    tiny.thing("stove", kit="kitchen", count=2, carry="must")
    tiny.trip["apart"] = [["stove", "kitchen"]]
    assert not tiny.allows(apart.add, places={"stove #1": "low", "stove #2": "low"})
    assert tiny.allows(apart.add, places={"stove #1": "low", "stove #2": "high"})
