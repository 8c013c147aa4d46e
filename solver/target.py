"""One room that is asked about, and what was found with the thing there."""

from collections.abc import Mapping
from dataclasses import dataclass

from solver.halves import Search
from solver.state import Lying, State


@dataclass
class Target:
    """One room, and what was found with the thing there."""

    room: int
    asked: Mapping[int, int]
    """How many of each class the room has to hold at least."""
    few: State | None = None
    """A layout with few moves."""
    lowest: State | None = None
    about_mm: float | None = None
    """How much higher the relaxed choice is with the thing there than without that; None: not known."""

    def hear(self, few: State | None, lowest: State | None, about_mm: float | None) -> None:
        """Take what another search found for it."""
        self.few, self.about_mm = few, about_mm
        self.keep(lowest)

    def keep(self, found: State | None) -> None:
        """Keep a layout with the thing in its room where it is lower."""
        if found is not None and (self.lowest is None or found.height_mm() < self.lowest.height_mm()):
            self.lowest = found


@dataclass(frozen=True)
class Heard:
    """What one half of a search tells the other: what lay in single rooms, and layouts."""

    patterns: list[tuple[int, tuple[Lying, ...]]]
    own: list[Lying]
    """The lowest of the plan itself."""
    found: dict[int, tuple[list[Lying] | None, list[Lying] | None, float | None]]
    """By room: few moves, the lowest, and about how much higher it is."""


Swaps = Search[Heard, None]
"""Part of a search that tells and hears on its way."""
