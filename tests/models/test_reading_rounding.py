"""Lengths in other units: each to the side on which the rules are stricter, boxes as a whole."""

from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from models.case import Case
from models.gear import Thing
from models.plan import Plan
from models.reading import read_case
from models.reading.rounding import side_of, whole_mm
from models.reading.units import unit_of
from models.rulebook import RuleBook
from models.trip import Trip as TripFile
from models.vehicle import Vehicle
from tests.models.conftest import Trip

FILES = (Vehicle, Thing, TripFile, Plan, RuleBook)
SIZE = "size_mm: [1700, 640, 370]"
CORNER = "[2460, 80, 1380]"
"""Corner and size of the right shelf."""
ARCH = "[2860, -720, 850]"


def models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from models_in(part)


def lengths(model: type[BaseModel], path: tuple[str, ...] = (), unit: str | None = None) -> Iterator[tuple[str, ...]]:
    for name, field in model.model_fields.items():
        key = field.alias or name
        own = unit or unit_of(key)
        inner = list(models_in(field.annotation))
        for part in inner:
            yield from lengths(part, (*path, key), own)
        if own == "mm" and not inner and key != "source":
            yield (*path, key)


def test_of_every_length_somebody_has_said_how_it_is_rounded():
    found = {path for model in FILES for path in lengths(model)}
    assert {("wading_line_mm",), ("air_gap_mm", "rear"), ("spaces", "slides", "mm"), ("outline_mm", "width")} <= found
    assert sorted(path for path in found if side_of(path) is None) == []


@pytest.mark.parametrize(
    ("path", "below", "above"),
    [
        (("wading_line_mm",), 801, 801),
        (("spaces", 0, "slides", "mm"), 801, 801),
        ((3, "air_gap_mm", "rear"), 801, 801),
        ((3, "size_mm", 1), 801, 801),
        (("outline_mm", "height"), 801, 801),
        (("neighbours", "gap_mm"), 801, 801),
        (("cargo_barrier", "top_z_mm"), 800, 800),
        (("seats", 1, "back_top_z_mm"), 800, 800),
        (("track_mm",), 800, 800),
        (("outline_mm", "rear"), 800, 800),
        (("tanks", 0, "at_mm", 2), 800, 801),
        (("locks", 0, "at_mm", 2), 801, 801),
        (("placements", 0, "corner_mm", 0), 801, 801),
        (("wheelbase_mm",), 800, 801),
    ],
)
def test_each_length_goes_to_its_side(path, below, above):
    assert (whole_mm(800.4, path), whole_mm(800.6, path)) == (below, above)
    assert whole_mm(8 * 100.1 - 0.8, path) == 800  # a whole millimetre stays, whatever the arithmetic makes of it


def read(trip: Trip) -> Case:
    return read_case(trip.folder / "trip.yaml").case


def test_a_solid_covers_what_was_typed_corner_and_size_together(trip):
    trip.change("vehicle.yaml", f"corner_mm: {ARCH}, size_mm: [680, 220, 230]",
                "corner_mm: [286.04 cm, -720, 850], size_mm: [68.07 cm, 220, 230.4e-3 m]")  # fmt: skip
    arch = next(space for space in read(trip).vehicle.spaces if space.solid).solid[0]
    assert arch.corner_mm == (2860, -720, 850)
    assert arch.size_mm == (682, 220, 231)  # to 3541.1 and 1080.4 mm
    assert [note.partition(": ")[2] for note in trip.notes()] == [
        'spaces[0].solid[0].corner_mm[0] (left bay): "286.04 cm" read as 2860 mm',
        'spaces[0].solid[0].size_mm[0] (left bay): "68.07 cm" read as 682 mm',
        'spaces[0].solid[0].size_mm[2] (left bay): "230.4e-3 m" read as 231 mm',
    ]


def test_a_space_lies_within_what_was_typed_corner_and_size_together(trip):
    trip.change("vehicle.yaml", CORNER, "[246.04 cm, 80, 1380]")
    trip.change("vehicle.yaml", SIZE, "size_mm: 169.97x64x36.99 cm")
    shelf = read(trip).space_named["right shelf"]
    assert (shelf.corner_mm, shelf.size_mm) == ((2461, 80, 1380), (1699, 640, 369))  # to 4160.1 mm
    assert trip.notes()[-1].endswith('size_mm (right shelf): "169.97x64x36.99 cm" read as [1699, 640, 369] mm')


def test_a_whole_side_that_changes_with_its_corner_is_told(trip):
    trip.change("vehicle.yaml", CORNER, "[246.04 cm, 80, 1380]")
    shelf = read(trip).space_named["right shelf"]
    assert (shelf.corner_mm, shelf.size_mm) == ((2461, 80, 1380), (1699, 640, 370))
    assert "size_mm[0] (right shelf): 1700 read as 1699 mm" in trip.notes()[-1]


def test_a_solid_stays_within_its_space_where_it_was_typed_so(trip):
    trip.change("vehicle.yaml", "[2460, -720, 850] ", "[2460, -720, 850.4e-3 m] ")
    trip.change("vehicle.yaml", f"corner_mm: {ARCH}", "corner_mm: [2860, -720, 850.4e-3 m]")
    space = next(space for space in read(trip).vehicle.spaces if space.solid)
    assert (space.corner_mm[2], space.solid[0].corner_mm[2], space.solid[0].size_mm[2]) == (851, 851, 230)


def test_a_solid_that_was_typed_out_of_its_space_is_refused(trip):
    trip.change("vehicle.yaml", f"corner_mm: {ARCH}", "corner_mm: [2860, -720, 849.9e-3 m]")
    (fault,) = trip.faults()
    assert "a solid from [2860, -720, 849]" in fault
