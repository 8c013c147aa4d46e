"""The parts of a case as integers: a copy of a thing, a space, and one in the other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from models.case import Copy
from models.gear import Thing
from models.geometry import Point
from models.spaces import Space
from solver.in_hand import Wanted
from solver.lanes import pack, pack_limits
from solver.shapes import Shape

Six = tuple[int, int, int, int, int, int]
"""A box as its least and greatest corner in mm."""
PROOF_SPARE_G = 1
"""A proof lets every limit be passed by so many grams: the verifier lets a part in 10⁹ pass, which is less."""


def meet(a: Six, b: Six) -> bool:
    """Whether two boxes share room."""
    return a[0] < b[3] and b[0] < a[3] and a[1] < b[4] and b[1] < a[4] and a[2] < b[5] and b[2] < a[5]


@dataclass(frozen=True)
class Piece:
    """A copy as integers."""

    index: int
    copy: Copy
    thing: Thing
    kind: int
    """Number of its thing in the canonical order."""
    most_g: tuple[int, ...]
    """Heaviest mass at every stage in grams, rounded up."""
    proof_g: tuple[int, ...]
    """The same rounded down: for proofs, in which many roundings up would pass a limit that is met."""
    least_g: tuple[int, ...]
    likely_g: tuple[int, ...]
    shapes: tuple[Shape, ...]
    hard: bool
    bears_g: int | None
    """What may stand on it in grams; None: no limit."""
    wanted: Wanted
    """When it has to be in hand, and what is there then."""
    within_g: int
    """What the spaces that are part of it may hold at most in grams."""
    handling_s: int
    """Seconds to move it out of the way, rounded up."""
    uses_per_day: float

    beyond_fire: bool = False
    """It is needed in a fire, and others do: it may lie under things, and is in nobody's reach then."""

    def minds(self, other: Piece) -> bool:
        """Whether another is there at a stage at which it may be in the way of this one.

        All such stages are taken together: stricter than the rule, which looks at each, where different things are
        gone at different ones.
        """
        return bool(self.wanted.asked & other.wanted.there)

    @property
    def name(self) -> str:
        """The copy as people call it."""
        return self.copy.called(self.thing.count)

    @cached_property
    def kept_free(self) -> bool:
        """Whether the search leaves nothing to be moved before it: what is for a fire too, of which two would do."""
        return self.wanted.quick or ("fire" in self.thing.needed_when and not self.beyond_fire)

    @cached_property
    def heaviest_g(self) -> int:
        """Its mass at its heaviest stage in grams."""
        return max(self.most_g)

    @cached_property
    def full_g(self) -> tuple[int, ...]:
        """`most_g` with all that the spaces that are part of it may hold."""
        return tuple(g + self.within_g for g in self.most_g)

    @cached_property
    def full_lanes(self) -> int:
        """`full_g`, a lane for every stage."""
        return pack(self.full_g)

    @cached_property
    def bears_lanes(self) -> int:
        """`bears_g`, the same at every stage, a lane for each."""
        return pack_limits([self.bears_g] * len(self.most_g))

    @cached_property
    def most_lanes(self) -> int:
        """`most_g`, a lane for every stage."""
        return pack(self.most_g)

    @cached_property
    def least_lanes(self) -> int:
        """`least_g`, a lane for every stage."""
        return pack(self.least_g)

    @cached_property
    def likely_lanes(self) -> int:
        """`likely_g`, a lane for every stage."""
        return pack(self.likely_g)


@dataclass(frozen=True)
class Room:
    """A space as integers."""

    index: int
    space: Space
    low: Point
    high: Point
    limit_g: int | None
    """Mass that the search puts into it at most in grams; None: any."""
    proof_limit_g: int | None
    """Mass that it holds in no plan more of, for proofs; where the search is stricter, more than `limit_g`."""
    tied_g: int | None
    """Mass that its tie-downs hold in grams; None: nothing in it is tied."""
    bearers: tuple[int, ...]
    """Numbers of the bearers that it loads: racks, and spaces around it (`nested.py`)."""
    solids: tuple[Six, ...]
    """Fixed boxes (x, y, z, x, y, z) on which things may stand, of which no two meet (`solids.py`)."""
    keep_out: tuple[Six, ...]
    """Boxes that stay empty because another space of the vehicle slides through them."""
    chain_s: float

    @property
    def size(self) -> Point:
        """Its sides in mm."""
        return (self.high[0] - self.low[0], self.high[1] - self.low[1], self.high[2] - self.low[2])


class MassLeft(NamedTuple):
    """Mass that a room may hold in grams, a lane for every stage; what is without a limit has one out of reach."""

    whole: int
    tied: int
    """Of what is tied down."""
    bearers: tuple[tuple[int, int], ...]
    """Number and limit of every bearer that the room loads."""


@dataclass(frozen=True)
class Fit:
    """A piece in a room: the shapes that fit, and how high and low it must stay, in mm."""

    shapes: tuple[int, ...]
    least_z: int
    greatest_top: int
    dig_s: float
    """Seconds left for moving other things out of the way."""
    lowest2: int
    """Twice the least height of its middle in mm."""
