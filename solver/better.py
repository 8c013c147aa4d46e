"""From a first layout to the best one found: musts alone, what comes, height, handling and tidiness, and a bound."""

from collections.abc import Callable
from functools import partial
from random import Random

from models.case import Copy
from solver.answers import Level
from solver.aside import Aside
from solver.beginning import raced
from solver.bound import Bound
from solver.choose import choose, choose_again
from solver.clock import Clock
from solver.handling import handle, handling_seconds, tidiness
from solver.improve import improve
from solver.problem import Piece
from solver.side import BringOn, ProveBound, Side, Wish, best_of, brought_on
from solver.state import State

MUST_SHARE = 0.25
"""Effort for the height of the musts alone, as a share of the effort for the height."""
LOOKS = (0.25, 0.125)
"""Shares of it after each further look at what stays at home."""
LAST_SHARE = 0.625
"""Share of it once the set of things is settled."""
EARLY_SHARE = 0.8
"""Share of the time after which, on a slow machine or with very many things, the set of things is settled as it is."""
BESIDE_SHARE = 0.4
"""Share of it beside the proof of a bound, where a second search seeks that."""
LATE_SHARE = 0.85
"""Share of the time left after that for height and handling; the bound has the rest. In one process it is not sought
beside them: two searches there hold each other up."""
BOUND_S = 3.0
"""Longest that the bound takes in seconds at effort 1: longer than that it hardly rises."""
LEAST_BOUND_S = 1.0
"""What it has at any effort: with few things it is soon as high as it gets."""
SPARE_S = 0.2
"""Left over by the bound, in seconds."""
PROVEN_MM = 0.005
"""A height this near its bound is as low as can be."""


class Better:
    """A layout made better step by step. Whoever cuts in has the best so far."""

    def __init__(
        self,
        base: State,
        state: State,
        must: list[Piece],
        random: Random,
        clock: Clock,
        effort: float,
        aside: Aside | None = None,
    ) -> None:
        """`base`: what is pinned; `state`: a layout of what has to come that holds all limits."""
        self.base, self.must, self.aside = base, must, aside
        self.random, self.clock, self.effort = random, clock, effort
        self.best = state
        self.levels: list[Level] = []
        self.musts_mm: float | None = None
        """Height of the musts alone."""
        self.start_mm: float | None = None
        """Height once the set of things is settled."""
        self.settled_mm: float | None = None
        """Height before some of it is given for handling."""
        self.bound: Bound | None = None
        self.reasons: dict[Copy, str] = {}
        self.cut_short = False
        """Whether the clock cut in."""

    def all(self) -> None:
        """Every step. Raises KeyboardInterrupt where someone cuts in."""
        early = self.clock.part(EARLY_SHARE)
        self._musts(early)
        self._what_comes(early)
        self.cut_short = early.late()
        late = self.clock.part(LATE_SHARE)
        self._bring_on(late, LAST_SHARE, "height")
        proof = self._prove() if self.aside is not None else None
        if self.aside is not None:
            self.best = improve(self.best, self.best.carried(), self.random, late, BESIDE_SHARE * self.effort, "height")
        self.settled_mm = self.best.height_mm()
        highest = self.settled_mm + self.base.problem.case.trip.allow_mm
        self.best = handle(self.best, self.best.carried(), highest, self.random, late, self.effort)
        self.cut_short |= late.late()
        self.clock.tell("bound", self.settled_mm, None)
        self.bound = (proof or self._prove())()

    def all_levels(self) -> tuple[Level, ...]:
        """What was reached at each level of what is best."""
        height = self.best.height_mm() if self.settled_mm is None else self.settled_mm
        return (
            *self.levels,
            _height_level(height, self.bound),
            Level("handling", handling_seconds(self.best), None, "s a day", "found"),
            Level("tidiness", tidiness(self.best), None, "s a day", "found"),
        )

    def _prove(self) -> Callable[[], Bound]:
        """Begin the proof of a bound, aside where there is such a search; what comes back gives it."""
        seconds = min(max(LEAST_BOUND_S, BOUND_S * self.effort), self.clock.left() - SPARE_S)
        job = ProveBound(frozenset(self.best.at), seconds)
        return partial(job.run, Side(self.base.problem)) if self.aside is None else self.aside.begin(job)

    def _bring_on(self, clock: Clock, share: float, phase: str, wish: Wish | None = None) -> None:
        """The best that one search finds, or two side by side; each knows then what both have seen."""
        effort, start, aside, other = share * self.effort, self.best, self.aside, None
        if aside is not None:
            job = BringOn(aside.side.packed(start), wish, self.random.random(), clock.left(), effort)
            other = aside.begin(job)
        self.best = brought_on(start, wish, self.random, clock, effort, phase)
        if aside is not None and other is not None:
            self.best = best_of((self.best, aside.side.unpacked(other())))

    def _musts(self, clock: Clock) -> None:
        self.best = raced(self.must, self.base, self.random, clock, self.effort, self.best) or self.best
        self._bring_on(clock, MUST_SHARE, "musts alone")
        self.musts_mm = self.best.height_mm()

    def _what_comes(self, clock: Clock) -> None:
        highest = self.best.height_mm() + self.base.problem.case.trip.choose_within_mm
        chance, effort = self.random, self.effort
        chosen = choose(self.best, self.must, highest, chance, clock, effort)
        self.best = chosen.state
        for share in LOOKS:
            wish = Wish(tuple(piece.index for piece in self.must), chosen.offered, highest, effort)
            self._bring_on(clock, share, "height", wish)
            chosen = choose_again(chosen, self.best, highest, chance, clock, effort)
            self.best = chosen.state
        self.start_mm, self.reasons = self.best.height_mm(), chosen.reasons
        self.levels.append(chosen.level)


def _height_level(height: float, bound: Bound | None) -> Level:
    if bound is None or bound.height_mm is None:
        return Level("height", height, None, "mm", "found")
    proven = height - bound.height_mm <= PROVEN_MM
    return Level("height", height, min(bound.height_mm, height), "mm", "proven" if proven else "found")
