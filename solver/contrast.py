"""Answers to "why here and not there", as values."""

from dataclasses import dataclass
from typing import Literal

from models.case import Copy
from models.geometry import Point
from models.plan import Plan
from models.rules import Rule
from models.trip import Lock
from solver.answers import Conflict

HARDLY_MM = 1.0
"""A price under this hardly matters, in mm."""
MUCH_MM = 5.0
BETTER_MM = -0.05
"""Under this a better plan was found: rounding and noise are less."""

Kind = Literal["here", "cannot", "could", "none found"]
Against = tuple[tuple[Rule, str], ...]


class OtherSidesError(ValueError):
    """A plan has a copy with sides that it may not have, as when the gear list has changed since."""


@dataclass(frozen=True)
class Row:
    """One space, seen from one thing."""

    space: str
    kind: Kind
    rules: Against = ()
    """Rules that forbid it, in any plan where `in_any_plan`, else as this plan stands."""
    in_any_plan: bool = False
    """Whether it is proven that no plan has it there."""
    higher_mm: float | None = None
    """Height of the lowest plan found with it there less the lowest found for this plan; below 0: a better plan."""
    about_mm: float | None = None
    """About how much higher the best plan with it there is than the best as it is. None: the layouts found say all."""
    more_s: float | None = None
    """More seconds a day of getting at things, in the plan with the fewest moves."""
    moves: tuple[tuple[Copy, str, str], ...] = ()
    """What else moves in the plan with the fewest moves: copy, from, to."""
    plan: Plan | None = None
    """The plan with the fewest moves that puts it there."""
    lowest: Plan | None = None
    """The lowest plan found with it there."""
    conflict: Conflict | None = None
    """Demands that cannot hold together with it there, where that is proven."""
    lifted: tuple[Lock, ...] = ()
    """Locks on it, of the trip or the plan, that stand against it there: what was tried is without them."""
    corner_mm: Point | None = None
    """Where a lock wants its least corner there, which this plan does not keep and what was tried does."""
    against_corner: Against = ()
    """What stands against the corner where a lifted lock wants it there, as this plan stands."""

    @property
    def word(self) -> str:
        """How much it matters."""
        return self.kind if self.told_mm is None else how_much(self.told_mm)

    @property
    def told_mm(self) -> float | None:
        """The price that people are told: about, or where that is not known, as found; None: there is no price."""
        return self.higher_mm if self.about_mm is None else self.about_mm


def how_much(higher_mm: float) -> str:
    """A price in mm as people hear it."""
    if higher_mm < BETTER_MM:
        return "better"
    if higher_mm < HARDLY_MM:
        return "hardly matters"
    return "1 to 5 mm" if higher_mm <= MUCH_MM else "more"


def about(found_mm: float, relaxed_mm: float | None) -> float | None:
    """What is told as about of what two found layouts and two relaxed choices differ by, in mm; None: only the found.

    A better plan is told only as it was found, and nothing is told as dearer than a plan that is there to be looked at.
    """
    if relaxed_mm is None or found_mm < BETTER_MM:
        return None
    return max(0.0, min(relaxed_mm, found_mm))


@dataclass(frozen=True)
class Explanation:
    """Why a copy is where it is."""

    copy: Copy
    space: str
    rows: tuple[Row, ...]
    lowest: Plan
    """The lowest plan found with the same things; the plan itself where none lower was found."""
    locks: tuple[Lock, ...] = ()
    """Locks on it, of the trip or the plan, but those that say no more than that it comes."""


@dataclass(frozen=True)
class WayToTake:
    """A way to take along what stays at home, tried."""

    leave: Copy | None
    """What stays at home instead. None: there is room for it as it is."""
    limit: str | None
    """A limit that is raised."""
    more_kg: float
    plan: Plan
    lifted: tuple[Lock, ...] = ()
    """Locks on it, of the trip or the plan, that this way does not keep."""
    against_corner: Against = ()
    """What stands against the corner where a lifted lock wants it, as this plan stands."""
    along: tuple[Copy, ...] = ()
    """What comes along because it does not come without: companions, and copies that come all or none."""

    @property
    def as_it_is(self) -> bool:
        """Whether nothing stays at home for it and no limit is raised."""
        return self.leave is None and self.limit is None


@dataclass(frozen=True)
class HomeExplanation:
    """Why something stays at home."""

    copy: Copy
    rules: tuple[tuple[str, Against], ...]
    """Spaces that may never hold it, with the rules."""
    lawful: tuple[str, ...]
    """Spaces that may hold it."""
    ways: tuple[WayToTake, ...]
    locks: tuple[Lock, ...] = ()
    """Locks on it, of the trip or the plan, but those that say no more than that it comes."""
    lacks: Copy | None = None
    """What it does not come without and has no place, or none that its locks leave open; no way is tried then."""
    bars: tuple[str, ...] = ()
    """What keeps it out of every plan with what must come: a sentence for the total, one for each space."""
    alone: Plan | None = None
    """The lowest plan found of what must come alone; None: it was not looked for, or none was found."""
    lowest: Plan | None = None
    """The lowest plan found with it and all that this plan carries; None as before."""
