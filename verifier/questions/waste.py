"""A question on waste: whether it rides in one space with food."""

import re
from collections.abc import Iterator

from models.gear import Thing
from verifier.layout import Layout

TOILET = re.compile(
    r"\b(?:(?:toilet|potty|commode|dunny|loo)s?|potties)(?: (?:bucket|cassette)s?)?\s*(?:[(#,\d].*|with\b.*)?$",
    re.IGNORECASE,
)
"""What a thing is called that holds waste, toilet paper and toilet bags not. Common practice, no source."""

WASTE = re.compile(r"\b(?:waste|rubbish|garbage|trash|litter|sewage|toilet|grey|black|nappies|nappy)\b", re.IGNORECASE)
"""What a stream of waste is called. Common practice, no source."""


def beside_food(layout: Layout) -> Iterator[str]:
    """Ask about what holds waste and shares a space with food, where no hazard word keeps the two apart."""
    food = [(one, space) for one, space in layout.located if one.thing.eaten]
    found: dict[tuple[str, str], dict[str, None]] = {}
    for one, space in layout.located:
        if _holds_waste(one.thing):
            beside = [other.thing.name for other, own in food if layout.shared(space, own) is not None]
            found.setdefault((one.thing.name, space.name), {}).update(dict.fromkeys(beside))
    for (name, space_name), beside_it in found.items():
        if beside_it:
            first = next(iter(beside_it))
            yield (
                f"{name} holds waste and is in {space_name} with {' and '.join(beside_it)}: does nothing get from one "
                f"to the other? `apart: [[{name}, {first}]]` of the trip keeps them in two spaces; `hazard: none` of "
                f"{name} says that it is shut tight."
            )


def _holds_waste(thing: Thing) -> bool:
    """Whether a thing holds waste by its name or by what fills it, and nobody said what that is."""
    told = TOILET.search(thing.name) is not None or any(WASTE.search(stream) for stream in thing.fills)
    return told and not thing.eaten and thing.hazard is None and not thing.said_harmless
