"""spread: the solver's side."""

from solver.rules import spread


def test_copies_are_in_so_many_places(pair):
    pair.things[0] |= {"count": 2, "spread": 2}
    assert pair.allows(spread.add)
    assert not pair.allows(spread.add, places={"one": "low", "one #2": "low"})
    assert pair.allows(spread.add, places={"one": "low", "one #2": "high"})


def test_one_copy_is_not_in_two_places(pair):
    pair.things[0] |= {"count": 2, "spread": 2, "carry": 10}
    assert not pair.allows(spread.add, places={"one": "low"}, home=("one #2",))
    assert pair.allows(spread.add, home=("one", "one #2"))
