"""inside: the solver's side."""

from solver.rules import inside


def test_walls(pair):
    assert pair.allows(inside.add)
    assert not pair.allows(inside.add, places={"one": ("low", (2201, 0, 500))})
    assert pair.allows(inside.add, places={"one": ("low", (2200, 0, 500))})


def test_air_gaps_are_inside_too(pair):
    pair.things[0]["air_gap_mm"] = {"rear": 50}
    assert pair.allows(inside.add)
    assert not pair.allows(inside.add, places={"one": ("low", (2151, 0, 500))})
    assert pair.allows(inside.add, places={"one": ("low", (2150, 0, 500))})


def test_a_square_base_is_turned_for_its_air(pair):
    pair.vehicle["spaces"][0]["size_mm"] = [250, 400, 400]
    pair.things[0] |= {"air_gap_mm": {"rear": 150}, "turns": "fixed"}
    assert not pair.allows(inside.add, places={"one": "low"})
    pair.things[0]["turns"] = "upright"
    assert pair.allows(inside.add, places={"one": "low"})
    assert not pair.allows(inside.add, places={"one": ("low", (2000, 100, 500))})
    assert pair.allows(inside.add, places={"one": ("low", (2000, 150, 500))})


def test_solids(pair):
    pair.vehicle["spaces"][0]["solid"] = [{"corner_mm": [2000, 0, 500], "size_mm": [100, 400, 100]}]
    assert pair.allows(inside.add, places={"one": "low"})
    assert not pair.allows(inside.add, places={"one": ("low", (2099, 0, 500))})
    assert pair.allows(inside.add, places={"one": ("low", (2100, 0, 500))})


def test_a_turn_that_is_not_allowed_finds_no_room(pair):
    pair.things[0]["size_mm"] = [500, 100, 100]
    pair.vehicle["spaces"][0]["size_mm"] = [400, 500, 400]
    assert not pair.allows(inside.add, places={"one": "low"})
    pair.things[0]["turns"] = "upright"
    assert pair.allows(inside.add, places={"one": "low"})
    assert not pair.allows(inside.add, places={"one": "high"})


def test_holders(pair):
    pair.vehicle["spaces"][0]["accepts"] = ["jerry can"]
    assert pair.allows(inside.add)
    assert not pair.allows(inside.add, places={"one": "low"})
    pair.things[0]["holder"] = "jerry can"
    assert pair.allows(inside.add, places={"one": "low"})
    assert not pair.allows(inside.add, places={"one": "high"})


def test_a_space_that_is_part_of_a_thing(pair):
    pair.vehicle["spaces"][0]["size_mm"] = [800, 400, 400]
    pair.thing("tent", size_mm=[600, 400, 300], carry=10)
    inner = {"size_mm": [300, 300, 250], "inside_of": "tent"}
    pair.space("in the tent", (2100, 0, 520), **inner)
    assert pair.allows(inside.add, places={"one": "in the tent"})
    assert not pair.allows(inside.add, places={"one": "in the tent"}, home=("tent",))
    assert not pair.allows(inside.add, places={"one": "in the tent", "tent": ("low", (2101, 0, 500))})
    assert pair.allows(inside.add, places={"one": "in the tent", "tent": ("low", (2100, 0, 500))})
