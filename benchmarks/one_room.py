"""Boxes worth something into one space, by the same code that places things on a trip."""

import time
from collections.abc import Sequence
from math import sqrt
from random import Random
from typing import NamedTuple

from models.case import Case
from models.reading import case_from
from solver.insert import put_all
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import State

Three = tuple[int, int, int]


class Worth(NamedTuple):
    """A kind of box: sides, the turns it may take, its worth and how many there are."""

    size_mm: Three
    turns: str
    worth: int
    copies: int


def case_of(room_mm: Three, kinds: Sequence[Worth]) -> Case:
    """A case with one space; nothing but inside, overlap and support can bind."""
    gear = [
        {"name": f"box {i:03}", "count": k.copies, "size_mm": list(k.size_mm), "turns": k.turns, "access": "seldom",
         "mass_kg": round(0.3 * k.size_mm[0] * k.size_mm[1] * k.size_mm[2] / 1e6, 3) or 0.001, "carry": 1}
        for i, k in enumerate(kinds)
    ]  # fmt: skip
    vehicle = {
        "name": "bench", "wheelbase_mm": 3000, "track_mm": 1580,
        "outline_mm": {"front": -2000, "rear": 9000, "width": 4000, "height": 4000},
        "kerb": {"front_kg": 1000, "rear_kg": 1000, "cg_height_mm": 700},
        "limits": {"gvm_kg": 90000, "front_axle_kg": 90000, "rear_axle_kg": 90000, "front_share_min": 0.0,
                   "side_difference_share": 1.0},
        "air": {"canopy": "sealed"}, "openings": [{"name": "tailgate", "side": "rear"}],
        "spaces": [{"name": "room", "corner_mm": [0, 0, 500], "size_mm": list(room_mm), "limit_kg": 90000,
                    "air": "canopy", "opening": "tailgate"}],
    }  # fmt: skip
    trip = {"name": "room", "stages": [{"name": "go", "surface": "parked"}], "reserve_kg": 0}
    # Getting things out again is no part of these problems: the longest time that a rule book can give.
    words = {"seldom": {"seconds": 86400, "uses_per_day": 0}}
    return case_from(vehicle, gear, trip, {"access": {"source": "open instances know no reach", "words": words}})


def packed_worth(case: Case, kinds: Sequence[Worth], seconds: float, seed: int = 0) -> tuple[int, State]:
    """The most worth that was packed in so many seconds: fill, empty a part, fill again, keep what is not worse."""
    problem = Problem(case)
    worth = [kinds[int(piece.thing.name.split()[1])].worth for piece in problem.pieces]
    ends, chance = time.monotonic() + seconds, Random(seed)  # noqa: S311
    state = State(problem)
    put_all(state, _order(worth, problem.pieces, chance, 0.0))
    best, value = state, sum(worth[i] for i in state.at)
    while time.monotonic() < ends and len(best.at) < len(problem.pieces):
        trial = best.copy()
        for index in sorted(_taken_out(trial, chance), key=lambda i: -trial.at[i].box[2]):
            trial.remove(index)
        left = [piece for piece in problem.pieces if piece.index not in trial.at]
        put_all(trial, _order(worth, left, chance, 0.5), chance)
        found = sum(worth[i] for i in trial.at)
        if found >= value:
            best, value = trial, found
    return value, best


def _order(worth: Sequence[int], pieces: Sequence[Piece], chance: Random, spread: float) -> list[Piece]:
    """Big and worthy first, shaken."""
    most = max(worth)

    def key(piece: Piece) -> float:
        x, y, z = piece.shapes[0].size
        return sqrt(x * y * z * worth[piece.index] / most) * chance.uniform(1 - spread, 1 + spread)

    return sorted(pieces, key=key, reverse=True)


def _taken_out(state: State, chance: Random) -> list[int]:
    """All above a plane, or all beyond one: what is left still stands."""
    boxes = {index: it.box for index, it in state.at.items()}
    if not boxes:
        return []
    level = chance.choice([box[2] for box in boxes.values()])
    out = {index for index, box in boxes.items() if box[2] >= level}
    if chance.random() < 0.6:
        axis, side = chance.choice(((0, 1), (1, 1))), chance.random() < 0.5
        edge = chance.choice([box[axis[0]] for box in boxes.values()])
        out = {index for index, box in boxes.items() if (box[axis[0]] >= edge) == side}
    # Whatever stands on something that goes must go too.
    waiting = list(out)
    while waiting:
        below = boxes[waiting.pop()]
        for index, box in boxes.items():
            if index not in out and box[2] == below[5] and _shares_ground(box, below):
                out.add(index)
                waiting.append(index)
    return sorted(out)


def _shares_ground(one: Sequence[int], other: Sequence[int]) -> bool:
    return one[0] < other[3] and other[0] < one[3] and one[1] < other[4] and other[1] < one[4]
