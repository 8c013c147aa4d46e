"""rack: what hangs on it, by the ground and by the stage."""

import pytest


def test_things_racks_and_people_count_once_each(world):
    # Tent 55 and sleeping bag 1.5 on the cab rack; the roof carries the rack's own 28 as well; camp adds 150.
    assert world.found("rack", "cab rack", "leaving").value == pytest.approx(56.5)
    assert world.found("rack", "cab roof", "leaving").value == pytest.approx(84.5)
    assert world.found("rack", "cab roof", "camp").value == pytest.approx(234.5)
    assert world.found("rack", "drawer frame", "camp").value == pytest.approx(23.5)


def test_exactly_the_limit_holds(world):
    world.rack("cab rack")["limits"]["off_road_kg"] = 56.5
    assert world.broken() == set()
    world.rack("cab rack")["limits"]["off_road_kg"] = 56.4
    assert world.broken() == {("rack", "cab rack")}


def test_the_parked_figure_excuses_no_driving_stage(world):
    world.rack("cab roof")["limits"] = {"parked_kg": 300, "sealed_road_kg": 84, "off_road_kg": 85}
    assert [(f.subject, f.stage) for f in world.verdict().broken] == [("cab roof", "leaving")]


def test_parked_stages_are_judged_too(world):
    world.rack("cab rack")["limits"]["parked_kg"] = 206
    assert world.broken() == {("rack", "cab rack")}


def test_a_rack_that_counts_itself(world):
    world.rack("cab rack")["counts_itself"] = True
    assert world.found("rack", "cab rack", "leaving").value == pytest.approx(84.5)
    assert world.broken() == {("rack", "cab rack")}


def test_people_on_a_rack_while_driving(world):
    world.stage("track")["on_racks"] = {"cab rack": 1}
    assert world.broken() == {("rack", "cab rack")}


def test_a_limit_for_the_ground_that_nobody_knows(world):
    del world.rack("cab rack")["limits"]["off_road_kg"]
    assert world.unknown() == {("rack", "cab rack")}


def test_a_thing_that_hangs_there_by_two_ways_counts_once(world):
    world.space("roof place")["on"] = ["cab rack", "cab roof"]
    assert world.found("rack", "cab roof", "leaving").value == pytest.approx(84.5)
