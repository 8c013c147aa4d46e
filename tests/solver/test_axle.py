"""axle: the solver's side. The empty bench weighs 1 100 kg in front and 900 kg at the rear, 3 000 mm apart."""

from typing import Any

from solver.rules import axle

OVER_REAR = {"one": ("low", (2900, 0, 500))}
"""The middle of the thing is over the rear axle."""


def moved(pair: Any) -> None:
    pair.vehicle["spaces"][0]["corner_mm"] = [2600, 0, 500]
    pair.vehicle["spaces"][0]["size_mm"] = [2000, 400, 400]


def test_the_rear_axle(pair):
    moved(pair)
    pair.vehicle["limits"]["rear_axle_kg"] = 910
    assert pair.allows(axle.add, home=("two",))
    assert pair.allows(axle.add, places=OVER_REAR, home=("two",))
    assert not pair.allows(axle.add, places={"one": ("low", (2901, 0, 500))}, home=("two",))


def test_the_reserve_counts_on_each_axle(pair):
    moved(pair)
    pair.vehicle["limits"]["rear_axle_kg"] = 915
    pair.trip["reserve_kg"] = 5
    assert pair.allows(axle.add, places=OVER_REAR, home=("two",))
    pair.trip["reserve_kg"] = 5.1
    assert not pair.allows(axle.add, places=OVER_REAR, home=("two",))


def test_the_front_axle_with_the_worse_of_least_and_most(pair):
    moved(pair)
    pair.vehicle["limits"]["front_axle_kg"] = 1101
    pair.things[0]["mass_kg"] = {"least": 5, "likely": 10, "most": 15}
    # 200 mm ahead of the rear axle the most counts: 15 · 200 / 3000 = 1 kg.
    assert pair.allows(axle.add, places={"one": ("low", (2700, 0, 500))}, home=("two",))
    assert not pair.allows(axle.add, places={"one": ("low", (2699, 0, 500))}, home=("two",))
    # Behind the rear axle the least counts: 5 · 600 / 3000 = 1 kg less.
    pair.vehicle["limits"]["front_axle_kg"] = 1099
    assert pair.allows(axle.add, places={"one": ("low", (3500, 0, 500))}, home=("two",))
    assert not pair.allows(axle.add, places={"one": ("low", (3499, 0, 500))}, home=("two",))


def test_the_share_of_the_front(pair):
    moved(pair)
    pair.vehicle["limits"]["front_share_min"] = 0.547
    assert pair.allows(axle.add, home=("one", "two"))
    assert pair.allows(axle.add, places=OVER_REAR, home=("two",))
    assert not pair.allows(axle.add, places={"one": ("low", (4000, 0, 500))}, home=("two",))
