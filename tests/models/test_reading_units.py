"""Texts with a unit are converted, against the person where they are rounded, and told."""

import pytest

from models.reading import read_case
from models.reading.units import NotUnderstoodError, quantity


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("33 lb", "kg", 33 * 0.45359237),
        ("850 g", "kg", 0.85),
        ("1.2 t", "kg", 1200),
        ("8 oz", "kg", 0.2267961),
        ("1.2 m", "mm", 1200),
        ("45cm", "mm", 450),
        ('2"', "mm", 50.8),
        ("3 ft", "mm", 914.4),
        ("5 us gal", "l", 18.927059),
        ("5 imp gal", "l", 22.73045),
        ("250 ml", "l", 0.25),
        ("2 min", "s", 120),
        ("50 %", "share", 0.5),
        ("1e3", "kg", 1000),
    ],
)
def test_units(text, unit, value):
    found = quantity(text, unit)
    assert found is not None
    assert found.value == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(("text", "unit"), [("5 gal", "l"), ("33 lb", "mm"), ("12,5", "kg"), ("4 parsec", "mm")])
def test_texts_that_look_like_a_quantity_and_are_none(text, unit):
    with pytest.raises(NotUnderstoodError):
        quantity(text, unit)


@pytest.mark.parametrize("text", ["unknown", "heavy", "", "kg", "1.2.3", "--3"])
def test_other_texts_are_left_for_the_models(text):
    assert quantity(text, "kg") is None


def test_what_was_converted_is_told(trip):
    trip.change("gear.yaml", "mass_kg: 2.5", "mass_kg: 33 lb")
    trip.change("gear.yaml", "size_mm: [1100, 250, 120]", "size_mm: 110x25x12 cm")
    assert trip.notes() == [
        'gear.yaml, line 10: gear[1].mass_kg (shovel): "33 lb" read as 14.969 kg',
        'gear.yaml, line 11: gear[1].size_mm (shovel): "110x25x12 cm" read as [1100, 250, 120] mm',
    ]


def test_a_things_sides_are_rounded_up_and_a_spaces_down(trip):
    trip.change("gear.yaml", "[1100, 250, 120]", "[1100, 10.1 in, 120]")
    trip.change("vehicle.yaml", "size_mm: [1700, 640, 370]", "size_mm: [1700, 640, 14.5 in]")
    case = read_case(trip.folder / "trip.yaml").case
    assert case.thing_named["shovel"].size_mm == (1100, 257, 120)  # 256.54 mm
    assert case.space_named["right shelf"].size_mm == (1700, 640, 368)  # 368.3 mm


def test_a_mass_range_in_one_text(trip):
    trip.change("gear.yaml", "{least: 15, likely: 16, most: 18}", "15/16/40 lb")
    mass = read_case(trip.folder / "trip.yaml").case.thing_named["food box"].mass_kg
    assert (mass.least, mass.likely, mass.most) == (15, 16, 18.144)
