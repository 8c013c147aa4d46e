"""hazard: the solver's side, with the figures of the shipped rule book."""

import pytest

from models.rules import Rule
from solver import Options, Proposal, Status, propose
from solver.against import company
from solver.limits import passed_total
from solver.rules import hazard
from solver.state import State, lying
from tests.solver.conftest import Tiny, conflict_of
from verifier import check


def test_gas_is_not_where_people_breathe(pair):
    pair.things[0] |= {"hazard": "lpg", "net_kg": 2, "holder": "can"}
    pair.vehicle["spaces"][0] |= {"air": "outside", "holds": "holder", "accepts": ["can"]}
    pair.vehicle["spaces"][1] |= {"air": "cabin", "holds": "holder", "accepts": ["can"]}
    assert pair.allows(hazard.add)
    assert not pair.allows(hazard.add, places={"one": "high"})
    assert pair.allows(hazard.add, places={"one": "low"})


def test_it_rides_in_a_holder_and_not_in_the_heat(pair):
    pair.things[0] |= {"hazard": "lpg", "net_kg": 2, "holder": "can"}
    pair.vehicle["spaces"][0] |= {"air": "outside", "holds": "holder", "accepts": ["can"]}
    assert pair.allows(hazard.add, places={"one": "low"})
    pair.vehicle["spaces"][0]["heat"] = "hot"
    assert not pair.allows(hazard.add, places={"one": "low"})
    pair.vehicle["spaces"][0] |= {"heat": "cabin", "holds": "enclosed"}
    assert not pair.allows(hazard.add, places={"one": "low"})


def test_amounts_add_up(pair):
    totals = pair.case().rulebook.hazards["petrol"].totals
    most = totals.total_l
    assert most is not None
    can = {"hazard": "petrol", "holder": "can", "approved_can": True, "holds_l": most / 3}
    for thing in pair.things:
        thing.update(can)
    pair.things[0]["count"] = 2
    for space in pair.vehicle["spaces"]:
        space |= {"air": "outside", "holds": "holder", "accepts": ["can"]}
    all_three = {"one": "low", "one #2": "low", "two": "high"}
    assert pair.allows(hazard.add, places=all_three)
    pair.things[1]["holds_l"] = most / 3 + 0.001
    assert not pair.allows(hazard.add, places=all_three)
    assert pair.allows(hazard.add, places={"one": "low", "two": "high"}, home=("one #2",))


def side_by_side(pair: Tiny, words: tuple[str, str], litres: tuple[float, float]) -> None:
    """Two things of fuel in holders in the open."""
    for thing, word, held in zip(pair.things, words, litres, strict=True):
        thing.update({"hazard": word, "holder": "can", "approved_can": True, "holds_l": held})
    for space in pair.vehicle["spaces"]:
        space |= {"air": "outside", "holds": "holder", "accepts": ["can"]}


TOGETHER = [
    # one word, its copies and litres each; another, and the litres of it that are just within
    (("petrol", 1, 20), ("petrol_equipment", 40)),
    (("diesel", 4, 50), ("ethanol", 40)),
    (("ethanol", 4, 50), ("petrol_equipment", 40)),
]


@pytest.mark.parametrize(("one", "other"), TOGETHER)
def test_words_that_count_together_add_up(pair, one, other):
    (word, count, each), (besides, litres) = one, other
    pair.things[0]["count"] = count
    all_of_one = {"one" if number == 1 else f"one #{number}": "low" for number in range(1, count + 1)}
    side_by_side(pair, (word, besides), (each, litres))
    assert pair.allows(hazard.add, places={**all_of_one, "two": "high"})
    side_by_side(pair, (word, besides), (each, litres + 0.001))
    assert pair.allows(hazard.add)
    assert not pair.allows(hazard.add, places={**all_of_one, "two": "high"})
    assert pair.allows(hazard.add, places=all_of_one, home=("two",))


def test_the_total_of_one_word_does_not_count_what_counts_it(pair):
    side_by_side(pair, ("diesel", "petrol"), (60, 25))
    assert pair.allows(hazard.add, places={"one": "low", "two": "high"})


def by_search(pair: Tiny, litres: float, carry: str | int) -> Proposal:
    """A can of 20 L that must come, and a generator with so many litres in it."""
    side_by_side(pair, ("petrol", "petrol_equipment"), (20, litres))
    pair.things[0]["carry"], pair.things[1]["carry"] = "must", carry
    return propose(pair.case(), Options(effort=0.01, seconds=600.0))


@pytest.mark.usefixtures("no_bound")
@pytest.mark.parametrize(("litres", "value"), [(40, 50), (40.1, 0)])
def test_a_search_takes_as_much_as_may_come_together(pair, litres, value):
    found = by_search(pair, litres, 50)
    assert (found.levels[0].value, found.levels[0].bound) == (value, value)
    assert found.plan is not None
    assert check(pair.case(), found.plan).holds


@pytest.mark.usefixtures("no_bound", "no_ways_out")
def test_a_refusal_tells_what_counts_together(pair):
    found = by_search(pair, 40.1, "must")
    assert found.conflict is not None
    says = (
        "hazard: 60.1 L of petrol and petrol_equipment must come, and a vehicle may carry 60 L of them together in all"
    )
    assert found.conflict.says[0].startswith(says)


def test_what_stands_against_one_more_names_the_total(pair):
    side_by_side(pair, ("petrol", "petrol_equipment"), (20, 40.1))
    state = State(pair.problem())
    can, generator = state.problem.pieces
    state.add(lying(state.problem, can.index, 0, 0, 2000, 0, 500))
    assert passed_total(state, generator) == ("petrol", "petrol_equipment")
    says = "no more petrol and petrol_equipment may ride in the vehicle"
    assert company(state, generator, 1) == [(Rule.HAZARD, says)]


def garage(pair: Tiny, litres: float) -> None:
    """Spirit in a can and in a stove, in a vented garage that is the only air for either."""
    side_by_side(pair, ("ethanol", "ethanol"), (5 - 1.2, litres))
    pair.vehicle["air"]["garage"] = "vented"
    for space in pair.vehicle["spaces"]:
        space["air"] = "garage"


@pytest.mark.usefixtures("no_bound")
def test_more_in_the_only_air_it_may_be_in_is_a_proven_conflict_with_its_figures(pair):
    garage(pair, 1.2)
    assert propose(pair.case(), Options(effort=0.01, seconds=600.0)).status is Status.FOUND
    garage(pair, 1.3)
    conflict = conflict_of(pair)
    told = "hazard: one and two must come, may be in the air of garage alone, are 5.1 L of ethanol; vented air"
    assert conflict.says[0].startswith(told)
    assert {one.subject for one in conflict.demands} == {"one", "two"}
    assert {way.says for way in conflict.ways_out} == {"Leaving at home: one.", "Leaving at home: two."}


def test_what_stands_against_one_more_in_an_air_tells_what_is_in_it(pair):
    garage(pair, 1.3)
    state = State(pair.problem())
    can, stove = state.problem.pieces
    state.add(lying(state.problem, can.index, 0, 0, 2000, 0, 500))
    says = "the air of garage would hold 5.1 of 5 L of ethanol with one"
    assert company(state, stove, 1) == [(Rule.HAZARD, says)]


def test_a_holder_of_other_things_is_no_holder(pair):
    pair.things[0] |= {"hazard": "lpg", "net_kg": 2}
    for space in pair.vehicle["spaces"]:
        space |= {"air": "outside", "holds": "holder"}
    assert not pair.allows(hazard.add, places={"one": "low"})
    pair.vehicle["spaces"][0]["accepts"] = ["gas bottle"]
    pair.things[0]["holder"] = "gas bottle"
    assert pair.allows(hazard.add, places={"one": "low"})
