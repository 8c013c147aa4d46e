"""What the drawings show: the vehicle, and each carried copy with its number and its marks."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from models.case import Case, Copy
from models.geometry import Box, placed_box
from models.plan import Placement
from models.spaces import Space
from report.drawings.labels import letters
from report.drawings.marks import Mark


@dataclass(frozen=True)
class Shown:
    """A carried copy as the drawings show it."""

    copy: Copy
    name: str
    """The copy as people call it."""
    number: int
    """Its number in the order of loading, the same in every list."""
    placement: Placement
    marks: tuple[Mark, ...]
    soft: bool

    @property
    def box(self) -> Box:
        """Where it is, in mm."""
        return placed_box(self.placement)

    @property
    def space(self) -> str:
        """The space it is in."""
        return self.placement.space


@dataclass(frozen=True, eq=False)
class Scene:
    """A vehicle with what it carries, in the order of loading."""

    case: Case
    things: tuple[Shown, ...]

    @cached_property
    def letter(self) -> dict[str, str]:
        """Spaces by the letter that they have in the drawings."""
        return {space.name: letters(n) for n, space in enumerate(self.case.vehicle.spaces)}

    @cached_property
    def hosts(self) -> frozenset[str]:
        """Things that a space is part of."""
        return frozenset(space.inside_of for space in self.case.vehicle.spaces if space.inside_of)

    def within(self, space: str) -> tuple[Shown, ...]:
        """What is in a space, in the order of loading."""
        return tuple(one for one in self.things if one.space == space)

    @cached_property
    def spaces(self) -> tuple[Space, ...]:
        """Spaces that are there: one that is part of a thing is only where that thing is carried."""
        carried = {one.copy.thing for one in self.things}
        return tuple(s for s in self.case.vehicle.spaces if s.inside_of is None or s.inside_of in carried)

    def boxes(self) -> Iterator[Box]:
        """Every box that has to be on a drawing of the whole vehicle."""
        for space in self.spaces:
            yield space_box(space)
        for one in self.things:
            yield one.box


def space_box(space: Space) -> Box:
    """The walls of a space as a box in mm."""
    (x, y, z), (a, b, c) = space.corner_mm, space.size_mm
    return Box((x, y, z), (x + a, y + b, z + c))
