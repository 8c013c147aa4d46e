"""Questions: what no rule forbids and hardly anybody means is asked, and a sound plan is asked nothing."""

from typing import Any

import pytest


def asked(world: Any) -> tuple[str, ...]:
    found: tuple[str, ...] = world.questions()
    return found


def test_a_sound_plan_is_asked_nothing(world):
    assert asked(world) == ()


def test_questions_break_nothing(world):
    before = world.verdict().findings
    world.gear["jackets"]["name"] = "generator"
    world.places["jackets"]["thing"] = "generator"
    verdict = world.verdict()
    assert verdict.questions == asked(world)
    assert len(verdict.questions) == 1
    assert [(one.rule, one.holds) for one in verdict.findings] == [(one.rule, one.holds) for one in before]


def test_a_driving_stage_with_nobody_aboard_is_asked_about(world):
    world.stage("track")["people"] = []
    (told,) = asked(world)
    assert told.startswith("Nobody is aboard at 'track': who drives?")


def test_a_driving_stage_with_nobody_in_the_driver_s_seat_is_asked_about(world):
    world.stage("track")["people"] = ["Ilko"]
    (told,) = asked(world)
    assert told.startswith("Nobody is in the seat driver at 'track', and Ilko is aboard: who drives?")
    assert "`seat: driver`" in told
    world.stage("track")["surface"] = "parked"
    assert asked(world) == ()


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Driver's seat", 1), ("driving seat", 1), ("front right", 0), ("seat behind the driver", 0),
        ("driver side rear", 0), ("co-driver", 0), ("screwdriver box", 0),
    ],
)  # fmt: skip
def test_whose_seat_it_is_has_to_stand_in_its_name(world, name, expected):
    seat = next(one for one in world.vehicle["seats"] if one["name"] == "driver")
    person = next(one for one in world.trip["people"] if one["seat"] == "driver")
    seat["name"] = person["seat"] = name
    world.stage("track")["people"] = ["Ilko"]
    assert len(asked(world)) == expected


def test_where_two_seats_may_be_the_driver_s_nothing_is_asked(world):
    world.vehicle["seats"].append({"name": "second driver", "at_mm": [1400, 0, 800]})
    world.stage("track")["people"] = ["Ilko"]
    assert asked(world) == ()


def test_what_only_a_passenger_reaches_is_asked_about_where_the_driver_is_alone(world):
    world.stage("track")["people"] = ["Mara"]
    assert asked(world) == ()
    for name in ("door pocket", "inner bracket"):
        next(one for one in world.vehicle["spaces"] if one["name"] == name)["in_reach_when"] = ["belted passenger"]
    (told,) = asked(world)
    who = "At 'track' the driver is alone, and only a belted passenger reaches"
    assert told.startswith(f"{who} first aid, extinguisher #1: can the driver?")
    world.stage("track")["people"] = ["Mara", "Ilko"]
    assert asked(world) == ()


@pytest.mark.parametrize(("mass_kg", "is_child"), [(36, True), (37, False)])
def test_a_small_child_reaches_nothing_for_the_driver(world, mass_kg, is_child):
    world.stage("track")["people"] = ["Mara", "Ilko"]
    next(one for one in world.trip["people"] if one["name"] == "Ilko")["mass_kg"] = mass_kg
    for name in ("door pocket", "inner bracket"):
        next(one for one in world.vehicle["spaces"] if one["name"] == name)["in_reach_when"] = ["belted passenger"]
    told = [says for says in asked(world) if "only a belted passenger reaches first aid" in says]
    assert len(told) == is_child
    assert all("'track'" in says and " the driver is alone with children" in says for says in told)


def test_an_extinguisher_that_the_driver_reaches_is_enough(world):
    world.stage("track")["people"] = ["Mara"]
    outer = next(one for one in world.vehicle["spaces"] if one["name"] == "outer bracket")
    outer["in_reach_when"] = ["belted passenger"]
    assert asked(world) == ()
    inner = next(one for one in world.vehicle["spaces"] if one["name"] == "inner bracket")
    inner["in_reach_when"] = []
    assert "only a belted passenger reaches extinguisher #2" in asked(world)[0]


@pytest.mark.parametrize(
    ("people", "on_racks_kg", "counted"),
    [
        # Mara weighs 70 kg and Ilko 80; 20 kg more may be their bedding.
        (None, 150, "150 kg of people are on racks and 150 kg aboard"),
        (None, 20, None),
        (None, 21, "21 kg of people are on racks and 150 kg aboard"),
        (["Ilko"], 90, None),
        (["Ilko"], 91, "91 kg of people are on racks and 80 kg aboard"),
        ([], 300, None),
    ],
)
def test_people_on_a_rack_and_aboard_at_once_are_asked_about(world, people, on_racks_kg, counted):
    world.stage("camp").update({"people": people, "on_racks": {"cab rack": on_racks_kg}})
    world.rack("cab rack")["limits"]["parked_kg"] = 500
    told = asked(world)
    assert len(told) == (0 if counted is None else 1)
    if counted:
        assert told[0].startswith(f"At 'camp' {counted}, and all people of the trip weigh 150 kg: is somebody counted")
        assert "`people: []`" in told[0]


def test_several_stages_with_people_counted_twice_are_asked_about_once(world):
    del world.stage("camp")["people"]
    world.trip["stages"].append({**world.stage("camp"), "name": "second camp"})
    (told,) = asked(world)
    assert told.startswith("At 'camp' ")
    assert told.endswith("Likewise at 'second camp'.")


def test_a_parked_stage_needs_nobody(world):
    world.stage("camp")["people"] = []
    assert asked(world) == ()


@pytest.mark.parametrize(
    ("corner", "size", "people", "expected"),
    [
        ([1900, -640, 750], [450, 500, 500], ["Mara", "Ilko"], 0),
        ([1900, -640, 750], [450, 500, 500], None, 1),
        ([1900, -640, 750], [199, 500, 500], None, 0),
        ([1900, -640, 750], [200, 500, 500], None, 1),
        ([2100, -640, 750], [200, 500, 500], None, 1),
        ([2101, -640, 750], [200, 500, 500], None, 0),
    ],
)
def test_a_space_over_a_person_with_no_seat_of_its_own_is_asked_about(world, corner, size, people, expected):
    bench = world.space("rear bench")
    bench |= {"corner_mm": corner, "size_mm": size}
    del bench["seat"]
    world.put("jackets", (corner[0], -600, 750), size_mm=(190, 300, 200))
    world.trip["people"].append({"name": "Cy", "mass_kg": 60, "seat": "rear left"})
    for stage in world.trip["stages"]:
        stage["on_racks"] = {}
        stage["people"] = people if people is not None else ["Mara", "Ilko", "Cy"]
    found = asked(world)
    assert len(found) == expected
    assert all("rear bench reaches over the place of Cy" in told and "`seat:`" in told for told in found)


def test_an_empty_space_over_a_person_is_no_matter(world):
    del world.space("rear bench")["seat"]
    del world.places["jackets"]
    world.trip["people"].append({"name": "Cy", "mass_kg": 60, "seat": "rear left"})
    assert asked(world) == ()


def test_a_space_that_names_its_seat_is_a_rule_and_no_question(world):
    world.trip["people"].append({"name": "Cy", "mass_kg": 60, "seat": "rear left"})
    assert asked(world) == ()
    assert ("available", "jackets") in world.broken()


def low(world: Any, **opening: Any) -> Any:
    world.space("right bay")["corner_mm"] = [2600, 100, 599]
    world.space("right bay")["solid"] = []
    flap = next(one for one in world.vehicle["openings"] if one["name"] == "right flap")
    flap |= opening
    return world


def test_recovery_gear_low_behind_a_side_is_asked_about(world):
    (told,) = asked(low(world))
    assert "recovery kit, needed when bogged, is in right bay, 599 mm above ground behind right flap" in told


def test_several_things_low_behind_a_side_are_asked_about_in_one_sentence(world):
    world.gear["tool box"]["needed_when"] = ["bogged"]
    (told,) = asked(low(world))
    assert told.startswith("tool box, recovery kit, needed when bogged, are in right bay, 599 mm above ground")


def test_a_side_that_opens_after_another_is_asked_about_until_both_are_told(world):
    locker = {"name": "right locker", "side": "right", "stuck_when": [], "after": ["right flap"]}
    world.vehicle["openings"].append(locker)
    world.space("right bay")["opening"] = "right locker"
    (told,) = asked(low(world))
    assert "behind right locker: does that open with the sills in the mud?" in told
    assert asked(low(world, stuck_when=[])) == ()


def test_a_side_whose_owner_says_when_it_is_stuck_is_not_asked_about(world):
    assert asked(low(world, stuck_when=["on right side"])) == ()


def test_a_low_space_behind_the_tail_is_left_to_the_rule(world):
    assert asked(low(world, side="rear")) == ()


def test_a_floor_as_high_as_the_sills_is_not_asked_about(world):
    world.space("right bay")["corner_mm"] = [2600, 100, 600]
    world.space("right bay")["solid"] = []
    assert asked(world) == ()


@pytest.mark.parametrize(("other", "told"), [("Jackets", 1), ("jack-ets ", 1), ("jackets 2", 0)])
def test_names_that_differ_in_capitals_and_signs_alone_are_asked_about(world, other, told):
    world.gear["jackets"]["name"] = world.places["jackets"]["thing"] = "jackets"
    world.gear["kettle"] = world.gear["jackets"] | {"name": other.strip()}
    world.places["kettle"] = world.places["jackets"] | {"thing": other.strip()}
    assert len([one for one in asked(world) if one.endswith("is that one thing, listed twice?")]) == told


@pytest.mark.parametrize(("name", "told"), [("water jug #2", True), ("water jug #3", False), ("water jug2", False)])
def test_a_thing_that_is_called_as_a_copy_of_another_is_asked_about(world, name, told):
    assert world.gear["water jug"]["count"] == 2
    world.gear["jackets"]["name"] = name
    world.places[name] = world.places.pop("jackets")
    said = [one for one in world.questions() if "is called so too" in one]
    assert len(said) == told
    assert all(one.startswith(f"{name!r} is a thing by itself, and copy 2 of 'water jug'") for one in said)
