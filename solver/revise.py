"""A plan changed as little as possible: the fewest minutes of re-packing after trip, gear or locks changed."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from models.case import Case, Copy
from models.plan import Plan
from models.trip import Lock
from solver.answers import SILENT, Level, Options, Progress, Proposal, Status
from solver.clock import Clock
from solver.conflict import Asked, find_conflict
from solver.geometry import allowed
from solver.handling import handling_seconds
from solver.insert import put
from solver.limits import room_for_company, room_for_mass, room_on_axles
from solver.plain import plain_conflict
from solver.plans import from_plan, to_plan
from solver.problem import Piece, Problem
from solver.repack import Repacker
from solver.search import first, needed, pinned, propose
from solver.state import Lying, State

STEPS = 260
"""Steps of moving little at effort 1."""
WORTH_MM = 1.0
WORTH_S = 10.0
"""A further move is told when it gains so many mm, or seconds a day, for each minute it takes."""


@dataclass(frozen=True)
class FurtherMove:
    """A move that was not asked for and would gain something."""

    copy: Copy
    to_space: str
    lower_mm: float
    fewer_s: float
    minutes: float


@dataclass(frozen=True)
class Revision:
    """A changed plan, or why there is none."""

    proposal: Proposal
    moved: tuple[Copy, ...] = ()
    """Copies that lie elsewhere than before, in both plans."""
    minutes: float = 0.0
    left_behind: tuple[Copy, ...] = ()
    """Copies carried before that stay at home now."""
    added: tuple[Copy, ...] = ()
    """Copies that come now and did not before."""
    further: tuple[FurtherMove, ...] = ()


def revise(
    case: Case,
    plan: Plan,
    options: Options = Options(seconds=5.0),
    progress: Progress = SILENT,
    *,
    extra_locks: tuple[Lock, ...] = (),
) -> Revision:
    """The plan that holds all limits with the fewest minutes of re-packing that were found.

    What was carried stays carried where it can, what stayed at home stays there unless it must come now.
    """
    clock = Clock(options.seconds, progress)
    locks = (*plan.locks, *extra_locks)
    problem = Problem(case, use_reserve=options.use_reserve, locks=locks)
    conflict = plain_conflict(problem)
    if conflict is None:
        work = _Work(problem, plan, clock, options)
        state = work.search()
        if state is not None:
            return work.answer(state, locks)
        asked = Asked(case, locks, options.use_reserve)
        conflict = find_conflict(asked, clock, lambda other: _soon(other, plan, clock))
    if options.use_reserve and case.trip.reserve_kg > 0:
        less = Options(options.effort, max(1.0, clock.left()), options.seed, use_reserve=False)
        without = revise(case, plan, less, progress, extra_locks=extra_locks)
        if without.proposal.plan is not None:
            given_up = Proposal(**{**without.proposal.__dict__, "reserve_given_up": True})
            return Revision(**{**without.__dict__, "proposal": given_up})
    status = Status.IMPOSSIBLE if conflict is not None else Status.NOT_FOUND
    return Revision(Proposal(status, conflict=conflict, seconds=clock.elapsed()))


def made_anew(case: Case, plan: Plan, options: Options, progress: Progress = SILENT) -> Revision:
    """A plan made anew around the locks, height before few moves."""
    proposal = propose(case, options, progress, locks=plan.locks, before=plan)
    if proposal.plan is None:
        return Revision(proposal)
    problem = Problem(case, use_reserve=options.use_reserve, locks=plan.locks)
    before, after = from_plan(problem, plan), from_plan(problem, proposal.plan)
    return _compared(problem, before, after, proposal, ())


def _soon(problem: Problem, plan: Plan, clock: Clock) -> bool | None:
    if plain_conflict(problem) is not None:
        return None
    must = [piece for piece in problem.pieces if needed(problem, piece)]
    return True if first(problem, must, pinned(problem, plan), Random(0), clock, 150) is not None else None


class _Work:
    """The search for few moves."""

    def __init__(self, problem: Problem, plan: Plan, clock: Clock, options: Options) -> None:
        self.problem, self.clock, self.options = problem, clock, options
        self.before = from_plan(problem, plan)
        self.random = Random(options.seed)
        self.base = pinned(problem, plan)
        carried = set(self.before.at)
        self.must = [piece for piece in problem.pieces if needed(problem, piece)]
        self.wanted = [
            piece
            for piece in problem.pieces
            if needed(problem, piece)
            or (piece.index in carried and not problem.fixed[piece.index].at_home and problem.fits[piece.index])
        ]

    def search(self) -> State | None:
        """The layout with the fewest minutes that was found, all that came before kept if that can be."""
        wanted = list(self.wanted)
        optional = sorted(
            (p for p in wanted if not needed(self.problem, p)), key=lambda p: (p.thing.carry or 0, -p.heaviest_g)
        )
        steps = max(20, int(STEPS * self.options.effort))
        while True:
            state = self._kept(wanted)
            work = Keeper(state, wanted, self.before, self.random)
            work.run(steps, self.clock.late, lambda score: score.holds)
            if work.best_score.holds:
                work.run(steps, self.clock.late, lambda score: score.holds and score.cost <= 0)
                self.wanted = wanted
                return work.best
            if not optional or self.clock.late():
                return None
            gone = optional.pop(0)
            wanted = [piece for piece in wanted if piece.index != gone.index]

    def _kept(self, wanted: Sequence[Piece]) -> State:
        """What may stay where it was, heaviest and lowest first, then the rest where there is room."""
        state = self.base.copy()
        order = sorted(
            (p for p in wanted if p.index in self.before.at and p.index not in state.at),
            key=lambda p: (p.index not in self.problem.host.values(), self.before.at[p.index].box[2], p.index),
        )
        for piece in order:
            back(state, piece, self.before.at[piece.index])
        for piece in sorted(wanted, key=lambda p: (len(self.problem.fits[p.index]), -p.heaviest_g, p.index)):
            if piece.index not in state.at:
                put(state, piece)
        return state

    def answer(self, state: State, locks: tuple[Lock, ...]) -> Revision:
        """The revision that a layout is."""
        reserve = self.problem.case.trip.reserve_kg if self.options.use_reserve else 0.0
        levels = (
            Level("height", state.height_mm(), None, "mm", "found"),
            Level("handling", handling_seconds(state), None, "s a day", "found"),
        )
        proposal = Proposal(
            Status.FOUND,
            plan=to_plan(state, reserve_kept_kg=reserve, locks=locks),
            levels=levels,
            seconds=self.clock.elapsed(),
        )
        return _compared(self.problem, self.before, state, proposal, tuple(self._further(state)))

    def _further(self, state: State) -> list[FurtherMove]:
        """Single moves worth their minutes, the best five."""
        found: list[tuple[float, FurtherMove]] = []
        height, seconds = state.height_mm(), handling_seconds(state)
        for index in sorted(state.at):
            if self.clock.late() or index in state.locked or index in self.problem.host.values():
                continue
            move = self._one(state, index, height, seconds)
            if move is not None:
                gain = max(move.lower_mm / WORTH_MM, move.fewer_s / WORTH_S) / move.minutes
                if gain >= 1 and move.lower_mm > -WORTH_MM / 2 and move.fewer_s > -WORTH_S / 2:
                    found.append((-gain, move))
        found.sort(key=lambda pair: (pair[0], pair[1].copy))
        return [move for _, move in found[:5]]

    def _one(self, state: State, index: int, height: float, seconds: float) -> FurtherMove | None:
        trial = state.copy()
        old = trial.at[index]
        if any(o.piece != index and o.box[2] >= old.box[5] for o in trial.inside[old.room]):
            return None
        trial.remove(index)
        piece = self.problem.pieces[index]
        if not put(trial, piece) or trial.at[index].room == old.room:
            return None
        work = Keeper(trial, self.wanted, state, self.random)
        if not work.best_score.holds:
            return None
        new = trial.at[index]
        return FurtherMove(
            piece.copy,
            self.problem.rooms[new.room].space.name,
            height - trial.height_mm(),
            seconds - handling_seconds(trial),
            moving_seconds(self.problem, old, new) / 60,
        )


def _compared(
    problem: Problem, before: State, after: State, proposal: Proposal, further: tuple[FurtherMove, ...]
) -> Revision:
    moved = [i for i in sorted(after.at) if i in before.at and before.at[i].box != after.at[i].box]
    seconds = sum(moving_seconds(problem, before.at[i], after.at[i]) for i in moved)
    return Revision(
        proposal,
        tuple(problem.pieces[i].copy for i in moved),
        seconds / 60,
        tuple(problem.pieces[i].copy for i in sorted(before.at) if i not in after.at),
        tuple(problem.pieces[i].copy for i in sorted(after.at) if i not in before.at),
        further,
    )


def moving_seconds(problem: Problem, old: Lying, new: Lying) -> float:
    """Seconds to move a copy: the openings at both places and handling it once."""
    if old.box == new.box:
        return 0.0
    ways = problem.rooms[old.room].chain_s + (problem.rooms[new.room].chain_s if new.room != old.room else 0.0)
    return ways + problem.pieces[old.piece].handling_s


def back(state: State, piece: Piece, old: Lying) -> bool:
    """Put a piece where it was, if that is lawful now."""
    if old.room not in state.problem.fits[piece.index] or piece.index in state.at:
        return False
    fit = state.problem.fits[piece.index][old.room]
    shape_ok = old.shape in fit.shapes and piece.shapes[old.shape].size == tuple(
        old.box[i + 3] - old.box[i] for i in range(3)
    )
    height_ok = old.box[2] >= fit.least_z and old.box[5] <= fit.greatest_top
    room = state.problem.rooms[old.room]
    inside = all(room.low[i] <= old.big[i] and old.big[i + 3] <= room.high[i] for i in range(3))
    lawful = shape_ok and height_ok and inside and room_for_mass(state, piece, old.room)
    if lawful and room_for_company(state, piece, old.room) and allowed(state, old) and room_on_axles(state, piece, old):
        state.add(old)
        return True
    return False


class Keeper(Repacker):
    """Repacks so that as few minutes as possible are spent: what was taken out goes back to its place where it can."""

    def __init__(self, state: State, wanted: Sequence[Piece], before: State, random: Random) -> None:
        self.before = before
        super().__init__(state, wanted, self.minutes_and_copies, random, 0.0)

    def minutes_and_copies(self, state: State) -> float:
        """Seconds of moving, each moved copy a hundredth of a second more."""
        old = self.before.at
        return sum(
            moving_seconds(state.problem, old[i], it) + 0.01
            for i, it in state.at.items()
            if i in old and old[i].box != it.box
        )

    def fill(self, state: State, order: list[Piece]) -> None:
        """Movers are chosen by chance and by what has no place yet; everything else goes back first."""
        known = [piece for piece in order if piece.index in self.before.at]
        count = self.random.choice((0, 1, 1, 2, 3))
        movers = {piece.index for piece in self.random.sample(known, min(count, len(known)))}
        known.sort(key=lambda p: (p.index not in state.problem.host.values(), self.before.at[p.index].box[2], p.index))
        late = [piece for piece in order if piece.index not in self.before.at or piece.index in movers]
        if self.random.random() < 0.5:
            for piece in late:
                put(state, piece, random=self.random)
        for piece in known:
            if piece.index not in state.at and piece.index not in movers:
                back(state, piece, self.before.at[piece.index])
        for piece in order:
            if piece.index not in state.at:
                put(state, piece, random=self.random)
