"""Every sentence of the verifier, as people read it: a sound plan, then one spoilt in many places, rule by rule.

LOWSTOW_REWRITE_GOLDEN=1 writes the golden text anew.
"""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

GOLDEN = Path(__file__).parent / "golden_sentences.txt"


def sound(_world: Any) -> None:
    """Nothing is changed."""


def copies(world: Any) -> None:
    world.plan["left_at_home"] = ({"thing": "jackets"}, {"thing": "ghost"}, {"thing": "water jug", "copy": 9})
    world.places["stove again"] = world.places["stove"] | {"corner_mm": (2620, 300, 1310)}
    del world.places["recovery kit"]
    del world.places["food box"]
    world.gear["camp oven"] |= {"count": 2, "all_or_none": True}
    world.places["camp oven"] = world.places["jackets"] | {"thing": "camp oven", "corner_mm": (1950, -300, 950)}


def home_and_must(world: Any) -> None:
    del world.places["jackets"]
    world.plan["left_at_home"] = ({"thing": "jackets"},)


def walls(world: Any) -> None:
    world.put("tool box", (2590, 95, 890))
    world.put("first aid", (1380, 560, 860))
    world.places["jackets"]["space"] = "cellar"
    world.places["stove"]["turn"] = "hlw"
    world.places["sleeping bag"]["size_mm"] = (400, 399, 100)
    world.places["sleeping bag #2"]["size_mm"] = (900, 300, 79)
    world.places["food box"]["space"] = "can holder"
    world.places["fridge"]["facing"] = "left"
    world.gear["tool box"]["holder"] = "tool clip"
    world.put("recovery kit", (3140, 50, 900))


def crowded(world: Any) -> None:
    world.put("tool box", (2980, 100, 900))
    world.put("stove", (2700, 130, 900))
    world.put("water jug", (3100, -640, 900))
    world.put("first aid", (4100, -600, 950))


def standing(world: Any) -> None:
    world.gear["tool box"]["bears_kg"] = 9
    world.put("stove", (2620, 460, 901))
    world.gear["jackets"]["shape"] = "hard"
    world.put("jackets", (1950, -600, 850))
    bench = world.space("rear bench")
    bench["holds"] = "enclosed"
    bench["solid"] = [
        {"corner_mm": [1900, -640, 750], "size_mm": [158, 500, 100]},
        {"corner_mm": [2142, -640, 750], "size_mm": [208, 500, 100]},
    ]


def too_heavy(world: Any) -> None:
    world.space("right bay")["limit_kg"] = {"kg": 70, "source": "maker's sheet"}
    world.space("left drawer")["limit_kg"] = "unknown"
    world.rack("cab rack")["limits"] = {"any_kg": {"kg": 50, "source": "rack label"}}
    world.vehicle["limits"] |= {"gvm_kg": 2500, "front_axle_kg": {"kg": 1300, "source": "plate"}, "rear_axle_kg": 900}
    world.vehicle["limits"] |= {"front_share_min": 0.9, "side_difference_share": 0.001}
    world.stage("track")["on_racks"] = {"cab rack": 40}


def towing_unknown(world: Any) -> None:
    world.tow(gcm_kg="unknown", tow_ball_kg=100, tow_ball_behind_rear_axle_mm=None)
    world.vehicle["kerb"] = {"total_kg": 2150}


def leaning(world: Any) -> None:
    world.vehicle["kerb"]["right_of_centre_mm"] = -60
    world.vehicle["limits"]["gvm_kg"] = {"kg": 2500, "source": "plate"}
    world.stage("track")["surface"] = "parked"


def dangerous(world: Any) -> None:
    world.gear["tool box"] |= {"hazard": "lpg", "net_kg": 12}
    world.gear["food box"] |= {"hazard": "ethanol", "holds_l": 1}
    world.gear["first aid"] |= {"hazard": "aerosol", "holds_l": 0.8}
    world.gear["petrol can"] |= {"approved_can": False, "holds_l": 70}
    world.gear["jackets"] |= {"hazard": "firelighter", "net_kg": 0.7}
    world.gear["stove"] |= {"hazard": "oxidiser"}
    world.gear["roof tent"] |= {"hazard": "lithium"}
    world.space("can holder")["heat"] = "hot"


def beside(world: Any) -> None:
    world.gear["tool box"]["hazard"] = "oil"
    world.gear["recovery kit"]["hazard"] = "toxic"
    world.gear["water jug"] |= {"hazard": "corrosive"}
    world.gear["stove"] |= {"hazard": "oxidiser"}
    world.trip["apart"] = (("fridge", "kitchen"), ("water jug", "sleeping bag"))
    world.gear["jackets"] |= {"kit": "kitchen", "together": True}
    world.gear["water jug"]["spread"] = 2


def slow(world: Any) -> None:
    next(o for o in world.vehicle["openings"] if o["name"] == "right flap")["seconds"] = 400
    world.gear["tool box"]["access"] = "at_once"
    world.gear["jackets"]["access"] = "belted"
    world.tow()
    next(o for o in world.vehicle["openings"] if o["name"] == "drawer front")["stuck_when"] = ["trailer on"]
    world.gear["water jug"]["access"] = "each_stop"
    world.gear["tool box"]["needed_when"] = ["injury", "roadside at night"]
    world.gear["water jug"]["needed_when"] = ["bogged", "rolled over", "injury"]
    world.trip["traffic_on"] = "right"


def fire(world: Any) -> None:
    world.space("inner bracket")["in_reach_when"] = []
    next(o for o in world.vehicle["openings"] if o["name"] == "right flap")["seconds"] = 31


def loose(world: Any) -> None:
    world.space("right bay")["holds"] = "barrier"
    world.vehicle["cargo_barrier"] = {"rated_kg": 20, "top_z_mm": 1250}
    world.space("left drawer")["holds"] = "none"
    world.space("roof place")["tie_downs"] = [{"rated_dan": 50}]
    world.put("jackets", (1950, -600, 1050))
    world.gear["food box"]["tied"] = True


def no_barrier(world: Any) -> None:
    world.space("right bay")["holds"] = "barrier"
    for seat in world.vehicle["seats"]:
        seat["back_top_z_mm"] = None


def weather(world: Any) -> None:
    world.space("right bay").update({"weather": "exposed", "heat": "hot"})
    world.gear["tool box"]["wet"] = True
    world.vehicle["wading_line_mm"] = 950


def closed(world: Any) -> None:
    world.stage("camp")["closed"] = ["right bay", "door pocket"]
    world.trip["people"].append({"name": "Oda", "mass_kg": 60, "seat": "rear left"})


def locked(world: Any) -> None:
    world.trip["locks"] = [
        {"thing": "stove", "in": "left drawer", "by": "Mara", "because": "always there"},
        {"thing": "camp oven", "in": "right bay", "by": "Ilko"},
        {"thing": "tool box", "in": "right bay", "at_mm": [3151, 100, 900]},
        {"thing": "roof tent", "not_in": "cab roof"},
        {"thing": "stove", "at_home": True},
        {"thing": "camp oven", "carried": True, "because": "Sunday"},
    ]


SPOILS: tuple[Callable[[Any], None], ...] = (
    sound, copies, home_and_must, walls, crowded, standing, too_heavy, towing_unknown, leaning, dangerous, beside, slow,
    fire, loose, no_barrier, weather, closed, locked,
)  # fmt: skip


def told(world: Any, spoil: Callable[[Any], None]) -> list[str]:
    """All findings after a spoil; of the sound plan all, of the others those that do not hold."""
    spoil(world)
    signs = {True: "holds", False: "broken", None: "unknown"}
    lines = []
    for one in world.verdict().findings:
        if spoil is sound or one.holds is not True:
            figures = f" [{one.margin:.6g} {one.unit}]" if one.margin is not None else ""
            stage = f" @ {one.stage}" if one.stage else ""
            source = f" <{one.source}>" if one.source else ""
            lines.append(f"{signs[one.holds]}: {one.rule}: {one.subject}{stage}: {one.says}{figures}{source}")
    return lines


@pytest.mark.parametrize("spoil", SPOILS, ids=lambda spoil: spoil.__name__)
def test_every_sentence(world, spoil):
    found = told(world, spoil)
    golden = _sections()
    if os.environ.get("LOWSTOW_REWRITE_GOLDEN"):
        golden[spoil.__name__] = found
        kept = [function.__name__ for function in SPOILS if function.__name__ in golden]
        GOLDEN.write_text("\n".join(f"== {name}\n" + "\n".join(golden[name]) for name in kept) + "\n")
    assert found == golden[spoil.__name__]


def test_the_golden_text_has_no_section_too_many():
    assert list(_sections()) == [spoil.__name__ for spoil in SPOILS]


def _sections() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for line in GOLDEN.read_text().splitlines() if GOLDEN.exists() else ():
        if line.startswith("== "):
            found[line[3:]] = lines = []
        else:
            lines.append(line)
    return found
