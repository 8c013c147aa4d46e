"""The vehicle: what it weighs empty, what it may carry, its seats, tanks and racks."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from models.base import (
    MOST_PARTS,
    Described,
    Flag,
    Kg,
    KnownFrom,
    Limit,
    LimitKg,
    Litres,
    Mm,
    PointMm,
    Seconds,
    Share,
    SideMm,
    Text,
    Word,
)
from models.spaces import Space

AirKind = Literal["people", "sealed", "vented", "locker", "open"]
"""people: breathed by those aboard; sealed: own air, no vents; vented: vents low and high to outside;
locker: vented and for one purpose; open: outside."""

OpeningSide = Literal["left", "right", "rear", "front", "top", "inside"]
"""Where a hand comes from; inside: from a seat or a cabin door."""

Condition = Literal["on left side", "on right side", "sills down", "tail blocked", "trailer on", "tent up"]
"""A state of the vehicle in which an opening may be stuck."""


class Outline(Described):
    """The body of the vehicle without load, for the drawings and to catch a space outside it."""

    front: Mm
    """x of the foremost point in mm; negative, ahead of the front axle."""
    rear: Mm
    """x of the rearmost point in mm, that of a rear carrier and what it holds where spaces hang on one."""
    width: SideMm
    """Overall width in mm."""
    height: SideMm
    """Height of the body above ground in mm; racks and what is on them may stand higher."""
    wheel_radius: SideMm = 390
    """Radius of a wheel in mm, for the drawings."""


class Kerb(Described):
    """The vehicle as it stood on the scale. What was aboard is named and is subtracted."""

    front_kg: Kg | None = None
    """Front axle in kg. None, with total_kg given: the axles are unknown."""
    rear_kg: Kg | None = None
    """Rear axle in kg. None, with total_kg given: the axles are unknown."""
    total_kg: Kg | None = None
    """Total in kg, where the axles were not weighed."""
    cg_height_mm: Annotated[float, Field(strict=True, gt=0, le=5000)] | Literal["unknown"] = "unknown"
    """Height of the centre of gravity as weighed, in mm. `unknown`: a default of the class of body, ± 40 mm."""
    right_of_centre_mm: Annotated[float, Field(strict=True, ge=-1000, le=1000)] = 0.0
    """How far right of the middle the centre of gravity lies, in mm; left is negative."""
    aboard_l: dict[Word, Litres] = {}
    """Litres in each tank on the scale, by the tank's name."""
    aboard_kg: dict[Word, Kg] = {}
    """Kilograms in each seat on the scale, by the seat's name."""
    known_from: KnownFrom = "weighbridge"
    """Where the figures come from."""


class Limits(Described):
    """What the vehicle may weigh. `unknown` is allowed and is never assumed in silence."""

    gvm_kg: LimitKg = Limit()
    """Largest total mass of the vehicle, the ball's download included, in kg."""
    front_axle_kg: LimitKg = Limit()
    """Largest load of the front axle in kg."""
    rear_axle_kg: LimitKg = Limit()
    """Largest load of the rear axle in kg."""
    gcm_kg: LimitKg = Limit()
    """Largest mass of vehicle and trailer together in kg; asked for only when towing."""
    tow_ball_kg: LimitKg = Limit()
    """Largest download on the tow ball in kg; asked for only when towing."""
    tow_ball_behind_rear_axle_mm: SideMm | None = None
    """Distance of the ball behind the rear axle in mm; asked for only when towing."""
    front_share_min: Share | None = None
    """Least share of the mass on the front axle. None: the rule book's."""
    side_difference_share: Share | None = None
    """Largest difference of left and right wheels as a share of the mass. None: the rule book's."""


class Fitting(Described):
    """Something bolted on after the kerb weighing."""

    name: Word
    mass_kg: Kg
    """Kilograms."""
    at_mm: PointMm
    """Its centre of gravity in mm."""
    on: tuple[Word, ...] | None = None
    """The racks it loads, as a space does; empty: none. None: none either, and asked about where it looks otherwise."""


class Seat(Described):
    """A place for a person."""

    name: Word
    at_mm: PointMm
    """The centre of gravity of a person sitting there, in mm."""
    back_top_z_mm: Mm | None = None
    """Height of the top of the seat back above ground in mm. None: unknown."""


class Tank(Described):
    """A fixed container of a fluid."""

    name: Word
    fluid: Word
    """A fluid of the rule book, which knows its density."""
    holds_l: Litres
    """Usable litres when full."""
    at_mm: PointMm
    """Centre of gravity of its content in mm."""


class RackLimits(Described):
    """What a rack may carry, by the ground the vehicle is on."""

    parked_kg: LimitKg | None = None
    """Standing still, people in a roof tent included."""
    sealed_road_kg: LimitKg | None = None
    """Driving on a sealed road."""
    off_road_kg: LimitKg | None = None
    """Driving off the road."""
    any_kg: LimitKg | None = None
    """Everywhere the same; used where the surface's own figure is not given."""


class Rack(Described):
    """Anything with a limit of its own that spaces hang on: roof, rack, drawer frame, load bed, rear carrier."""

    name: Word
    on: Word | None = None
    """The rack it is mounted on. None: on the vehicle."""
    own_mass_kg: Kg = 0.0
    """Its own mass in kg."""
    at_mm: PointMm | None = None
    """Its centre of gravity in mm; needed when it was not on the scale, and for a stage with people on it."""
    on_the_scale: Flag = True
    """Whether the kerb weighing already holds its own mass."""
    counts_itself: Flag = False
    """Whether its own mass counts against its own limit."""
    limits: RackLimits = RackLimits()
    """What it may carry."""
    source: Text | None = None
    """Where its limits stand."""


class Opening(Described):
    """What a hand goes through to reach a space."""

    name: Word
    side: OpeningSide
    seconds: Seconds | None = None
    """Seconds to open it, standing or sitting ready. None: the rule book's for its side."""
    stuck_when: tuple[Condition, ...] | None = None
    """Conditions in which it does not open. None: the rule book's for its side."""
    after: tuple[Word, ...] = ()
    """Openings that must be open first."""


class CargoBarrier(Described):
    """A rated barrier between load and people. It stops things, not gas."""

    behind_seats: tuple[Word, ...] = ()
    """The seats it stands behind: who sits further back than these is not protected by it."""
    rated_kg: Kg
    """Heaviest single thing it is rated to stop, in kg."""
    top_z_mm: Mm
    """Height of its top above ground in mm."""


def _air_from_file(value: Any) -> Any:
    return {} if value is None else value


class Vehicle(Described):
    """A vehicle, described once and used for many trips."""

    name: Word
    body: Literal["pickup", "wagon", "van"] = "pickup"
    """Class of body; it stands in where the height of the centre of gravity is unknown."""
    wheelbase_mm: Annotated[int, Field(strict=True, ge=1000, le=8000)]
    """Distance of the axles in mm."""
    track_mm: Annotated[int, Field(strict=True, ge=800, le=3000)]
    """Mean distance of the left and right wheels in mm."""
    outline_mm: Outline
    """The body without load."""
    kerb: Kerb
    """As weighed."""
    limits: Limits = Limits()
    """What it may weigh."""
    fittings: Annotated[tuple[Fitting, ...], Field(max_length=MOST_PARTS)] = ()
    """Bolted on after the kerb weighing."""
    seats: Annotated[tuple[Seat, ...], Field(max_length=MOST_PARTS)] = ()
    """Places for people."""
    tanks: Annotated[tuple[Tank, ...], Field(max_length=MOST_PARTS)] = ()
    """Fixed containers of fluids."""
    racks: Annotated[tuple[Rack, ...], Field(max_length=MOST_PARTS)] = ()
    """Things with a limit of their own that spaces hang on."""
    air: Annotated[dict[Word, AirKind], BeforeValidator(_air_from_file)] = {}
    """Volumes of air by name: gas does not stop at a curtain, a barrier or a drawer front."""
    openings: Annotated[tuple[Opening, ...], Field(max_length=MOST_PARTS)] = ()
    """What hands go through."""
    cargo_barrier: CargoBarrier | None = None
    """None: there is no barrier."""
    wading_line_mm: SideMm | None = None
    """Electrical things stay above this height in mm. None: not asked for."""
    spaces: Annotated[tuple[Space, ...], Field(max_length=MOST_PARTS)] = ()
    """Where things may go."""
