"""Where one thing is tried in a space, what stands for a space it does not fit into, and the things around a space."""

from typing import Any

import pytest

from models.case import Copy
from models.plan import Plan
from verifier import Finding, broken_in


def broken(world: Any, thing: str, space: str) -> tuple[Finding, ...]:
    plan = Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})
    return broken_in(world.case(), plan, Copy(thing, 1), space)


def rules(world: Any, thing: str, space: str) -> set[str]:
    return {one.rule.value for one in broken(world, thing, space)}


def crate(world: Any, height: int, barrier: int = 9000, plates: tuple[tuple[int, int], ...] = (), **own: Any) -> None:
    """A crate of 400×300×300 mm, and the right bay, whose floor is at 900 mm, with plates right across it."""
    solid = [{"corner_mm": [2600, 100, low], "size_mm": [1000, 540, high - low]} for low, high in plates]
    world.space("right bay").update(size_mm=[1000, 540, height], holds="barrier", solid=solid)
    world.vehicle["cargo_barrier"] = {"rated_kg": 200, "top_z_mm": barrier}
    listed = {"name": "crate", "mass_kg": 3, "size_mm": [400, 300, 300], "turns": "upright"}
    world.gear["crate"] = listed | own


@pytest.mark.parametrize(
    ("plates", "gap", "top"),
    [
        ((), {}, 1200),  # on the floor
        (((900, 1000),), {}, 1300),  # on a plate that covers the floor
        ((), {"bottom": 50}, 1250),  # with free air below
        (((900, 1000),), {"bottom": 50}, 1350),  # with free air above the plate
    ],
)
def test_a_thing_is_tried_as_low_as_it_goes(world, plates, gap, top):
    crate(world, 600, barrier=top, plates=plates, air_gap_mm=gap)
    assert rules(world, "crate", "right bay") == set()
    crate(world, 600, barrier=top - 1, plates=plates, air_gap_mm=gap)
    assert rules(world, "crate", "right bay") == {"restraint"}


@pytest.mark.parametrize(("line", "expected"), [(1180, set()), (1181, {"weather"})])
def test_and_as_high_as_it_goes(world, line, expected):
    # The ceiling is at 1500 mm: 20 mm of free air and 300 mm of crate below it.
    crate(world, 600, air_gap_mm={"top": 20}, electrical=True)
    world.vehicle["wading_line_mm"] = line
    assert rules(world, "crate", "right bay") == expected


@pytest.mark.parametrize(("barrier", "expected"), [(1300, set()), (1299, {"overlap"})])
def test_a_thing_is_tried_on_top_of_the_way_of_a_slide(world, barrier, expected):
    # The drawer runs across the whole floor of the bay, from 900 to 1000 mm.
    crate(world, 600, barrier=barrier)
    drawer(world, to="right", mm=1000)
    assert rules(world, "crate", "right bay") == expected


def drawer(world: Any, **slides: Any) -> None:
    """The left drawer as long as the right bay and 100 mm high, sliding as told."""
    world.space("left drawer").update(corner_mm=[2600, -640, 900], size_mm=[1000, 560, 100], slides=slides)


@pytest.mark.parametrize(("barrier", "expected"), [(1250, set()), (1249, {"weather"})])
def test_electrical_things_are_tried_right_above_the_water(world, barrier, expected):
    # Neither on the floor, at 900 mm, nor below the ceiling, to 1500 mm, and in between it may stand on something.
    crate(world, 600, barrier=barrier, electrical=True)
    world.vehicle["wading_line_mm"] = 950
    assert rules(world, "crate", "right bay") == expected


def test_free_air_below_electrical_things_may_be_under_water(world):
    crate(world, 600, barrier=1251, electrical=True, air_gap_mm={"bottom": 50})
    world.vehicle["wading_line_mm"] = 951
    assert rules(world, "crate", "right bay") == set()


def test_without_a_wading_line_nothing_has_to_be_above_it(world):
    crate(world, 600, barrier=1200, electrical=True)
    del world.vehicle["wading_line_mm"]
    assert rules(world, "crate", "right bay") == set()


def test_a_slide_may_run_through_the_free_air_of_a_thing(world):
    # The drawer runs to 300 mm in a bay from 100 to 640 mm; 340 mm are left for the crate, and its air is in the way.
    crate(world, 600, size_mm=[400, 340, 300], turns="fixed", air_gap_mm={"left": 50})
    drawer(world, to="right", mm=380)
    world.space("left drawer")["size_mm"][2] = 600
    assert rules(world, "crate", "right bay") == set()
    drawer(world, to="right", mm=381)
    world.space("left drawer")["size_mm"][2] = 600
    assert rules(world, "crate", "right bay") == {"overlap"}


def test_a_slide_elsewhere_changes_nothing_that_is_told(world):
    crate(world, 600, barrier=1150, electrical=True)
    world.vehicle["wading_line_mm"] = 950
    drawer(world, to="rear", mm=900)
    (found,) = broken(world, "crate", "right bay")
    assert (found.value, found.limit) == (1250, 1150)


def test_no_place_below_the_floor_is_tried(world):
    # On the floor it runs into the plate and stands over the barrier; hung below the plate it would leave the bay.
    crate(world, 450, barrier=1200, plates=((1000, 1050),), size_mm=[400, 300, 400])
    assert rules(world, "crate", "right bay") == {"inside", "restraint"}


def test_nor_one_whose_air_goes_through_the_floor(world):
    # From 910 to 1210 mm it stays below plate and barrier, and its 50 mm of air do not stay in the bay.
    crate(world, 600, barrier=1220, plates=((1210, 1260),), air_gap_mm={"bottom": 50})
    assert rules(world, "crate", "right bay") == {"inside", "restraint"}


def test_nor_one_whose_air_goes_through_the_ceiling(world):
    # On the plate, from 1000 to 1300 mm, it is above the water, and its 20 mm of air need 1320 of 1310 mm.
    crate(world, 410, plates=((950, 1000),), air_gap_mm={"top": 20}, electrical=True)
    world.vehicle["wading_line_mm"] = 995
    assert rules(world, "crate", "right bay") == {"inside", "weather"}


def test_what_fits_nowhere_is_judged_where_it_would_stand(world):
    # 50 mm of air and 300 mm of crate in 300 mm: it stands from 950 to 1250 mm.
    crate(world, 300, barrier=1240, air_gap_mm={"bottom": 50})
    assert rules(world, "crate", "right bay") == {"inside", "restraint"}


def test_of_ways_equally_bad_the_one_as_listed_is_told(world):
    crate(world, 600, barrier=1050, turns="any", size_mm=[500, 240, 200])
    (found,) = broken(world, "crate", "right bay")
    assert (found.value, found.limit) == (1100, 1050)


def test_a_way_that_fits_is_told_before_one_that_does_not(world):
    # Lying, 510 mm leave the bench of 450 by 500 mm; standing, they are above the seat backs at 1150 mm.
    world.space("rear bench")["size_mm"] = [450, 500, 600]
    world.gear["jackets"] |= {"size_mm": [510, 100, 100], "keep": "cool"}
    assert rules(world, "jackets", "rear bench") == {"restraint", "weather"}


def test_two_reasons_of_one_rule_are_both_told(world):
    world.gear["jackets"] |= {"keep": "cool", "weather": "dry"}
    world.space("rear bench").update(weather="splash")
    assert [one.says for one in broken(world, "jackets", "rear bench")] == [
        "jackets tolerates dry places, and rear bench is splash.",
        "jackets keeps cool, and rear bench is cabin.",
    ]


def bag(world: Any, litres: float, size_mm: list[int], solid: tuple[dict[str, Any], ...] = ()) -> tuple[str, ...]:
    """What is told of a soft bag of so many litres in the right bay, made as large as that."""
    world.space("right bay").update(size_mm=size_mm, solid=solid)
    world.gear["bag"] = {"name": "bag", "mass_kg": 1, "volume_l": litres, "shape": "soft"}
    return tuple(one.says for one in broken(world, "bag", "right bay"))


@pytest.mark.parametrize(("solid_x", "wide", "litres"), [(2600, 300, 32.0), (2800, 300, 32.0), (2600, 420, 12.8)])
def test_a_soft_thing_fills_what_a_solid_leaves_on_either_side(world, solid_x, wide, litres):
    # A solid of 300 mm leaves 200 of 500 mm: 200 · 400 · 400 mm³ are 32 L. One of 420 mm leaves the least side, 80 mm.
    arch = {"corner_mm": [solid_x, 100, 900], "size_mm": [wide, 400, 400]}
    assert bag(world, litres, [500, 400, 400], (arch,)) == ()
    assert bag(world, litres + 0.1, [500, 400, 400], (arch,)) != ()


@pytest.mark.parametrize(("mm", "litres"), [(380, 81.6), (580, 33.6), (660, 0)])
def test_a_soft_thing_fills_what_the_way_of_a_slide_leaves(world, mm, litres):
    # The drawer's rear end, from y -80, runs to y 300, 500 or 580 in a bay that ends at 640 mm: 340, 140 or 60 mm are
    # left of it, 600 mm long and 400 mm high, and 60 mm are less than a soft thing's least side.
    drawer(world, to="right", mm=mm)
    world.space("left drawer").update(corner_mm=[2600, -640, 900], size_mm=[600, 560, 400])
    if litres:
        assert bag(world, litres, [600, 540, 400]) == ()
    (says,) = bag(world, litres + 0.3, [600, 540, 400])[-1:]
    assert says.startswith(("bag is in the way of left drawer", "bag sticks out"))


def test_a_soft_thing_fills_a_space_of_three_different_sides(world):
    assert bag(world, 60.0, [500, 300, 400]) == ()
    assert bag(world, 60.2, [500, 300, 400]) == ("bag sticks out of right bay: 2 mm at the top.",)


def test_of_a_soft_thing_that_fits_nowhere_its_widest_shape_is_told(world):
    # 500 · 400 mm² and 100 L make 500 mm of height; beside the solid there are 60 mm, which is less than 80.
    arch = {"corner_mm": [2660, 100, 900], "size_mm": [380, 400, 100]}
    assert bag(world, 100.0, [500, 400, 400], (arch,)) == (
        "bag sticks out of right bay: 100 mm at the top.",
        "bag runs into a solid part of right bay.",
    )


@pytest.mark.parametrize(
    ("size_mm", "says"),
    [
        ([80, 500, 500], ()),
        ([79, 500, 500], ("bag sticks out of right bay: 1 mm at the rear.",)),
        ([500, 79, 500], ("bag sticks out of right bay: 1 mm at the right.",)),
        ([500, 500, 79], ("bag sticks out of right bay: 1 mm at the top.",)),
    ],
)
def test_a_soft_thing_is_pressed_to_80_mm_and_no_further(world, size_mm, says):
    assert bag(world, 20.0, size_mm) == says


def test_what_the_thing_around_breaks_itself_is_not_told_again(world):
    world.rack("cab rack")["limits"] = {"any_kg": 54.9}
    assert rules(world, "sleeping bag", "in the tent") == set()


def tent_of(world: Any, limit_kg: float) -> None:
    """The bag of 1.5 kg goes into the tent of 55 kg; the rack carries so much."""
    world.rack("cab rack")["limits"] = {"any_kg": limit_kg}


def test_the_thing_around_loads_the_rack_too(world):
    tent_of(world, 56.5)
    assert rules(world, "sleeping bag", "in the tent") == set()
    tent_of(world, 56.4)
    assert rules(world, "sleeping bag", "in the tent") == {"rack"}


def test_a_tent_that_lies_elsewhere_is_not_around(world):
    tent_of(world, 56.4)
    world.put("roof tent", (1900, -500, 1950))
    assert rules(world, "sleeping bag", "in the tent") == {"inside"}


def test_another_thing_in_that_place_is_not_around(world):
    # The box lies where the tent lay; a space of the tent is there only in the tent.
    tent_of(world, 56.4)
    world.gear["roof tent"]["carry"] = 50
    world.gear["roof box"] = world.gear["roof tent"] | {"name": "roof box"}
    world.places["roof tent"]["thing"] = "roof box"
    assert rules(world, "sleeping bag", "in the tent") == {"inside"}


def test_a_tent_left_at_home_has_no_room(world):
    del world.places["roof tent"]
    assert rules(world, "sleeping bag", "in the tent") == {"inside"}


def nested(world: Any) -> None:
    """In the tent a chest of 10 kg, and in the chest a room."""
    world.gear["chest"] = {"name": "chest", "mass_kg": 10, "size_mm": [500, 500, 200], "suits": ["bedding"]}
    place = {"space": "in the tent", "corner_mm": (1700, -400, 1980), "size_mm": (500, 500, 200)}
    world.places["chest"] = world.places["jackets"] | {"thing": "chest"} | place
    room = {"name": "in the chest", "corner_mm": [1700, -400, 1980], "size_mm": [450, 450, 180], "inside_of": "chest"}
    world.vehicle["spaces"].append(world.space("in the tent") | room)
    del world.places["sleeping bag #2"]


def test_things_around_things_around(world):
    # 1.5 + 10 + 55 kg.
    nested(world)
    tent_of(world, 66.5)
    assert rules(world, "sleeping bag", "in the chest") == set()
    tent_of(world, 66.4)
    assert rules(world, "sleeping bag", "in the chest") == {"rack"}


def test_a_thing_is_not_around_itself(world):
    world.places["roof tent"]["space"] = "in the tent"
    tent_of(world, 56.5)
    assert rules(world, "sleeping bag", "in the tent") == {"inside"}
