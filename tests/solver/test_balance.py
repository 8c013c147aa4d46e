"""balance: the solver's side. The bench weighs 2 000 kg on a track of 1 600 mm."""

from solver.rules import balance


def test_left_against_right(pair):
    pair.vehicle["spaces"][0] |= {"corner_mm": [2000, -1200, 500], "size_mm": [400, 2400, 400]}
    pair.vehicle["limits"]["side_difference_share"] = 0.0025
    # 2 · 10 · y / 1600 against 0.0025 · 2010 = 5.025 kg: y up to 402 mm, less a gram a thing for rounding.
    assert pair.allows(balance.add)
    for side in (1, -1):
        assert pair.allows(balance.add, places={"one": ("low", (2000, side * 401 - 100, 500))}, home=("two",))
        assert not pair.allows(balance.add, places={"one": ("low", (2000, side * 403 - 100, 500))}, home=("two",))


def test_the_other_side_makes_up_for_it(pair):
    pair.vehicle["spaces"][0] |= {"corner_mm": [2000, -1200, 500], "size_mm": [400, 2400, 400]}
    pair.vehicle["limits"]["side_difference_share"] = 0.001
    both = {"one": ("low", (2000, 900, 500)), "two": ("low", (2000, -1100, 500))}
    assert pair.allows(balance.add, places=both)
    assert not pair.allows(balance.add, places={"one": both["one"]}, home=("two",))
