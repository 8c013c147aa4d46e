"""Copies that come all or none, also where a lock or a space makes one of them unlike the others."""

import pytest

from models.case import Case
from solver import Options, propose
from tests.chances import seeds
from verifier import Finding, check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_out")


@pytest.fixture
def set_of_three(pair):
    """Three that are worth much and have room for two of them beside a must."""
    pair.things = []
    pair.thing("must", count=1)
    for n in range(3):
        pair.thing(f"small {n}", carry=2, size_mm=[200, 200, 200])
    pair.thing("set", count=3, carry=60, all_or_none=True, size_mm=[400, 400, 200])
    pair.vehicle["spaces"][0]["size_mm"] = [400, 400, 400]
    pair.vehicle["spaces"][1]["size_mm"] = [400, 400, 200]
    pair.trip["choose_within_mm"] = 500
    return pair


def broken(case: Case, seed: int) -> tuple[Finding, ...]:
    found = propose(case, Options(effort=0.5, seconds=600.0, seed=seed))
    assert found.plan is not None
    return check(case, found.plan).broken


@pytest.mark.parametrize("seed", seeds(1, of=2))
def test_a_lock_on_one_of_them_parts_them_no_more(set_of_three, seed):
    set_of_three.trip["locks"] = [{"thing": "set", "copy": 1, "not_in": "high"}]
    assert broken(set_of_three.case(), seed) == ()


@pytest.mark.parametrize("seed", seeds(1, of=2))
def test_a_space_in_one_of_them_parts_them_no_more(set_of_three, seed):
    set_of_three.space("in it", (2050, 50, 550), size_mm=[100, 100, 100], inside_of="set")
    assert broken(set_of_three.case(), seed) == ()
