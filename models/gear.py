"""The things that may come along."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from models.base import Count, Described, Flag, Kg, KnownFrom, Litres, SizeMm, Word

Access = Literal["belted", "at_once", "each_stop", "each_camp", "seldom"]
"""The longest time to hand; the seconds stand in the rule book."""

Need = Literal["fire", "rolled over", "bogged", "injury", "roadside at night"]
"""An incident in which a thing is needed."""


class Mass(Described):
    """A mass with its doubt, in kg; a number in a file stands for all three."""

    least: Kg
    likely: Kg
    most: Kg


def _mass_from_file(value: Any) -> Any:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return {"least": value, "likely": value, "most": value}
    return value


class AirGap(Described):
    """Free air a thing needs at its sides, in mm, named as the thing stands in the list."""

    left: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0
    right: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0
    front: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0
    rear: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0
    top: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0
    bottom: Annotated[int, Field(strict=True, ge=0, le=2000)] = 0


Regret = Annotated[int, Field(strict=True, ge=1, le=100)]
"""What it is worth that a copy comes, 1 to 100."""


def _carry_from_file(value: Any) -> Any:
    return None if value == "must" else value


def _hazard_from_file(value: Any) -> Any:
    return None if value == HARMLESS else value


FOOD = "food"
"""The stream of what people eat: what uses it up holds food."""

BEDDING = "bedding"
"""The word in `suits` of what people sleep in or on."""

HARMLESS = "none"
"""What a file says of a thing that is harmless for all that its name tells."""


class Thing(Described):
    """A line of the gear list: one thing, or several copies alike."""

    name: Word
    count: Annotated[int, Field(strict=True, ge=1, le=200)] = 1
    """How many copies."""
    mass_kg: Annotated[Mass, BeforeValidator(_mass_from_file, json_schema_input_type=Kg | Mass)]
    """Kilograms per copy, full: a number or {least, likely, most}."""
    known_from: KnownFrom = "estimated"
    """Where the mass is known from."""
    size_mm: SizeMm | None = None
    """Sides as it stands [along x, across y, up z] in mm. None: a soft thing given by volume_l."""
    volume_l: Annotated[float, Field(strict=True, gt=0, le=2000, allow_inf_nan=False)] | None = None
    """Litres of a soft thing that takes the shape it is given."""
    shape: Literal["hard", "soft"] = "hard"
    """Whether it keeps its shape."""
    turns: Literal["any", "upright", "fixed"] = "any"
    """any: six; upright: its top stays up; fixed: as listed."""
    access: Access = "each_camp"
    """The longest time to hand."""
    uses_per_day: Annotated[float, Field(strict=True, ge=0, le=100, allow_inf_nan=False)] | None = None
    """How often it is fetched. None: the rule book's for its access word."""
    needed_when: tuple[Need, ...] = ()
    """Incidents in which it is needed."""
    hazard: Annotated[Word | None, BeforeValidator(_hazard_from_file, json_schema_input_type=Word | None)] = None
    """A hazard word of the rule book. None (`none` in a file): harmless."""
    holds_l: Litres | None = None
    """Litres of the hazard in one copy. None: not known; a fault where the rule book counts litres of it."""
    net_kg: Kg | None = None
    """Kilograms of the hazard in one copy. None: not known; a fault where they are counted and holds_l is None too."""
    approved_can: Flag = False
    """Whether it is in a container approved for it."""
    holder: Word | None = None
    """It must be in a space that accepts this word. None: it needs no holder."""
    suits: tuple[Word, ...] = ()
    """It may be in a space that accepts one of these words."""
    bears_kg: Kg | None = None
    """Heaviest load that may stand on it in kg. None: no limit for a hard thing, 0 for a soft one."""
    air_gap_mm: AirGap | None = None
    """Free air it needs. None: none."""
    weather: Literal["dry", "splash", "any"] = "any"
    """The worst it tolerates."""
    wet: Flag = False
    """It soils or wets what is beside it."""
    keep: Literal["cool", "cabin", "any"] = "any"
    """The hottest place it tolerates."""
    electrical: Flag = False
    """It must stay above the wading line."""
    valuable: Flag = False
    """Worth hiding; told in the lists."""
    food: Flag = False
    """Something people eat or eat from."""
    clothes: Flag = False
    """Something people wear."""
    kit: Word | None = None
    """Things of one kit want to be together. None: no kit."""
    together: Flag = False
    """Things of the kit marked so must be in one space."""
    packer: Word | None = None
    """Who packs it. None: anybody."""
    carry: Annotated[
        Regret | None, BeforeValidator(_carry_from_file, json_schema_input_type=Literal["must"] | Regret)
    ] = None
    """`must` (None here), or the value 1 to 100 of a copy: the regret of leaving it."""
    all_or_none: Flag = False
    """All copies come, or none."""
    with_: Annotated[tuple[Word, ...], Field(alias="with")] = ()
    """Companions that come whenever it comes."""
    spread: Annotated[Count, Field(ge=1)] = 1
    """In at least so many spaces."""
    uses_up: dict[Word, Kg] = {}
    """Kilograms of the full mass that leave with each stream."""
    fills: dict[Word, Kg] = {}
    """Kilograms of the full mass that arrive with each stream."""
    tied: Flag = False
    """It must be strapped even in an enclosed space."""
    two_person: Flag = False
    """It takes two to lift; it is then tied as well."""

    @property
    def asks_for_ties(self) -> bool:
        """Whether it is to be tied wherever it is not in a holder or a bracket of its own."""
        return self.tied or self.two_person

    @property
    def said_harmless(self) -> bool:
        """Whether somebody wrote that there is no hazard, and did not only leave it out."""
        return self.hazard is None and "hazard" in self.model_fields_set

    @property
    def eaten(self) -> bool:
        """Whether people eat it or eat from it, by its own word or by the stream that it uses up."""
        return self.food or any(stream.casefold() == FOOD for stream in self.uses_up)

    @property
    def slept_in(self) -> bool:
        """Whether it is bedding: what may be in a space for bedding."""
        return BEDDING in self.suits

    @property
    def must(self) -> bool:
        """Whether it has to come."""
        return self.carry is None
