"""Seconds a day spent getting at things, and tidiness: what is weighed once the height is settled."""

from collections.abc import Sequence
from random import Random

from solver.clock import Budget, Clock
from solver.digging import Ahead, dig_seconds
from solver.limits import lean_g
from solver.pieces import Piece
from solver.repack import Cost, Repacker
from solver.state import Lying, State

ROUND = 60
CORNERS = 0.8e6
"""Corners looked at in repacking for handling at effort 1; tidiness takes a third of it."""
WARMTH_S = 15.0
"""How much worse, in seconds a day, a step may be at the beginning."""


def handling_seconds(state: State) -> float:
    """Seconds a day to get at things, with each extra place of a kit counted."""
    problem = state.problem
    seconds = 0.0
    kits: dict[str, set[int]] = {}
    for room, here in enumerate(state.inside):
        key = (room, state.content[room])
        known = problem.remembered_s.get(key)
        if known is None:
            known = problem.remembered_s[key] = _room_seconds(state, here)
        seconds += known
        for it in here:
            kit = problem.pieces[it.piece].thing.kit
            if kit:
                kits.setdefault(kit, set()).add(room)
    extra = problem.case.rulebook.effort.extra_kit_place_s
    return seconds + extra * sum(len(rooms) - 1 for rooms in kits.values())


def _room_seconds(state: State, here: list[Lying]) -> float:
    """Seconds a day to get at everything in one room."""
    problem, seconds, ahead = state.problem, 0.0, Ahead()
    for it in here:
        uses = problem.pieces[it.piece].uses_per_day
        if uses:
            seconds += uses * (problem.rooms[it.room].chain_s + dig_seconds(state, here, it, ahead=ahead))
    return seconds


def tidiness(state: State) -> float:
    """Like copies apart, shared spaces, heavy things high, one-sidedness, mass behind the axle: in s a day."""
    problem = state.problem
    weigh = problem.case.rulebook.effort
    book = problem.case.rulebook.handling
    kinds: dict[int, set[int]] = {}
    packers: dict[int, set[str]] = {}
    total = 0.0
    base = problem.constants.wheelbase
    for it in state.at.values():
        piece = problem.pieces[it.piece]
        kinds.setdefault(piece.kind, set()).add(it.room)
        if piece.thing.packer:
            packers.setdefault(it.room, set()).add(piece.thing.packer)
        kg = piece.heaviest_g / 1000
        if it.box[2] > book.shoulder_mm and kg > book.above_shoulder_kg:
            total += weigh.above_shoulder_s
        behind_m = ((it.box[0] + it.box[3]) / 2 - base) / 1000
        total += max(0.0, behind_m) * kg * weigh.behind_axle_s_per_kg_m
    total += weigh.like_copies_place_s * sum(len(rooms) - 1 for rooms in kinds.values())
    total += weigh.shared_space_s * sum(len(names) - 1 for names in packers.values())
    return total + weigh.side_difference_s_per_kg * side_difference_kg(state)


def side_difference_kg(state: State) -> float:
    """Largest difference of left and right wheels over the driving stages in kg."""
    return max((abs(lean_g(state, t)) for t in state.problem.driving), default=0.0) / 1000


def handle(
    state: State, wanted: Sequence[Piece], highest_mm: float, random: Random, clock: Clock, effort: float
) -> State:
    """Fewer seconds a day without rising above a height; then tidier without more seconds."""
    state = _lower(state, wanted, lambda s: _within(s, highest_mm, handling_seconds), random, clock, effort, "handling")
    most_s = handling_seconds(state) + 0.5

    def tidy(s: State) -> float:
        over = max(0.0, handling_seconds(s) - most_s)
        return _within(s, highest_mm, tidiness) + 1e4 * over

    return _lower(state, wanted, tidy, random, clock, effort / 3, "tidiness")


def _within(state: State, highest_mm: float, cost: Cost) -> float:
    over = state.height_mm() - highest_mm
    return cost(state) + (1e6 * (1 + over) if over > 1e-9 else 0.0)


def _lower(
    state: State, wanted: Sequence[Piece], cost: Cost, random: Random, clock: Clock, effort: float, phase: str
) -> State:
    work = Repacker(state, wanted, cost, random, WARMTH_S)
    budget = Budget(state.problem, clock, CORNERS * effort)
    while not budget.over():
        work.warmth = WARMTH_S * (1 - budget.spent())
        work.run(ROUND, budget.over)
        clock.tell(phase, work.best.height_mm(), None)
    return work.best
