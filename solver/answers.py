"""What a search is asked for and what it answers: plain values, no search in here."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal, Protocol, get_args

from models.case import Case, Copy
from models.plan import Plan
from models.trip import Lock

State = Literal["proven", "found", "unknown"]
DemandKind = Literal["lock", "together", "all or none", "must come", "reserve", "limit"]
KINDS: tuple[DemandKind, ...] = get_args(DemandKind)
"""Kinds of demands in the order of what a person can change first."""


class Status(StrEnum):
    """How a search ended. The three stay three."""

    FOUND = "found"
    """A plan that holds every limit."""
    IMPOSSIBLE = "impossible"
    """No plan exists, and that is proven."""
    NOT_FOUND = "not found"
    """No plan was found in the effort given; one may exist."""


@dataclass(frozen=True)
class Options:
    """How hard to search. The same seed and effort give the same plan unless the clock cuts in."""

    effort: float = 1.0
    """Multiplies every count of steps; 1 is meant for a few seconds."""
    seconds: float = 13.0
    """Wall-clock cap in seconds, a safety net."""
    seed: int = 0
    """Seed of every random choice."""
    use_reserve: bool = True
    """Whether to keep the trip's reserve."""


@dataclass(frozen=True)
class Level:
    """One level of what is best."""

    name: str
    """value carried, height, handling or tidiness."""
    value: float
    bound: float | None
    """The best that anyone could reach, as far as is known. None: nothing is known."""
    unit: str
    state: State


@dataclass(frozen=True)
class Demand:
    """Something asked for that takes part in a conflict."""

    kind: DemandKind
    subject: str
    """A thing, a kit, or a limit such as `total`, `rear axle`, `rack NAME`, `space NAME`, `tie-downs NAME`."""
    says: str
    shown: bool = True
    """Whether a plan was found without it, all else asked as before; False: that could not be shown."""
    not_enough: bool = False
    """Whether it is proven that there is no plan without it either, all else asked as before."""
    locks: tuple[Lock, ...] = ()
    """The lock that it is, or several that are told together."""
    things: tuple[str, ...] = ()
    """The things that must come, stay together or come all or none."""


@dataclass(frozen=True)
class WayOut:
    """A change after which a plan exists, tried."""

    says: str
    plan: Plan | None = None
    """The plan that was found with the change."""
    case: Case | None = field(default=None, compare=False, repr=False)
    """The changed case that the plan is for."""
    without: tuple[Lock, ...] = ()
    """The locks that it gives up, where it was looked for which of several have to go."""


@dataclass(frozen=True)
class Conflict:
    """Demands that cannot hold together, in the order of what a person can change first."""

    demands: tuple[Demand, ...]
    says: tuple[str, ...]
    """Sentences with numbers."""
    ways_out: tuple[WayOut, ...] = ()
    proven: bool = True
    """Whether it is proven that they cannot hold together."""

    def __post_init__(self) -> None:
        """Put the demands in order."""
        object.__setattr__(self, "demands", tuple(sorted(self.demands, key=lambda one: KINDS.index(one.kind))))


@dataclass(frozen=True)
class Proposal:
    """The answer to a question for a layout."""

    status: Status
    plan: Plan | None = None
    levels: tuple[Level, ...] = ()
    conflict: Conflict | None = None
    reserve_given_up: bool = False
    """The reserve could not be kept; the plan keeps `plan.reserve_kept_kg`."""
    seconds: float = 0.0
    first_plan_seconds: float | None = None
    """Seconds of search until the first plan that holds all limits."""
    start_height_mm: float | None = None
    """Height of the first plan with the final set of things, at its highest stage."""
    must_only_height_mm: float | None = None
    """h0: the height found with the musts alone."""
    interrupted: bool = False
    cut_short: bool = False
    """Whether the time was over before the effort was spent: the same seed may then give another plan."""
    home_reasons: dict[Copy, str] = field(default_factory=dict)
    """Why a copy stays at home."""
    closest: tuple[str, ...] = ()
    """Where no plan was found and nothing is proven: what was missed, with nothing loaded and by the best layout."""

    nearest: Plan | None = None
    """The same layout as a plan, without what found no place in it; it may break limits."""

    @property
    def height(self) -> Level | None:
        """The level of the height."""
        return next((level for level in self.levels if level.name == "height"), None)


class Progress(Protocol):
    """Hears how a search goes; silent by default."""

    def step(self, elapsed_s: float, phase: str, height_mm: float | None, bound_mm: float | None) -> None:
        """Called often; heights are of the vehicle's centre of gravity at its highest driving stage."""


class Silent:
    """Says nothing."""

    def step(self, elapsed_s: float, phase: str, height_mm: float | None, bound_mm: float | None) -> None:
        """Do nothing."""


SILENT = Silent()
