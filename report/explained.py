"""What an explanation tells, its figures taken from the verifier."""

from dataclasses import dataclass, field

from models.case import Copy
from models.plan import Plan
from packing import MoveList


@dataclass(frozen=True)
class Figures:
    """A plan in a few figures, as the verifier finds them."""

    stage: str | None
    """The driving stage with the highest centre of gravity."""
    height_mm: float | None
    getting_at_s: float
    """Seconds a day to get at things."""
    front_left_kg: float | None
    """Least that is left of the front axle's limit over the stages."""
    rear_left_kg: float | None
    total_left_kg: float | None


@dataclass(frozen=True)
class Offer:
    """A plan that does what was asked about, beside the plan as it is."""

    plan: Plan
    now: Figures
    then: Figures
    moves: MoveList

    @property
    def higher_mm(self) -> float | None:
        """By how much the centre of gravity rises."""
        return difference(self.then.height_mm, self.now.height_mm)

    @property
    def more_s(self) -> float:
        """More seconds a day to get at things."""
        return self.then.getting_at_s - self.now.getting_at_s


def difference(one: float | None, other: float | None) -> float | None:
    """One less the other; None where one of them is unknown."""
    return None if one is None or other is None else one - other


@dataclass(frozen=True)
class LockTold:
    """A lock in words, with the file that says so."""

    words: str
    file: str
    of_trip: bool
    """Whether the trip says so, whose locks no plan can drop; else the plan itself."""
    out: bool = False
    """Whether it says what a thing stays out of; else where it stays."""
    kept: bool = True
    """Whether the plan keeps it."""
    unlock: tuple[str, ...] = ()
    """Options with which `unlock` takes out what says so and no other lock."""

    @property
    def says(self) -> str:
        """The lock and who says so."""
        return f"{self.words}, says {self.file}"


@dataclass(frozen=True)
class RowTold:
    """One other space."""

    space: str
    kind: str
    """cannot, could, or none found."""
    why: tuple[str, ...] = ()
    """What stands against it: the rule and its figures."""
    in_any_plan: bool = False
    offer: Offer | None = None
    about_mm: float | None = None
    """About how much higher the best with it there is than the best as it is. None: no more is known than was found."""
    found_mm: float | None = None
    """The lowest height found with it there less the lowest found as it is."""
    lowest_mm: tuple[float, float] | None = None
    """Those two heights: as it is, with it there."""
    word: str = ""
    """better, hardly matters, 1 to 5 mm, or more."""
    under_kg: float | None = None
    """The mass under which the price would be under a millimetre, all else as in that change."""
    demands: tuple[str, ...] = ()
    """Demands that are proven not to hold together with it there."""
    lifted: tuple[LockTold, ...] = ()
    """Locks on it that stand against it there: what is told was tried without them."""
    at_corner: bool = False
    """Whether a lock wants it at a corner there, which the plan does not keep, and it was tried so."""
    against_corner: tuple[str, ...] = ()
    """What stands against the corner where a lifted lock wants it there."""

    @property
    def where(self) -> str:
        """The space, and that it is a corner in it that is meant."""
        return f"{self.space} at the corner of its lock" if self.at_corner else self.space

    @property
    def price_mm(self) -> float | None:
        """What is told first: about, or where that is not known, as found."""
        return self.found_mm if self.about_mm is None else self.about_mm

    @property
    def few_mm(self) -> float:
        """By how many mm the plan on offer stands higher than the one in hand; 0 where that is not known."""
        return (self.offer.higher_mm if self.offer else None) or 0.0

    @property
    def against_trip(self) -> bool:
        """Whether a lock of the trip stands against it, so that no plan can have it there yet."""
        return any(lock.of_trip for lock in self.lifted)


@dataclass(frozen=True)
class Explained:
    """Why a copy is where it is."""

    copy: Copy
    space: str
    locks: tuple[LockTold, ...]
    """Locks on where it is, of the trip and of the plan."""
    rows: tuple[RowTold, ...]
    plan_file: str
    others: tuple[tuple[Copy, str], ...] = ()
    """Other copies of the thing with their spaces."""
    deep: bool = False
    """Whether one space was asked about."""
    broken: int = 0
    """How many limits or rules the plan itself breaks."""
    above_mm: float = 0.0
    """By how much the plan itself stands above the lowest layout found with the thing where it is, or found at all."""
    given: tuple[str, ...] = ()
    """Options of the search as they were typed, for the command that comes to the same plan."""

    @property
    def asked_for(self) -> tuple[LockTold, ...]:
        """Locks that keep it where it is."""
        return tuple(lock for lock in self.locks if lock.kept and not lock.out)


@dataclass(frozen=True)
class WayTold:
    """A way to take a thing along, tried and verified."""

    says: str
    offer: Offer
    writable: bool = True
    """Whether its plan holds with the limits as they are."""
    lifted: tuple[LockTold, ...] = ()
    """Locks on the thing that it does not keep."""
    against_corner: tuple[str, ...] = ()
    """What stands against the corner where a lifted lock wants it."""
    space: str | None = None
    """The space it comes into, where nothing stays at home for it and no limit is raised."""


@dataclass(frozen=True)
class HomeExplained:
    """Why a copy stays at home."""

    copy: Copy
    locks: tuple[LockTold, ...]
    """Locks on it, of the trip and of the plan."""
    against: tuple[tuple[str, tuple[str, ...]], ...]
    """Spaces that may never hold it, with what stands against each."""
    lawful: tuple[str, ...]
    ways: tuple[WayTold, ...]
    broken: int = 0
    """How many limits or rules the plan itself breaks."""
    lacks: Copy | None = None
    """What it does not come without and has no place; no way is tried then."""
    bars: tuple[str, ...] = ()
    """What keeps it out of every plan with what must come."""
    plan_file: str = "PLAN"
    instead: str | None = None
    """The one space that was asked about."""
    heights_mm: tuple[float, float] | None = None
    """Lowest heights found: of what must come alone, and of all that the plan carries and it. None: not known."""
    given: tuple[str, ...] = ()
    """Options of the search as they were typed, for the command that comes to the same plan."""

    @property
    def asked_for(self) -> tuple[LockTold, ...]:
        """Locks that keep it at home."""
        return tuple(lock for lock in self.locks if lock.kept and not lock.out)


@dataclass(frozen=True)
class LimitTold:
    """What uses up a limit, and what more of it would buy."""

    name: str
    stage: str | None
    value_kg: float | None
    limit_kg: float | None
    left_kg: float | None
    holds: bool | None
    """As the verifier finds. None: the limit is unknown."""
    reserve_kg: float
    uses: tuple[tuple[str, float], ...]
    """Things by what they put on it in kg, the heaviest first; below 0 where a thing takes load off it."""
    more_kg: float = 0.0
    lower_mm: float | None = None
    comes: tuple[str, ...] = ()
    leaves: tuple[str, ...] = ()
    found: bool = False
    """Whether plans were found with and without more of it."""
    better: bool = True
    """Whether any plan with more of it carries more, or as much and lower."""
    others: tuple[str, ...] = field(default=())
    """Other limits that may be asked about."""
    broken: int = 0
    """How many limits or rules the plan in hand breaks."""
