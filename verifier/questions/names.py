"""Questions on names: what tells of a hazard and is marked with none, and two names that may be one thing."""

import re
from collections.abc import Iterator
from functools import cache

from models.gear import Thing
from verifier.layout import Layout

TELLING = (
    "petrol", "gasoline", "diesel", "kerosene", "paraffin", "fuel", "lpg", "propane", "butane",
    "gas bottle", "gas cylinder", "gas cartridge", "gas canister", "camping gas",
    "chainsaw", "chain saw", "generator", "outboard",
    "methylated", "white spirit", "ethanol", "aerosol", "spray can",
    "lithium", "li-ion", "lifepo4", "power station", "power pack",
    "flare", "firelighter", "ammunition",
)  # fmt: skip
"""Words and beginnings of words that tell of what burns, gasses or explodes. Common practice, no source."""

HARMLESS_WITH = (
    "hose", "funnel", "filter", "cable", "cord", "lead", "adapter", "bracket", "holder", "regulator", "gauge", "map",
    "manual", "papers", "cover", "detector", "tape", "cap",
)  # fmt: skip
"""Words of things that go with a hazard and hold none of it. Common practice, no source."""

STREAM = "gas"
"""A stream of this name tells as much. Common practice, no source."""


def _has(text: str, words: tuple[str, ...], whole: bool = False) -> bool:
    return _any_of(words, whole).search(text) is not None


@cache
def _any_of(words: tuple[str, ...], whole: bool) -> re.Pattern[str]:
    end = r"s?\b" if whole else ""
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))}){end}")


def tells(thing: Thing) -> bool:
    """Whether the name of a thing, or of what it uses up, tells of a hazard that nobody marked or denied."""
    if thing.hazard is not None or thing.said_harmless:
        return False
    streams = [name.casefold() for name in (*thing.uses_up, *thing.fills)]
    named = _has(thing.name.casefold(), TELLING) and not _has(thing.name.casefold(), HARMLESS_WITH, whole=True)
    return named or any(_has(name, TELLING) or _has(name, (STREAM,), whole=True) for name in streams)


def no_hazard(layout: Layout) -> Iterator[str]:
    """Ask about carried things whose names tell of a hazard that they are not marked with."""
    carried = {one.thing.name for one in layout.placed}
    found = [thing.name for thing in layout.case.things if thing.name in carried and tells(thing)]
    if found:
        yield (
            f"No `hazard` is given for {', '.join(found)}, so {'it was' if len(found) == 1 else 'they were'} allowed "
            "in any air, also where people breathe: does nothing in there burn, gas or explode? Give the hazard word, "
            "or `hazard: none`."
        )


def alike(layout: Layout) -> Iterator[str]:
    """Ask about carried things whose names are the same but for capitals, blanks and signs."""
    groups: dict[str, list[str]] = {}
    for name in dict.fromkeys(one.thing.name for one in layout.placed):
        groups.setdefault("".join(sign for sign in name.casefold() if sign.isalnum()) or name, []).append(name)
    for names in groups.values():
        if len(names) > 1:
            yield (
                f"{' and '.join(map(repr, names))} have names that differ in capitals, blanks or signs alone, and all "
                "are carried: is that one thing, listed twice?"
            )
