"""A plan: a place and a turn for each copy, and what its maker claims."""

from typing import Annotated, Literal

from pydantic import Field

from models.base import MOST_COPIES, CornerMm, Described, FileName, Kg, SizeMm, Word
from models.trip import Lock

Turn = Literal["lwh", "lhw", "wlh", "whl", "hlw", "hwl"]
"""Which listed side lies along x, y and z."""

Facing = Literal["rear", "left", "front", "right"]
"""Where the listed rear of a thing points."""


Claimed = Annotated[float, Field(strict=True, allow_inf_nan=False)]
"""A figure that is claimed: any number, as an axle that is lifted has less than none on it."""


class Placement(Described):
    """Where one copy is."""

    thing: Word
    copy_number: Annotated[int, Field(strict=True, ge=1, le=200, alias="copy")] = 1
    space: Word
    corner_mm: CornerMm
    """Least x, y and z in mm."""
    size_mm: SizeMm
    """Sides as placed [along x, across y, up z] in mm."""
    turn: Turn = "lwh"
    """Which listed side lies along x, y and z; of no meaning for a thing given by volume."""
    facing: Facing | None = None
    """Where its listed rear points; only for things with air gaps."""


class LeftAtHome(Described):
    """A copy that does not come."""

    thing: Word
    copy_number: Annotated[int, Field(strict=True, ge=1, le=200, alias="copy")] = 1


class Claims(Described):
    """What the maker of the plan says of it; the verifier recomputes all of it."""

    cg_height_mm: dict[Word, Claimed] = {}
    """Height of the centre of gravity in mm, by stage."""
    front_axle_kg: dict[Word, Claimed] = {}
    """Front axle in kg, by stage."""
    rear_axle_kg: dict[Word, Claimed] = {}
    """Rear axle in kg, by stage."""
    mass_kg: dict[Word, Claimed] = {}
    """Total in kg without what a trailer puts on the tow ball, by stage."""


class Plan(Described):
    """A layout for a trip."""

    trip: FileName
    """The trip's file, relative to the plan's."""
    trip_digest: Word | None = None
    """Digest of trip, vehicle, gear and rule book when it was made. None: made by hand."""
    locks: tuple[Lock, ...] = ()
    """Locks added to the trip's."""
    placements: Annotated[tuple[Placement, ...], Field(max_length=MOST_COPIES)] = ()
    """One entry per copy that comes."""
    left_at_home: tuple[LeftAtHome, ...] = ()
    """Copies that stay."""
    reserve_kept_kg: Kg | None = None
    """The reserve it keeps in kg. None: the trip's."""
    reserve_asked_kg: Kg | None = None
    """The reserve in kg that the trip asked for when less of it was kept. None: what it asks for now."""
    claims: Claims = Claims()
    """What its maker says of it."""


def asked_otherwise(plan: Plan, asked_kg: float) -> bool:
    """Whether a plan was made while the trip asked for another reserve than now, in kg."""
    return None not in {plan.reserve_kept_kg, plan.reserve_asked_kg} and plan.reserve_asked_kg != asked_kg


def reserve_of(plan: Plan, asked_kg: float) -> float:
    """The reserve that a plan is held to in kg: what it keeps of what the trip asks for, or else all of that."""
    kept = plan.reserve_kept_kg
    return asked_kg if kept is None or asked_otherwise(plan, asked_kg) else kept


def less_kept(plan: Plan, asked_kg: float) -> bool:
    """Whether a plan keeps less of the reserve than the trip asks for, in kg."""
    return reserve_of(plan, asked_kg) < asked_kg
