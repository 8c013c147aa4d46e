"""segregation: not in one space, one air, or through one wall."""

from typing import Any

import pytest

from tests.chances import rows


def test_a_pair_in_one_space(world):
    world.gear["tool box"]["hazard"] = "oil"
    assert world.broken() == {("segregation", "tool box and food box")}


def test_the_same_pair_in_two_spaces(world):
    world.gear["water jug"]["hazard"] = "oil"
    world.space("rear bench")["holds"] = "enclosed"
    world.put("sleeping bag", (1950, -300, 750), space="rear bench", size_mm=(400, 125, 400))
    world.put("jackets", (3500, -500, 900), space="left drawer")
    assert world.broken() == set()


def test_food_in_the_air_of_a_burning_liquid(world):
    world.vehicle["air"]["canopy"] = "vented"
    world.gear["water jug"] |= {"hazard": "ethanol", "holds_l": 2, "suits": []}
    world.space("rear bench")["holds"] = "enclosed"
    world.put("sleeping bag", (1900, -300, 750), space="rear bench", size_mm=(400, 125, 400))
    assert world.broken() == {("segregation", "water jug and food box")}


def test_bedding_beside_oil(world):
    world.gear["water jug"]["hazard"] = "oil"
    assert world.broken() == {("segregation", "water jug and sleeping bag")}


def chlorine_through_the_wall(world: Any, gap_mm: int) -> None:
    # The petrol can's holder lies behind the right bay, 100 mm away; the recovery kit becomes chlorine.
    world.gear["recovery kit"] |= {"hazard": "oxidiser"}
    world.not_food("food box")
    holder = world.space("can holder")
    holder["corner_mm"] = [3600 + gap_mm, 200, 900]
    world.put("petrol can", (3600 + gap_mm, 200, 900))


def test_fifty_millimetres_are_a_wall(world):
    chlorine_through_the_wall(world, 50)
    assert world.broken() == {("segregation", "petrol can and recovery kit")}


def test_fifty_one_millimetres_are_not(world):
    chlorine_through_the_wall(world, 51)
    assert world.broken() == set()


def test_a_solid_wall_between(world):
    chlorine_through_the_wall(world, 50)
    world.space("can holder")["solid_wall_between"] = ["right bay"]
    assert world.broken() == set()


def test_spaces_that_touch_only_at_an_edge_are_no_neighbours(world):
    chlorine_through_the_wall(world, 0)
    world.space("can holder")["corner_mm"] = [3600, 640, 900]
    world.put("petrol can", (3600, 640, 900))
    world.vehicle["outline_mm"]["width"] = 2200
    assert not any(rule == "segregation" for rule, _ in world.broken())


def test_open_air_is_one_air_only_for_neighbours(world):
    world.gear["roof tent"]["food"] = True
    assert world.broken() == set()


FUELS = ("lpg", "gas_cartridge", "petrol", "petrol_equipment", "ethanol")
CHEMICALS = ("toxic", "repellent_spray", "clinical_waste", "corrosive")
APART = {
    # What must be apart in one space, by the table of common practice and IMDG 7.2.4.
    **dict.fromkeys(
        FUELS, ("oxidiser", "flare", "firelighter", "corrosive", "lithium", "food", "bedding", "clothes", "oxygen")
    ),
    **dict.fromkeys(("diesel", "oil"), ("oxidiser", "flare", "corrosive", "food", "bedding", "clothes", "oxygen")),
    **dict.fromkeys(CHEMICALS, ("oxidiser", "lithium", "food", "bedding", "clothes")),
    "oxidiser": ("flare", "lithium", "firelighter", "food", "bedding", "clothes"),
    "wet_battery": (*FUELS, "diesel", "oil", "oxidiser", "food"),
    "oxygen": ("flare", "aerosol", "firelighter", "corrosive", "wet_battery"),
    "aerosol": ("oxidiser", "petrol", "petrol_equipment", "ethanol", "firelighter", "corrosive", "wet_battery"),
    "air_bottle and cryogen and repellent_spray": ("petrol", "petrol_equipment", "ethanol"),
    "lpg and gas_cartridge": ("petrol", "petrol_equipment", "ethanol"),
}
PAIRS = [(one, other) for words, others in APART.items() for one in words.split(" and ") for other in others]


def is_a(world: Any, thing: str, word: str) -> None:
    """Make a thing what a word of the rule book says, with amounts of it."""
    world.not_food(thing)
    world.gear[thing] |= {"food": word == "food", "suits": ["bedding"] if word == "bedding" else []}
    world.gear[thing]["clothes"] = word == "clothes"
    if word not in {"food", "bedding", "clothes"}:
        world.gear[thing] |= {"hazard": word, "holds_l": 0.1, "net_kg": 0.1, "approved_can": True}


def segregated(world: Any) -> set[str]:
    return {subject for rule, subject in world.broken() if rule == "segregation"}


@pytest.mark.parametrize(("one", "other"), rows(PAIRS, 30))
def test_every_pair_of_the_table_in_one_space(world, one, other):
    is_a(world, "tool box", one)
    is_a(world, "food box", other)
    assert {"tool box and food box", "food box and tool box"} & segregated(world)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("extinguisher", "petrol_equipment"), ("extinguisher", "ethanol"), ("aerosol", "diesel"),
        ("aerosol", "lithium"), ("aerosol", "gas_cartridge"), ("aerosol", "bedding"), ("aerosol", "food"),
        ("air_bottle", "diesel"), ("air_bottle", "oxidiser"), ("oxygen", "clothes"), ("extinguisher", "oxygen"),
    ],
)  # fmt: skip
def test_what_no_table_keeps_apart_may_share_a_space(world, one, other):
    is_a(world, "tool box", one)
    is_a(world, "food box", other)
    assert segregated(world) == set()


@pytest.mark.parametrize("other", ["oxidiser", "ethanol", "corrosive"])
def test_spray_cans_are_kept_out_of_the_space_and_not_of_the_air(world, other):
    is_a(world, "recovery kit", other)
    is_a(world, "water jug", "aerosol")
    world.not_food("food box")
    world.gear["sleeping bag"]["suits"] = []
    assert segregated(world) == set()
    world.put("water jug", (2600, 340, 1000), space="right bay")
    assert segregated(world) == {"water jug and recovery kit"}


@pytest.mark.parametrize("other", ["oxidiser", "flare"])
@pytest.mark.parametrize("word", FUELS)
@pytest.mark.parametrize("gap_mm", [50, 51])
def test_what_burns_readily_keeps_a_wall_from_flares_and_oxidisers(world, word, other, gap_mm):
    chlorine_through_the_wall(world, gap_mm)
    is_a(world, "petrol can", word)
    is_a(world, "recovery kit", other)
    assert segregated(world) == ({"petrol can and recovery kit"} if gap_mm == 50 else set())


@pytest.mark.parametrize("word", ["toxic", "repellent_spray", "clinical_waste"])
def test_an_oxidiser_is_in_an_air_without_poisons(world, word):
    is_a(world, "recovery kit", "oxidiser")
    is_a(world, "water jug", word)
    world.not_food("food box")
    world.gear["sleeping bag"]["suits"] = []
    assert segregated(world) == {"recovery kit and water jug"}
    world.vehicle["air"]["drawer"] = "sealed"
    world.space("left drawer")["air"] = "drawer"
    assert segregated(world) == set()


def gas_beside_petrol(world: Any, air: str, other_air: str) -> set[str]:
    # The bottle is in the right bay, the can 60 mm behind it.
    chlorine_through_the_wall(world, 60)
    is_a(world, "recovery kit", "lpg")
    world.vehicle["air"] |= {"box": "locker", "other box": "locker"}
    world.space("right bay")["air"], world.space("can holder")["air"] = air, other_air
    return segregated(world)


def test_a_locker_serves_one_purpose(world):
    assert gas_beside_petrol(world, "box", "box") == {"recovery kit and petrol can"}


@pytest.mark.parametrize(("air", "other_air"), [("box", "other box"), ("box", "outside"), ("outside", "outside")])
def test_gas_and_petrol_in_two_lockers_or_side_by_side_in_the_open(world, air, other_air):
    assert gas_beside_petrol(world, air, other_air) == set()
    world.space("can holder")["corner_mm"] = [3610, 200, 900]
    world.put("petrol can", (3610, 200, 900))
    assert segregated(world) == set()


@pytest.mark.parametrize("word", ["oil", "oxidiser", "toxic", "corrosive", "clinical_waste", "petrol_equipment"])
def test_clothes_are_kept_from_what_bedding_is_kept_from(world, word):
    is_a(world, "fridge", word)
    is_a(world, "food box", "clothes")
    assert segregated(world) >= {"fridge and food box"}
    world.gear["food box"]["clothes"] = False
    assert segregated(world) == set()


def test_what_uses_up_food_is_food(world):
    world.gear["tool box"]["hazard"] = "toxic"
    world.gear["food box"]["food"] = False
    assert segregated(world) == {"tool box and food box"}
    world.not_food("food box")
    assert segregated(world) == set()


def told(world: Any) -> list[Any]:
    return [one for one in world.verdict().broken if one.rule.value == "segregation"]


def test_a_pair_that_two_entries_keep_apart_is_told_once_with_both_sources(world):
    chlorine_through_the_wall(world, 50)
    world.space("right bay")["air"] = "outside"
    (one,) = told(world)
    assert one.says == (
        "petrol can and recovery kit have only a wall between them, can holder and right bay; "
        "petrol and oxidiser must be apart."
    )
    assert one.source == "IMDG 7.2.4: 3 and 5.1, separated from; common practice, no source"


def test_a_pair_of_several_words_is_told_once_with_all_of_them(world):
    is_a(world, "tool box", "oil")
    world.gear["food box"]["clothes"] = True
    (one,) = told(world)
    assert one.says.endswith("are both in right bay; oil and food, oil and clothes must be apart.")
    assert one.source == "common practice, no source"


def test_a_pair_in_two_places_is_told_of_each(world):
    world.gear["water jug"]["hazard"] = "oil"
    world.put("water jug", (2600, 340, 1000), space="right bay")
    world.gear["sleeping bag"]["suits"] = []
    world.gear["recovery kit"]["clothes"] = True
    world.put("sleeping bag", (1900, -300, 750), space="rear bench", size_mm=(400, 125, 400))
    assert len({one.says for one in told(world)}) == len(told(world))
    assert {one.subject for one in told(world)} == {"water jug and food box", "water jug and recovery kit"}
