"""segregation: the solver's side."""

from typing import Any

import pytest

from solver import Options, Status, propose
from solver.rules import apart, segregation

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def test_food_is_apart_from_fuel(pair):
    pair.things[0] |= {"food": True}
    pair.things[1] |= {"hazard": "petrol", "holds_l": 5, "approved_can": True}
    pair.vehicle["spaces"][1] |= {"corner_mm": [3000, 0, 900], "air": "outside"}
    assert pair.allows(segregation.add)
    assert not pair.allows(segregation.add, places={"one": "low", "two": "low"})
    assert pair.allows(segregation.add, places={"one": "low", "two": "high"})


def test_a_pair_that_shares_no_air(pair):
    pair.things[0] |= {"food": True}
    pair.things[1] |= {"hazard": "petrol", "holds_l": 5, "approved_can": True}
    pair.vehicle["spaces"][1]["corner_mm"] = [3000, 0, 900]
    assert not pair.allows(segregation.add, places={"one": "low", "two": "high"})
    pair.things[1] |= {"hazard": None, "holds_l": None}
    assert pair.allows(segregation.add, places={"one": "low", "two": "high"})


@pytest.mark.parametrize("mark", [{"clothes": True}, {"suits": ["bedding"]}, {"uses_up": {"food": 1}}])
def test_clothes_bedding_and_what_uses_up_food_are_apart_from_chlorine(pair, mark):
    pair.things[0] |= mark
    pair.things[1] |= {"hazard": "oxidiser"}
    assert pair.allows(segregation.add)
    assert not pair.allows(segregation.add, places={"one": "low", "two": "low"})
    assert pair.allows(segregation.add, places={"one": "low", "two": "high"})
    for key in mark:
        del pair.things[0][key]
    assert pair.allows(segregation.add, places={"one": "low", "two": "low"})


def burning(pair: Any, word: str, other: str) -> None:
    """Two things of hazard words, in spaces side by side in the open, 50 mm apart."""
    amounts = {"holds_l": 1, "net_kg": 1, "approved_can": True}
    pair.things[0] |= {"hazard": word, **amounts}
    pair.things[1] |= {"hazard": other, **amounts}
    for space in pair.vehicle["spaces"]:
        space |= {"air": "outside", "holds": "holder"}
    pair.vehicle["spaces"][1]["corner_mm"] = [2450, 0, 500]


SIDE_BY_SIDE = {"one": "low", "two": "high"}


@pytest.mark.parametrize("other", ["oxidiser", "flare"])
@pytest.mark.parametrize("word", ["lpg", "gas_cartridge", "petrol", "petrol_equipment", "ethanol"])
def test_a_wall_is_not_enough(pair, word, other):
    burning(pair, word, other)
    assert pair.allows(segregation.add)
    assert not pair.allows(segregation.add, places=SIDE_BY_SIDE)
    pair.vehicle["spaces"][1]["corner_mm"] = [2451, 0, 500]
    assert pair.allows(segregation.add, places=SIDE_BY_SIDE)


@pytest.mark.parametrize(
    ("word", "other"),
    [
        ("oxidiser", "lithium"),
        ("oil", "flare"),
        ("diesel", "corrosive"),
        ("ethanol", "firelighter"),
        ("lpg", "petrol"),
        ("aerosol", "petrol"),
        ("aerosol", "oxidiser"),
        ("air_bottle", "ethanol"),
        ("oxygen", "corrosive"),
    ],
)
def test_a_wall_is_enough(pair, word, other):
    burning(pair, word, other)
    assert pair.allows(segregation.add, places=SIDE_BY_SIDE)
    assert not pair.allows(segregation.add, places={"one": "low", "two": "low"})


@pytest.mark.parametrize(("word", "other"), [("extinguisher", "petrol"), ("aerosol", "diesel"), ("air_bottle", "oil")])
def test_what_no_table_keeps_apart_may_share_a_space(pair, word, other):
    burning(pair, word, other)
    assert pair.allows(segregation.add, places={"one": "low", "two": "low"})


def test_a_locker_serves_one_purpose(pair):
    burning(pair, "lpg", "petrol")
    pair.vehicle["air"] |= {"box": "locker", "other box": "locker"}
    for space in pair.vehicle["spaces"]:
        space["air"] = "box"
    assert pair.allows(segregation.add)
    assert not pair.allows(segregation.add, places=SIDE_BY_SIDE)
    pair.vehicle["spaces"][1]["air"] = "other box"
    assert pair.allows(segregation.add, places=SIDE_BY_SIDE)


def test_what_people_keep_apart_may_share_a_locker(pair):
    pair.vehicle["air"]["box"] = "locker"
    for space in pair.vehicle["spaces"]:
        space["air"] = "box"
    pair.trip["apart"] = [["one", "two"]]
    assert pair.allows(apart.add, segregation.add, places=SIDE_BY_SIDE)
    assert not pair.allows(apart.add, places={"one": "low", "two": "low"})


def test_no_plan_of_a_locker_for_two_purposes(tiny, no_bound, no_ways_out):  # noqa: ARG001
    tiny.vehicle["air"]["box"] = "locker"
    for name, x in (("first bay", 2000), ("second bay", 2450)):
        tiny.space(name, (x, 0, 500), air="box", holds="holder", accepts=["can"])
    tiny.thing("bottle", hazard="lpg", net_kg=2, holder="can", carry="must")
    tiny.thing("can", hazard="petrol", holds_l=5, approved_can=True, holder="can", carry="must")
    found = propose(tiny.case(), Options(seconds=20))
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert any("may not be in one space or one locker" in says for says in found.conflict.says)


def test_no_plan_for_clothes_beside_chlorine_alone(tiny, no_bound, no_ways_out):  # noqa: ARG001
    tiny.space("bay", (2000, 0, 500))
    tiny.thing("duffel", clothes=True, carry="must")
    tiny.thing("chlorine", hazard="oxidiser", carry="must")
    assert propose(tiny.case(), Options(seconds=20)).status is Status.IMPOSSIBLE
    tiny.things[0]["clothes"] = False
    assert propose(tiny.case(), Options(seconds=20)).plan is not None
