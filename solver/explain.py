"""Why a thing is here and not there: rules that forbid it, or what it would cost, found by trying."""

import copy
import time
from dataclasses import dataclass
from random import Random
from typing import Literal

from models.case import Case, Copy
from models.plan import Plan
from models.rules import Rule
from solver.answers import Options
from solver.conflict import fresh
from solver.eligible import reasons
from solver.handling import handling_seconds
from solver.insert import put
from solver.limits import room_for_company, room_for_mass
from solver.plans import from_plan, to_plan
from solver.problem import Piece, Problem
from solver.repack import Repacker, score
from solver.revise import Keeper, moving_seconds
from solver.state import State

HARDLY_MM = 1.0
"""A price under this hardly matters."""
BASE_STEPS = 250
"""Steps to bring this plan to its own lowest before prices are taken."""
PRICE_STEPS = 110
"""Steps to find a price."""
FEW_STEPS = 40
"""Steps to find the fewest moves."""

Kind = Literal["here", "cannot", "could", "none found"]


@dataclass(frozen=True)
class Row:
    """One space, seen from one thing."""

    space: str
    kind: Kind
    rules: tuple[tuple[Rule, str], ...] = ()
    """Rules that forbid it, in any plan where `in_any_plan`, else in this one."""
    in_any_plan: bool = False
    higher_mm: float | None = None
    """Best height found with it there less the lowest found for this plan; below 0 a better plan was found."""
    more_s: float | None = None
    """More seconds a day of getting at things, with the fewest moves."""
    moves: tuple[tuple[Copy, str, str], ...] = ()
    """What else would move: copy, from, to."""
    minutes: float = 0.0
    margins_kg: tuple[tuple[str, float], ...] = ()
    """Change of load on the rear axle at its heaviest stage."""
    plan: Plan | None = None
    """The plan with the fewest moves that puts it there."""
    mass_for_a_mm_kg: float | None = None
    """The mass under which the price would be under a millimetre."""

    @property
    def word(self) -> str:
        """How much it matters."""
        if self.higher_mm is None:
            return self.kind
        if self.higher_mm < -0.05:
            return "better"
        return "hardly matters" if self.higher_mm < HARDLY_MM else ("1 to 5 mm" if self.higher_mm <= 5 else "more")


@dataclass(frozen=True)
class Explanation:
    """Why a copy is where it is."""

    copy: Copy
    space: str
    rows: tuple[Row, ...]
    locked_by: tuple[str, ...] = ()
    stage: str = ""
    """The stage at which the vehicle stands highest."""
    height_mm: float = 0.0


@dataclass(frozen=True)
class WayToTake:
    """A way to take along what stays at home."""

    says: str
    plan: Plan | None
    higher_mm: float


@dataclass(frozen=True)
class HomeExplanation:
    """Why something stays at home."""

    copy: Copy
    rules: tuple[tuple[str, tuple[tuple[Rule, str], ...]], ...]
    """Spaces that may never hold it, with the rules."""
    lawful: tuple[str, ...]
    """Spaces that may hold it."""
    ways: tuple[WayToTake, ...]


def why_not(
    case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=2.4), only: str | None = None
) -> Explanation:
    """For every other space: forbidden, or at what price. `only` looks at one space, with more effort.

    Raises KeyError when the plan does not carry the copy.
    """
    work = _Work(case, plan, options)
    index = work.problem.piece_of[wanted]
    here = work.now.at[index]
    ends = time.monotonic() + options.seconds
    work.settle(min(0.8, options.seconds * 0.3) * (1 if only is None else 1.5))
    rooms = [room.index for room in work.problem.rooms if only is None or room.space.name == only]
    open_rooms = [r for r in rooms if r != here.room and work.lawful(index, r)]
    rows = []
    for room in rooms:
        space = work.problem.rooms[room].space
        if room == here.room:
            rows.append(Row(space.name, "here"))
            continue
        if room not in open_rooms:
            why = reasons(case, work.problem.pieces[index].thing, space)
            told = tuple((r.rule, r.says) for r in why) or ((Rule.INSIDE, "no shape it may take fits there"),)
            rows.append(Row(space.name, "cannot", told, in_any_plan=True))
            continue
        share = (ends - time.monotonic()) / max(
            1, len(open_rooms) - sum(row.kind not in ("here", "cannot") for row in rows)
        )
        rows.append(work.price(index, room, max(0.1, share)))
    locks = tuple(
        f"{lock.by or 'somebody'}: {lock.because or 'no reason given'}"
        for lock in work.problem.locks
        if lock.thing == wanted.thing and lock.copy_number in (None, wanted.number) and (lock.in_ or lock.at_mm)
    )
    stage = max(work.problem.driving, key=work.now.height2, default=0)
    return Explanation(
        wanted,
        work.problem.rooms[here.room].space.name,
        tuple(rows),
        locks,
        work.problem.stages[stage].name,
        work.now.height_mm(),
    )


class _Work:
    """A plan as a layout, and what may be tried with it."""

    def __init__(self, case: Case, plan: Plan, options: Options) -> None:
        self.case, self.plan, self.options = case, plan, options
        kept = plan.reserve_kept_kg is None or plan.reserve_kept_kg > 0
        self.problem = Problem(case, use_reserve=kept, locks=plan.locks)
        self.now = from_plan(self.problem, plan)
        self.now.locked = frozenset(i for i in self.now.at if self.problem.fixed[i].corner_mm is not None)
        self.wanted = [self.problem.pieces[i] for i in sorted(self.now.at)]
        self.free = Problem(fresh(case, trip=case.trip.model_copy(update={"locks": ()})))
        self.lowest = self.now

    def lawful(self, index: int, room: int) -> bool:
        """Whether a piece may be in a room when its own locks are forgotten."""
        return room in self.free.fits[index]

    def settle(self, seconds: float) -> None:
        """Bring this plan to the lowest it is found to reach, so that prices are of like with like."""
        ends = time.monotonic() + seconds
        work = Repacker(self.now, self.wanted, State.height_mm, Random(self.options.seed), 0.1)
        work.run(int(BASE_STEPS * self.options.effort), lambda: time.monotonic() > ends)
        if work.best_score.holds:
            self.lowest = work.best

    def held_in(self, index: int, room: int) -> Problem:
        """The problem with one piece bound to a room."""
        problem = copy.copy(self.problem)
        fits = list(problem.fits)
        fits[index] = {room: self.free.fits[index][room]}
        problem.fits = tuple(fits)
        return problem

    def price(self, index: int, room: int, seconds: float) -> Row:
        """What it costs to have a piece in a room."""
        ends = time.monotonic() + seconds * 0.75
        problem = self.held_in(index, room)
        few = self._forced(problem, self.now, index)
        keeper = Keeper(few, self.wanted, self.now, Random(self.options.seed))
        half = time.monotonic() + seconds * 0.4
        keeper.run(FEW_STEPS * 3, lambda: time.monotonic() > half, lambda s: s.holds)
        low = self._forced(problem, keeper.best if keeper.best_score.holds else self.lowest, index)
        other = self._forced(problem, self.lowest, index)
        if score(other, self.wanted, State.height_mm) < score(low, self.wanted, State.height_mm):
            low = other
        lower = Repacker(low, self.wanted, State.height_mm, Random(self.options.seed), 0.05)
        lower.run(int(PRICE_STEPS * 3 * self.options.effort), lambda: time.monotonic() > ends)
        name = problem.rooms[room].space.name
        if not keeper.best_score.holds and not lower.best_score.holds:
            return Row(name, "none found", self._blocks(index, room))
        if not keeper.best_score.holds:
            keeper = Keeper(lower.best, self.wanted, self.now, Random(self.options.seed))
            until = time.monotonic() + seconds * 0.3
            keeper.run(FEW_STEPS * 2, lambda: time.monotonic() > until)
        told = keeper.best
        best = (
            min(s.best_score.cost for s in (lower,) if s.best_score.holds)
            if lower.best_score.holds
            else told.height_mm()
        )
        best = min(best, told.height_mm())
        return self._row(index, name, told, best - self.lowest.height_mm())

    def _forced(self, problem: Problem, base: State, index: int) -> State:
        """A layout with the piece in its only room, others pushed out where they stand in the way."""
        state = base.copy()
        state.problem = problem
        state.locked = state.locked - {index}
        room = next(iter(problem.fits[index]))
        if state.at[index].room == room:
            return state
        above = [o for o in state.inside[state.at[index].room] if o.box[2] >= state.at[index].box[5]]
        out = [o.piece for o in above if o.piece not in state.locked]
        for piece in [index, *out]:
            state.remove(piece)
        if not put(state, problem.pieces[index]):
            here = [o.piece for o in state.inside[room] if o.piece not in state.locked]
            for piece in here:
                state.remove(piece)
            out += here
            put(state, problem.pieces[index])
        for piece in sorted(out, key=lambda i: -problem.pieces[i].heaviest_g):
            put(state, problem.pieces[piece])
        return state

    def _blocks(self, index: int, room: int) -> tuple[tuple[Rule, str], ...]:
        """What stands against a room in this plan, as far as one look shows."""
        piece, space = self.problem.pieces[index], self.problem.rooms[room].space
        trial = self.now.copy()
        trial.remove(index)
        found: list[tuple[Rule, str]] = []
        if not room_for_mass(trial, piece, room):
            found.append((Rule.SPACE_MASS, f"{space.name}, or a rack under it, has no mass left for it in this plan"))
        if not room_for_company(trial, piece, room):
            found += self._company(trial, piece, room)
        return tuple(found)

    def _company(self, state: State, piece: Piece, room: int) -> list[tuple[Rule, str]]:
        """The things a piece may not ride with, where they are in this plan."""
        vetoes, found = self.problem.vetoes, []
        for it in state.at.values():
            other = self.problem.pieces[it.piece]
            for veto in vetoes.of[piece.kind].get(other.kind, ()):
                if vetoes.apart(veto, room, it.room):
                    space = self.problem.rooms[it.room].space.name
                    found.append((veto.rule, f"it may not ride with {other.copy}, which is in {space} in this plan"))
        word = piece.thing.hazard
        return list(dict.fromkeys(found)) or [(Rule.HAZARD, f"no more {word} may ride in that air in this plan")]

    def _row(self, index: int, name: str, told: State, higher: float) -> Row:
        problem = self.problem
        moved = [i for i in sorted(told.at) if i != index and told.at[i].box != self.now.at[i].box]
        rooms = problem.rooms
        moves = tuple(
            (problem.pieces[i].copy, rooms[self.now.at[i].room].space.name, rooms[told.at[i].room].space.name)
            for i in moved
        )
        seconds = sum(moving_seconds(problem, self.now.at[i], told.at[i]) for i in [index, *moved])
        stages, base = problem.driving, 2000 * problem.constants.wheelbase
        rear = [(told.sums.rear[t] - self.now.sums.rear[t]) / base for t in stages]
        mass = problem.pieces[index].heaviest_g / 1000
        return Row(
            name,
            "could",
            higher_mm=higher,
            more_s=handling_seconds(told) - handling_seconds(self.now),
            moves=moves,
            minutes=seconds / 60,
            margins_kg=(("rear axle", max(rear, key=abs)),) if rear else (),
            plan=to_plan(
                told, reserve_kept_kg=self.plan.reserve_kept_kg or 0.0, trip=self.plan.trip, locks=self.plan.locks
            ),
            mass_for_a_mm_kg=mass * HARDLY_MM / higher if higher > HARDLY_MM else None,
        )


def why_home(case: Case, plan: Plan, wanted: Copy, options: Options = Options(seconds=4.0)) -> HomeExplanation:
    """Why a copy stays at home, and the cheapest ways to take it that were found, each tried."""
    work = _Work(case, plan, options)
    piece = work.problem.pieces[work.problem.piece_of[wanted]]
    against = []
    for room in work.problem.rooms:
        why = reasons(case, piece.thing, room.space)
        if why:
            against.append((room.space.name, tuple((r.rule, r.says) for r in why)))
    lawful = tuple(work.problem.rooms[r].space.name for r in sorted(work.free.fits[piece.index]))
    return HomeExplanation(wanted, tuple(against), lawful, tuple(_ways(work, piece, options.seconds)))


def _ways(work: _Work, piece: Piece, seconds: float) -> list[WayToTake]:
    ends = time.monotonic() + seconds
    work.problem.fits = tuple(
        work.free.fits[i] if i == piece.index else fits for i, fits in enumerate(work.problem.fits)
    )
    optional = sorted(
        (p for p in work.wanted if not p.thing.must and p.index not in work.now.locked),
        key=lambda p: (p.thing.carry or 0, -p.heaviest_g, p.index),
    )
    found: list[WayToTake] = []
    for gone in [None, *optional]:
        if time.monotonic() > ends or len(found) >= 3:
            break
        state = work.now.copy()
        if gone is not None:
            old = state.at[gone.index]
            for o in [o for o in state.inside[old.room] if o.box[2] >= old.box[5] and o.piece not in state.locked]:
                state.remove(o.piece)
            state.remove(gone.index)
        put(state, piece)
        wanted = [p for p in [*work.wanted, piece] if gone is None or p.index != gone.index]
        keeper = Keeper(state, wanted, work.now, Random(work.options.seed))
        until = min(ends, time.monotonic() + seconds / 4)
        keeper.run(FEW_STEPS * 2, lambda until=until: time.monotonic() > until, lambda s: s.holds)  # type: ignore[misc]
        if keeper.best_score.holds:
            says = "there is room for it as it is" if gone is None else f"leave {gone.copy} at home instead"
            told = to_plan(
                keeper.best,
                reserve_kept_kg=work.plan.reserve_kept_kg or 0.0,
                trip=work.plan.trip,
                locks=work.plan.locks,
            )
            found.append(WayToTake(says, told, keeper.best.height_mm() - work.now.height_mm()))
            if gone is None:
                break
    return found
