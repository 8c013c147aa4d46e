"""lock: the solver's side."""

from typing import Any

import pytest

from solver.rules import lock


def locked(pair: Any, **fields: Any) -> Any:
    pair.trip["locks"] = [{"thing": "one", **fields}]
    return pair


def test_in_a_space(pair):
    locked(pair, **{"in": "low"})
    assert pair.allows(lock.add)
    assert not pair.allows(lock.add, places={"one": "high"})
    assert pair.allows(lock.add, places={"one": "low"})


def test_at_a_corner(pair):
    locked(pair, **{"in": "low", "at_mm": [2100, 0, 500]})
    assert not pair.allows(lock.add, places={"one": ("low", (2101, 0, 500))})
    assert pair.allows(lock.add, places={"one": ("low", (2100, 0, 500))})


def test_not_in_a_space_or_on_a_rack(pair):
    pair.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": 100}}]
    pair.vehicle["spaces"][1]["on"] = ["roof"]
    assert not locked(pair, not_in="high").allows(lock.add, places={"one": "high"})
    assert not locked(pair, not_in="roof").allows(lock.add, places={"one": "high"})
    assert pair.allows(lock.add, places={"one": "low"})


@pytest.mark.parametrize(("field", "comes"), [("at_home", False), ("carried", True)])
def test_at_home_or_carried(pair, field, comes):
    pair.things[0]["carry"] = 10
    locked(pair, **{field: True})
    assert pair.allows(lock.add)
    assert pair.allows(lock.add, places={"one": "low"}) is comes
    assert pair.allows(lock.add, home=("one",)) is not comes
