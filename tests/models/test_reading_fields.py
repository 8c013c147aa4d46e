"""Faults of fields: one sentence each, with file, line, path, what was found and what is allowed."""

import pytest

from models.reading import read_case

GOLDEN = [
    (
        "gear.yaml",
        "name: tent",
        'name: "\\e[31mtent"',
        (
            "gear.yaml, line 51: gear[8].name: found \"'\\x1b[31mtent'\"; allowed: text that can be read, without"
            " control characters."
        ),
    ),
    (
        "gear.yaml",
        "name: tent",
        'name: " "',
        'gear.yaml, line 51: gear[8].name: found " "; allowed: text that can be read, without control characters.',
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mass_kg: -2.5",
        "gear.yaml, line 10: gear[1].mass_kg (shovel): found -2.5; allowed: at least 0 (kilograms).",
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mass_kg: .nan",
        (
            "gear.yaml, line 10: gear[1].mass_kg (shovel): found .nan; allowed: kilograms from 0 to 100000, or {least,"
            " likely, most}."
        ),
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mas_kg: 2.5",
        (
            'gear.yaml, line 10: gear[1].mas_kg (shovel): found an unknown key "mas_kg"'
            "; allowed: the keys that `lowstow schema` lists"
            ' (did you mean "mass_kg"?).'
        ),
    ),
    (
        "gear.yaml",
        "access: seldom",
        "access: seldon",
        (
            'gear.yaml, line 74: gear[11].access (camp chair): found "seldon"'
            '; allowed: "belted", "at_once", "each_stop", "each_camp" or'
            ' "seldom" (did you mean "seldom"?).'
        ),
    ),
    (
        "gear.yaml",
        "[1100, 250, 120]",
        "[1100, 250.5, 120]",
        "gear.yaml, line 11: gear[1].size_mm[1] (shovel): found 250.5; allowed: a whole number (millimetres).",
    ),
    (
        "gear.yaml",
        "name: tent",
        "name: no",
        (
            "gear.yaml, line 51: gear[8].name: found no"
            '; allowed: text (without quotes this word is yes or no; write "no" in'
            " quotes)."
        ),
    ),
    (
        "gear.yaml",
        "count: 2\n  mass_kg: 21.2",
        "count: 012\n  mass_kg: 21.2",
        (
            "gear.yaml, line 21: gear[3].count (water can): found 012 with a leading zero"
            "; allowed: a plain number (without the zero, or"
            ' "012" in quotes where it is a name).'
        ),
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mass_kg: 2,5",
        'gear.yaml, line 10: gear[1].mass_kg (shovel): found "2,5"; allowed: a number with a point: 2.5.',
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mass_kg: 1,200 g",
        (
            'gear.yaml, line 10: gear[1].mass_kg (shovel): found "1,200 g"'
            "; allowed: a number without a comma (1200 g, or 1.2 g?)."
        ),
    ),
    (
        "vehicle.yaml",
        "wheelbase_mm: 3200\n",
        "wheelbase_mm: 3,200\n",
        'vehicle.yaml, line 5: wheelbase_mm: found "3,200"; allowed: a number without a comma (3200, or 3.2?).',
    ),
    (
        "vehicle.yaml",
        "front_axle_kg: {kg: 1480",
        "front_axle_kg: {kg: 1,480",
        (
            'vehicle.yaml, line 19: limits.front_axle_kg.480: found an unknown key "480"; allowed: kg, source'
            " (a comma cuts a number in two; leave it out where it parts thousands, else write a point)."
        ),
    ),
    (
        "gear.yaml",
        "needed_when: [injury]",
        'needed_when: ["bogged, injury"]',
        (
            'gear.yaml, line 58: gear[9].needed_when[0] (first aid kit): found "bogged, injury"; allowed: "fire",'
            ' "rolled over", "bogged", "injury" or "roadside at night" (each word by itself: [bogged, injury]).'
        ),
    ),
    (
        "gear.yaml",
        "mass_kg: 2.5",
        "mass_kg: 25 cm",
        (
            'gear.yaml, line 10: gear[1].mass_kg (shovel): found "25 cm"'
            "; allowed: kilograms, or one of the units kg, kgs, g, t, lb, lbs,"
            " oz."
        ),
    ),
    (
        "vehicle.yaml",
        "holds_l: 80",
        "holds_l: 20 gal",
        (
            'vehicle.yaml, line 27: tanks[0].holds_l (main tank): found "20 gal"'
            "; allowed: litres, `us gal` or `imp gal` (a gallon is 3.785"
            " or 4.546 litres)."
        ),
    ),
    (
        "vehicle.yaml",
        "body: pickup ",
        "wheelbase_mm: 3100 ",
        (
            "vehicle.yaml, line 5: wheelbase_mm: found the key a second time on line 5"
            "; allowed: each key once (first on line 4)."
        ),
    ),
    (
        "trip.yaml",
        "traffic_on: left ",
        "traffic_on: lift ",
        'trip.yaml, line 8: traffic_on: found "lift"; allowed: "left" or "right" (did you mean "left"?).',
    ),
    (
        "trip.yaml",
        "{main tank: 0.5}",
        "{main tank: 0,5}",
        (
            "trip.yaml, line 11: stages[1].tanks.5 (halfway): found nothing"
            "; allowed: a number (a decimal comma cuts a number in two; write"
            " a point)."
        ),
    ),
    (
        "vehicle.yaml",
        "wheelbase_mm: 3200\n",
        "",
        "vehicle.yaml, line 3: found no `wheelbase_mm`; allowed: a value for `wheelbase_mm`, which is always needed.",
    ),
]


@pytest.mark.parametrize(("name", "old", "new", "says"), GOLDEN)
def test_one_fault_is_one_sentence(refused, name, old, new, says):
    assert refused(name, old, new) == [says]


def test_all_faults_of_all_files_come_at_once_in_order(trip):
    trip.change("gear.yaml", "mass_kg: 2.5", "mass_kg: heavy").change("gear.yaml", "mass_kg: 9", "mass_kg: -9")
    trip.change("vehicle.yaml", "track_mm: 1570", "track_mm: 15").change("trip.yaml", "mass_kg: 75", "mass_kg: yes")
    starts = [fault.split(":")[0] for fault in trip.faults()]
    assert starts == ["gear.yaml, line 10", "gear.yaml, line 33", "trip.yaml, line 7", "vehicle.yaml, line 6"]


def test_a_faulty_field_does_not_hide_a_name_that_refers_to_nothing(trip):
    trip.change("vehicle.yaml", "track_mm: 1570", "track_mm: 15")
    below = "\n    air: canopy\n    opening: drawer"
    trip.change("vehicle.yaml", f"on: [drawer frame]{below}", f"on: [roof]{below}")
    faults = trip.faults()
    assert len(faults) == 2
    assert 'spaces[1].on (right drawer): found "roof"; allowed: a rack of the vehicle: drawer frame' in faults[1]


@pytest.mark.parametrize("value", ["450", "450.0", "4.5e2", "45 cm", "0.45 m", '"450"'])
def test_whole_millimetres_however_they_are_written(trip, value):
    trip.change("gear.yaml", "[450, 300, 250]", f"[{value}, 300, 250]")
    assert read_case(trip.folder / "trip.yaml").case.things[0].size_mm == (450, 300, 250)


def test_dates_are_text_and_empty_keys_are_their_default(trip):
    trip.change("trip.yaml", "name: Starter trip", "name: 2024-05-01").change("trip.yaml", "locks: []", "locks:")
    case = read_case(trip.folder / "trip.yaml").case
    assert (case.trip.name, case.trip.locks) == ("2024-05-01", ())
