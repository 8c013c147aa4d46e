"""restraint: the solver's side."""

import pytest

from solver import Options, propose
from solver.heights import every_reason
from solver.rules import restraint
from tests.solver.conftest import QUICK, conflict_of
from verifier import check


def test_what_nothing_holds(pair):
    pair.vehicle["spaces"][0]["holds"] = "none"
    assert pair.allows(restraint.add)
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})


def test_soft_things_below_the_seat_backs(pair):
    pair.vehicle["spaces"][0] |= {"holds": "none", "air": "cabin", "corner_mm": [2000, 0, 800]}
    pair.things[0] |= {"shape": "soft", "mass_kg": 1}
    assert pair.allows(restraint.add, places={"one": ("low", (2000, 0, 950))})
    assert not pair.allows(restraint.add, places={"one": ("low", (2000, 0, 951))})
    assert not pair.allows(restraint.add, places={"two": "low"})


def test_a_soft_thing_lies_loose_among_people_only_if_it_is_light(pair):
    pair.vehicle["spaces"][0] |= {"holds": "none", "air": "cabin", "corner_mm": [2000, 0, 500]}
    pair.things[0] |= {"shape": "soft", "mass_kg": 1}
    assert pair.allows(restraint.add, places={"one": "low"})
    pair.things[0]["mass_kg"] = 1.001
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})
    pair.things[0]["tied"] = True
    pair.vehicle["spaces"][0]["tie_downs"] = [{"rated_dan": 100}]
    assert pair.allows(restraint.add, places={"one": "low"})
    del pair.things[0]["tied"]
    assert not pair.allows(restraint.add, places={"one": "low"})
    pair.vehicle["spaces"][0]["holds"] = "tie_downs"
    assert pair.allows(restraint.add, places={"one": "low"})


def test_a_seat_back_that_nobody_measured_keeps_nothing_out(pair):
    pair.vehicle["spaces"][0] |= {"holds": "none", "air": "cabin", "corner_mm": [2000, 0, 800]}
    pair.things[0] |= {"shape": "soft", "mass_kg": 1}
    pair.vehicle["seats"].append({"name": "bench", "at_mm": [2100, 0, 850]})
    assert pair.allows(restraint.add, places={"one": ("low", (2000, 0, 950))})
    assert not pair.allows(restraint.add, places={"one": ("low", (2000, 0, 951))})
    del pair.vehicle["seats"][0]["back_top_z_mm"]
    assert pair.allows(restraint.add, places={"one": ("low", (2000, 0, 951))})


@pytest.mark.usefixtures("no_bound")
def test_a_soft_thing_is_flat_enough_to_lie_below_the_seat_backs(tiny):
    tiny.space("floor", (1500, 0, 1000), size_mm=[1900, 1900, 1900], holds="none", air="cabin", opening="door")
    tiny.thing("duvet", mass_kg=0.9, volume_l=100, shape="soft", carry="must")
    plan = propose(tiny.case(), Options(effort=0.01, seconds=600.0)).plan
    assert plan is not None
    assert plan.placements[0].corner_mm[2] + plan.placements[0].size_mm[2] <= 1150


def test_the_barrier(pair):
    pair.vehicle["spaces"][0] |= {"holds": "barrier"}
    pair.vehicle["cargo_barrier"] = {"rated_kg": 10, "top_z_mm": 800}
    assert pair.allows(restraint.add, places={"one": ("low", (2000, 0, 600))})
    assert not pair.allows(restraint.add, places={"one": ("low", (2000, 0, 601))})
    pair.things[0]["mass_kg"] = 10.1
    assert not pair.allows(restraint.add, places={"one": "low"})


def test_the_barrier_holds_what_a_thing_weighs_on_the_trip(pair):
    pair.vehicle["spaces"][0] |= {"holds": "barrier"}
    pair.vehicle["cargo_barrier"] = {"rated_kg": 8, "top_z_mm": 900}
    pair.things[0]["uses_up"] = {"food": 4}
    pair.trip["stages"] = [{"name": "go", "surface": "off_road", "left": {"food": 0.5}}]
    assert pair.allows(restraint.add, places={"one": "low"})
    pair.trip["stages"][0]["left"] = {"food": 0.6}
    assert not pair.allows(restraint.add, places={"one": "low"})


def test_the_barrier_holds_nothing_behind_somebody_who_sits_behind_it_too(pair):
    pair.vehicle["spaces"][0] |= {"holds": "barrier", "air": "cabin", "corner_mm": [2200, 0, 500]}
    seats = pair.vehicle["seats"]
    pair.vehicle["cargo_barrier"] = {"rated_kg": 90, "top_z_mm": 1900, "behind_seats": [seats[0]["name"]]}
    seats.append({"name": "bench", "at_mm": [2100, 0, 850], "back_top_z_mm": 1150})
    pair.trip["people"] = [{"name": "Ada", "mass_kg": 60, "seat": seats[0]["name"]}]
    assert pair.allows(restraint.add, places={"one": "low"})
    pair.trip["people"].append({"name": "Kit", "mass_kg": 30, "seat": "bench"})
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})
    pair.vehicle["cargo_barrier"]["behind_seats"] = ["bench"]
    assert pair.allows(restraint.add, places={"one": "low"})


def test_the_barrier_holds_what_is_gone_when_somebody_sits_behind_it_too(pair):
    pair.vehicle["spaces"][0] |= {"holds": "barrier", "air": "cabin", "corner_mm": [2200, 0, 500]}
    seats = pair.vehicle["seats"]
    pair.vehicle["cargo_barrier"] = {"rated_kg": 90, "top_z_mm": 1900, "behind_seats": [seats[0]["name"]]}
    seats.append({"name": "bench", "at_mm": [2100, 0, 850], "back_top_z_mm": 1150})
    people = (("Ada", seats[0]["name"]), ("Kit", "bench"))
    pair.trip["people"] = [{"name": name, "mass_kg": 60, "seat": seat} for name, seat in people]
    pair.things[0]["uses_up"] = {"feed": 10}
    out = {"name": "out", "surface": "off_road", "people": ["Ada"]}
    camp = {"name": "camp", "surface": "parked"}
    back = {"name": "back", "surface": "off_road", "left": {"feed": 0.00004}}
    pair.trip["stages"] = [out, camp, back]
    assert pair.allows(restraint.add, places={"one": "low"})
    assert not pair.allows(restraint.add, places={"two": "low"})
    back["left"] = {"feed": 0.0001}
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})


def test_tie_downs_hold_so_much(pair):
    # ½ · 10 · rated_dan against 0.8 · 9.81 · 20 kg = 156.96 N.
    pair.vehicle["spaces"][0] |= {"holds": "tie_downs", "tie_downs": [{"rated_dan": 31.4}]}
    both = {"one": "low", "two": "low"}
    assert pair.allows(restraint.add, places=both)
    pair.vehicle["spaces"][0]["tie_downs"] = [{"rated_dan": 31.3}]
    assert not pair.allows(restraint.add, places=both)
    assert pair.allows(restraint.add, places={"one": "low", "two": "high"})


def test_what_must_be_tied_has_something_to_tie_to(pair):
    pair.things[0]["tied"] = True
    pair.vehicle["spaces"][1]["tie_downs"] = [{"rated_dan": 100}]
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})


@pytest.mark.parametrize("holds", ["holder", "bracket"])
def test_a_bracket_holds_what_has_its_word_and_no_other(pair, holds):
    pair.vehicle["spaces"][0] |= {"holds": holds}
    assert pair.allows(restraint.add)
    assert not pair.allows(restraint.add, places={"one": "low"})
    assert pair.allows(restraint.add, places={"one": "high"})
    pair.vehicle["spaces"][0]["accepts"] = ["chest"]
    pair.things[0] |= {"holder": "chest", "two_person": True}
    assert pair.allows(restraint.add, places={"one": "low"})


def test_what_is_in_a_bracket_of_other_things_is_tied(pair):
    # 0.8 · 9.81 · 10 kg = 78.48 N; the other one is in its own bracket and asks nothing of the points.
    space = pair.vehicle["spaces"][0]
    space |= {"holds": "bracket", "accepts": ["chest"], "tie_downs": [{"rated_dan": 15.7}]}
    pair.things[0] |= {"suits": ["chest"]}
    pair.things[1] |= {"holder": "chest", "mass_kg": 50}
    both = {"one": "low", "two": "low"}
    assert pair.allows(restraint.add, places=both)
    space["tie_downs"] = [{"rated_dan": 15.6}]
    assert not pair.allows(restraint.add, places=both)
    assert pair.allows(restraint.add, places={"two": "low"}, home=("one",))


def test_a_hard_thing_tied_in_a_bracket_of_other_things_is_below_the_seat_backs(pair):
    space = pair.vehicle["spaces"][0]
    space |= {"holds": "bracket", "air": "cabin", "corner_mm": [2000, 0, 800], "tie_downs": [{"rated_dan": 90}]}
    assert pair.allows(restraint.add, places={"one": ("low", (2000, 0, 950))})
    assert not pair.allows(restraint.add, places={"one": ("low", (2000, 0, 951))})


@pytest.mark.usefixtures("no_bound")
def test_a_search_keeps_what_has_no_bracket_of_its_own_out_of_one(tiny):
    tiny.space("rail", (2000, 0, 300), holds="bracket")
    tiny.space("bay", (2000, 600, 800))
    tiny.thing("chest", 40, carry="must")
    case = tiny.case()
    plan = propose(case, Options(effort=0.01, seconds=600.0)).plan
    assert plan is not None
    assert plan.placements[0].space == "bay"
    assert check(case, plan).holds


@pytest.mark.usefixtures("no_bound", "no_ways_out")
def test_a_refusal_tells_that_a_bracket_is_not_made_for_a_thing(tiny):
    tiny.space("rail", holds="bracket")
    tiny.thing("chest", 40)
    assert "rail: nothing holds it in rail, a bracket not made for it." in conflict_of(tiny).says


@pytest.mark.parametrize("kg", [0, 0.1])
def test_what_weighs_nothing_needs_nothing_to_tie_it_to(pair, kg):
    pair.vehicle["spaces"][0]["holds"] = "tie_downs"
    pair.things[0]["mass_kg"] = kg
    case = pair.case()
    assert bool(every_reason(case, case.thing_named["one"], case.space_named["low"])) is (kg > 0)
    pair.space("in it", (2050, 50, 550), size_mm=[100, 100, 100], inside_of="one")
    case = pair.case()
    assert every_reason(case, case.thing_named["one"], case.space_named["low"])


@pytest.mark.parametrize("more", [{"mass_kg": 0}, {"mass_kg": 5, "uses_up": {"food": 5}}])
@pytest.mark.usefixtures("no_bound", "searched_little")
def test_what_weighs_nothing_asks_for_no_point_to_tie_to(tiny, more):
    tiny.space("bed", holds="tie_downs")
    tiny.thing("sheet", **more)
    tiny.trip["stages"] = [{"name": "go", "surface": "off_road", "left": {"food": 0.0}}]
    if "uses_up" not in more:
        del tiny.trip["stages"][0]["left"]
    found = propose(tiny.case(), QUICK)
    assert found.plan is not None
    assert check(tiny.case(), found.plan).holds is True
    tiny.things[0]["mass_kg"] = 5.01
    assert "bed: has nothing to tie to." in conflict_of(tiny).says
