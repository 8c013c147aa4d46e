"""What the bound holds true of one room by itself: floors, layers, volume, mass, pairs, kits."""

import math
import time
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from solver.cuts import Boxes, clashes
from solver.pieces import PROOF_SPARE_G, Piece, Room, Six
from solver.problem import Problem
from solver.slots import Members, Slot, fit_in, slots_of

Ints = NDArray[np.int64]
MM3_A_CM3 = 1000
PLACES = 10_000
"""Shares of a cut are whole numbers of this part."""


@dataclass(frozen=True)
class Row:
    """Σ share · count ≤ limit, in whole numbers; by slot of a room, or by kind."""

    shares: Ints
    limit: int


@dataclass
class RoomRows:
    """One room: its slots, and rows that every lawful content of it keeps."""

    room: Room
    slots: list[Slot]
    kinds: tuple[int, ...]
    most: dict[int, int]
    """By kind: the most copies that it may take."""
    boxes: Boxes
    clash: NDArray[np.bool_]
    """By pair of kinds, as in `kinds`: no two of their boxes fit together; or a pair that may not share a space."""
    floors: list[Row] = field(default_factory=list)
    """By slot, in mm²: planes, and cuts found later in parts of one."""
    layers: list[Row] = field(default_factory=list)
    """By slot, in cm³."""
    masses: list[Row] = field(default_factory=list)
    """By kind, in cm³ and g."""
    kits: list[tuple[int, ...]] = field(default_factory=list)
    """Kinds that come all together or not at all."""


def rooms_of(problem: Problem, members: Members, grid_mm: int, ends: float) -> list[RoomRows]:
    """Every room that takes some of the carried things.

    Raises TimeoutError when the moment `ends` by the monotonic clock comes before all are made.
    """
    away = {room for room, host in problem.host.items() if problem.pieces[host].kind not in members}
    found = []
    for room in problem.rooms:
        if time.monotonic() > ends:
            raise TimeoutError
        rows = None if room.index in away else _room(problem, members, room, grid_mm)
        if rows is not None:
            found.append(rows)
    return found


def _room(problem: Problem, members: Members, room: Room, grid_mm: int) -> RoomRows | None:
    slots = slots_of(problem, members, room, grid_mm)
    if not slots:
        return None
    kinds = tuple(sorted({slot.kind for slot in slots}))
    rows = RoomRows(
        room,
        slots,
        kinds,
        {kind: _most(problem, members[kind], room) for kind in kinds},
        _boxes(room, slots, grid_mm),
        _apart(problem, members, room, slots, kinds),
    )
    _kits(members, rows)
    _planes(rows, grid_mm)
    _masses(problem, members, rows)
    return rows


def _most(problem: Problem, members: Sequence[Piece], room: Room) -> int:
    spread = members[0].thing.spread
    return min(sum(fit_in(problem, p, room) is not None for p in members), max(1, len(members) - max(0, spread - 1)))


def _kits(members: Members, rows: RoomRows) -> None:
    """A kit that stays together is here whole or not at all."""
    kits: dict[str, set[int]] = defaultdict(set)
    for kind, pieces in members.items():
        if pieces[0].thing.kit and pieces[0].thing.together:
            kits[pieces[0].thing.kit].add(kind)
    for kit in kits.values():
        if all(rows.most.get(kind, 0) == len(members[kind]) for kind in kit):
            rows.kits.append(tuple(sorted(kit)))
        else:
            rows.most.update(dict.fromkeys(kit & rows.most.keys(), 0))


def _boxes(room: Room, slots: list[Slot], grid_mm: int) -> Boxes:
    """What the cuts look at in a room."""
    ways = max(len(slot.ways) for slot in slots)
    along = np.array([[w[0] for w in (s.ways * ways)[:ways]] for s in slots])
    across = np.array([[w[1] for w in (s.ways * ways)[:ways]] for s in slots])
    crossing = np.array([[s.crosses(p) for s in slots] for p in range(0, room.size[2], grid_mm)], dtype=bool)
    return Boxes(room.index, room.size, along, across, np.array([s.dz for s in slots]), crossing)


def _apart(
    problem: Problem, members: Members, room: Room, slots: list[Slot], kinds: tuple[int, ...]
) -> NDArray[np.bool_]:
    sizes: dict[int, set[tuple[int, int, int]]] = {kind: set() for kind in kinds}
    for s in slots:
        sizes[s.kind] |= {(*way, s.dz) for way in s.ways}
    top = [room.space.face == "top" and members[kind][0].wanted.never_under for kind in kinds]
    apart = clashes([np.array(sorted(sizes[kind])) for kind in kinds], room.size, top)
    for i, kind in enumerate(kinds):
        for j, other in enumerate(kinds):
            apart[i, j] |= bool(problem.vetoes.of[kind].get(other))
    return apart


def _planes(rows: RoomRows, grid_mm: int) -> None:
    """At every plane the boxes that cross it lie side by side; every layer holds so much, and so does the room.

    In what stays free above a thing there may be a fixed box or the way of a slide, unless it reaches to the floor:
    it is not taken off twice.
    """
    x, y, z = rows.room.size
    blocks = () if _overlapping(rows.room) else (*rows.room.solids, *rows.room.keep_out)
    standing = tuple(block for block in blocks if block[2] <= rows.room.low[2])
    if len(standing) < len(blocks) and any(s.column for s in rows.slots):
        _levels(rows, rows.slots, standing, grid_mm)
        _levels(rows, [replace(s, column=False) for s in rows.slots], blocks, grid_mm)
    else:
        _levels(rows, rows.slots, blocks, grid_mm)
    free = x * y * z - _filled(rows.room, blocks, 0, z)
    volume = {s.kind: s.poured_mm3 or s.area * s.dz for s in rows.slots}
    shares = np.array([volume[kind] // MM3_A_CM3 for kind in rows.kinds])
    rows.masses.append(Row(shares, math.ceil(free / MM3_A_CM3)))


def _levels(rows: RoomRows, slots: list[Slot], blocks: tuple[Six, ...], grid_mm: int) -> None:
    """A row for every plane and every layer, without what fixed boxes take of it."""
    x, y, z = rows.room.size
    for low in range(0, z, grid_mm):
        high = min(z, low + grid_mm)
        area = np.array([s.area if s.crosses(low) else 0 for s in slots])
        if area.any():
            rows.floors.append(Row(area, x * y - _filled(rows.room, blocks, low, low + 1)))
        held = np.array([s.layer_mm3(low, high) // MM3_A_CM3 for s in slots])
        free = x * y * (high - low) - _filled(rows.room, blocks, low, high)
        rows.layers.append(Row(held, math.ceil(free / MM3_A_CM3)))


def _filled(room: Room, blocks: tuple[Six, ...], low: int, high: int) -> int:
    """Volume in mm³ that fixed boxes take of a room between two heights above its floor."""
    low, high = low + room.low[2], high + room.low[2]
    total = 0
    for b in blocks:
        sides = [min(b[i + 3], room.high[i]) - max(b[i], room.low[i]) for i in (0, 1)]
        sides.append(min(b[5], high) - max(b[2], low))
        total += math.prod(max(0, side) for side in sides)
    return total


def _masses(problem: Problem, members: Members, rows: RoomRows) -> None:
    room = rows.room
    tied = room.tied_g if room.space.holds == "tie_downs" else None
    limits = [limit for limit in (room.proof_limit_g, tied) if limit is not None]
    if limits:
        masses = {tuple(members[kind][0].proof_g[t] for kind in rows.kinds) for t in range(len(problem.stages))}
        rows.masses += [Row(np.array(grams), min(limits) + PROOF_SPARE_G) for grams in sorted(masses)]


def _overlapping(room: Room) -> bool:
    """Whether fixed boxes of a room overlap each other; their volumes then do not add up."""
    boxes = (*room.solids, *room.keep_out)
    return any(
        all(a[i] < b[i + 3] and b[i] < a[i + 3] for i in range(3)) for n, a in enumerate(boxes) for b in boxes[n + 1 :]
    )
