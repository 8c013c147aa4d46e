"""The trip: who comes, the stages, what people have fixed."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag

from models.base import MOST_PARTS, CornerMm, Described, FileName, Flag, Kg, Litres, Share, Text, Word

Surface = Literal["sealed_road", "off_road", "parked"]
"""The ground at a stage; sealed_road and off_road are driving stages."""


MOST_LISTS = 40
"""Most gear lists of a trip. Common practice, no source: one a person and a few that are shared."""


class Person(Described):
    """Somebody aboard."""

    name: Word
    mass_kg: Kg
    """Kilograms as dressed, boots and pockets included."""
    seat: Word
    """The seat taken when aboard."""


class Towing(Described):
    """A trailer; how it is loaded itself is not planned here."""

    ball_kg: Kg
    """Download on the ball in kg."""
    trailer_kg: Kg
    """Mass of the loaded trailer in kg."""


YES_NO, TRAILER = "yes or no", "a trailer"
"""What may stand at a stage's `towing`. In what is refused there, these stand in the place, and in no file."""


def _said(value: Any) -> str:
    return TRAILER if isinstance(value, dict | Towing) else YES_NO


class Stage(Described):
    """A point of the trip at which the loads differ. Not named: tanks full, nothing used, everyone aboard."""

    name: Word
    surface: Surface
    tanks: dict[Word, Share] = {}
    """Level of each tank, 0 to 1; 1 when left out."""
    left: dict[Word, Share] = {}
    """Share left of each stream that is used up; 1 when left out."""
    filled: dict[Word, Share] = {}
    """Share filled of each stream that arrives; 0 when left out."""
    people: tuple[Word, ...] | None = None
    """Who is aboard. None: everyone."""
    closed: tuple[Word, ...] = ()
    """Spaces that must be empty."""
    on_racks: dict[Word, Kg] = {}
    """Kilograms of people on racks, as in a roof tent."""
    towing: Annotated[Annotated[Flag, Tag(YES_NO)] | Annotated[Towing, Tag(TRAILER)], Discriminator(_said)] | None = (
        None
    )
    """Whether the trailer is on, or what it then weighs and puts on the ball. None, and yes: as the trip."""
    taken_on_l: dict[Word, Litres] = {}
    """Litres of each fluid taken on since the stage before."""

    @property
    def driving(self) -> bool:
        """Whether the vehicle moves at this stage."""
        return self.surface != "parked"


class Stream(Described):
    """Something that is used up or arrives along the trip."""

    fluid: Word | None = None
    """The fluid it is, which links cans to tanks. None: no fluid."""


class Lock(Described):
    """Something people have fixed, with who and why."""

    thing: Word
    copy_number: Annotated[Annotated[int, Field(strict=True, ge=1, le=200)] | None, Field(alias="copy")] = None
    """Which copy. None: all of them."""
    in_: Annotated[Word | None, Field(alias="in")] = None
    """The space it stays in."""
    at_mm: CornerMm | None = None
    """Its corner in mm, with `in`."""
    not_in: Word | None = None
    """A space or a rack it stays out of."""
    at_home: Flag = False
    """It stays at home."""
    carried: Flag = False
    """It comes."""
    by: Word | None = None
    """Who fixed it."""
    because: Text | None = None
    """Why."""

    def is_on(self, copy: tuple[str, int]) -> bool:
        """Whether a copy, by its thing and number, is under it."""
        thing, number = copy
        return self.thing == thing and self.copy_number in {None, number}


FileNames = Annotated[tuple[FileName, ...], Field(min_length=1, max_length=MOST_LISTS)]
"""The files of the gear lists."""


def _files_from_file(value: Any) -> Any:
    return (value,) if isinstance(value, str) else value


class Trip(Described):
    """A trip, new each time."""

    name: Word
    vehicle: FileName
    """The vehicle's file, relative to this one."""
    gear: Annotated[FileNames, BeforeValidator(_files_from_file, json_schema_input_type=FileName | FileNames)]
    """The gear lists, relative to this file; at least one, which may be empty."""
    people: Annotated[tuple[Person, ...], Field(max_length=MOST_PARTS)] = ()
    """Who comes."""
    traffic_on: Literal["left", "right"] = "left"
    """The side of the vehicle on which traffic passes when it stands at the roadside."""
    stages: Annotated[tuple[Stage, ...], Field(min_length=1, max_length=40)]
    """In the order of the trip."""
    streams: dict[Word, Stream] = {}
    """What the streams are."""
    locks: tuple[Lock, ...] = ()
    """What people have fixed."""
    apart: tuple[tuple[Word, Word], ...] = ()
    """Pairs of things or kits that may not share a space."""
    towing: Towing | None = None
    """None: no trailer."""
    reserve_kg: Kg | None = None
    """Kept free of the total and of each axle, in kg. None: the rule book's."""
    allow_mm: Annotated[float, Field(strict=True, ge=0, le=1000)] = 2.0
    """Height of the vehicle's centre of gravity given up, at most, for easier access, in mm."""
    choose_within_mm: Annotated[float, Field(strict=True, ge=0, le=1000)] = 5.0
    """Optional things come while the height stays within this of carrying the musts alone, in mm."""
    rulebook: FileName | None = None
    """A file that overrides the shipped rule book, relative to this file. None: the shipped one."""
