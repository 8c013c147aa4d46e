"""space_mass: what is in a space, and in what lies there, is within its limit, at every stage."""

from collections.abc import Iterator

from models.rules import Rule
from models.spaces import Space
from models.stages import mass_kg
from models.trip import Stage
from verifier.finding import Finding, against, at, or_held, plain, within
from verifier.layout import Layout


def _at(layout: Layout, space: Space, stage: Stage) -> Finding:
    value = sum(mass_kg(one.thing, stage, "most") for one in layout.within(space))
    limit = space.limit_kg
    says = f"{space.name} holds {against(value, limit.kg, 'kg')}{at(stage.name)}."
    return within(Rule.SPACE_MASS, space.name, stage.name, value, limit.kg, "kg", says, limit.source)


def _all(layout: Layout) -> Iterator[Finding]:
    for space in layout.case.vehicle.spaces:
        if not layout.within(space):
            yield plain(Rule.SPACE_MASS, space.name, True, f"{space.name} is empty.")
            continue
        yield from (_at(layout, space, stage) for stage in layout.case.trip.stages)


def find(layout: Layout) -> Iterator[Finding]:
    """Weigh every space at every stage; an empty one is within any limit."""
    return or_held(_all(layout), Rule.SPACE_MASS, "The vehicle has no spaces.")
