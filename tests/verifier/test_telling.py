"""Names that tell of a hazard and are not marked with one are asked about; names that only sound so are left alone."""

from typing import Any

import pytest

from models.reading import shipped_rulebook
from tests.chances import rows, some
from verifier.questions.telling import NO_WORD, TELLING, TELLING_WHOLE


def asked(world: Any) -> tuple[str, ...]:
    found: tuple[str, ...] = world.questions()
    return found


def call(world: Any, before: str, name: str) -> None:
    world.gear[before]["name"] = name
    world.places[before]["thing"] = name


@pytest.mark.parametrize(
    ("name", "hazard"),
    rows(
        [
            ("petrol jerrycan", "petrol"),
            ("jerrycan of fuel", "petrol"),
            ("petroleum", "petrol"),
            ("leaded petrol", "petrol"),
            ("unleaded jerry", "petrol"),
            ("ULP can", "petrol"),
            ("jerry can", "petrol"),
            ("empty jerry cans", "petrol"),
            ("two stroke mix", "petrol"),
            ("petrol can and funnel", "petrol"),
            ("LPG", "lpg"),
            ("Gas bottle", "lpg"),
            ("bottle of gas", "lpg"),
            ("gas bottle with regulator", "lpg"),
            ("gas stove with cartridge in it", "gas_cartridge"),
            ("chainsaw", "petrol_equipment"),
            ("small generator", "petrol_equipment"),
            ("rubbing alcohol", "ethanol"),
            ("gel battery", "wet_battery"),
            ("12 V battery", "wet_battery"),
            ("12V batteries", "wet_battery"),
            ("camp stove gas", "lpg"),
            ("tool batteries", "lithium"),
            ("silicone spray", "aerosol"),
            ("chainsaw bar oil", "oil"),
            ("chain oil spray", "aerosol"),
            ("dirt bike battery", "petrol_equipment"),
            ("mercury", "corrosive"),
            ("generator with cover", "petrol_equipment"),
            ("aerosols", "aerosol"),
            ("spray paint", "aerosol"),
            ("metho bottle", "ethanol"),
            ("engine oil", "oil"),
            ("Two-stroke oil", "oil"),
            ("oxygen bottle", "oxygen"),
            ("air bottle", "air_bottle"),
            ("air cylinder", "air_bottle"),
            ("liquid nitrogen", "cryogen"),
            ("dry ice", "dry_ice"),
            ("fireworks", "flare"),
            ("chlorine granules", "oxidiser"),
            ("rat poison", "toxic"),
            ("bear spray", "repellent_spray"),
            ("insect repellent", "aerosol"),
            ("can of degreaser", "aerosol"),
            ("kero lamp", "ethanol"),
            (".22 rounds", "ammunition"),
            ("pepper spray", "repellent_spray"),
            ("battery acid", "corrosive"),
            ("lead-acid battery", "wet_battery"),
            ("car battery", "wet_battery"),
            ("lithium pack", "lithium"),
            ("jump starter", "lithium"),
            ("power bank", "lithium"),
            ("sharps bin", "clinical_waste"),
            ("rifle ammo", "ammunition"),
            ("bullets", "ammunition"),
            ("shotgun shells", "ammunition"),
            ("smoke grenade", "flare"),
            ("hand flares", "flare"),
            ("genset", "petrol_equipment"),
            ("motorbike", "petrol_equipment"),
            ("quad bike", "petrol_equipment"),
            ("lawn mower", "petrol_equipment"),
            ("brush cutter", "petrol_equipment"),
            ("strimmer", "petrol_equipment"),
            ("leaf blower", "petrol_equipment"),
            ("second-hand generator", "petrol_equipment"),
            ("bottled gas", "lpg"),
            ("cooking gas", "lpg"),
            ("BBQ gas", "lpg"),
            ("9 kg gas", "lpg"),
            ("gas 4.5kg", "lpg"),
            ("isobutane", "gas_cartridge"),
            ("solar generator", "lithium"),
            ("naphtha", "ethanol"),
            ("thinners", "ethanol"),
            ("mineral spirits", "ethanol"),
            ("methanol", "ethanol"),
            ("isopropyl alcohol", "ethanol"),
            ("avgas", "petrol"),
            ("E10", "petrol"),
            ("lead-free petrol", "petrol"),
            ("jerry can with spout", "petrol"),
            ("jerry can and spout", "petrol"),
            ("starter fluid", "aerosol"),
            ("hair spray", "aerosol"),
            ("mosquito spray", "aerosol"),
            ("bug spray", "aerosol"),
            ("wasp spray", "aerosol"),
            ("tyre foam", "aerosol"),
            ("penetrating oil spray", "aerosol"),
            ("waterproof matches", "firelighter"),
            ("hexamine", "firelighter"),
            ("solid fuel tablets", "firelighter"),
            ("fuel tablet", "firelighter"),
            ("AGM", "wet_battery"),
            ("house battery", "wet_battery"),
            ("leisure batteries", "wet_battery"),
            ("maintenance-free car battery", "wet_battery"),
            ("LiPo", "lithium"),
            ("e-bike battery", "lithium"),
            ("drill batteries", "lithium"),
            ("lithium house battery", "lithium"),
            ("bag of power banks", "lithium"),
            ("acid", "corrosive"),
            ("muriatic acid", "corrosive"),
            ("oven cleaner", "corrosive"),
            ("bleach", "corrosive"),
            ("potassium permanganate", "oxidiser"),
            ("CO2 cartridge", "air_bottle"),
            ("helium bottle", "air_bottle"),
            ("O2 bottle", "oxygen"),
            ("LN2", "cryogen"),
            ("Camp stove cylinder", "lpg"),
            ("stove canister", "gas_cartridge"),
            ("Welding bottle", "lpg"),
            ("Drip torch", "petrol_equipment"),
            ("Jerry", "petrol"),
            ("Jerry (can)", "petrol"),
            ("jerry 20 L", "petrol"),
            ("spare jerry #2", "petrol"),
            ("two jerries", "petrol"),
            ("Genny", "petrol_equipment"),
            ("gennies", "petrol_equipment"),
            ("Mower", "petrol_equipment"),
            ("Tyre inflator CO2", "air_bottle"),
            ("Insect fogger", "aerosol"),
            ("Fire extinguisher spare", "extinguisher"),
        ],
        40,
    ),
)
def test_a_telling_name_without_a_hazard_is_asked_about(world, name, hazard):
    call(world, "jackets", name)
    (told,) = asked(world)
    assert f"No `hazard` is given for {name}, so it was allowed in any air" in told
    assert told.endswith(f"Give the hazard word (perhaps `{hazard}`), or `hazard: none`.")
    world.gear["jackets"]["hazard"] = "none"
    assert asked(world) == ()


@pytest.mark.parametrize(
    "name",
    some(
        [
            "fuel hose",
            "generator cable",
            "gas stove",
            "water jerry can",
            "jerry can holder",
            "refuelling log",
            "petrol filters",
            "leads",
            "air compressor",
            "gas strut",
            "AA batteries in torch",
            "car battery charger",
            "gas hose with bottle adapter",
            "gas ring and water bottle",
            "oxygen mask",
            "olive oil",
            "ink cartridge",
            "method book",
            "sharpening stone",
            "knapsack sprayer",
            "Jerry's bag",
            "Jerry's tent",
            "sleeping bag (Jerry)",
            "cool box for Jerry",
            "clothes of Jerry",
            "jerry can spout",
            "spout for jerry can",
            "fuel pump",
            "fuel can stand",
            "fuel canister trolley",
            "wind generator",
            "hand generator torch",
            "chainsaw bar",
            "chainsaw scabbard",
            "outboard prop",
            "outboard trolley",
            "power bank case",
            "power station bag",
            "lithium grease",
            "second battery tray",
            "second battery isolator 12V",
            "poisonous plants book",
            "poison ivy cream",
            "oxygen water bottle",
            "dry iced tea",
            "dry ice cream mix",
            "bleached linen",
            "white spirit level",
            "flared trousers",
            "diesel sticker",
            "acid-free paper",
            "bullet journal",
            "5 kg gas stove",
            "Petroleum jelly",
            "camp stove",
            "stove with water bottle",
            "welding gloves",
            "welding rods",
            "head torch",
            "Jerry's jerry-rigged tent",
            "water jerry",
            "tyre inflator",
            "fog lamp",
            "extinguisher bracket",
        ],
        30,
    ),
)
def test_a_name_that_tells_nothing_is_left_alone(world, name):
    call(world, "jackets", name)
    assert asked(world) == ()


@pytest.mark.parametrize("told", [{"uses_up": {"water": 1}}, {"fills": {"food": 1}}, {"food": True}])
def test_a_jerry_can_of_which_it_is_told_what_it_holds_is_left_alone(world, told):
    call(world, "jackets", "jerry can")
    world.gear["jackets"] |= told
    assert asked(world) == ()


def test_every_word_that_may_be_meant_is_in_the_rule_book():
    assert {*TELLING, *TELLING_WHOLE} - {NO_WORD} <= set(shipped_rulebook().hazards)


def test_a_stream_tells_as_much_as_a_name(world):
    world.gear["jackets"]["uses_up"] = {"gas": 1}
    (told,) = asked(world)
    assert "is given for jackets" in told


def test_a_stream_that_only_begins_like_gas_tells_nothing(world):
    world.gear["jackets"]["uses_up"] = {"gaskets": 1}
    world.trip["streams"]["gaskets"] = {}
    assert asked(world) == ()


def test_several_telling_names_are_asked_about_in_one_sentence(world):
    for before, name in (("jackets", "generator"), ("tool box", "chainsaw")):
        call(world, before, name)
    (told,) = asked(world)
    assert "is given for chainsaw, generator, so they were allowed" in told
    assert "(perhaps `petrol_equipment`)" in told


def test_each_of_several_has_its_own_word(world):
    for before, name in (("jackets", "genset"), ("tool box", "matches"), ("stove", "motorbike")):
        call(world, before, name)
    (told,) = asked(world)
    by_word = "matches (perhaps `firelighter`), motorbike and genset (perhaps `petrol_equipment`)"
    assert f"No `hazard` is given for {by_word}, so they were allowed" in told
    assert told.endswith("Give the hazard word, or `hazard: none`.")


@pytest.mark.parametrize("name", ["explosives", "detonators"])
def test_what_blasts_is_asked_about_though_the_rule_book_has_no_word_for_it(world, name):
    call(world, "jackets", name)
    (told,) = asked(world)
    assert f"is given for {name}, so it was" in told
    assert told.endswith("Give the hazard word (the rule book has no word for it), or `hazard: none`.")


def test_what_stays_at_home_is_not_asked_about(world):
    world.gear["camp oven"]["name"] = "petrol stove"
    world.plan["left_at_home"] = ({"thing": "petrol stove"},)
    assert asked(world) == ()
