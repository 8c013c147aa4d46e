"""A few rooms packed anew by a small exact model, everything else constant, as low as can be found."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor
from random import Random

from solver.blocks import Expr
from solver.build import Build
from solver.digging import in_reach
from solver.footing import held
from solver.geometry import clear
from solver.lanes import lane
from solver.library import cp_model
from solver.pieces import Piece
from solver.repack import Score, score
from solver.rows import at_most, moment2
from solver.rules import RULES
from solver.state import State
from solver.steady import steady

MOST_FREE = 14
"""Pieces decided together."""
LEAST_GAIN_MM = 0.0005
"""Least gain that is worth a change, in mm of vehicle height."""


@dataclass(frozen=True)
class Effort:
    """How long a model may search."""

    deterministic: float = 0.1
    """The library's own unit of work, the same on every machine."""
    seconds: float = 5.0
    """Wall-clock cap, a safety net."""
    free: int = MOST_FREE
    """Most pieces that are decided together."""


def better(state: State, wanted: Sequence[Piece], rooms: Sequence[int], effort: Effort) -> State | None:
    """A lower layout that differs in a few rooms and holds all limits; None when none was found."""
    free = freed(state, rooms, effort.free)
    if not free:
        return None
    build = lower_model(state, free, rooms)
    solver = solver_with(effort)
    if solver.solve(build.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    found = build.read(solver)
    return found if accepted(found, wanted, score(state, wanted, State.height_mm)) else None


def lower_model(state: State, free: Sequence[Piece], rooms: Sequence[int]) -> Build:
    """The model that asks for a lower layout in which only some pieces of a few rooms lie elsewhere."""
    rest = state.copy()
    for piece in free:
        rest.remove(piece.index)
    build = Build(state.problem, free, rooms, rest, all_come=True)
    for add in RULES:
        add(build)
    _lower(build, state)
    build.hint(state)
    return build


def accepted(found: State, wanted: Sequence[Piece], before: Score) -> bool:
    """Whether a layout holds, judged without the model, and is better."""
    now = score(found, wanted, State.height_mm)
    if not (now.holds and now < before):
        return False
    apart = all(clear(found, it) for it in found.at.values())
    return apart and all(in_reach(found, here[-1]) for here in found.inside if here)


def solver_with(effort: Effort) -> cp_model.CpSolver:
    """A search that gives the same answer every time, unless the clock cuts in."""
    solver = steady(effort.seconds, effort.deterministic)
    solver.parameters.linearization_level = 0  # linear relaxations cost more than they cut here
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    solver.parameters.max_presolve_iterations = 1
    return solver


def _lower(build: Build, now: State) -> None:
    """As low as can be at the highest stage, at least half a thousandth of a millimetre; no other stage above that."""
    problem = build.problem
    driving = problem.driving or (0,)
    top = max(driving, key=lambda t: (now.height2(t), -t))
    for t in driving:
        stage, sums = problem.constants.stages[t], build.fixed.sums
        mass = stage.mass_g + lane(now.sums.likely_g, t)
        limit = 2 * ((now.height_mm() - (LEAST_GAIN_MM if t == top else 0.0)) * mass - stage.moment[2])
        at_most(build, height_moment(build, t), floor(limit - lane(sums.likely_z, t)))
    build.model.minimize(height_moment(build, top))


def height_moment(build: Build, t: int) -> Expr:
    """Moment of the free pieces above the ground at a stage, in grams times half millimetres."""
    return moment2(build, 2, lambda piece: piece.likely_g[t])


def freed(state: State, rooms: Sequence[int], most: int = MOST_FREE) -> list[Piece]:
    """Pieces of some rooms that may move: none that is locked or under a locked one; of too many the highest."""
    stays = held(state)
    found = [it for room in rooms for it in state.inside[room] if it.piece not in stays]
    found.sort(key=lambda it: (-it.box[2], it.piece))
    return [state.problem.pieces[it.piece] for it in sorted(found[:most], key=lambda it: it.piece)]


def promising(state: State, random: Random) -> tuple[int, ...]:
    """Two to four rooms between which something heavy may go down, drawn by how much it could."""
    problem = state.problem
    gain = [0.0] * len(problem.rooms)
    pull: dict[tuple[int, int], float] = {}
    for it in state.at.values():
        if it.piece in state.locked:
            continue
        piece = problem.pieces[it.piece]
        for room, fit in problem.fits[it.piece].items():
            down = piece.heaviest_g * (it.box[2] + it.box[5] - fit.lowest2) / 1e6
            if down > 0:
                gain[it.room] = max(gain[it.room], down)
                pull[it.room, room] = pull.get((it.room, room), 0.0) + down
    rooms = [room for room, most in enumerate(gain) if most > 0]
    if not rooms:
        return ()
    chosen = [random.choices(rooms, [gain[room] for room in rooms])[0]]
    for _ in range(random.choice((1, 1, 2, 3))):
        near = {
            b: pull.get((a, b), 0.0) + pull.get((b, a), 0.0)
            for a in chosen
            for b in range(len(problem.rooms))
            if b not in chosen and pull.get((a, b), 0.0) + pull.get((b, a), 0.0) > 0
        }
        if near:
            chosen.append(random.choices(list(near), list(near.values()))[0])
    return tuple(sorted(chosen))
