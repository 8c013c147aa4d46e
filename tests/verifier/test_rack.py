"""rack: what hangs on it, by the ground and by the stage."""

from typing import Any

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


def awning(world: Any, on: list[str] | None) -> None:
    world.vehicle["fittings"] = [{"name": "awning", "mass_kg": 10, "at_mm": [2100, 0, 2000]}]
    if on is not None:
        world.vehicle["fittings"][0]["on"] = on


def test_what_is_bolted_on_counts_on_its_rack_and_on_those_below_at_every_stage(world):
    # 56.5 and 84.5 without it.
    awning(world, ["cab rack"])
    for stage, rack, kg in (("leaving", "cab rack", 66.5), ("leaving", "cab roof", 94.5), ("camp", "cab roof", 244.5)):
        assert world.found("rack", rack, stage).value == pytest.approx(kg)
    awning(world, ["cab roof", "cab rack"])
    assert world.found("rack", "cab roof", "track").value == pytest.approx(94.5), "once by two ways"
    awning(world, ["cab roof"])
    assert world.found("rack", "cab rack", "track").value == pytest.approx(56.5), "not what is below it"
    assert world.found("rack", "drawer frame", "track").value == pytest.approx(23.5)


def test_what_is_bolted_on_makes_a_rack_full_and_just_beyond(world):
    awning(world, ["cab rack"])
    world.rack("cab rack")["limits"]["off_road_kg"] = 66.5
    assert world.broken() == set()
    world.vehicle["fittings"][0]["mass_kg"] = 10.001
    assert world.broken() == {("rack", "cab rack")}
    world.rack("cab rack")["limits"]["off_road_kg"] = 56.5
    nothing: list[list[str] | None] = [None, []]
    for on in nothing:
        awning(world, on)
        assert world.broken() == set()


def test_what_stands_on_the_roof_and_counts_on_no_rack_is_asked_about(world):
    awning(world, None)
    (told,) = world.questions()
    assert told.startswith("awning (10 kg) is bolted on above the body")
    assert "`on: []`" in told
    for said in ([], ["cab roof"]):
        awning(world, list[str](said))
        assert world.questions() == ()


@pytest.mark.parametrize(("at_mm", "asked"), [
    ([3400, -400, 1000], True), ([3400, -400, 1900], True),  # in the drawer on its frame, and on what is over it
    ([3400, -400, 899], False), ([4001, -400, 1000], False), ([1000, 0, 1950], False), ([1000, 0, 1951], True),
])  # fmt: skip
def test_where_a_fitting_is_asked_about(world, at_mm, asked):
    world.vehicle["fittings"] = [{"name": "cooker", "mass_kg": 5, "at_mm": at_mm}]
    assert bool(world.questions()) == asked
    if asked and at_mm[2] < 1951:
        assert "(drawer frame)" in world.questions()[0]
