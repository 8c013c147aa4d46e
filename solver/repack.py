"""Emptying a few rooms and filling them again in another order: the quick part of the search."""

from collections.abc import Callable, Sequence
from math import exp
from random import Random
from typing import NamedTuple

from solver.bring_down import brought_down
from solver.bring_over import brought_over
from solver.drawn import drawn
from solver.footing import held
from solver.insert import hardest_first, jittered, put_all
from solver.limits import excess, unmet
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import State

Cost = Callable[[State], float]
DOWN_SHARE = 0.5
"""How often a step begins with one heavy thing that is brought down."""
OVER_SHARE = 0.5
"""How often a step begins with one heavy thing that is brought where a missed limit of the whole wants it."""
DRAWN_SHARE = 0.5
"""How often things are put down again in shapes drawn by chance."""
DRAWN_KINDS = 0.15
"""For how many of the kinds one is drawn then."""
STEP = 200
"""Corners that it counts to copy a layout and to judge it."""
EMPTY_STEP = 20_000
"""Corners that a step counts for which found nothing to move."""


class Score(NamedTuple):
    """How far a layout is from what is asked, the first number deciding first."""

    missing: int
    """Pieces without a place."""
    misses: float
    """Demands on the whole that are not met, and kilograms over limits."""
    cost: float
    """What is made small: a height in mm, or seconds a day."""

    @property
    def holds(self) -> bool:
        """Whether all limits hold."""
        return self.missing == 0 and self.misses <= 0


def score(state: State, wanted: Sequence[Piece], cost: Cost) -> Score:
    """The score of a layout for the pieces that should be in it."""
    missing = sum(1 for piece in wanted if piece.index not in state.at)
    return Score(missing, unmet(state) + excess(state), cost(state))


def start(
    problem: Problem, wanted: Sequence[Piece], base: State, random: Random, tries: int, *, mixed: bool = False
) -> State:
    """A first layout: hardest pieces first; what found no place goes to the front of the next try."""
    missing = [piece for piece in wanted if piece.index not in base.at]
    order = jittered(problem, missing, random) if mixed else hardest_first(problem, missing)
    best, best_score = base, Score(len(wanted) + 1, 0.0, 0.0)
    for _ in range(tries):
        state = base.copy()
        left = put_all(state, order, None)
        now = score(state, wanted, State.height_mm)
        if now < best_score:
            best, best_score = state, now
        if best_score.holds:
            break
        if left:
            front = {piece.index for piece in left}
            order = left + [piece for piece in order if piece.index not in front]
        else:
            order = jittered(problem, order, random)
        hosts = set(problem.host.values())
        order.sort(key=lambda piece: piece.index not in hosts)
    return best


class Repacker:
    """Empties rooms and fills them again, keeping what is better, now and then what is a little worse."""

    def __init__(self, state: State, wanted: Sequence[Piece], cost: Cost, random: Random, warmth: float) -> None:
        self.state = state
        self.best = state
        self.wanted = tuple(wanted)
        self.cost = cost
        self.random = random
        self.now = self.best_score = score(state, wanted, cost)
        self.warmth = warmth
        """How much worse in the cost's unit is taken with one chance in e, at the beginning."""
        self.down_share = DOWN_SHARE if cost is State.height_mm else 0.0

    def run(self, steps: int, stop: Callable[[], bool], enough: Callable[[Score], bool] = lambda _: False) -> int:
        """Take steps until told to stop; returns how many were taken."""
        for n in range(steps):
            if stop() or enough(self.best_score):
                return n
            self.step(self.warmth * (1 - n / steps))
        return steps

    def step(self, warmth: float) -> None:
        """Empty some rooms, fill them again, keep or forget."""
        state = self.state.copy()
        state.problem.work += STEP
        over = self.now.missing == 0 and self.now.misses > 0 and self.random.random() < OVER_SHARE
        if over or self.random.random() < self.down_share:
            if not (brought_over if over else brought_down)(state, self.random):
                return
            out: set[int] = set()
        else:
            out = self._taken_out(state)
        missing = [piece for piece in self.wanted if piece.index not in state.at and piece.index not in out]
        pieces = [state.problem.pieces[index] for index in out] + missing
        if not pieces:
            self.state.problem.work += EMPTY_STEP  # where all is locked a step looks at no corner, and must count
            return
        order = jittered(state.problem, pieces, self.random, self.random.choice((0.2, 0.6, 1.0)))
        if missing and self.random.random() < 0.5:
            front = {piece.index for piece in missing}
            hosts = set(state.problem.host.values())
            order.sort(key=lambda piece: (piece.index not in hosts, piece.index not in front))
        self.fill(state, order)
        if state.problem.patterns is not None:
            state.problem.patterns.gather(state)
        found = score(state, self.wanted, self.cost)
        if self._keeps(found, warmth):
            self.state, self.now = state, found
        if found < self.best_score:
            self.best, self.best_score = state, found

    def fill(self, state: State, order: list[Piece]) -> None:
        """Put the pieces down again in an order."""
        random = self.random
        share = DRAWN_KINDS if random.random() < DRAWN_SHARE else 0.0
        put_all(state, order, random, drawn(state.problem, order, share, random))

    def _keeps(self, found: Score, warmth: float) -> bool:
        if found <= self.now:
            return True
        if found.missing > self.now.missing or found.misses > self.now.misses + 1e-9:
            return found.missing == self.now.missing and self.random.random() < 0.02 and not self.now.holds
        return warmth > 0 and self.random.random() < exp(-(found.cost - self.now.cost) / warmth)

    def _taken_out(self, state: State) -> set[int]:
        rooms = [room.index for room in state.problem.rooms if self._movable(state, room.index)]
        missing = [piece for piece in self.wanted if piece.index not in state.at]
        if missing and self.random.random() < 0.8:
            fits = state.problem.fits[self.random.choice(missing).index]
            rooms = [room for room in rooms if room in fits] or rooms
        if not rooms:
            return set()
        count = min(len(rooms), self.random.choice((1, 2, 2, 3, 3, 4)))
        chosen = [self.random.choice(rooms)]
        linked = [room for room in rooms if room != chosen[0] and self._trade(state, chosen[0], room)]
        pool = linked or rooms
        chosen += self.random.sample(pool, min(count - 1, len(pool)))
        out: set[int] = set()
        for room in dict.fromkeys(chosen):
            out.update(self._from(state, room))
        for index in sorted(out):
            if index in state.at:
                state.remove(index)
        return out

    def _movable(self, state: State, room: int) -> bool:
        return any(it.piece not in state.locked for it in state.inside[room])

    def _trade(self, state: State, one: int, other: int) -> bool:
        """Whether a piece of one room may go to the other."""
        fits = state.problem.fits
        return any(other in fits[it.piece] for it in state.inside[one]) or any(
            one in fits[it.piece] for it in state.inside[other]
        )

    def _from(self, state: State, room: int) -> set[int]:
        """All that is not locked in a room; now and then only what lies highest."""
        stays = held(state)
        here = [it for it in state.inside[room] if it.piece not in stays]
        if len(here) > 4 and self.random.random() < 0.35:
            level = self.random.choice(here).box[2]
            here = [it for it in here if it.box[2] >= level]
        out = {it.piece for it in here}
        for host_room, host in state.problem.host.items():
            if host in out:
                out.update(it.piece for it in state.inside[host_room])
        return out
