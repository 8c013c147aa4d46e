"""How high the laden vehicle stands, for garages, gates and ferries."""

from collections.abc import Iterator
from dataclasses import dataclass

from models.geometry import box
from verifier.layout import Layout


@dataclass(frozen=True, slots=True)
class Tallest:
    """The highest point of the laden vehicle, as far as its file and the plan tell it."""

    top_mm: int
    """Height above ground in mm."""
    what: str
    """The body, a closed space, or a thing that is carried."""


def tallest(layout: Layout) -> Tallest:
    """Find the highest of the body, closed spaces and carried things; of equals the first of these."""
    body = Tallest(layout.case.vehicle.outline_mm.height, "the body")
    return max((body, *_closed(layout), *_carried(layout)), key=lambda one: one.top_mm)


def _closed(layout: Layout) -> Iterator[Tallest]:
    """Spaces that stand as high when nothing is in them, such as a roof box."""
    for space in layout.case.vehicle.spaces:
        if space.holds == "enclosed" and space.inside_of is None:
            yield Tallest(box(space.corner_mm, space.size_mm).high[2], space.name)


def _carried(layout: Layout) -> Iterator[Tallest]:
    for one in layout.placed:
        yield Tallest(one.box.high[2], one.name)
