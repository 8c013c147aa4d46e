"""What a changed plan leaves behind is told with what stands against it."""

import pytest

from models.case import Copy
from models.plan import Plan
from solver import Options, Revision, revise

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

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


def test_what_no_space_holds_any_more_is_told_so(carried):
    carried.things[0]["size_mm"] = [900, 900, 900]
    assert changed(carried).proposal.home_reasons == {Copy("one", 1): "no space of this vehicle may hold it"}


def test_what_locks_keep_out_of_every_space_is_told_so(carried):
    carried.trip["locks"] = [{"thing": "one", "not_in": "low"}, {"thing": "one", "not_in": "high"}]
    assert changed(carried).proposal.home_reasons == {Copy("one", 1): "its locks leave no space open that may hold it"}


def test_copies_that_come_all_or_none_are_told_together(tiny):
    tiny.space("low")
    tiny.thing("set", count=3, carry=20, all_or_none=True)
    tiny.vehicle["limits"]["gvm_kg"] = 2015
    places = [
        {"thing": "set", "copy": n + 1, "space": "low", "corner_mm": corner, "size_mm": (200, 200, 200)}
        for n, corner in enumerate([(2000, 0, 500), (2200, 0, 500), (2000, 200, 500)])
    ]
    found = revise(tiny.case(), Plan.model_validate({"trip": "trip.yaml", "placements": places}), QUICK)
    says = "the vehicle with it is 15.0 kg over the total allowed at go"
    assert found.proposal.home_reasons == {Copy("set", n): says for n in (1, 2, 3)}


def test_what_does_not_come_without_another_is_told_so(carried):
    carried.vehicle["limits"]["gvm_kg"] = 2015
    carried.things[0] |= {"with": ["two"], "mass_kg": 4}
    carried.things[1] |= {"mass_kg": 16}
    found = changed(carried)
    assert found.proposal.home_reasons[Copy("one", 1)] == "it does not come without two"
