"""Trying a plan with one thing elsewhere: the fewest moves that bring it there, and the lowest plan with it there."""

import copy
import time
from collections.abc import Sequence
from random import Random

from models.case import Case
from models.plan import Plan, reserve_of
from models.trip import Lock
from solver.answers import Options
from solver.asking import as_kept
from solver.contrast import HARDLY_MM
from solver.demands import Fixed
from solver.footing import held
from solver.insert import put
from solver.keeping import Keeper
from solver.passing import above
from solver.pieces import Fit, Piece
from solver.pins import pinned
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.repack import Repacker, score
from solver.state import State

SETTLE_STEPS = 250
"""Steps to bring a plan to its own lowest before prices are taken."""
LOWER_STEPS = 330
"""Steps to bring a plan with a thing elsewhere to its lowest."""
FEW_STEPS = 120
"""Steps to find the fewest moves."""
WARMTH_MM = 0.1
STAY_S = 0.1
"""Seconds at most, after all others, to bring the plan down with a thing where it is."""


class Trial:
    """A plan as a layout, and what may be tried with it."""

    def __init__(self, case: Case, plan: Plan, options: Options) -> None:
        # What is tried keeps as much reserve as the plan does, which may be less than the trip asks for.
        self.case, self.plan, self.options = as_kept(case, plan), plan, options
        self.problem = Problem(self.case, locks=plan.locks, before=plan)
        base, self.now = pinned(self.problem, plan), from_plan(self.problem, plan)
        self._cornered = base.locked
        self.now.locked = _kept(base, self.now)
        self.wanted = self.now.carried()
        _ = self.problem.constants, self.problem.vetoes  # made once, before the problem is copied
        self.lowest = self.now
        self.stays_mm = 0.0
        """How much higher this plan's own lowest is for a piece that stays where it is, where that matters."""
        self._free: dict[int, dict[int, Fit]] = {}

    def free_fits(self, index: int) -> dict[int, Fit]:
        """Where a piece may be when all locks are forgotten."""
        if index in self._free:
            return self._free[index]
        free = copy.copy(self.problem)
        free.fixed = (Fixed(),) * len(free.pieces)
        found = ((room.index, free.fit_by_itself(free.pieces[index], room)) for room in free.rooms)
        self._free[index] = {room: fit for room, fit in found if fit is not None and fit.shapes}
        return self._free[index]

    def settle(self, seconds: float) -> None:
        """Bring this plan to the lowest it is found to reach, so that prices are of like with like."""
        ends, now = time.monotonic() + seconds, self.now.copy()
        now.locked = self._cornered  # what to put right of the plan is no part of its own lowest
        work = Repacker(now, self.wanted, State.height_mm, self.random(), WARMTH_MM)
        work.run(int(SETTLE_STEPS * self.options.effort), lambda: time.monotonic() > ends)
        if work.best_score.holds and work.best.height_mm() < self.now.height_mm():
            self.lowest = work.best
            self.lowest.locked = self.now.locked

    def bound_to(self, index: int, rooms: Sequence[int], *, one_more: bool = False) -> Problem:
        """The problem with one piece free of its locks and bound to some rooms.

        `one_more`: copies like it that lie there stay there; to change places with one of them is no answer.
        """
        problem = copy.copy(self.problem)
        fits = list(problem.fits)
        kind = problem.pieces[index].kind
        for it in self.now.at.values() if one_more else ():
            if it.room in rooms and problem.pieces[it.piece].kind == kind and it.room in fits[it.piece]:
                fits[it.piece] = {it.room: fits[it.piece][it.room]}
        fits[index] = {room: fit for room, fit in self.free_fits(index).items() if room in rooms}
        for i in self._in_its_kit(index):
            fits[i] = {room: fit for room, fit in fits[i].items() if room in fits[index]}
        problem.allow(fits)
        return problem

    def _in_its_kit(self, index: int) -> list[int]:
        """The pieces that are in one space with a piece, wherever that is, as their kit says."""
        thing = self.problem.pieces[index].thing
        if not thing.together or thing.kit is None:
            return []
        others = (self.problem.pieces[i] for i in self.now.at if i != index)
        return [other.index for other in others if other.thing.together and other.thing.kit == thing.kit]

    def one_more(self, state: State, index: int, room: int) -> bool:
        """Whether no other room holds a piece or the copies like it that lie in this room now."""
        return all(i not in state.at or state.at[i].room == room for i in (index, *self.alike(index, room)))

    def alike(self, index: int, room: int) -> list[int]:
        """The copies like a piece that lie in a room now."""
        kind = self.problem.pieces[index].kind
        return [i for i, it in self.now.at.items() if it.room == room and self.problem.pieces[i].kind == kind]

    def locked(self, index: int) -> bool:
        """Whether people have locked a piece."""
        return self.problem.fixed[index] != Fixed()

    def lower_still(self, found: State, index: int) -> None:
        """Take a layout as this plan's own lowest where it is, and locks on a piece hold in it."""
        it = found.at[index]
        pinned_elsewhere = self.problem.fixed[index].corner_mm is not None and it.box != self.now.at[index].box
        if found.height_mm() < self.lowest.height_mm() and it.room in self.problem.fits[index] and not pinned_elsewhere:
            self.lowest = found

    def let_stay(self, index: int) -> None:
        """Let a piece stay where it is in this plan's own lowest, where that is lower by what matters without it there.

        Else what another space would bring were no price of that space, but part of what all are compared with.
        """
        room = self.now.at[index].room
        kind, pieces = self.problem.pieces[index].kind, self.problem.pieces
        if sum(pieces[it.piece].kind == kind for it in self.lowest.inside[room]) >= len(self.alike(index, room)):
            return
        start = self.forced(self.bound_to(index, [room], one_more=True), self.lowest, index, room)
        found = self.lower([start] if self.one_more(start, index, room) else [], STAY_S)
        stays = self.now if found is None or self.now.height_mm() < found.height_mm() else found
        more_mm = stays.height_mm() - self.lowest.height_mm()
        if more_mm >= HARDLY_MM:
            self.lowest, self.stays_mm = stays, more_mm

    def few_moves(self, state: State, wanted: Sequence[Piece], seconds: float) -> State | None:
        """A lawful layout near a broken one, with few moves; None when none was found."""
        ends = time.monotonic() + seconds
        work = Keeper(state, wanted, self.now, self.random())
        steps = int(FEW_STEPS * max(1.0, self.options.effort))
        work.run(steps, lambda: time.monotonic() > ends, lambda found: found.holds)
        if work.best_score.holds:
            work.run(steps // 2, lambda: time.monotonic() > ends)
        return work.best if work.best_score.holds else None

    def lower(self, starts: Sequence[State], seconds: float, wanted: Sequence[Piece] | None = None) -> State | None:
        """The lowest lawful layout found from the best of some starts; None when none was found.

        `wanted` is what it holds. None: what this plan carries.
        """
        if not starts:
            return None
        ends = time.monotonic() + seconds
        wanted = self.wanted if wanted is None else wanted
        best = min(starts, key=lambda state: score(state, wanted, State.height_mm))
        work = Repacker(best, wanted, State.height_mm, self.random(), WARMTH_MM)
        work.run(int(LOWER_STEPS * self.options.effort), lambda: time.monotonic() > ends)
        return work.best if work.best_score.holds else None

    def forced(self, problem: Problem, base: State, index: int, room: int) -> State:
        """A layout with a piece in a room, others pushed out where they stand in the way."""
        state = base.copy()
        state.problem = problem
        state.locked = state.locked - {index}
        if state.at[index].room == room:
            return state
        kit = [i for i in self._in_its_kit(index) if state.at[i].room != room]
        out = list(dict.fromkeys(i for one in (index, *kit) for i in (*above(state, one), one)))
        for piece in out:
            state.remove(piece)
        out.remove(index)
        if not put(state, problem.pieces[index]):
            stays = held(state)
            here = [o.piece for o in state.inside[room] if o.piece not in stays]
            for piece in here:
                state.remove(piece)
            out += here
            put(state, problem.pieces[index])
        for piece in sorted(out, key=lambda i: -problem.pieces[i].heaviest_g):
            put(state, problem.pieces[piece])
        return state

    def told(self, state: State, locks: tuple[Lock, ...] | None = None) -> Plan:
        """The plan of a layout, as this plan names its trip, with some locks; None: with this plan's own."""
        locks = self.plan.locks if locks is None else locks
        kept_kg = reserve_of(self.plan, self.case.reserve_kg)
        return to_plan(state, reserve_kept_kg=kept_kg, trip=self.plan.trip, locks=locks)

    def random(self) -> Random:
        """A beginning of chance that is alike for a seed."""
        return Random(self.options.seed)


def _kept(base: State, now: State) -> frozenset[int]:
    """Pieces that lie where a lock keeps them: one that a plan has elsewhere stays there for no lock, and may move."""
    return frozenset(i for i in base.locked if i in now.at and now.at[i].box[:3] == base.at[i].box[:3])


def taken_out(state: State, index: int) -> State:
    """A layout without a piece, and without what may stand on it."""
    trial = state.copy()
    for piece in [*above(trial, index), index]:
        trial.remove(piece)
    return trial
