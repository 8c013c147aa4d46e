"""A question on names: what is called bedding, clothes or food and not marked so, and lies where such may not."""

import re
from collections.abc import Iterator

from models.gear import Thing
from verifier.layout import Layout
from verifier.rules.segregation import kept_from

CALLED = {
    "bedding": (
        "sleeping (?:bag|mat|pad|kit)", "bedding", "bed ?roll", "bed linen", "bed sheet", "duvet", "doona", "quilt",
        "pillow", "blanket", "swag", "mattress",
    ),
    "clothes": (
        "cloth(?:es|ing)", "garment", "duff(?:el|le)", "suitcase", "jacket", "coat", "raincoat", "jumper", "pullover",
        "sweater", "fleece", "shirt", "trouser", "sock", "underwear", "pyjama", "beanie", "laundry", "bath towel",
        "beach towel", "nappy", "nappies",
    ),
    "food": (
        "food", "grocer(?:y|ies)", "snack", "pantry", "provision", "ration", "picnic", "lunch", "fruit", "vegetable",
        "bread", "meat", "cereal", "muesli", "pasta", "esky", "cool ?box", "tucker", "baby formula", "crockery",
        "cutlery", "cookware", "saucepan", "frying pan",
    ),
}  # fmt: skip
"""What bedding, clothes and food are called, by the word of the rule book. Common practice, no source."""

NONE_OF_IT = {
    "bedding": r"\b(?:fire|welding|electric) blankets?\b",
    "clothes": r"\b(?:(?:life|water|flak) jackets?|clothes ?(?:lines?|pegs?|racks?|horses?|dryers?))\b",
    "food": r"\b(?:food (?:grade|processors?)|bread knife)\b",
}
"""What only sounds like it. Common practice, no source."""

SAYS = {"bedding": "suits: [bedding]", "clothes": "clothes: true", "food": "food: true"}
"""How a file says that a thing is of a word."""

SAYS_NOT = {"bedding": "clothes", "clothes": "clothes", "food": "food"}
"""The key that says with `false` that it is not; `clothes` says so of bedding too, as both are kept from the same."""


def _called(thing: Thing) -> str | None:
    """The word that a thing's name tells of and that nobody gave or denied. None: none, or a hazard counts more."""
    name = re.sub(r"[\s_\-\u2010-\u2015]+", " ", thing.name.casefold())
    for word, told in CALLED.items() if thing.hazard is None else ():
        rest = re.sub(NONE_OF_IT[word], " ", name)
        marked = thing.eaten if word == "food" else thing.slept_in or thing.clothes
        denied = SAYS_NOT[word] in thing.model_fields_set
        if not marked and not denied and re.search(rf"\b(?:{'|'.join(told)})(?:s|es)?\b", rest):
            return word
    return None


def _listed(*names: str) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if names[1:] else names[0]


def unmarked(layout: Layout) -> Iterator[str]:
    """Ask about what would break the rule if it were marked as what it is called."""
    near = {word: kept_from(layout, word) for word in CALLED}
    found: dict[tuple[str, str], dict[str, None]] = {}
    for one, space in layout.located:
        word = _called(one.thing)
        if word is not None:
            others = found.setdefault((one.thing.name, word), {})
            others.update(dict.fromkeys(near[word](one.thing.name, space)))
    for (name, word), others in found.items():
        if others:
            kind = word if word == "food" else "bedding or clothes"
            yield (
                f"{name} is not marked as {kind}, and lies where {word} may not, too near {_listed(*others)}: is "
                f"it none? Give it `{SAYS[word]}`, which keeps them apart, or `{SAYS_NOT[word]}: false`."
            )
