"""Makes trips by chance, physically consistent: spaces that do not meet, boxes, soft things, hazards, air gaps.

Run: python -m benchmarks.generate FOLDER [--things 200] [--spaces 40] [--stages 3] [--seed 1] writes such a trip.
"""

import argparse
import random
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from models.case import Case
from models.reading import case_from
from models.writing import replace_whole

Data = dict[str, Any]

HOLDERS = 4
"""Spaces outside for cans and bottles, beside those asked for inside."""
OPEN_SHARE = 0.12
"""Part of the spaces that lie on the roof."""
LITRES_A_SPACE = 75
"""Mean litres of a space inside."""


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


def trip_parts(seed: int, wanted: Wanted = Wanted()) -> tuple[Data, list[Data], Data]:
    """Vehicle, gear and trip as plain data; the same seed gives the same trip."""
    chance = random.Random(seed)  # noqa: S311 - a trip by chance, not a secret
    spaces = _spaces(chance, wanted)
    gear = _gear(chance, wanted, spaces)
    trip = _trip(wanted, sorted({stream for thing in gear for stream in thing.get("uses_up", ())}))
    return _vehicle(chance, spaces, gear), gear, trip


def made_case(seed: int, wanted: Wanted = Wanted()) -> Case:
    """The checked case of such a trip."""
    return case_from(*trip_parts(seed, wanted))


def _spaces(chance: random.Random, wanted: Wanted) -> list[Data]:
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
    for number in range(on_roof):
        made.append(_tray(number, on_roof))
    if wanted.mixed:
        made += [_holder(number) for number in range(HOLDERS)]
    return made


def _shelf(chance: random.Random, column: int, layer: int, side: int, columns: int, layers: int) -> Data:
    pitch_x, pitch_z = min(700, 2200 // columns), min(480, 1200 // layers)
    # A box of about the wanted litres, a little smaller than its pitch so that walls lie between.
    size = [pitch_x - 20 - 10 * chance.randrange(4), 640 - 20 * chance.randrange(8), pitch_z - 20 - 10 * chance.randrange(4)]
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
        "holds": "tie_downs", "tie_downs": [{"rated_dan": 100}] * 2, "weather": "exposed", "heat": "hot",
    }  # fmt: skip


def _holder(number: int) -> Data:
    return {
        "name": f"holder {number + 1}", "corner_mm": [4480, -800 + number * 400, 900], "size_mm": [380, 380, 520],
        "limit_kg": 30, "on": ["carrier"], "air": "outside", "opening": "behind", "holds": "holder",
        "weather": "exposed", "accepts": ["can", "bottle"],
    }  # fmt: skip


def _gear(chance: random.Random, wanted: Wanted, spaces: list[Data]) -> list[Data]:
    special = _special() if wanted.mixed and wanted.things >= 20 else []
    plain = [space["size_mm"] for space in spaces if "accepts" not in space]
    litres = wanted.fill * sum(a * b * c for a, b, c in plain) / 1e6
    count = wanted.things - sum(thing.get("count", 1) for thing in special)
    shares = [chance.lognormvariate(0, 0.6) for _ in range(count)]
    made = []
    for number, share in enumerate(shares):
        volume = litres * share / sum(shares)
        made.append(_thing(chance, wanted, number, volume, plain))
    return special + made


def _special() -> list[Data]:
    return [
        {"name": "petrol can", "count": 2, "mass_kg": 19.5, "size_mm": [350, 170, 470], "turns": "upright",
         "holder": "can", "hazard": "petrol", "holds_l": 20, "approved_can": True, "uses_up": {"fuel": 15}},
        {"name": "gas bottle", "mass_kg": 11, "size_mm": [260, 260, 430], "turns": "upright", "holder": "bottle",
         "hazard": "lpg", "net_kg": 4.5, "uses_up": {"gas": 4.5}},
    ]  # fmt: skip


def _thing(chance: random.Random, wanted: Wanted, number: int, litres: float, plain: list[list[int]]) -> Data:
    density = chance.choice([0.1, 0.2, 0.3, 0.3, 0.45, 0.7])
    thing: Data = {"name": f"thing {number + 1}", "mass_kg": round(max(0.1, litres * density), 2), "access": "each_camp"}
    if wanted.mixed and chance.random() < 0.2 and litres < 40:
        thing |= {"volume_l": round(litres, 1) or 0.1, "shape": "soft"}
    else:
        thing |= {"size_mm": _sides(chance, litres, plain), "turns": chance.choice(["any", "any", "upright", "fixed"])}
    if wanted.mixed:
        thing |= _nature(chance, number, thing)
    if chance.random() < wanted.optional:
        thing["carry"] = chance.randint(5, 90)
    return thing


def _sides(chance: random.Random, litres: float, plain: list[list[int]]) -> list[int]:
    """Sides of about a volume that fit in most spaces as they stand, in steps of 5 mm."""
    least = [sorted(size[axis] for size in plain)[len(plain) // 4] for axis in range(3)]
    stretch = [chance.uniform(0.7, 1.4) for _ in range(3)]
    edge = (litres * 1e6 / (stretch[0] * stretch[1] * stretch[2])) ** (1 / 3)
    return [max(30, min(least[axis] - 10, round(edge * stretch[axis] / 5) * 5)) for axis in range(3)]


def _nature(chance: random.Random, number: int, thing: Data) -> Data:
    kind = number % 20
    if kind == 3 and "size_mm" in thing:
        return {"hazard": "lithium", "keep": "cabin"}
    if kind == 5:
        return {"food": True, "uses_up": {"food": round(thing["mass_kg"] * 0.6, 2)}}
    if kind == 8:
        return {"hazard": "corrosive", "turns": "upright"} if "size_mm" in thing else {}
    if kind == 11 and "size_mm" in thing:
        return {"turns": "upright", "air_gap_mm": {"rear": 40, "top": 20}}
    if kind == 13:
        return {"access": "at_once"}
    if kind == 17:
        return {"mass_kg": {"least": round(thing["mass_kg"] * 0.9, 2), "likely": thing["mass_kg"],
                            "most": round(thing["mass_kg"] * 1.1, 2)}, "access": "each_stop"}  # fmt: skip
    return {"bears_kg": 10} if chance.random() < 0.15 and "size_mm" in thing else {}


def _trip(wanted: Wanted, streams: list[str]) -> Data:
    stages: list[Data] = [{"name": "leaving", "surface": "sealed_road"}]
    for number in range(1, wanted.stages):
        left = round(1 - number / wanted.stages, 2)
        surface = "parked" if number % 4 == 3 else "off_road"
        stages.append(
            {"name": f"day {number}", "surface": surface, "tanks": {"main tank": round(left * 0.95, 2)},
             "left": dict.fromkeys(streams, left)}
        )  # fmt: skip
    if wanted.stages > 1:
        stages[1] = {**stages[1], "surface": "off_road"}
    return {
        "name": "A trip made by chance", "people": [{"name": "Ena", "mass_kg": 70, "seat": "driver"}],
        "stages": stages, "streams": {name: {} for name in streams}, "reserve_kg": 20,
    }  # fmt: skip


def _vehicle(chance: random.Random, spaces: list[Data], gear: list[Data]) -> Data:
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


def write_trip(folder: Path, seed: int, wanted: Wanted) -> None:
    """Write the three files of such a trip."""
    folder.mkdir(parents=True, exist_ok=True)
    vehicle, gear, trip = trip_parts(seed, wanted)
    trip = {**trip, "vehicle": "vehicle.yaml", "gear": ["gear.yaml"]}
    for name, data in (("vehicle", vehicle), ("gear", gear), ("trip", trip)):
        replace_whole(folder / f"{name}.yaml", yaml.safe_dump(data, sort_keys=False, default_flow_style=None))


def main() -> None:
    """Write a trip made by chance."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    for name, value in (("things", 200), ("spaces", 40), ("stages", 3), ("seed", 1)):
        parser.add_argument(f"--{name}", type=int, default=value)
    given = parser.parse_args()
    write_trip(given.folder, given.seed, Wanted(given.things, given.spaces, given.stages))
    print(f"wrote {given.folder}")


if __name__ == "__main__":
    main()
