"""The spaces of a vehicle: boxes into which things go."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from models.base import CornerMm, Described, Limit, LimitKg, SideMm, SizeMm, Word

Side = Literal["left", "right", "front", "rear", "top", "bottom"]
"""A side of a box: front is least x, rear greatest x, left least y, right greatest y."""

Held = Literal["enclosed", "barrier", "tie_downs", "holder", "bracket", "none"]
"""What stops the load moving."""


LID_MM = 50
"""Most that a lid, a board or a cushion over a space is thick, in mm: a space whose floor is no further above lies on
it, one further up has a deck of its own. Common practice, no source."""


class Solid(Described):
    """A fixed box inside a space, such as a wheel arch: nothing enters it, things may stand on it."""

    corner_mm: CornerMm
    size_mm: SizeMm


class TieDown(Described):
    """A point to tie to."""

    rated_dan: Annotated[float, Field(strict=True, gt=0, le=100_000, allow_inf_nan=False)]
    """Rated load in decanewtons; 1 daN is about the weight of 1 kg."""


class Slide(Described):
    """A space that slides out."""

    to: Literal["left", "right", "front", "rear"]
    """The direction in which it slides."""
    mm: SideMm
    """How far, in mm."""


def _accepts_from_file(value: Any) -> Any:
    return None if value == "anything" else value


class Space(Described):
    """A box of the vehicle into which things go."""

    name: Word
    corner_mm: CornerMm
    """Least x, y and z in mm."""
    size_mm: SizeMm
    """Inner size [along x, across y, up z] in mm."""
    solid: tuple[Solid, ...] = ()
    """Fixed boxes inside it."""
    limit_kg: LimitKg = Limit()
    """Heaviest content in kg; `unknown` when left out."""
    on: tuple[Word, ...] = ()
    """The racks it loads."""
    air: Word
    """The volume of air it shares."""
    opening: Word
    """The opening through which it is reached."""
    face: Literal["left", "right", "front", "rear", "top"] = "top"
    """The one side by which things go in and out."""
    slides: Slide | None = None
    """None: it does not slide."""
    holds: Held = "enclosed"
    """What stops the load moving."""
    tie_downs: tuple[TieDown, ...] = ()
    """Points to tie to."""
    weather: Literal["dry", "splash", "exposed"] = "dry"
    """How wet it gets."""
    heat: Literal["cool", "cabin", "hot"] = "cabin"
    """How hot it gets: cool, as the cabin, or hot (roof, dash, beside the engine)."""
    accepts: Annotated[
        tuple[Word, ...] | None,
        BeforeValidator(_accepts_from_file, json_schema_input_type=Literal["anything"] | tuple[Word, ...]),
        Field(),
    ] = None
    """The words of what may go in. None (`anything` in a file): anything without a holder of its own."""
    in_reach_when: tuple[Literal["belted driver", "belted passenger"], ...] = ()
    """Who reaches it with a belt on."""
    seat: Word | None = None
    """A seat whose occupant leaves it no room. None: no seat is in the way."""
    inside_of: Word | None = None
    """A thing this space is part of, such as a folded roof tent. None: part of the vehicle."""
    solid_wall_between: tuple[Word, ...] = ()
    """Neighbouring spaces that a solid wall parts from this one."""
