"""kit: the solver's side."""

from solver.rules import kit


def test_a_kit_that_insists(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    assert pair.allows(kit.add)
    assert not pair.allows(kit.add, places={"one": "low", "two": "high"})
    assert pair.allows(kit.add, places={"one": "high", "two": "high"})


def test_a_kit_that_only_wishes(pair):
    pair.things[0] |= {"kit": "kitchen", "together": True}
    pair.things[1] |= {"kit": "kitchen"}
    assert pair.allows(kit.add, places={"one": "low", "two": "high"})


def test_what_stays_at_home_is_not_apart(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    assert pair.allows(kit.add, places={"one": "low"}, home=("two",))
