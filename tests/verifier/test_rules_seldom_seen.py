"""Rules where what they look at is missing, gone or exactly on the edge."""

from typing import Any

import pytest


def empty(world: Any, *names: str) -> None:
    for name in names:
        del world.places[name]
        world.gear[name.partition(" #")[0]] |= {"carry": 50, "together": False, "spread": 1, "with": []}


def test_a_thing_for_a_fire_and_for_more_is_judged_for_both(world):
    world.gear["extinguisher"]["needed_when"] = ["fire", "bogged"]
    told = [f.subject for f in world.verdict().findings if f.rule == "incident" and "extinguisher" in f.subject]
    assert told == ["extinguisher #1, bogged", "extinguisher #2, bogged"]


@pytest.mark.parametrize(("share", "holds"), [(1 + 0.9e-9, True), (1 + 1.1e-9, False)])
def test_a_soft_thing_pressed_smaller_by_rounding_alone(world, share, holds):
    # 400 · 400 · 130 mm³ are 20.8 L.
    world.gear["sleeping bag"]["volume_l"] = 20.8 * share
    assert (world.broken() == set()) is holds


def test_a_soft_thing_exactly_at_the_edge_of_rounding(world):
    litres = 20.8 / (1 - 1e-9)
    assert litres * (1 - 1e-9) == 20.8
    world.gear["sleeping bag"]["volume_l"] = litres
    assert world.broken() == set()


def test_one_millimetre_through_the_wall_is_told(world):
    world.put("jackets", (1950, -641, 750))
    assert "jackets sticks out of rear bench: 1 mm at the left." in [f.says for f in world.verdict().broken]


def test_a_lock_of_a_thing_in_a_space_that_the_vehicle_does_not_have(world):
    world.places["jackets"]["space"] = "moon"
    world.plan["locks"] = ({"thing": "jackets", "not_in": "cab rack"},)
    assert world.broken() == {("inside", "jackets")}


def test_nothing_on_a_rack_is_within_a_limit_that_nobody_knows(world):
    empty(world, "water jug", "water jug #2", "sleeping bag")
    world.rack("drawer frame")["limits"] = {}
    assert world.unknown() == set()
    assert "Nothing hangs on drawer frame at 'camp'." in [f.says for f in world.verdict().findings]


def test_a_kilogram_on_a_rack_is_something(world):
    empty(world, "water jug", "water jug #2")
    world.gear["sleeping bag"]["mass_kg"] = 1
    world.rack("drawer frame")["limits"] = {"any_kg": 0.9}
    assert world.broken() == {("rack", "drawer frame")}


def test_a_thing_that_is_gone_from_the_first_stage_on_need_not_be_free(world):
    world.gear["tool box"] |= {"access": "at_once", "uses_up": {"food": 18}}
    assert world.broken() == {("reach", "tool box")}
    for stage in world.trip["stages"]:
        stage["left"] = {"food": 0}
    assert world.broken() == set()


def test_all_in_a_space_with_tie_downs_is_tied(world):
    # 0.8 · 9.81 · 55 kg = 431.64 N, and half of 86.3 daN is 431.5 N.
    world.gear["roof tent"]["two_person"] = False
    world.space("roof place")["tie_downs"] = [{"rated_dan": 86.3}]
    assert world.broken() == {("restraint", "roof place")}


def test_ties_and_barrier_are_judged_where_a_thing_is_heaviest(world):
    # The fridge of 30 kg holds 10 kg of food, half of which is gone on the track.
    world.gear["fridge"]["uses_up"] = {"food": 10}
    right_bay = [f for f in world.verdict().findings if (f.rule, f.subject) == ("restraint", "right bay")]
    assert [(f.stage, f.value) for f in right_bay] == [("leaving", pytest.approx(0.8 * 9.81 * 30))]
    world.space("right bay")["holds"] = "barrier"
    world.vehicle["cargo_barrier"] = {"rated_kg": 29, "top_z_mm": 1350}
    assert world.broken() == {("restraint", "fridge")}


def beside_each_other(world: Any, air: str) -> None:
    """The holder of the petrol can stands 50 mm behind the right bay, in which the food is."""
    world.space("can holder")["corner_mm"] = [3650, 200, 900]
    world.put("petrol can", (3650, 200, 900))
    world.space("right bay")["air"] = air


def test_a_pair_apart_by_air_may_be_on_both_sides_of_a_wall(world):
    beside_each_other(world, "canopy")
    assert world.broken() == set()


def test_in_the_open_it_may_not(world):
    beside_each_other(world, "outside")
    assert world.broken() == {("segregation", "petrol can and food box")}


def test_a_pair_apart_by_space_may_be_neighbours_in_the_open(world):
    world.gear["petrol can"] |= {"hazard": "oil"}
    beside_each_other(world, "outside")
    assert world.broken() == set()


def test_an_empty_space_before_a_full_one(world):
    empty(world, "water jug", "water jug #2", "sleeping bag")
    world.space("right bay")["limit_kg"] = 76
    assert world.broken() == {("space_mass", "right bay")}


def test_nothing_stands_on_a_soft_thing_however_light(world):
    world.gear["tool box"] |= {"shape": "soft", "bears_kg": None}
    world.gear["food box"] |= {"mass_kg": 0.5, "uses_up": {"food": 0.1}}
    assert world.broken() == {("support", "tool box")}


@pytest.mark.parametrize(
    ("near", "far"),
    [
        # A base of 300×300 mm from (1950, -600): half of it on a foot that ends under its middle, a third on another.
        (([1950, -600], [150, 300]), ([2150, -600], [100, 300])),
        (([2100, -600], [150, 300]), ([1950, -600], [100, 300])),
        (([1950, -600], [300, 150]), ([1950, -400], [300, 100])),
        (([1950, -450], [300, 150]), ([1950, -600], [300, 100])),
    ],
)
def test_the_middle_over_the_very_edge_of_what_it_stands_on(world, near, far):
    bench = world.space("rear bench")
    bench["solid"] = [{"corner_mm": [*at, 750], "size_mm": [*sides, 60]} for at, sides in (near, far)]
    world.put("jackets", (1950, -600, 810))
    assert world.broken() == set()
    assert world.found("support", "jackets").value == pytest.approx(5 / 6)
