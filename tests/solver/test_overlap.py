"""overlap: the solver's side."""

from solver.rules import overlap


def test_two_things_share_no_room(pair):
    assert pair.allows(overlap.add)
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2199, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2200, 0, 500))})


def test_nothing_stands_in_the_air_of_another(pair):
    pair.things[0]["air_gap_mm"] = {"rear": 50}
    assert pair.allows(overlap.add)
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2249, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2250, 0, 500))})


def test_two_airs_may_share_room(pair):
    for thing in pair.things:
        thing["air_gap_mm"] = {"rear": 100, "front": 100}
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2299, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2300, 0, 500))})


def test_a_slide_runs_free(tiny):
    tiny.space("drawer", (2000, 0, 500), slides={"to": "rear", "mm": 300})
    tiny.space("behind", (2400, 0, 400))
    tiny.thing("one")
    assert tiny.allows(overlap.add)
    assert not tiny.allows(overlap.add, places={"one": ("behind", (2400, 0, 500))})
    assert tiny.allows(overlap.add, places={"one": ("behind", (2700, 0, 500))})
