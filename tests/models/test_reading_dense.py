"""Fractions of a millimetre are refused however they are written; things too dense to be ordinary are asked about."""

import pytest

from tests.models.conftest import Trip

SHOVEL = "size_mm: [1100, 250, 120]"
CLOTHES = "volume_l: 45"
WHOLE = "allowed: whole millimetres, or another unit behind the last side, such as 45x30x19.5 cm"


def asked(trip: Trip, says: str | None) -> None:
    notes = [note for note in trip.notes() if " read as " not in note]
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ("1.9x600x60", f'found "1.9x600x60"; {WHOLE}'),
        ("1.100x250x120", "a point parts off tenths and no thousands"),
        ("1100x250x120.5", WHOLE),
        ("1.9x600x60 mm", WHOLE),
        ('["1.9", 600, 60]', "found 1.9; allowed: a whole number"),
        ('["1.9 mm", 600, 60]', "found 1.9; allowed: a whole number"),
        ("[1.9, 600, 60]", "found 1.9; allowed: a whole number"),
    ],
)
def test_a_side_with_a_fraction_of_a_millimetre_is_refused(refused, size, says):
    (fault,) = refused("gear.yaml", SHOVEL, f"size_mm: {size}")
    assert says in fault


@pytest.mark.parametrize(
    ("size", "sides"),
    [
        ("1100.0x250x120", "[1100, 250, 120]"),
        ("110x25x12.05 cm", "[1100, 250, 121]"),
        ("110.0x25x12 cm", "[1100, 250, 120]"),
        ("1.9 m x 600 x 60", "[1900, 600, 60]"),
    ],
)
def test_a_side_with_another_unit_gives_whole_millimetres(trip, size, sides):
    trip.change("gear.yaml", SHOVEL, f"size_mm: {size}")
    told = [note for note in trip.notes() if "read as" in note]
    assert not told or f"read as {sides}" in told[0]


def test_a_spreadsheet_with_points_for_thousands_is_refused(trip):
    trip.write("gear.csv", "name,mass_kg,size_mm\nshovel 2,2.5,1.100x250x120\n")
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, gear.csv]")
    (fault,) = trip.faults()
    assert fault.startswith('gear.csv, line 2: gear[0].size_mm (shovel 2): found "1.100x250x120"')


@pytest.mark.parametrize("mm", ["9.5", '"9.5"', "9.5 mm"])
def test_a_slide_of_a_fraction_of_a_millimetre_is_refused(refused, mm):
    (fault,) = refused("vehicle.yaml", "{to: rear, mm: 900}", f"{{to: rear, mm: {mm}}}")
    assert "found 9.5; allowed: a whole number" in fault


@pytest.mark.parametrize(
    ("mass_kg", "size_mm", "says"),
    [
        (24, "[200, 200, 200]", None),  # 3000 kg/m³
        (24.1, "[200, 200, 200]", '"shovel" has 3012 kg/m³ (24.1 kg in 8 litres), more than a lead battery'),
        (9.9, "[100, 100, 124]", None),  # 7984 kg/m³, solid steel
        (9.9, "[100, 100, 123]", '"shovel" has 8049 kg/m³ (9.9 kg in 1.23 litres), more than solid steel'),
        (10, "[100, 100, 124]", "more than a lead battery"),
        (1.4, "[150, 100, 50]", None),  # a shackle
        (5, "[1200, 30, 30]", None),  # a crowbar
        (8, "[300, 60, 60]", None),  # a hitch
        (12, "[160, 150, 240]", None),  # a jack
        (25, "[260, 170, 225]", None),  # a battery
        (16, "[1200, 300, 12]", "3704 kg/m³"),  # a side in centimetres
    ],
)
def test_a_hard_thing_too_dense_is_asked_about(trip, mass_kg, size_mm, says):
    trip.change("gear.yaml", "mass_kg: 2.5", f"mass_kg: {mass_kg}").change("gear.yaml", SHOVEL, f"size_mm: {size_mm}")
    asked(trip, says)


@pytest.mark.parametrize(
    ("litres", "says"),
    [(5.34, None), (5.33, '"clothes bag" has 1501 kg/m³ (8 kg in 5.33 litres), more than a bag of sand')],
)
def test_a_soft_thing_denser_than_sand_is_asked_about(trip, litres, says):
    asked(trip.change("gear.yaml", CLOTHES, f"volume_l: {litres}"), says)


def test_a_bag_of_chain_is_told_to_be_hard_and_then_not_asked_about(trip):
    soft = f"shape: soft\n  {CLOTHES}"
    trip.change("gear.yaml", soft, "shape: soft\n  size_mm: [200, 160, 100]")  # 2500 kg/m³
    asked(trip, "or in its mass, or is it `shape: hard`, as chain in a bag is?")
    asked(trip.change("gear.yaml", "shape: soft\n  size_mm", "shape: hard\n  size_mm"), None)
