"""The ways a piece may lie: turns of a listed size, and boxes of a volume for soft things."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from models.case import Case, Copy, copy_of
from models.gear import Thing
from models.geometry import LEAST_SOFT_SIDE_MM, TURNS, Point, facings, gaps_as_placed, turned
from models.plan import Facing, Plan, Turn
from solver.eligible import listed_sizes
from solver.soft import soft_mm3, soft_sizes


@dataclass(frozen=True)
class Shape:
    """One way a piece may lie: sides and air gaps in mm."""

    size: Point
    turn: Turn
    facing: Facing | None
    before: Point = (0, 0, 0)
    """Air gaps at the front, left and bottom in mm."""
    behind: Point = (0, 0, 0)
    """Air gaps at the rear, right and top in mm."""


def seen_shapes(plan: Plan | None) -> dict[str, tuple[Point, ...]]:
    """The sizes in mm that a plan gives to its things, by name."""
    found: dict[str, dict[Point, None]] = {}
    for placement in plan.placements if plan else ():
        found.setdefault(placement.thing, {})[placement.size_mm] = None
    return {name: tuple(sizes) for name, sizes in found.items()}


def seen_turns(case: Case, plan: Plan | None) -> dict[tuple[Copy, Point], Turn]:
    """By copy and its size in mm: the turn that a plan gives to it, where it may have that.

    A box with two like sides is the same box in more than one turn, and one alone stands for them in a search.
    """
    found: dict[tuple[Copy, Point], Turn] = {}
    for placement in plan.placements if plan else ():
        thing = case.thing_named.get(placement.thing)
        if thing is not None and thing.air_gap_mm is None and placement.turn in _turns(case, thing, placement.size_mm):
            found[copy_of(placement), placement.size_mm] = placement.turn
    return found


def _turns(case: Case, thing: Thing, size: Point) -> list[Turn]:
    """The turns in which a thing with a listed size is a box of a size."""
    if thing.size_mm is None:
        return []
    own = thing.size_mm
    return [turn for turn in TURNS[thing.turns] if turned(own, turn) == size and _may_be(case, thing, turn)]


def _may_be(case: Case, thing: Thing, turn: Turn) -> bool:
    """Whether the hazard of a thing lets it lie so: some have to stay upright."""
    hazard = case.rulebook.hazards.get(thing.hazard) if thing.hazard else None
    return hazard is None or not hazard.upright or turn.endswith("h")


def shapes_of(
    case: Case, thing: Thing, rooms: Iterable[Point], free: Iterable[Point], seen: Iterable[Point] = ()
) -> tuple[Shape, ...]:
    """Every shape of a thing; `rooms`: sizes in mm of the spaces that may take it; `free`: what of each it may use.

    A soft thing may also keep a size it was seen with, where that holds its volume.
    """
    if thing.size_mm is None:
        return tuple(Shape(size, "lwh", None) for size in _soft(soft_mm3(thing), rooms, free, seen))
    made = []
    for turn, size in listed_sizes(thing):
        if not _may_be(case, thing, turn):
            continue
        for facing in facings(thing, turn):
            gap = gaps_as_placed(thing.air_gap_mm, facing)
            before, behind = (gap["front"], gap["left"], gap["bottom"]), (gap["rear"], gap["right"], gap["top"])
            made.append(Shape(size, turn, facing, before, behind))
    return tuple(made)


def _soft(volume_mm3: int, rooms: Iterable[Point], free: Iterable[Point], seen: Iterable[Point]) -> Iterable[Point]:
    lawful = (s for s in seen if min(s) >= LEAST_SOFT_SIDE_MM and math.prod(s) >= volume_mm3)
    sizes: dict[Point, None] = dict.fromkeys(lawful)
    for room in rooms:
        sizes.update(dict.fromkeys(soft_sizes(volume_mm3, room)))
    for part in free:
        # Below seat backs none of those may lie, and a thing that finds no shape is told to have no place at all.
        if min(part) >= LEAST_SOFT_SIDE_MM and not any(_goes_in(size, part) for size in sizes):
            sizes.update(dict.fromkeys(soft_sizes(volume_mm3, part)))
    return sizes


def _goes_in(size: Point, part: Point) -> bool:
    return all(side <= most for side, most in zip(size, part, strict=True))
