"""The assignment part of a trip alone: bars of one cross-section in shelves one bar high, so that lengths add up.

Each bar fills the width of its shelf and no two lie on each other; which shelf a bar is in is all there is to decide.
"""

from dataclasses import dataclass
from random import Random
from typing import Any

import numpy as np
from scipy.optimize import LinearConstraint, milp

from models.case import Case
from models.reading import case_from

SIDE_MM = 200
"""Width and height of a bar."""


@dataclass(frozen=True)
class Bars:
    """Bars and shelves."""

    length_mm: tuple[int, ...]
    mass_kg: tuple[float, ...]
    used_up: tuple[float, ...]
    """Share of each bar's mass that is gone at the second stage."""
    shelf_mm: tuple[int, ...]
    """Length of each shelf."""
    floor_mm: tuple[int, ...]
    """Height of the floor of each shelf."""
    limit_kg: tuple[float, ...]
    """What each shelf bears."""
    rack_kg: float
    """What all but the first two shelves bear together, hanging on one rack."""


def bars_by_chance(seed: int) -> Bars:
    """A small problem; about one in six has no answer."""
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    bars, shelves = chance.randint(4, 9), chance.randint(3, 5)
    length = tuple(50 * chance.randint(2, 12) for _ in range(bars))
    mass = tuple(chance.randint(10, 300) / 10 for _ in range(bars))
    room = chance.uniform(0.95, 1.5) * sum(length) / shelves
    return Bars(
        length,
        mass,
        tuple(chance.choice((0.0, 0.0, 0.5, 0.9)) for _ in range(bars)),
        tuple(max(*length, 50 * round(room * chance.uniform(0.7, 1.3) / 50)) for _ in range(shelves)),
        tuple(chance.randrange(500, 2000, 10) for _ in range(shelves)),
        tuple(round(sum(mass) * chance.uniform(0.3, 0.8), 1) for _ in range(shelves)),
        round(sum(mass) * chance.uniform(0.2, 0.8), 1),
    )


def case_of(bars: Bars) -> Case:
    """The case that asks for these bars in these shelves."""
    gear = [
        {"name": f"bar {i:03}", "mass_kg": kg, "size_mm": [mm, SIDE_MM, SIDE_MM], "turns": "fixed", "access": "seldom",
         **({"uses_up": {"use": kg * gone}} if gone else {})}
        for i, (mm, kg, gone) in enumerate(zip(bars.length_mm, bars.mass_kg, bars.used_up, strict=True))
    ]  # fmt: skip
    spaces = [
        {"name": f"shelf {s:02}", "corner_mm": [1000, (SIDE_MM + 60) * s, z], "size_mm": [mm, SIDE_MM, SIDE_MM + 90],
         "limit_kg": kg, "air": "canopy", "opening": "tailgate", "face": "top", "on": ["rack"] if s > 1 else []}
        for s, (mm, z, kg) in enumerate(zip(bars.shelf_mm, bars.floor_mm, bars.limit_kg, strict=True))
    ]  # fmt: skip
    stages: list[dict[str, Any]] = [{"name": "full", "surface": "off_road"}]
    if any(bars.used_up):
        stages.append({"name": "used", "surface": "off_road", "left": {"use": 0.0}})
    trip = {"name": "bars", "stages": stages, "streams": {"use": {}} if any(bars.used_up) else {}, "reserve_kg": 0}
    return case_from(vehicle(spaces, bars.rack_kg), gear, trip)


def vehicle(spaces: list[dict[str, Any]], rack_kg: float) -> dict[str, Any]:
    """A vehicle with these spaces and one rack, its own limits so wide that none binds."""
    return {
        "name": "bench", "wheelbase_mm": 3000, "track_mm": 1580,
        "outline_mm": {"front": -2000, "rear": 30000, "width": 30000, "height": 4000},
        "kerb": {"front_kg": KERB_KG / 2, "rear_kg": KERB_KG / 2, "cg_height_mm": KERB_HEIGHT_MM},
        "limits": {"gvm_kg": 90000, "front_axle_kg": 90000, "rear_axle_kg": 90000, "front_share_min": 0.0,
                   "side_difference_share": 1.0},
        "air": {"canopy": "sealed"}, "openings": [{"name": "tailgate", "side": "rear"}],
        "racks": [{"name": "rack", "limits": {"any_kg": rack_kg}}], "spaces": spaces,
    }  # fmt: skip


KERB_KG, KERB_HEIGHT_MM = 2000.0, 700.0


def second_opinion_mm(bars: Bars, seconds: float = 60.0) -> tuple[float | None, bool]:
    """Least height in mm by a general-purpose solver (None: there is no answer), and whether it is proven.

    Columns: bar i in shelf s, then the height; rows: every bar once, shelves' lengths and limits, the rack, stages.
    """
    n, m = len(bars.length_mm), len(bars.shelf_mm)
    rows, low, high = [], [], []

    def row(
        weights: "np.ndarray[tuple[int, int], np.dtype[np.float64]]", least: float, most: float, tall: float
    ) -> None:
        rows.append([*weights.ravel(), tall])
        low.append(least)
        high.append(most)

    mass, length = np.array(bars.mass_kg), np.array(bars.length_mm, dtype=float)
    for i in range(n):
        row(_block(n, m, i, slice(None), 1.0), 1, 1, 0)
    for s in range(m):
        row(_block(n, m, slice(None), s, length), -np.inf, bars.shelf_mm[s], 0)
        row(_block(n, m, slice(None), s, mass), -np.inf, bars.limit_kg[s], 0)
    row(_block(n, m, slice(None), slice(2, None), mass[:, None]), -np.inf, bars.rack_kg, 0)
    for share in (0.0, 1.0) if any(bars.used_up) else (0.0,):
        now = mass * (1 - share * np.array(bars.used_up))
        centre = np.array(bars.floor_mm) + SIDE_MM / 2
        whole = KERB_KG + now.sum()
        row(np.outer(now, centre) / whole, -np.inf, -KERB_KG * KERB_HEIGHT_MM / whole, -1)
    found = milp(
        np.array([0.0] * (n * m) + [1.0]),
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=np.array([1] * (n * m) + [0]),
        bounds=(0, np.array([1.0] * (n * m) + [np.inf])),
        options={"time_limit": seconds, "mip_rel_gap": 1e-9},
    )
    return (None if found.x is None else float(found.fun)), found.status in {0, 2}


def _block(n: int, m: int, bars: Any, shelves: Any, values: Any) -> "np.ndarray[tuple[int, int], np.dtype[np.float64]]":
    weights = np.zeros((n, m))
    weights[bars, shelves] = values
    return weights
