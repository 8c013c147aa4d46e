"""The schemas and the reader say the same of the same values, in both directions."""

import copy
from collections.abc import Iterator
from functools import reduce
from operator import getitem
from typing import Any

import pytest
from pydantic import BaseModel, ValidationError

from models.gear import Thing
from models.plan import Plan
from models.reading.checks.shapes import shapes
from models.reading.checks.weighing import kerb
from models.reading.draft import Draft
from models.reading.loading import Desk
from models.reading.sheet import Sheet
from models.reading.shipped import rulebook_over_shipped
from models.reading.units import quantity, unit_of
from models.schema import KINDS, schema_of
from models.trip import Trip
from models.vehicle import Vehicle
from tests.json_schema import KEPT, fits

Path = tuple[str | int, ...]

MODELS: dict[str, type[BaseModel]] = {"vehicle": Vehicle, "gear": Thing, "trip": Trip, "plan": Plan}
SCHEMAS = {kind: schema_of(kind) for kind in KINDS}


def schema_takes(kind: str, data: Any) -> bool:
    return fits(SCHEMAS[kind], [data] if kind == "gear" else data, SCHEMAS[kind])


def reader_takes(kind: str, data: Any) -> bool:
    """Whether every field of one file is sound by itself; what refers to other parts is not looked at."""
    desk = Desk()
    sheet = desk.understood(Sheet(kind, data))
    if kind == "rulebook":
        return not (desk.faults or rulebook_over_shipped(sheet)[1])
    try:
        MODELS[kind].model_validate(sheet.data)
    except ValidationError:
        return False
    return not desk.faults


POINT, CORNER, SIZE = [1, 2, 3.5], [1, 2, 3], [500, 400, 300]
LIMIT = {"kg": 90, "source": "plate"}
SOUND: dict[str, Any] = {
    "gear": {
        "name": "box", "count": 2, "mass_kg": {"least": 1, "likely": 2, "most": 3}, "known_from": "weighed",
        "size_mm": SIZE, "shape": "hard", "turns": "any", "access": "seldom", "uses_per_day": 1,
        "needed_when": ["fire"], "hazard": "lpg", "holds_l": 1, "net_kg": 1, "approved_can": True, "holder": "can",
        "suits": ["pocket"], "bears_kg": 3, "air_gap_mm": {"rear": 10, "top": 5}, "weather": "dry", "wet": False,
        "keep": "cool", "kit": "kitchen", "carry": 30, "with": ["stove"], "spread": 1,
        "uses_up": {"food": 1}, "fills": {"waste": 1}, "tied": True,
    },
    "vehicle": {
        "name": "van", "body": "van", "wheelbase_mm": 3000, "track_mm": 1500,
        "outline_mm": {"front": -800, "rear": 4000, "width": 1800, "height": 1900, "wheel_radius": 390},
        "kerb": {"front_kg": 1000, "rear_kg": 900, "total_kg": 1900, "cg_height_mm": 600, "right_of_centre_mm": -3,
                 "aboard_l": {"tank": 50}, "aboard_kg": {"driver": 80}, "known_from": "weighed"},
        "limits": {"gvm_kg": LIMIT, "rear_axle_kg": 1600, "tow_ball_behind_rear_axle_mm": 1200,
                   "front_share_min": 0.3},
        "fittings": [{"name": "bar", "mass_kg": 60, "at_mm": POINT, "on": ["roof"]}],
        "seats": [{"name": "driver", "at_mm": POINT, "back_top_z_mm": 1100}],
        "tanks": [{"name": "tank", "fluid": "diesel", "holds_l": 80, "at_mm": POINT}],
        "racks": [{"name": "roof", "on": "bars", "own_mass_kg": 3, "at_mm": POINT, "on_the_scale": True,
                   "limits": {"parked_kg": 90, "any_kg": LIMIT}, "source": "label"}],
        "air": {"cabin": "people"},
        "openings": [{"name": "door", "side": "left", "seconds": 3, "stuck_when": ["tent up"], "after": ["lid"]}],
        "cargo_barrier": {"behind_seats": ["driver"], "rated_kg": 60, "top_z_mm": 1500},
        "wading_line_mm": 700,
        "spaces": [{"name": "bay", "corner_mm": CORNER, "size_mm": SIZE, "limit_kg": 40, "on": ["roof"],
                    "solid": [{"corner_mm": CORNER, "size_mm": SIZE}], "air": "cabin", "opening": "door",
                    "face": "left", "slides": {"to": "rear", "mm": 900}, "holds": "enclosed",
                    "tie_downs": [{"rated_dan": 400}], "accepts": ["can"], "in_reach_when": ["belted driver"],
                    "seat": "driver", "inside_of": "tent", "solid_wall_between": ["shelf"]}],
    },
    "trip": {
        "name": "weekend", "vehicle": "van.yaml", "gear": ["gear.yaml"],
        "people": [{"name": "Mara", "mass_kg": 70, "seat": "driver"}], "traffic_on": "left",
        "stages": [{"name": "out", "surface": "off_road", "tanks": {"tank": 0.5}, "left": {"food": 0.5},
                    "filled": {"waste": 0.5}, "people": ["Mara"], "closed": ["bay"], "on_racks": {"roof": 80},
                    "towing": {"ball_kg": 100, "trailer_kg": 1000}, "taken_on_l": {"diesel": 20}}],
        "streams": {"food": {"fluid": "water"}},
        "locks": [{"thing": "box", "copy": 1, "in": "bay", "at_mm": CORNER, "not_in": "roof", "at_home": False,
                   "carried": True, "by": "Mara", "because": "it fits"}],
        "apart": [["box", "stove"]], "towing": {"ball_kg": 100, "trailer_kg": 1000}, "reserve_kg": 20,
        "allow_mm": 2, "choose_within_mm": 5, "rulebook": "own.yaml",
    },
    "plan": {
        "trip": "trip.yaml", "trip_digest": "sha256:0", "locks": [{"thing": "box"}],
        "placements": [{"thing": "box", "copy": 1, "space": "bay", "corner_mm": CORNER, "size_mm": SIZE,
                        "turn": "lwh", "facing": "rear"}],
        "left_at_home": [{"thing": "stove", "copy": 2}], "reserve_kept_kg": 10, "reserve_asked_kg": 20,
        "claims": {"cg_height_mm": {"out": 700}, "front_axle_kg": {"out": 1000}, "rear_axle_kg": {"out": 1000},
                   "mass_kg": {"out": 2000}},
    },
    "rulebook": {
        "name": "our club's",
        "reserve_kg": {"value": 30, "source": "our club"},
        "front_share_min": {"value": 0.3, "source": "our club"},
        "openings": {"sides": {"left": {"seconds": 5, "stuck_when": ["tent up"]}}, "source": "our club"},
        "access": {"words": {"seldom": {"seconds": 600, "uses_per_day": 0.1}}, "source": "our club"},
        "handling": {"steps": [{"up_to_kg": None, "seconds": 9}], "single_person_kg": 20, "source": "our club"},
        "lifting": {"turned_deg": {"left": 30}, "turning": [{"beyond_deg": 45, "off": 0.1}],
                    "zones": [{"up_to_mm": 900, "close_kg": {"women": 7, "men": 10}, "far_kg": {"women": 3, "men": 5}}],
                    "grips": {"hard": "good"}, "source": "our club"},
        "doubt": {"share": {"guess": 0.3}, "source": "our club"},
        "effort": {"side_difference_s_per_kg": 1, "extra_kit_place_s": 9, "source": "our club"},
        "hazards": {
            "lpg": {"air": {"open": True, "locker": {"up_to_l": 2, "up_to_kg": 3}}, "upright": True,
                    "totals": {"total_l": 60, "total_count": 2, "counts_with": ["petrol"], "each_kg": 9},
                    "un_class": "2.1", "source": "our club"},
            "chlorine": {"words": "chlorine", "air": {"open": True, "people": False}, "source": "our club"},
        },
        "fluids_kg_per_l": {"water": {"value": 1, "source": "x"}, "milk": {"value": 1.03, "source": "x"}},
        "segregation": [{"between": [["lpg", "petrol"], "food"], "level": "air", "source": "our club"}],
    },
}  # fmt: skip
"""One of each kind with nearly every field, sound."""

SMALL: tuple[Any, ...] = (
    None, True, False, -1, 0, 0.5, 1, 1.0, 2.5, 101, 1e6, "", "x", "unknown", "must", "2.5", "3", "33 lb", "33 LB",
    "-5 kg", "850 g", "1.2 m", "45 cm", "45.5", "45.5 mm", "450.0 mm", "50 %", "5 l", "2 us gal", "9 s", "5 kN",
    "450x300x250", "45 x 30 x 25 cm", "45cm×30cm×200", "1.5x2x3", "450x300", "13/14/16", "13/14", "30,5", "5 gal",
    [], [1, 2, 3], ["a"], [""], {}, {"kg": "unknown", "source": "x"}, {"kg": -1}, {"kg": "3.2 t"}, {"a": 1},
    {"a": None},
)  # fmt: skip
"""What is put into each place in turn."""


def places(data: Any, path: Path = ()) -> Iterator[Path]:
    """Every part of some data; of a list the first, as the others are like it."""
    parts = data.items() if isinstance(data, dict) else enumerate(data[:1]) if isinstance(data, list) else ()
    for step, part in parts:
        yield (*path, step)
        yield from places(part, (*path, step))


PARTS = [reduce(getitem, path, data) for data in SOUND.values() for path in places(data)]
KEPT.update(id(part) for part in PARTS if isinstance(part, dict | list))


def spoilt(data: Any, path: Path, value: Any = None, *, out: bool = False) -> Any:
    """The same with another value in one place, or with that place taken out."""
    found, step = copy.copy(data), path[0]
    if out and len(path) == 1:
        del found[step]
    else:
        found[step] = spoilt(data[step], path[1:], value, out=out) if len(path) > 1 else value
    return found


def refers(path: Path) -> bool:
    """Whether a place of a rule book names others of its words."""
    return not {"between", "counts_with"}.isdisjoint(path)


def says_too_much(kind: str, path: Path, text: Any) -> bool:
    """Whether a text says a number that the place would not take as a number either, which no pattern can tell."""
    unit = next((u for step in path if isinstance(step, str) and (u := unit_of(step))), None)
    number = quantity(text, unit) if isinstance(text, str) and unit not in {None, "text"} else None
    return number is not None and not schema_takes(kind, spoilt(SOUND[kind], path, round(number.value)))


STAND_IN: set[Path] = {("size_mm",), ("kerb",), ("kerb", "front_kg"), ("kerb", "rear_kg")}
"""Where it matters what else is given, which is no field's own matter."""


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_sound_is_taken_by_both(kind):
    assert schema_takes(kind, SOUND[kind])
    assert reader_takes(kind, SOUND[kind])


@pytest.mark.parametrize("kind", KINDS)
def test_each_field_left_out_is_told_alike(kind):
    without = {path: spoilt(SOUND[kind], path, out=True) for path in places(SOUND[kind]) if path not in STAND_IN}
    found = {path: (schema_takes(kind, data), reader_takes(kind, data)) for path, data in without.items()}
    assert [path for path, (by_schema, by_reader) in found.items() if by_schema != by_reader] == []
    assert {by_reader for _, by_reader in found.values()} == {True, False}


@pytest.mark.parametrize("every", [7, pytest.param(1, marks=pytest.mark.long)])
@pytest.mark.parametrize("kind", KINDS)
def test_each_value_in_each_place_is_told_alike(kind, every):
    wrong, taken = [], set()
    for number, path in enumerate(places(SOUND[kind])):
        for value in SMALL[number % every :: every]:
            if (path in STAND_IN and not value) or (refers(path) and isinstance(value, str | list)):
                continue
            data = spoilt(SOUND[kind], path, value)
            by_schema, by_reader = schema_takes(kind, data), reader_takes(kind, data)
            taken.add(by_reader)
            if by_schema != by_reader and not (by_schema and says_too_much(kind, path, value)):
                wrong.append((path, value, by_schema))
    assert wrong == []
    assert taken == {True, False}


SOFT = {"name": "bag", "mass_kg": 1, "volume_l": 5, "shape": "soft"}
HARD = {"name": "box", "mass_kg": 1, "size_mm": SIZE}


@pytest.mark.parametrize(
    ("thing", "holds"),
    [
        (SOFT, True),
        (HARD, True),
        ({**HARD, "volume_l": None}, True),
        ({**SOFT, "size_mm": None}, True),
        ({**HARD, "shape": "soft"}, True),
        ({**SOFT, "shape": "hard"}, False),
        ({**SOFT, "shape": None}, False),
        ({**SOFT, "size_mm": SIZE}, False),
        ({"name": "bag", "mass_kg": 1}, False),
    ],
)
def test_a_thing_has_a_size_or_a_volume(thing, holds):
    desk = Desk()
    sheet = desk.understood(Sheet("gear", [thing]))
    found = [*shapes(Draft(None, (sheet,), None, None, gear_complete=True))]
    assert (schema_takes("gear", thing), found == []) == (holds, holds)


@pytest.mark.parametrize(
    ("given", "holds"),
    [
        ({"front_kg": 1000, "rear_kg": 900}, True),
        ({"total_kg": 1900}, True),
        ({"front_kg": 1000, "rear_kg": 900, "total_kg": 1900}, True),
        ({"front_kg": None, "rear_kg": None, "total_kg": 1900}, True),
        ({"front_kg": 1000, "total_kg": 1900}, False),
        ({"rear_kg": 1000, "front_kg": None}, False),
        ({}, False),
    ],
)
def test_both_axles_were_weighed_or_the_whole(given, holds):
    desk = Desk()
    sheet = desk.understood(Sheet("vehicle", {"kerb": given}))
    found = [*kerb(Draft(sheet, (), None, None, gear_complete=True))]
    assert (schema_takes("vehicle", {**SOUND["vehicle"], "kerb": given}), found == []) == (holds, holds)


@pytest.mark.parametrize(("lists", "holds"), [(0, False), (1, True), (40, True), (41, False)])
def test_so_many_gear_lists_and_each_name_as_long_as_a_name_may_be(lists, holds):
    trip = {**SOUND["trip"], "gear": [f"{number}.yaml" for number in range(lists)]}
    assert (schema_takes("trip", trip), reader_takes("trip", trip)) == (holds, holds)
    for length, fitting in ((41, True), (120, True), (121, False)):
        named = {**SOUND["trip"], "gear": "g" * length}
        assert (schema_takes("trip", named), reader_takes("trip", named)) == (fitting, fitting)
