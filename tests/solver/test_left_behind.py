"""What a changed plan leaves behind is told with what stands against it."""

import pytest

from models.case import Copy
from models.plan import Plan
from solver import Options, Revision, revise

pytestmark = pytest.mark.usefixtures("no_bound")

QUICK = Options(effort=0.1, seconds=600.0)


@pytest.fixture
def carried(pair):
    """Two spaces, and two things of 10 kg in them that may stay at home."""
    for thing, worth in zip(pair.things, (20, 60), strict=True):
        thing["carry"] = worth
    return pair


def changed(made) -> Revision:
    places = [
        {"thing": "one", "space": "low", "corner_mm": (2000, 0, 500), "size_mm": (200, 200, 200)},
        {"thing": "two", "space": "high", "corner_mm": (2600, 0, 900), "size_mm": (200, 200, 200)},
    ]
    return revise(made.case(), Plan.model_validate({"trip": "trip.yaml", "placements": places}), QUICK)


def test_more_reserve_is_told_as_the_reason(carried):
    carried.vehicle["limits"]["gvm_kg"] = 2025
    carried.trip["reserve_kg"] = 12
    found = changed(carried)
    assert found.left_behind == (Copy("one", 1),)
    assert found.proposal.home_reasons == {
        Copy("one", 1): "the vehicle with it is 7.0 kg over the total allowed at go, 12 kg of reserve kept"
    }


def test_a_space_that_holds_less_is_told_as_the_reason(carried):
    carried.vehicle["spaces"][1]["limit_kg"] = 5
    carried.vehicle["spaces"][0]["limit_kg"] = 15
    found = changed(carried)
    assert len(found.left_behind) == 1
    (why,) = found.proposal.home_reasons.values()
    assert why == (
        "as the rest lies, it is kept out of every space by the limit of a space, of a rack or of its tie-downs"
    )


def test_where_all_come_nothing_is_told(carried):
    assert changed(carried).proposal.home_reasons == {}


def test_what_a_person_locked_at_home_needs_no_reason(carried):
    carried.trip["locks"] = [{"thing": "one", "at_home": True}]
    found = changed(carried)
    assert found.left_behind == (Copy("one", 1),)
    assert found.proposal.home_reasons == {}
