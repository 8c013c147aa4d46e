"""Names that tell of a hazard: the words, and the hazard word of the rule book that each of them stands for."""

import re
from collections.abc import Iterable
from functools import cache

from models.gear import Thing

NO_WORD = ""
"""What is told of where no word of the shipped rule book is meant: it knows none for what blasts."""

TELLING = {
    NO_WORD: ("explosive", "detonator", "dynamite", "gunpowder", "gun powder"),
    "lithium": (
        "lithium", "li ion", "lifepo4", "solar generator", "power station", "power pack", "power bank", "powerbank",
        "jump starter", "jump pack", "e bike batter", "ebike batter", "drill batter", "drone batter",
        "tool batter", "camera batter", "laptop batter",
    ),
    "aerosol": (
        "aerosol", "spray can", "spray paint", "fly spray", "insect spray", "mosquito spray", "bug spray", "wasp spray",
        "hairspray", "hair spray", "chain oil spray", "oil spray", "brake cleaner", "starter fluid", "starting fluid",
        "tyre foam", "tire foam", "silicone spray", "lubricant spray", "grease spray", "contact spray",
        "deodorant spray", "insect repellent", "mosquito repellent", "degreaser", "fogger", "bug bomb", "insect bomb",
    ),
    "oil": (
        "engine oil", "motor oil", "gear oil", "gearbox oil", "hydraulic oil", "transmission oil", "coolant",
        "antifreeze", "brake fluid", "two stroke oil", "2 stroke oil",
        "bar oil", "chain oil",
    ),
    "firelighter": ("firelighter", "fire lighter", "fuel tablet", "solid fuel", "hexamine"),
    "petrol": ("petrol", "gasoline", "unleaded", "fuel", "two stroke", "2 stroke", "avgas"),
    "diesel": ("diesel",),
    "lpg": (
        "lpg", "propane", "acetylene", "bottled gas", "cooking gas", "bbq gas", "barbecue gas", "stove gas",
        "cooker gas", "welding gas",
    ),
    "gas_cartridge": ("butane", "isobutane", "camping gas"),
    "petrol_equipment": (
        "chainsaw", "chain saw", "generator", "genset", "outboard", "motorbike", "motorcycle", "dirt bike", "quad bike",
        "lawn mower", "lawnmower", "brush cutter", "brushcutter", "strimmer", "leaf blower", "drip torch",
    ),
    "ethanol": (
        "kero", "paraffin", "methylated", "white spirit", "white gas", "ethanol", "turpentine", "acetone",
        "lighter fluid", "paint thinner", "mineral spirit", "methanol", "isopropyl",
    ),
    "air_bottle": ("compressed air",),
    "oxygen": ("oxygen",),
    "cryogen": ("liquid nitrogen",),
    "flare": ("firework", "firecracker", "smoke grenade", "smoke bomb"),
    "ammunition": ("ammunition", "shotgun shell", "shotgun cartridge", "rifle cartridge", "rifle round", "22 round"),
    "oxidiser": ("chlorine", "hypochlorite", "peroxide", "permanganate"),
    "toxic": (
        "poison", "pesticide", "insecticide", "herbicide", "weedkiller", "weed killer", "rat bait", "formalin",
    ),
    "repellent_spray": ("bear spray", "pepper spray"),
    "corrosive": (
        "battery acid", "hydrochloric", "muriatic", "sulphuric", "sulfuric", "caustic", "drain cleaner",
        "oven cleaner", "ammonia", "bleaching powder", "toilet chemical", "toilet fluid", "mercury",
    ),
    "wet_battery": (
        "lead acid", "car batter", "starter batter", "wet batter", "deep cycle", "second batter", "auxiliary batter",
        "house batter", "leisure batter", "gel batter", "gel cell", "winch batter", "12 v batter", "12v batter",
        "12 volt batter",
    ),
    "clinical_waste": ("clinical waste", "medical waste"),
    "extinguisher": ("extinguisher",),
}  # fmt: skip
"""Words and beginnings of words that tell of what burns, gasses, poisons, corrodes or explodes, by the hazard word of
the rule book; the first that is found counts. Common practice, no source."""

TELLING_WHOLE = {
    "firelighter": ("matches",),
    "petrol": ("ulp", "e10"),
    "ethanol": ("metho", "meths", "turps", "thinners", "naphtha", "alcohol"),
    "cryogen": ("ln2",),
    "dry_ice": ("dry ice",),
    "flare": ("flare",),
    "ammunition": ("ammo", "bullets"),
    "corrosive": ("acid", "bleach"),
    "lithium": ("lipo", "li po"),
    "wet_battery": ("agm",),
    "clinical_waste": ("sharps",),
    "petrol_equipment": ("mower", "genny", "gennie"),
}
"""The same, where the beginning of a word does not do: a method holds no spirit. Common practice, no source."""

VESSEL = ("bottle", "cylinder", "canister", "can", "tank", "refill")
"""What is filled under pressure. Common practice, no source."""

FILLED = (
    ("gas_cartridge", ("gas",), ("cartridge", "canister")),
    ("lpg", ("gas",), VESSEL),
    ("lpg", ("stove", "cooker", "bbq", "barbecue"), ("cylinder", "refill")),
    ("lpg", ("welding", "brazing"), ("bottle", "cylinder")),
    ("gas_cartridge", ("stove", "cooker"), ("cartridge", "canister")),
    ("air_bottle", ("air", "co2", "carbon dioxide", "nitrogen", "argon", "helium", "scuba", "dive"), VESSEL),
    ("air_bottle", ("co2", "carbon dioxide"), ("cartridge", "inflator")),
    ("oxygen", ("o2",), VESSEL),
)
"""What tells of a hazard only together with a vessel: a gas strut and an air compressor hold none. Common practice, no
source."""

GAS_BY_MASS = re.compile(r"\d ?kg(?: of)? gas\s*$|\bgas \d+(?:[.,]\d+)? ?kg\s*$")
"""Gas with the kilograms of its bottle. Common practice, no source."""

FUEL_CAN = ("jerry can", "jerrycan")
"""A can that is for fuel where nothing else is told of it. Common practice, no source."""

JERRY = re.compile(r"(?<!\bof )(?<!\bfor )\bjerr(?:y|ys|ies)(?: #?\d+(?:[.,]\d+)?| (?:l|litres?|liters?))*\s*$")
"""The same, where the word comes last but for a figure, and is nobody's name. Common practice, no source."""

FUEL_CAN_WITH = ("water", "drinking", "waste", "grey", "milk")
"""What makes it another can. Common practice, no source."""

HARMLESS_WITH = (
    "hose", "funnel", "filter", "cable", "cord", "lead", "adapter", "bracket", "holder", "regulator", "gauge", "map",
    "manual", "papers", "cover", "detector", "tape", "cap", "charger", "sensor", "mask", "meter", "tester", "test",
    "opener", "spanner", "fitting", "gloves", "helmet", "chaps", "chain", "file", "plug", "card", "wipes", "spout",
    "scabbard", "isolator", "sticker", "breathalyser",
)  # fmt: skip
"""Words of things that go with a hazard and hold none of it. Common practice, no source."""

HARMLESS_LAST = {
    None: ("stand", "trolley", "tray", "book"),
    "petrol_equipment": ("bar", "blade", "prop", "propeller", "line", "jacket", "boots", "tyre", "ramp"),
    "lithium": ("case", "bag", "pouch"),
}
"""The same, where the word comes last, by the hazard that it goes with; None: any. A bag of power banks holds them, a
power bank's bag does not. Common practice, no source."""

SOUNDS_SO = re.compile(
    r"\b(?:(?:wind|(?<!second )hand) generators?|hand crank\w*|poison ivy|poisonous plants?|oxygen\w* water|"
    r"ice cream|spirit levels?|lithium grease|fuel (?:transfer )?pumps?|(?:folic|citric|amino|ascorbic) acids?|"
    r"acid reflux|petroleum jelly|\w+ free)\b"
)
"""What only sounds like a hazard: no word in it is counted. Common practice, no source."""

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


def _harmless(rest: str, hazard: str) -> bool:
    """Whether what is left of a name, the words of a hazard taken out, tells of what goes with it."""
    last = (*HARMLESS_LAST[None], *HARMLESS_LAST.get(hazard, ()))
    return bool(_any_of(HARMLESS_WITH, whole=True).search(rest) or _last_of(last).search(rest))


@cache
def _last_of(words: tuple[str, ...]) -> re.Pattern[str]:
    """One of some words at the end; what has a figure in it may come after, such as 12V."""
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))})(?:s|es)?(?:\s+\w*\d\w*)*\s*$")


def _of_part(part: str) -> str | None:
    """The hazard word of a part of a thing's name. None: it tells of none, or of what goes with one."""
    for whole, by_hazard in ((False, TELLING), (True, TELLING_WHOLE)):
        for hazard, words in by_hazard.items():
            # What is left tells whether it is the hazard or what goes with it: the lead of lead-acid is no cable.
            rest, found = _any_of(words, whole).subn(" ", part)
            if found and not _harmless(rest, hazard):
                return hazard
    return None


def _under_pressure(name: str, part: str) -> str | None:
    """The hazard word of what fills a vessel, both anywhere in a thing's name: a gas stove with a cartridge in it."""
    for hazard, *both in FILLED:
        if all(_any_of(words, whole=True).search(name) for words in both) and not _harmless(part, hazard):
            return hazard
    return "lpg" if GAS_BY_MASS.search(part) else None


def _of_name(name: str) -> str | None:
    for thing in THINGS.split(name):
        first, *others = BESIDE.split(thing)
        hazards = (*map(_of_part, (first, *others)), _under_pressure(thing, first))
        told = next((hazard for hazard in hazards if hazard is not None), None)
        if told is not None:
            return told
    return None


def _fuel_can(thing: Thing, name: str) -> str | None:
    """Petrol for a jerry can of which neither its name nor what it uses up or fills with tells what it holds."""
    if thing.uses_up or thing.fills or thing.eaten or _any_of(FUEL_CAN_WITH, whole=True).search(name):
        return None
    things = [BESIDE.split(thing) for thing in THINGS.split(name)]
    cans = [part for parts in things for part in parts if _any_of(FUEL_CAN, whole=True).search(part)]
    cans += [first for first, *_ in things if JERRY.search(first)]  # in brackets it is who owns the thing
    return "petrol" if any(not _harmless(part, "petrol") for part in cans) else None


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
    name = SOUNDS_SO.sub(" ", _plain(thing.name))
    found = (_of_name(name), _fuel_can(thing, name), _of_streams((*thing.uses_up, *thing.fills)))
    return next((hazard for hazard in found if hazard is not None), None)
