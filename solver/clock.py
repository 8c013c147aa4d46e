"""The clock of a search: a safety net, and the line that tells how it goes."""

import time
from dataclasses import dataclass

from solver.answers import SILENT, Progress
from solver.problem import Problem


@dataclass
class Late:
    """What a clock and all its parts know together."""

    seen: bool = False
    """Whether any of them was found to be late."""


class Clock:
    """Wall-clock seconds since the search began, and a cap on them."""

    def __init__(self, cap_s: float, progress: Progress) -> None:
        self._began = time.monotonic()
        self._cap_s = cap_s
        self._progress = progress
        self._late = Late()
        self.first_s: float | None = None

    @property
    def cut_in(self) -> bool:
        """Whether it ended anything: what is told may then be other words in the next run."""
        return self._late.seen

    def elapsed(self) -> float:
        """Seconds since the search began."""
        return time.monotonic() - self._began

    def left(self) -> float:
        """Seconds left, never below a tenth."""
        return max(0.1, self._cap_s - self.elapsed())

    def late(self) -> bool:
        """Whether the cap has been reached."""
        late = self.elapsed() >= self._cap_s
        self._late.seen |= late
        return late

    def part(self, share: float) -> "Clock":
        """A clock that began with this one and stops after a share of the time left; late where this one is."""
        return self._until(min(self._cap_s, self.elapsed() + self.left() * share), self._progress)

    def at_least(self, seconds: float) -> "Clock":
        """A clock that began with this one and has so many seconds left, where this one has fewer."""
        return self._until(max(self._cap_s, self.elapsed() + seconds), self._progress)

    def silent(self) -> "Clock":
        """A clock that stops with this one and tells nobody."""
        return self._until(self._cap_s, SILENT)

    def _until(self, cap_s: float, progress: Progress) -> "Clock":
        other = Clock(cap_s, progress)
        other._began, other.first_s, other._late = self._began, self.first_s, self._late
        return other

    def first_plan(self) -> None:
        """Mark the first plan that holds all limits."""
        if self.first_s is None:
            self.first_s = self.elapsed()

    def tell(self, phase: str, height_mm: float | None, bound_mm: float | None) -> None:
        """Tell whoever listens."""
        self._progress.step(self.elapsed(), phase, height_mm, bound_mm)


class Budget:
    """How much may be searched, counted in corners looked at: alike on every machine, unless the clock cuts in."""

    def __init__(self, problem: Problem, clock: Clock, corners: float) -> None:
        self._problem, self._clock = problem, clock
        self._began = problem.work
        self._corners = max(1.0, corners)

    def spent(self) -> float:
        """The share that is used up, 0 to 1."""
        return min(1.0, (self._problem.work - self._began) / self._corners)

    def over(self) -> bool:
        """Whether to stop."""
        return self._problem.work - self._began >= self._corners or self._clock.late()


class Worked(Clock):
    """A clock that is late as well once a budget is spent."""

    def __init__(self, clock: Clock, budget: Budget) -> None:
        super().__init__(clock._cap_s, clock._progress)  # noqa: SLF001 - it is the same clock
        self._began, self.first_s, self._late = clock._began, clock.first_s, clock._late  # noqa: SLF001
        self._budget = budget

    def late(self) -> bool:
        """Whether the cap has been reached or the budget is spent."""
        return self._budget.over()
