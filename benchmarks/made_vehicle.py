"""The vehicle of a trip made by chance: shelves, trays and holders that do not meet, limits that leave a little."""

import random
from dataclasses import dataclass
from typing import Any

Data = dict[str, Any]

HOLDERS = 4
"""Spaces outside for cans and bottles, beside those asked for inside."""
OPEN_SHARE = 0.12
"""Part of the spaces that lie on the roof."""


@dataclass(frozen=True)
class Wanted:
    """What a trip made by chance holds."""

    things: int = 30
    """Copies in all."""
    spaces: int = 12
    stages: int = 3
    fill: float = 0.4
    """Volume of all copies as a part of that of all spaces for anything."""
    optional: float = 0.15
    """Part of the things that may stay at home."""
    mixed: bool = True
    """Whether there are hazards, soft things, air gaps and things needed at once; else boxes alone."""


def spaces_made(chance: random.Random, wanted: Wanted) -> list[Data]:
    """Shelves left and right of an aisle in layers, trays on the roof, holders behind."""
    on_roof = max(1, round(OPEN_SHARE * wanted.spaces)) if wanted.mixed and wanted.spaces > 3 else 0
    inside = wanted.spaces - on_roof
    layers = max(1, min(5, round((inside / 2) ** 0.5)))
    columns = -(-inside // (2 * layers))
    made: list[Data] = []
    for number in range(inside):
        column, rest = divmod(number, 2 * layers)
        layer, side = divmod(rest, 2)
        made.append(_shelf(chance, column, layer, side, columns, layers))
    made += [_tray(number, on_roof) for number in range(on_roof)]
    if wanted.mixed:
        made += [_holder(number) for number in range(HOLDERS)]
    return made


def _shelf(chance: random.Random, column: int, layer: int, side: int, columns: int, layers: int) -> Data:
    pitch_x, pitch_z = min(700, 2200 // columns), min(480, 1200 // layers)
    # A box of about the wanted litres, a little smaller than its pitch so that walls lie between.
    size = [
        pitch_x - 20 - 10 * chance.randrange(4),
        640 - 20 * chance.randrange(8),
        pitch_z - 20 - 10 * chance.randrange(4),
    ]
    y = -660 if side == 0 else 660 - size[1]
    name, flap = f"shelf {column + 1}{'lr'[side]}{layer + 1}", "left flap" if side == 0 else "right flap"
    return {
        "name": name, "corner_mm": [2100 + column * pitch_x, y, 600 + layer * pitch_z], "size_mm": size,
        "limit_kg": round(40 + chance.random() * 60), "air": "canopy", "opening": flap,
        "face": "left" if side == 0 else "right", "on": ["load bed"],
        "heat": "cool" if layer == 0 else "cabin", "weather": chance.choice(["dry", "dry", "splash"]),
    }  # fmt: skip


def _tray(number: int, count: int) -> Data:
    length = 2000 // count - 20
    return {
        "name": f"roof tray {number + 1}", "corner_mm": [1300 + number * (length + 20), -550, 1900],
        "size_mm": [length, 1100, 400], "limit_kg": 40, "on": ["roof rack"], "air": "outside", "opening": "roof",
        "holds": "tie_downs", "tie_downs": [{"rated_dan": 100} for _ in range(2)], "weather": "exposed", "heat": "hot",
    }  # fmt: skip


def _holder(number: int) -> Data:
    return {
        "name": f"holder {number + 1}", "corner_mm": [4480, -800 + number * 400, 900], "size_mm": [380, 380, 520],
        "limit_kg": 30, "on": ["carrier"], "air": "outside", "opening": "behind", "holds": "holder",
        "weather": "exposed", "accepts": ["can", "bottle"],
    }  # fmt: skip


def vehicle_made(chance: random.Random, spaces: list[Data], gear: list[Data]) -> Data:
    """A vehicle that bears the load with a little to spare: the rear axle has less to spare than the total."""
    load_kg = sum(thing.get("count", 1) * _most_kg(thing) for thing in gear)
    front_kg, rear_kg = 1250.0, 950.0
    spare = chance.uniform(60, 160)
    return {
        "name": "Made by chance", "wheelbase_mm": 3300, "track_mm": 1600,
        "outline_mm": {"front": -900, "rear": 4900, "width": 1900, "height": 2000},
        "kerb": {"front_kg": front_kg, "rear_kg": rear_kg, "cg_height_mm": 700, "aboard_l": {"main tank": 80}},
        "limits": {
            "gvm_kg": round(front_kg + rear_kg + 70 + load_kg + spare + 40),
            "front_axle_kg": round(front_kg + 0.4 * load_kg + 150),
            "rear_axle_kg": round(rear_kg + 40 + 0.95 * load_kg + spare),
            "front_share_min": 0.2, "side_difference_share": 0.08,
        },
        "seats": [{"name": "driver", "at_mm": [1500, 380, 800], "back_top_z_mm": 1150}],
        "tanks": [{"name": "main tank", "fluid": "diesel", "holds_l": 80, "at_mm": [2300, -100, 550]}],
        "racks": [
            {"name": "load bed", "limits": {"any_kg": round(load_kg + 50)}},
            {"name": "roof rack", "limits": {"parked_kg": 150, "sealed_road_kg": 80, "off_road_kg": 50}},
            {"name": "carrier", "own_mass_kg": 20, "limits": {"any_kg": 110}},
        ],
        "air": {"canopy": "sealed", "outside": "open"},
        "openings": [
            {"name": "left flap", "side": "left"}, {"name": "right flap", "side": "right"},
            {"name": "behind", "side": "rear"}, {"name": "roof", "side": "top"},
        ],
        "spaces": spaces,
    }  # fmt: skip


def _most_kg(thing: Data) -> float:
    mass = thing["mass_kg"]
    return float(mass["most"] if isinstance(mass, dict) else mass)
