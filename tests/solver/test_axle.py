"""axle: the solver's side. The empty bench weighs 1 100 kg in front and 900 kg at the rear, 3 000 mm apart."""

from typing import Any

import pytest

from solver.limits import over_g
from solver.loads import Loads, masses_over
from solver.problem import Problem
from solver.rules import axle
from solver.state import laid, lying

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


@pytest.fixture
def on_the_nose(pair):
    """A box ahead of the front axle, its middle 600 mm ahead: 10 kg in it take 2 kg off the rear axle."""
    pair.vehicle["spaces"][0].update(corner_mm=[-700, 0, 500], size_mm=[200, 400, 400])
    pair.things[0]["mass_kg"] = {"least": 10, "likely": 20, "most": 30}
    return pair


def test_the_rear_axle_with_the_least_of_what_lies_ahead_of_the_front_axle(on_the_nose):
    places = {"one": ("low", (-700, 0, 500))}
    on_the_nose.vehicle["limits"]["rear_axle_kg"] = 898
    assert on_the_nose.allows(axle.add, places=places, home=("two",))
    on_the_nose.vehicle["limits"]["rear_axle_kg"] = 897.9
    assert not on_the_nose.allows(axle.add, places=places, home=("two",))


def test_sums_of_what_lies_ahead_of_the_front_axle(on_the_nose):
    problem = Problem(on_the_nose.case())
    piece = next(one for one in problem.pieces if one.thing.name == "one")
    it = lying(problem, piece.index, problem.room_of["low"], 0, -700, 0, 500)
    loads = Loads(problem)
    over = list(masses_over(laid(problem, [it])))
    assert [added - left for added, left in zip(loads.added(it), loads.left, strict=True)] == pytest.approx(over)
    rear_g = dict(over_g(laid(problem, [it]), 0))["rear axle"]
    assert rear_g == pytest.approx((898 - 9000) * 1000)


def test_the_share_of_the_front(pair):
    moved(pair)
    pair.vehicle["limits"]["front_share_min"] = 0.547
    assert pair.allows(axle.add, home=("one", "two"))
    assert pair.allows(axle.add, places=OVER_REAR, home=("two",))
    assert not pair.allows(axle.add, places={"one": ("low", (4000, 0, 500))}, home=("two",))
