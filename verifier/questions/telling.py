"""Names that tell of a hazard: the words, and the hazard word of the rule book that each of them stands for."""

import re
from collections.abc import Iterable
from functools import cache

from models.gear import Thing

TELLING = {
    "oil": (
        "engine oil", "motor oil", "gear oil", "gearbox oil", "hydraulic oil", "transmission oil", "coolant",
        "antifreeze", "brake fluid", "two stroke oil", "2 stroke oil",
    ),
    "petrol": ("petrol", "gasoline", "unleaded", "fuel", "two stroke", "2 stroke"),
    "diesel": ("diesel",),
    "lpg": ("lpg", "propane", "acetylene"),
    "gas_cartridge": ("butane", "camping gas"),
    "petrol_equipment": ("chainsaw", "chain saw", "generator", "outboard"),
    "ethanol": (
        "kerosene", "paraffin", "methylated", "white spirit", "white gas", "ethanol", "turpentine", "acetone",
        "lighter fluid",
    ),
    "aerosol": ("aerosol", "spray can", "spray paint", "fly spray", "insect spray", "hairspray", "brake cleaner"),
    "air_bottle": ("compressed air",),
    "oxygen": ("oxygen",),
    "cryogen": ("liquid nitrogen",),
    "dry_ice": ("dry ice",),
    "flare": ("flare", "firework", "firecracker"),
    "ammunition": ("ammunition",),
    "firelighter": ("firelighter", "fire lighter"),
    "oxidiser": ("chlorine", "hypochlorite", "peroxide"),
    "toxic": (
        "poison", "pesticide", "insecticide", "herbicide", "weedkiller", "weed killer", "rat bait", "formalin",
        "bear spray", "pepper spray",
    ),
    "corrosive": (
        "battery acid", "hydrochloric", "sulphuric", "sulfuric", "caustic", "drain cleaner", "bleach", "ammonia",
        "toilet chemical", "toilet fluid",
    ),
    "wet_battery": (
        "lead acid", "car batter", "starter batter", "wet batter", "deep cycle", "second batter", "auxiliary batter",
    ),
    "lithium": (
        "lithium", "li ion", "lifepo4", "power station", "power pack", "power bank", "powerbank", "jump starter",
        "jump pack",
    ),
    "clinical_waste": ("clinical waste", "medical waste"),
}  # fmt: skip
"""Words and beginnings of words that tell of what burns, gasses, poisons, corrodes or explodes, by the hazard word of
the rule book. Common practice, no source."""

TELLING_WHOLE = {
    "petrol": ("ulp",),
    "ethanol": ("metho", "meths", "turps"),
    "clinical_waste": ("sharps",),
}
"""The same, where the beginning of a word does not do: a method holds no spirit. Common practice, no source."""

VESSEL = ("bottle", "cylinder", "canister", "can", "tank", "refill")
"""What is filled under pressure. Common practice, no source."""

FILLED = (
    ("gas_cartridge", ("gas",), ("cartridge", "canister")),
    ("lpg", ("gas",), VESSEL),
    ("air_bottle", ("air", "co2", "carbon dioxide", "nitrogen", "argon", "scuba", "dive"), VESSEL),
)
"""What tells of a hazard only together with a vessel: a gas strut and an air compressor hold none. Common practice, no
source."""

FUEL_CAN = ("jerry can", "jerrycan", "jerry")
"""A can that is for fuel where nothing else is told of it. Common practice, no source."""

FUEL_CAN_WITH = ("water", "drinking", "waste", "grey", "milk")
"""What makes it another can. Common practice, no source."""

HARMLESS_WITH = (
    "hose", "funnel", "filter", "cable", "cord", "lead", "adapter", "bracket", "holder", "regulator", "gauge", "map",
    "manual", "papers", "cover", "detector", "tape", "cap", "charger", "sensor", "mask", "meter", "tester", "test",
    "opener", "spanner", "fitting", "gloves", "helmet", "chaps", "chain", "file", "plug", "card", "wipes",
)  # fmt: skip
"""Words of things that go with a hazard and hold none of it. Common practice, no source."""

STREAM = "gas"
"""A stream of this name tells as much. Common practice, no source."""

THINGS = re.compile(r"\band\b|[,;&+/]")
"""What parts a name into things that are each judged: a petrol can and a funnel."""

BESIDE = re.compile(r"\b(?:with|in)\b|[()]")
"""What parts a thing from what it is in or has with it: a generator with its cover is a generator."""


@cache
def _any_of(words: tuple[str, ...], whole: bool) -> re.Pattern[str]:
    end = r"(?:s|es)?\b" if whole else r"\w*"
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))}){end}")


def _plain(name: str) -> str:
    """A name in small letters, a blank for each hyphen and dash."""
    return re.sub(r"[\s_\-\u2010-\u2015]+", " ", name.casefold())


def _of_part(part: str) -> str | None:
    """The hazard word of a part of a thing's name. None: it tells of none, or of what goes with one."""
    for whole, by_hazard in ((False, TELLING), (True, TELLING_WHOLE)):
        for hazard, words in by_hazard.items():
            # What is left tells whether it is the hazard or what goes with it: the lead of lead-acid is no cable.
            rest, found = _any_of(words, whole).subn(" ", part)
            if found and not _any_of(HARMLESS_WITH, whole=True).search(rest):
                return hazard
    return None


def _under_pressure(name: str, part: str) -> str | None:
    """The hazard word of what fills a vessel, both anywhere in a thing's name: a gas stove with a cartridge in it."""
    if _any_of(HARMLESS_WITH, whole=True).search(part):
        return None
    for hazard, *both in FILLED:
        if all(_any_of(words, whole=True).search(name) for words in both):
            return hazard
    return None


def _of_name(name: str) -> str | None:
    for thing in THINGS.split(name):
        first, *others = BESIDE.split(thing)
        hazards = (*map(_of_part, (first, *others)), _under_pressure(thing, first))
        if told := next((hazard for hazard in hazards if hazard is not None), None):
            return told
    return None


def _fuel_can(thing: Thing, name: str) -> str | None:
    """Petrol for a jerry can of which neither its name nor what it uses up or fills with tells what it holds."""
    told = thing.uses_up or thing.fills or thing.food
    if told or _any_of((*FUEL_CAN_WITH, *HARMLESS_WITH), whole=True).search(name):
        return None
    return "petrol" if _any_of(FUEL_CAN, whole=True).search(name) else None


def _of_streams(streams: Iterable[str]) -> str | None:
    for name in map(_plain, streams):
        for hazard, words in TELLING.items():
            if _any_of(words, whole=False).search(name):
                return hazard
        if _any_of((STREAM,), whole=True).search(name):
            return "lpg"
    return None


def told_hazard(thing: Thing) -> str | None:
    """The hazard word that a thing's name, or that of what it uses up, tells of and nobody marked or denied."""
    if thing.hazard is not None or thing.said_harmless:
        return None
    name = _plain(thing.name)
    return _of_name(name) or _fuel_can(thing, name) or _of_streams((*thing.uses_up, *thing.fills))
