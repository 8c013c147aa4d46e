"""Makes trips by chance, physically consistent: spaces that do not meet, boxes, soft things, hazards, air gaps.

Run: python -m benchmarks.generate FOLDER [--things 200] [--spaces 40] [--stages 3] [--seed 1] writes such a trip.
"""

import random
from pathlib import Path

import yaml

from benchmarks.made_vehicle import Data, Wanted, spaces_made, vehicle_made
from benchmarks.table import parser
from models.case import Case
from models.reading import case_from
from models.writing import replace_whole

__all__ = ["Wanted", "made_case", "trip_parts", "write_trip"]


def trip_parts(seed: int, wanted: Wanted) -> tuple[Data, list[Data], Data]:
    """Vehicle, gear and trip as plain data; the same seed gives the same trip."""
    chance = random.Random(seed)  # noqa: S311 - a trip by chance, not a secret
    spaces = spaces_made(chance, wanted)
    gear = _gear(chance, wanted, spaces)
    trip = _trip(wanted, sorted({stream for thing in gear for stream in thing.get("uses_up", ())}))
    return vehicle_made(chance, spaces, gear), gear, trip


def made_case(seed: int, wanted: Wanted) -> Case:
    """The checked case of such a trip."""
    return case_from(*trip_parts(seed, wanted))


def _gear(chance: random.Random, wanted: Wanted, spaces: list[Data]) -> list[Data]:
    special = _special() if wanted.mixed and wanted.things >= 20 else []
    plain = [space["size_mm"] for space in spaces if "accepts" not in space]
    litres = wanted.fill * sum(a * b * c for a, b, c in plain) / 1e6
    count = wanted.things - sum(thing.get("count", 1) for thing in special)
    shares = [chance.lognormvariate(0, 0.6) for _ in range(count)]
    made = [_thing(chance, wanted, n, litres * share / sum(shares), plain) for n, share in enumerate(shares)]
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
    thing: Data = {
        "name": f"thing {number + 1}",
        "mass_kg": round(max(0.1, litres * density), 2),
        "access": "each_camp",
    }
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


def _nature(chance: random.Random, number: int, thing: Data) -> Data:  # noqa: PLR0911 - a kind of thing each
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


def write_trip(folder: Path, seed: int, wanted: Wanted) -> None:
    """Write the three files of such a trip."""
    folder.mkdir(parents=True, exist_ok=True)
    vehicle, gear, trip = trip_parts(seed, wanted)
    trip = {**trip, "vehicle": "vehicle.yaml", "gear": ["gear.yaml"]}
    for name, data in (("vehicle", vehicle), ("gear", gear), ("trip", trip)):
        replace_whole(folder / f"{name}.yaml", yaml.safe_dump(data, sort_keys=False, default_flow_style=None))


def main() -> None:
    """Write a trip made by chance."""
    asked = parser(__doc__)
    asked.add_argument("folder", type=Path)
    for name, value in (("things", 200), ("spaces", 40), ("stages", 3), ("seed", 1)):
        asked.add_argument(f"--{name}", type=int, default=value)
    given = asked.parse_args()
    write_trip(given.folder, given.seed, Wanted(given.things, given.spaces, given.stages))
    print(f"wrote {given.folder}")


if __name__ == "__main__":
    main()
