"""Questions about a plan in which something lies where a lock or the rule book does not let it be."""

import pytest

from models.case import Copy
from solver import Options, why_not
from solver.recombine import lawful
from solver.trying import Trial
from tests.chances import some
from tests.solver.test_explain import plan_at

SOME = Options(effort=1.0, seconds=1.0)


@pytest.mark.parametrize("lock", [{"in": "low"}, {"not_in": "high"}])
def test_another_copy_is_asked_about(pair, lock):
    pair.things = []
    pair.thing("box", count=2)
    pair.trip["locks"] = [{"thing": "box", "copy": 2, **lock}]
    plan = plan_at(box_1=("low", (2000, 0, 500)), box_2=("high", (2600, 0, 900)))
    found = why_not(pair.case(), plan, Copy("box", 1), SOME)
    assert [row.space for row in found.rows] == ["high"]


@pytest.fixture
def gas(pair):
    """Gas among the people, which the book forbids, and a box and a hat elsewhere."""
    pair.things = []
    pair.thing("box", mass_kg=100)
    pair.thing("hat", mass_kg=50)
    pair.thing("gas", hazard="lpg", net_kg=2, mass_kg=5)
    pair.vehicle["spaces"][0]["air"] = "cabin"
    pair.space("higher", (2000, 600, 1300))
    places = {"box": ("high", (2600, 0, 900)), "hat": ("higher", (2000, 600, 1300))}
    return pair.case(), plan_at(gas=("low", (2000, 0, 500)), **places)


def test_what_the_book_forbids_is_not_lawful(gas):
    case, plan = gas
    assert lawful(Trial(case, plan, SOME).now) is False


@pytest.mark.long
@pytest.mark.parametrize("name", some(["hat", "box"], 1))
def test_another_thing_is_asked_about(gas, name):
    case, plan = gas
    assert why_not(case, plan, Copy(name, 1), SOME).rows
