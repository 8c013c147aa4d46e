"""Sharper rows for the bound: what cannot lie side by side, seen through dual feasible functions and pairs.

A dual feasible function f on a side s of a length L keeps Σ f(s) ≤ 1 for any sides that fit in L; products over the
axes keep it for boxes. Fekete, Schepers (2004), "A general framework for bounds for higher-dimensional orthogonal
packing problems"; the functions are theirs and those of Lueker (from memory).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
LEAST_VIOLATION = 1e-3


def _steps(k: int) -> Callable[[Ints, int], Floats]:
    def f(side: Ints, length: int) -> Floats:
        times = (k + 1) * side
        whole = times % length == 0
        return np.where(whole, side / length, (times // length) / k)

    return f


def _threshold(parts: int) -> Callable[[Ints, int], Floats]:
    def f(side: Ints, length: int) -> Floats:
        low = parts * side < length
        high = parts * (length - side) < length
        return np.where(high, 1.0, np.where(low, 0.0, side / length))

    return f


def _plain(side: Ints, length: int) -> Floats:
    return side / length


FUNCTIONS: tuple[Callable[[Ints, int], Floats], ...] = (
    _plain,
    _steps(1),
    _steps(2),
    _steps(3),
    _threshold(3),
    _threshold(4),
    _threshold(6),
)
"""Dual feasible functions of a side in mm and a length in mm."""


@dataclass(frozen=True)
class Boxes:
    """The slots of one room as arrays: one row per slot, one column per way its box may lie at its height."""

    room: int
    length: tuple[int, int, int]
    along: Ints
    across: Ints
    """Sides in mm; ways that do not exist repeat the first."""
    up: Ints
    crossing: NDArray[np.bool_]
    """By plane and slot: whether the slot certainly crosses the plane."""


@dataclass(frozen=True)
class Cut:
    """Σ share · count ≤ 1 over slots of one room."""

    slots: Ints
    shares: Floats


def violated(boxes: Boxes, values: Floats, most: int) -> list[Cut]:
    """Cuts that the values of the slots break, the worst first."""
    along = [f(boxes.along, boxes.length[0]) for f in FUNCTIONS]
    across = [f(boxes.across, boxes.length[1]) for f in FUNCTIONS]
    up = [f(boxes.up, boxes.length[2]) for f in FUNCTIONS]
    floors = np.stack([(a * b).min(axis=1) for a in along for b in across])
    found: list[tuple[float, Cut]] = []
    used = values > 1e-9
    sums = (floors[:, None, used] * (boxes.crossing[None, :, used] * values[used])).sum(axis=2)
    for plane in range(sums.shape[1]):
        best = int(sums[:, plane].argmax())
        if sums[best, plane] > 1 + LEAST_VIOLATION:
            found.append((float(sums[best, plane]), _cut(floors[best] * boxes.crossing[plane])))
    for f in up:
        whole = (floors[:, used] * (f[used] * values[used])).sum(axis=1)
        best = int(whole.argmax())
        if whole[best] > 1 + LEAST_VIOLATION:
            found.append((float(whole[best]), _cut(floors[best] * f)))
    found.sort(key=lambda pair: -pair[0])
    return [cut for _, cut in found[:most]]


def _cut(shares: Floats) -> Cut:
    slots = np.flatnonzero(shares > 1e-9)
    return Cut(slots, shares[slots])


def clashes(sizes: Sequence[Ints], length: tuple[int, int, int], both_on_top: Sequence[bool]) -> NDArray[np.bool_]:
    """By pair of kinds: whether no two of their boxes fit a room together; the diagonal is two copies of one kind.

    `sizes` holds the boxes of each kind (rows [along, across, up] in mm); two kinds that both need nothing above them
    cannot be told apart in height alone.
    """
    owner = np.concatenate([np.full(len(rows), n) for n, rows in enumerate(sizes)])
    rows = np.concatenate(list(sizes))
    together = rows[:, None, :] + rows[None, :, :] <= np.asarray(length)
    top = np.asarray(both_on_top)[owner]
    side_by_side = together[:, :, 0] | together[:, :, 1] | (together[:, :, 2] & ~(top[:, None] & top[None, :]))
    count = len(sizes)
    fits = np.zeros((count, count), dtype=bool)
    np.logical_or.at(fits, (owner[:, None], owner[None, :]), side_by_side)
    return ~fits


def clique(clash: NDArray[np.bool_], values: Floats) -> list[int]:
    """Kinds of which at most one copy fits a room, chosen by their values; empty where the values break nothing."""
    chosen: list[int] = []
    for kind in np.argsort(-values, kind="stable"):
        if values[kind] <= 1e-9:
            break
        if clash[kind, kind] and all(clash[kind, other] for other in chosen):
            chosen.append(int(kind))
    if sum(values[kind] for kind in chosen) <= 1 + LEAST_VIOLATION:
        return []
    rest = [k for k in range(len(values)) if k not in chosen and clash[k, k] and all(clash[k, o] for o in chosen)]
    for kind in rest:
        if all(clash[kind, other] for other in chosen):
            chosen.append(kind)
    return chosen
