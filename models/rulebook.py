"""The rule book: every figure that differs from place to place, each with its source."""

from itertools import product
from math import ceil
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from models import gear
from models.advice import Crash, Lifting, Pressing, Strapping
from models.base import Described, Flag, Kg, Litres, Number, Seconds, Share, Text, Word
from models.vehicle import AirKind, Condition, OpeningSide

ROUNDING = 1e-9
"""What a count of people may be over a whole number by the rounding of the arithmetic."""

Divisor = Annotated[float, Field(strict=True, ge=0.01, le=1000, allow_inf_nan=False)]
"""A figure by which another is divided, 0.01 to 1000: those of vehicles, fluids and braking lie far within."""


class Sourced(Described):
    """A figure with its source."""

    value: Number
    source: Text


class SourcedKg(Described):
    """A mass in kg with its source."""

    value: Kg
    source: Text


class Density(Described):
    """Kilograms of a litre of a fluid, with their source."""

    value: Divisor
    source: Text


class SideDefault(Described):
    """What an opening on one side is taken for when it says nothing itself."""

    seconds: Seconds
    stuck_when: tuple[Condition, ...] = ()


class Openings(Described):
    """Defaults of openings by side."""

    sides: dict[OpeningSide, SideDefault]
    source: Text


class AccessWord(Described):
    """What an access word promises."""

    seconds: Seconds
    """Longest time to hand in seconds."""
    uses_per_day: Number
    """How often such a thing is fetched when it says nothing itself."""


class Access(Described):
    """The access words."""

    words: dict[gear.Access, AccessWord]
    source: Text


class HandlingStep(Described):
    """Seconds to lift one thing out of the way."""

    up_to_kg: Kg | None
    """Heaviest thing it holds for in kg. None: anything heavier."""
    seconds: Seconds


class Handling(Described):
    """What it takes to move things out of the way, and what is told about lifting."""

    steps: Annotated[tuple[HandlingStep, ...], Field(min_length=1)]
    """At least one. A thing takes the first by mass that holds it, and the last where none does."""
    shoulder_mm: Number
    """Height of the shoulder above ground in mm."""
    above_shoulder_kg: Kg
    """Heaviest single-handed lift above the shoulder in kg."""
    single_person_kg: Kg
    """Heaviest lift by one person in kg."""
    source: Text

    def people(self, kg: float, at_least: int) -> int:
        """How many lift so many kg, each with the heaviest lift of one; two where nothing is said of one."""
        by_mass = ceil(kg / self.single_person_kg - ROUNDING) if self.single_person_kg > 0 else 2
        return max(by_mass, at_least)


class UpTo(Described):
    """An amount allowed in one volume of air."""

    up_to_l: Litres | None = None
    up_to_kg: Kg | None = None


def _allowed_from_file(value: Any) -> Any:
    return {} if value is True else value


Allowed = Annotated[UpTo, BeforeValidator(_allowed_from_file, json_schema_input_type=bool | UpTo)]


class Totals(Described):
    """Amounts of one hazard for the whole vehicle. None: no such limit."""

    total_l: Litres | None = None
    """Most litres in all."""
    total_kg: Kg | None = None
    """Most kilograms in all."""
    total_count: Annotated[int, Field(strict=True, ge=0)] | None = None
    """Most copies in all."""
    counts_with: tuple[Word, ...] = ()
    """Other hazard words, of which copies, litres and kilograms count in these totals in all too; one way."""
    each_l: Litres | None = None
    """Most litres in one copy of this word alone."""
    each_kg: Kg | None = None
    """Most kilograms in one copy of this word alone."""


class Hazard(Described):
    """Where something dangerous may ride. The strictest common reading; local codes come first."""

    un_class: Word | None = None
    """Class of the UN model regulations. None: not classed."""
    words: Text
    """What it is, for people."""
    air: dict[AirKind, Allowed]
    """Kinds of air it may be in; one that is not named is forbidden."""
    upright: Flag = False
    in_holder: Flag = False
    """It must be in a holder or a bracket."""
    not_hot: Flag = False
    approved_can: Flag = False
    """Its container must be approved for it."""
    totals: Totals = Totals()
    source: Text


def _words_from_file(value: Any) -> Any:
    return (value,) if isinstance(value, str) else value


_Several = Annotated[tuple[Word, ...], Field(min_length=1)]

Words = Annotated[_Several, BeforeValidator(_words_from_file, json_schema_input_type=Word | _Several)]
"""One word, or a list of words for each of which the same holds."""


class Apart(Described):
    """Words that may not ride together: hazard words, `food`, `bedding` or `clothes`."""

    between: tuple[Words, Words]
    """Two sides, each one word or a list: every word of one side is kept from every word of the other."""
    level: Literal["space", "air", "wall"]
    source: Text

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Each word of one side with each of the other."""
        return tuple(product(*self.between))


class Restraint(Described):
    """Design accelerations and how tie-downs count."""

    forward_g: Divisor
    rearward_g: Number
    sideways_g: Number
    upward_g: Number
    tie_down_share: Annotated[Share, Field(ge=0.01)]
    """Share of a tie-down's rating that counts."""
    gravity_m_s2: Divisor
    newton_per_dan: Divisor
    source: Text


class Climb(Described):
    """Climbs for which the load of the front wheels is reckoned, and below which share the steering is light."""

    degrees: Annotated[tuple[Annotated[Number, Field(gt=0, lt=90)], ...], Field(min_length=1, max_length=4)]
    light_front_share: Share
    source: Text


class Doubt(Described):
    """One standard deviation of a mass, as a share of it, by where it is known from."""

    share: dict[Literal["weighbridge", "weighed", "label", "handbook", "estimated", "guess"], Share]
    deviations: Number
    """How many standard deviations are told."""
    source: Text


class BodyClass(Described):
    """Static stability factor of a class of body, from which a height is estimated where none is known."""

    static_stability_factor: Divisor
    source: Text


class Effort(Described):
    """Weights of the last level of what is best, each in seconds a day."""

    extra_kit_place_s: Number
    like_copies_place_s: Number
    shared_space_s: Number
    above_shoulder_s: Number
    side_difference_s_per_kg: Number
    behind_axle_s_per_kg_m: Number
    source: Text


class Neighbours(Described):
    """When two spaces share a wall."""

    gap_mm: Number
    source: Text


class RuleBook(Described):
    """All figures of the rule book."""

    name: Word
    caution: Text
    reserve_kg: SourcedKg
    """Kept free of the total and of each axle where the trip does not say."""
    front_share_min: Sourced
    side_difference_share: Sourced
    side_difference_told: Sourced
    """Difference of left and right wheels as a share of the mass from which it is told beside the answer."""
    climb: Climb
    bow_wave_mm: Sourced
    """How far the water rises above the wading line where one drives through it."""
    loose_soft_kg: SourcedKg
    """What is soft may lie loose among people up to this many kg: more of it flies, or slides under a pedal."""
    cg_height_doubt_mm: Sourced
    fluids_kg_per_l: dict[Word, Density]
    body_classes: dict[Literal["pickup", "wagon", "van"], BodyClass]
    openings: Openings
    access: Access
    at_once_s: Sourced
    """Seconds within which an injury's or an outside fire's things must be in hand."""
    belted_s: Sourced
    """Seconds within which a belted person must have an extinguisher."""
    handling: Handling
    lifting: Lifting
    hazards: dict[Word, Hazard]
    segregation: tuple[Apart, ...]
    neighbours: Neighbours
    restraint: Restraint
    strapping: Strapping
    pressing: Pressing
    crash: Crash
    doubt: Doubt
    effort: Effort
