"""A height that no layout of a set of things can beat.

What links the rooms (every kind comes whole, racks, the rear axle, the driving stages) is not asked but paid for, by
tolls. Then each room is a small program by itself, solved in whole things, and the sum of their proven leasts is a
bound whatever the tolls: Geoffrion (1974), "Lagrangean relaxation for integer programming" (from memory). Tolls begin
at those of a linear form of all rooms at once, whose least height is a bound too; they get better as time allows.
"""

import time
from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from solver.beside import GiveWay
from solver.blend import Blend
from solver.fillings import Filler
from solver.levels import Levels, Tolls
from solver.links import Links, links_of
from solver.pieces import Piece
from solver.problem import Problem
from solver.room_rows import rooms_of
from solver.slots import grid_for

MOST_ROUNDS = 6
"""Rounds of cuts in the linear form."""
KEPT_SHARE = 0.95
"""Share of the time that is planned with; a step that is under way ends in the rest."""
LINEAR_SHARE = 0.6
"""Share of the time that the linear form may take."""
ROOM_S = 1.0
"""Longest look at one room in seconds; what is proven by then counts."""
FIRST_REACH_MM = 15.0
"""By how much heights in a room may be thought better or worse at first."""
WIDER, NARROWER = 1.5, 0.4
"""Changes of that where the bound rose as hoped, and where it fell."""
HOPED = 0.2
"""It rose as hoped when it did so by this share of what was seen as possible."""
CLOSE_MM = 0.01
"""Nothing more is to be had when no more than this was seen as possible."""
SAFETY_MM = 1e-3
"""Taken off the bound for the rounding of the linear solver in mm."""


@dataclass(frozen=True)
class Bound:
    """A proven bound on the height at the highest driving stage in mm; None when there was no time for one."""

    height_mm: float | None


def height_bound(
    problem: Problem, carried: frozenset[int], seconds: float, give_way: GiveWay[Bound] = lambda _: None
) -> Bound:
    """The bound for a set of pieces: the linear form, then rooms in whole things as long as time allows.

    `give_way` is told the one that the linear form gives: after that it hardly rises, and others may go first.
    """
    began, seconds = time.monotonic(), KEPT_SHARE * seconds
    members: dict[int, list[Piece]] = defaultdict(list)
    for index in sorted(carried):
        members[problem.pieces[index].kind].append(problem.pieces[index])
    if not problem.driving or not members:
        return Bound(None)
    try:
        rooms = rooms_of(problem, members, grid_for(problem, members), began + seconds)
        links = links_of(problem, members, rooms)
        levels = Levels(rooms, links, began + seconds)
        linear = _linear(levels, began + LINEAR_SHARE * seconds, began + seconds)
        if linear is None:
            return Bound(None)
        give_way(linear[0])
        return _whole(levels, linear, began + seconds)
    except TimeoutError:
        return Bound(None)


def _linear(levels: Levels, cuts_until: float, ends: float) -> tuple[Bound, Tolls] | None:
    """The bound and the tolls of the linear form, made sharper by cuts."""
    best = None
    for _ in range(MOST_ROUNDS):
        left = ends - time.monotonic()
        answer = levels.solve(left) if left > 0 else None
        if answer is None:
            break
        height_mm, tolls, values = answer
        best = Bound(height_mm - SAFETY_MM), tolls
        if time.monotonic() > cuts_until or not levels.sharpen(values):
            break
    return best


def _whole(levels: Levels, linear: tuple[Bound, Tolls], ends: float) -> Bound:
    """The higher of the linear form's bound and of what rooms in whole things give, with better and better tolls."""
    best, tolls = linear
    climb = Climb(levels, tolls)
    while climb.ready(ends):
        height_mm = climb.step(ends)
        if height_mm is None:
            break
        if best.height_mm is None or height_mm - SAFETY_MM > best.height_mm:
            best = Bound(height_mm - SAFETY_MM)
        if not climb.turn(height_mm, ends):
            break
    return best


class Climb:
    """Tolls on their way up."""

    def __init__(self, levels: Levels, tolls: Tolls) -> None:
        self.links, self.rooms = levels.links, levels.rooms
        self.blend = Blend(levels.links, [rows.room.index for rows in levels.rooms])
        self.fillers: list[Filler] = []
        self.tolls = self.near = tolls
        self.best_mm = -np.inf
        self.hope_mm = np.inf
        self.reach_mm = FIRST_REACH_MM

    def ready(self, ends: float) -> bool:
        """Whether every room has its program; they are made as far as time allows."""
        while len(self.fillers) < len(self.rooms):
            if time.monotonic() > ends:
                return False
            number = len(self.fillers)
            self.fillers.append(Filler(number, self.rooms[number], self.links.lifts[number]))
        return time.monotonic() < ends

    def step(self, ends: float) -> float | None:
        """The bound in mm at the tolls as they are; None when time ran out before every room was looked at."""
        total = paid_mm(self.links, self.tolls)
        for filler in self.fillers:
            left = ends - time.monotonic()
            if left <= 0:
                return None
            room = filler.rows.room.index
            worth = [worth_mm(self.links, self.tolls, kind, room) for kind in filler.rows.kinds]
            least, filling = filler.least(np.array(worth), self.tolls.stages, min(ROOM_S, left))
            total += least
            if filling is not None:
                self.blend.add(filling)
        return total

    def turn(self, height_mm: float, ends: float) -> bool:
        """Go on from the better tolls; whether more is to be had."""
        if height_mm > self.best_mm:
            if height_mm - self.best_mm > HOPED * (self.hope_mm - self.best_mm):
                self.reach_mm *= WIDER
            self.best_mm, self.near = height_mm, self.tolls
        else:
            self.reach_mm *= NARROWER
        left = ends - time.monotonic()
        found = self.blend.next(self.near, self.reach_mm, left) if left > 0 else None
        if found is None:
            return False
        self.hope_mm, self.tolls = found
        return self.hope_mm - self.best_mm > CLOSE_MM


def paid_mm(links: Links, tolls: Tolls) -> float:
    """What the tolls bring before any room is looked at, and the bare vehicle's height, in mm."""
    copies = sum(n * tolls.copies[kind] for kind, n in links.copies.items())
    loads = sum(limit * toll for (_, limit), toll in zip(links.loads, tolls.loads.tolist(), strict=True))
    return float(copies + float(tolls.stages @ links.still_mm) - loads)


def worth_mm(links: Links, tolls: Tolls, kind: int, room: int) -> float:
    """What a copy of a kind in a room is worth at the tolls, in mm."""
    loads = zip(links.loads, tolls.loads.tolist(), strict=True)
    return tolls.copies[kind] - sum((shares.get((kind, room), 0.0) * toll for (shares, _), toll in loads), 0.0)
