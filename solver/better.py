"""From a first layout to the best one found: musts alone, what comes, height, handling and tidiness, and a bound."""

from functools import partial
from random import Random

from models.case import Copy
from solver.answers import Level
from solver.beginning import raced
from solver.beside import Beside, GiveWay
from solver.bound import Bound, height_bound
from solver.choose import choose, choose_again
from solver.clock import Clock
from solver.handling import handle, handling_seconds, tidiness
from solver.improve import improve
from solver.pieces import Piece
from solver.state import State
from solver.worthiest import worthiest, worthiest_seen

MUST_SHARE = 0.6
"""Effort for the height of the musts alone, as a share of the effort for the height."""
MUST_TIME = 0.33
"""Share of the time until the set of things is settled that this may take: its share of the effort. On a slow machine
it would have most of the time, and what comes and the last height hardly any."""
LOOKS = ((0.4, 2.0), (0.4, 1.0), (0.4, 0.0))
"""Shares of it after each further look at what stays at home, and how many mm too high the chosen layout may be before
it is brought down; where it stays too high, the set is chosen anew from what was seen."""
SEEN_SHARE = 0.4
"""Share of all the time left that such a choice may take, also where the set of things is late to be settled."""
LAST_SHARE = 1.0
"""Share of it once the set of things is settled."""
ROUND_SHARE = 0.5
"""Share after which a search is begun anew: warm again, and ended with a thorough choice of patterns."""
EARLY_SHARE = 0.66
"""Share of the time after which, on a slow machine or with very many things, the set of things is settled as it is."""
LATE_SHARE = 0.97
"""Share of the time left after that for height and handling where the bound is sought beside them."""
ALONE_SHARE = 0.85
"""The same where the bound is sought after them, as there is no second process: it has the rest."""
HEIGHT_SHARE = 0.85
"""Share of either for the height alone, so that something is left for handling where the clock cuts in."""
BOUND_S = 3.0
"""Longest that the bound takes in seconds at effort 1: longer than that it hardly rises."""
LEAST_BOUND_S = 1.0
"""What it has at any effort: with few things it is soon as high as it gets."""
SPARE_S = 0.2
"""Left over by the bound, in seconds."""
ANY_HEIGHT_MM = 1e6
"""Above all that is carried anywhere, in mm."""
PROVEN_MM = 0.005
"""A height this near its bound is as low as can be."""


class Better:
    """A layout made better step by step. Whoever cuts in has the best so far."""

    def __init__(
        self, base: State, state: State, must: list[Piece], random: Random, clock: Clock, effort: float
    ) -> None:
        """`base`: what is pinned; `state`: a layout of what has to come that holds all limits."""
        self.base, self.must = base, must
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

    @property
    def highest_mm(self) -> float:
        """Height up to which optional things come: so much above that of the musts alone as the trip allows.

        Where nothing drives no height is looked at.
        """
        if not self.base.problem.driving:
            return ANY_HEIGHT_MM
        return (self.musts_mm or 0.0) + self.base.problem.case.trip.choose_within_mm

    def all(self) -> None:
        """Every step. Raises KeyboardInterrupt where someone cuts in."""
        early = self.clock.part(EARLY_SHARE)
        alone = early.part(MUST_TIME)
        self._musts(alone)
        self.cut_short = alone.late()
        self._what_comes(early)
        self.cut_short |= early.late()
        proof = Beside(partial(self._proven, frozenset(self.best.at)))
        try:
            self._settled(self.clock.part(ALONE_SHARE if proof.alone else LATE_SHARE))
            self.clock.tell("bound", self.settled_mm, None)
            self.bound = proof.result(self.clock.left())
        finally:
            proof.end()

    def _proven(self, carried: frozenset[int], give_way: GiveWay[Bound]) -> Bound:
        """What is proven of the height with what is carried."""
        seconds = min(max(LEAST_BOUND_S, BOUND_S * self.effort), self.clock.left() - SPARE_S)
        return height_bound(self.base.problem, carried, seconds, give_way)

    def _settled(self, late: Clock) -> None:
        """Height, then handling and tidiness, of a set of things that is settled."""
        height = late.part(HEIGHT_SHARE)
        self._rounds(height, LAST_SHARE, "height")
        self.cut_short |= height.late()
        self.settled_mm = self.best.height_mm()
        highest = self.settled_mm + self.base.problem.case.trip.allow_mm
        self.best = handle(self.best, self.best.carried(), highest, self.random, late, self.effort)
        self.cut_short |= late.late()

    def all_levels(self) -> tuple[Level, ...]:
        """What was reached at each level of what is best."""
        height = self.best.height_mm() if self.settled_mm is None else self.settled_mm
        return (
            *self.levels,
            _height_level(height, self.bound),
            Level("handling", handling_seconds(self.best), None, "s a day", "found"),
            Level("tidiness", tidiness(self.best), None, "s a day", "found"),
        )

    def _lowered(self, state: State, clock: Clock, share: float, phase: str) -> State:
        return improve(state, state.carried(), self.random, clock, share * self.effort, phase)

    def _rounds(self, clock: Clock, share: float, phase: str) -> None:
        """Brought down with a share of the effort in equal parts."""
        rounds = max(1, round(share / ROUND_SHARE * min(1.0, self.effort)))
        for _ in range(rounds):
            self.best = self._lowered(self.best, clock, share / rounds, phase)

    def _musts(self, clock: Clock) -> None:
        self.best = raced(self.must, self.base, self.random, clock, self.effort, self.best) or self.best
        self._rounds(clock, MUST_SHARE, "musts alone")
        self.musts_mm = self.best.height_mm()

    def _what_comes(self, clock: Clock) -> None:
        highest, chance, effort = self.highest_mm, self.random, self.effort
        chosen = choose(self.best, self.must, highest, chance, clock, effort)
        self.best = chosen.state
        for share, hope_mm in LOOKS:
            hoped = worthiest(self.best, self.must, chosen.offered, highest + hope_mm, chance, clock, effort)
            lower = self._lowered(hoped, clock, share, "height")
            if lower.height_mm() > highest:
                seen = self.clock.part(SEEN_SHARE)
                lower = worthiest_seen(self.best, self.must, chosen.offered, highest, seen)
            # The best is never too high, whenever someone cuts in.
            self.best = lower
        chosen = choose_again(chosen, self.best, highest, chance, clock, effort)
        self.best = chosen.state
        self.start_mm, self.reasons = self.best.height_mm(), chosen.reasons
        self.levels.append(chosen.level)


def _height_level(height: float, bound: Bound | None) -> Level:
    """The height with its bound. One above a layout that holds is our own fault: told so, and nothing is proven."""
    if bound is None or bound.height_mm is None:
        return Level("height", height, None, "mm", "found")
    if bound.height_mm - height > PROVEN_MM:
        return Level("height", height, bound.height_mm, "mm", "unknown")
    proven = height - bound.height_mm <= PROVEN_MM
    return Level("height", height, min(bound.height_mm, height), "mm", "proven" if proven else "found")
