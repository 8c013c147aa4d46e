"""weather: dry where it is dry, clean from wet, cool from hot, electrical things above the water."""

from collections.abc import Iterator

from models.rules import Rule
from models.spaces import Space
from verifier.finding import Finding, at_least, or_held, plain
from verifier.layout import Layout, Placed

WETNESS = ("dry", "splash", "exposed", "any")
"""How wet a space gets, and the most a thing tolerates, from least to most."""
WARMTH = ("cool", "cabin", "hot", "any")
"""How warm a space gets, and the most a thing tolerates, from least to most."""


def _reasons(layout: Layout, one: Placed, space: Space) -> Iterator[str]:
    thing = one.thing
    if WETNESS.index(space.weather) > WETNESS.index(thing.weather):
        yield f"tolerates {thing.weather} places, and {space.name} is {space.weather}"
    if WARMTH.index(space.heat) > WARMTH.index(thing.keep):
        yield f"keeps {thing.keep}, and {space.name} is {space.heat}"
    if thing.wet:
        for other, theirs in layout.located:
            shared = layout.shared(space, theirs)
            if shared is not None and other is not one and (other.thing.weather == "dry" or other.thing.eaten):
                yield f"is wet, and {other.name} is in {shared.name} too"


def _above_water(layout: Layout, one: Placed) -> Iterator[Finding]:
    line = layout.case.vehicle.wading_line_mm
    if one.thing.electrical and line is not None:
        low = one.box.low[2]
        says = f"The bottom of {one.name} is {low} mm above ground; the wading line is at {line} mm."
        yield at_least(Rule.WEATHER, one.name, None, low, line, "mm", says, "vehicle file")


def _all(layout: Layout) -> Iterator[Finding]:
    for one, space in layout.located:
        for reason in _reasons(layout, one, space):
            yield plain(Rule.WEATHER, one.name, False, f"{one.name} {reason}.")
        yield from _above_water(layout, one)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge what wet and heat do to each thing."""
    return or_held(_all(layout), Rule.WEATHER, "Everything is as dry and as cool as it needs to be.")
