"""Gear lists from spreadsheets: what was guessed is told, faults carry the line."""

from typing import Any

import pytest

from models.gear import Thing
from models.reading import cells, read_case

COMMA = """name,count,mass_kg,size_mm,needed_when,uses_up,food,carry,with
rope bag,1,4.5,300x200x200,bogged;injury,,no,must,
ration box,2,6/6.5/7,400 x 300 x 250,,food=3.5; drinking water=1,x,40,rope bag
"""


@pytest.fixture
def read(trip):
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")

    def things(content: str | bytes):
        found = read_case(trip.write("more.csv", content).folder / "trip.yaml")
        return found.case.thing_named, [note.replace(f"{trip.folder}/", "") for note in found.notes]

    return things


def as_semicolons(text: str) -> str:
    """As a spreadsheet with decimal commas writes it."""
    swapped = text.replace(";", "|").replace(",", ";")
    return swapped.replace("4.5", "4,5").replace("6.5", "6,5").replace("3.5", "3,5")


def test_commas(read):
    things, notes = read(COMMA)
    rope, rations = things["rope bag"], things["ration box"]
    assert (rope.needed_when, rope.carry, rope.food) == (("bogged", "injury"), None, False)
    assert (rations.count, rations.carry, rations.food, rations.with_) == (2, 40, True, ("rope bag",))
    assert rations.uses_up == {"food": 3.5, "drinking water": 1}
    assert rations.size_mm == (400, 300, 250)
    assert notes == ['more.csv, line 3: gear[1].mass_kg (ration box): "6/6.5/7" read as least 6, likely 6.5, most 7 kg']


def test_semicolons_decimal_commas_and_a_byte_order_mark_give_the_same_things(read):
    things, _ = read(COMMA)
    again, notes = read(b"\xef\xbb\xbf" + as_semicolons(COMMA).replace("\n", "\r\n").encode())
    assert again == things
    assert notes[:3] == [
        "more.csv: begins with a byte-order mark, which was left out",
        "more.csv: values are separated by a semicolon",
        'more.csv: decimal commas were read as points, the first in "4,5"',
    ]


@pytest.mark.parametrize(
    ("cell", "meant"),
    [
        ("6,5", "a number with a point: 6.5"),
        ("1,200", "a number without a comma (1200, or 1.2?)"),
        ("12,050 kg", "a number without a comma (12050 kg, or 12.05 kg?)"),
        ("1,000", "a number without a comma (1000, or 1?)"),
        ("1,2000", "a number with a point: 1.2000"),
        ("0,250", "a number with a point: 0.250"),
    ],
)
def test_a_comma_before_three_digits_may_part_thousands(trip, cell, meant):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    trip.write("more.csv", f'name,mass_kg,size_mm\nrope bag,"{cell}",300x200x200\n')
    assert trip.faults() == [f'more.csv, line 2: gear[0].mass_kg (rope bag): found "{cell}"; allowed: {meant}.']


def test_a_side_with_a_comma_before_three_digits_names_both_readings(trip):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    trip.write("more.csv", 'name,mass_kg,size_mm\nspade,2,"1,100x250x120"\n')
    found = 'found "1,100x250x120"; allowed: a number without a comma (1100, or 1.1?)'
    assert trip.faults() == [f"more.csv, line 2: gear[0].size_mm (spade): {found}."]


@pytest.mark.parametrize("first", ["sep=;\r\n", '"sep=;"\n', "SEP=;\n"])
def test_a_line_that_names_the_separator_is_left_out(read, first):
    things, _ = read(COMMA)
    again, notes = read(first + as_semicolons(COMMA))
    assert again == things
    assert notes[0] == "more.csv: begins with a line that names the separator, which was left out"
    assert notes[1] == "more.csv: values are separated by a semicolon"


def test_tabs(read):
    things, _ = read(COMMA)
    again, notes = read(COMMA.replace(",", "\t"))
    assert again == things
    assert notes[0] == "more.csv: values are separated by a tab"


def test_empty_lines_short_lines_and_units(read):
    things, notes = read('name,mass_kg,size_mm,kit\n\n"rope, long",850 g,30x20x20 cm\n,,,\n')
    assert things["rope, long"].mass_kg.likely == 0.85
    assert things["rope, long"].size_mm == (300, 200, 200)
    assert things["rope, long"].kit is None
    assert len(notes) == 2


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (
            "name,mass_kg,size_mm\nrope,4,5,300x200x200\n",
            (
                'more.csv, line 2: gear[0] (rope): found 4 values, the last "300x200x200"'
                "; allowed: 3, as in the heading (a value with a"
                " comma in it stands in quotes)."
            ),
        ),
        (
            "name,mass,size_mm\nrope,4,300x200x200\n",
            (
                'more.csv, line 1: column 2: found the heading "mass"'
                "; allowed: the keys that `lowstow schema` lists for a thing"
                ' (did you mean "mass_kg"?).'
            ),
        ),
        (
            "name,mass_kg,size_mm,food\n\nrope,4,300x200x200,perhaps\n",
            'more.csv, line 3: gear[0].food (rope): found "perhaps"; allowed: yes or no.',
        ),
        (
            "name,mass_kg,size_mm\nrope,4,300x200\n",
            'more.csv, line 2: gear[0].size_mm (rope): found "300x200"; allowed: three sides, such as 450x300x250.',
        ),
        (
            "name,mass_kg,size_mm\ntent,4,300x200x200\n",
            (
                'more.csv, line 2: gear[0].name: found the name "tent" again'
                "; allowed: each name once (first in gear.yaml, line 51)."
            ),
        ),
        (
            "",
            (
                "more.csv, line 1: found nothing in the file"
                "; allowed: a heading with the keys of a thing, and a line for each."
            ),
        ),
    ],
)
def test_faults_carry_the_line(trip, content, says):
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]").write("more.csv", content)
    assert says in trip.faults()


def test_every_key_of_a_thing_has_a_kind_of_cell():
    keys = {field.alias or name for name, field in Thing.model_fields.items()}
    kinds = [cells.FLAG_KEYS, cells.LIST_KEYS, cells.MAP_KEYS, cells.NUMBER_KEYS, cells.SIZE_KEYS, cells.TEXT_KEYS]
    assert frozenset().union(*kinds) == keys
    assert sum(map(len, kinds)) == len(keys)


def test_none_says_that_a_thing_is_harmless(trip):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    trip.write("more.csv", "name,mass_kg,size_mm,hazard\nlamp,1,300x200x200,none\nrope,1,300x200x200,\n")
    case = read_case(trip.folder / "trip.yaml").case
    assert [(case.thing_named[name].hazard, case.thing_named[name].said_harmless) for name in ("lamp", "rope")] == [
        (None, True),
        (None, False),
    ]


def test_a_misspelt_heading_is_told_once_and_its_column_is_read(trip):
    trip.write("more.csv", "name,mas_kg,size_mm\nrope,2,300x200x100\nstool,x,300x200x100\n")
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")
    heading, stool = trip.faults()
    assert 'did you mean "mass_kg"?' in heading
    assert "stool" in stool
    assert "no `mass_kg`" not in stool


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("My kit list,,\nname,mass_kg,size_mm\nrope,2,300x200x200\n", 2),
        ("My kit list\nname;mass_kg;size_mm\nrope;2;300x200x200\n", 2),
        ('sep=;\n"My kit list"\n;;\nof 2026;;\n"Name";"Mass kg";size_mm\nrope;2;300x200x200\n', 5),
        ("\ufeffMy kit list\n\nname\tmass_kg\nrope\t2\n", 3),
    ],
)
def test_a_title_above_the_headings_is_one_fault(trip, text, line):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    trip.write("more.csv", text)
    (fault,) = trip.faults()
    assert fault.startswith(f"more.csv, line {2 if text.startswith('sep') else 1}: found ")
    assert fault.endswith(f" (line {line} looks like the headings; take out what stands above it).")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("name,mas_kg\nname,count\n", 'line 1: column 2: found the heading "mas_kg"'),
        ("kit,mass\nname of it,2\n", 'line 1: column 2: found the heading "mass"'),
    ],
)
def test_what_is_no_title_is_told_as_before(trip, text, fault):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    trip.write("more.csv", text)
    told = trip.faults()
    assert any(fault in one for one in told)
    assert not any("looks like the headings" in one for one in told)


def test_words_parted_by_commas_in_a_cell_are_told_how_they_are_parted(trip):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    head = "name,mass_kg,size_mm,needed_when,with\n"
    trip.write("more.csv", f'{head}strap,2,300x200x200,"bogged, injury",\nrope,2,300x200x200,,"strap, tent"\n')
    incident, company = trip.faults()
    assert incident.startswith(
        'more.csv, line 2: gear[0].needed_when[0] (strap): found "bogged, injury"; allowed: "fire"'
    )
    assert incident.endswith(" (lists are parted by `;`: bogged; injury).")
    assert company.startswith('more.csv, line 3: gear[1].with (rope): found "strap, tent"; allowed: ')
    assert company.endswith(" (lists are parted by `;`: strap; tent).")


def test_a_cell_of_one_wrong_word_gets_the_nearest(trip):
    trip.change("trip.yaml", "gear: [gear.yaml]", "gear: [gear.yaml, more.csv]")
    head = "name,mass_kg,size_mm,needed_when,with\n"
    trip.write("more.csv", f'{head}strap,2,300x200x200,bogget,\nrope,2,300x200x200,,"strap, tunt"\n')
    incident, company = trip.faults()
    assert incident.endswith(' (did you mean "bogged"?).')
    assert "parted" not in company


def marked(trip: Any, *rows: str) -> list[str]:
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")
    trip.write("more.csv", "\n".join(("name;mass_kg;size_mm;uses_up", *rows)) + "\n")
    return [told.partition(" found ")[2] for told in trip.faults()]


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ("1.200;300x200x200;", '"1.200"; allowed: 1200 where the point marks thousands, else 1,2'),
        ("9;1.200x200x200;", '"1.200x200x200"; allowed: 1200 where the point marks thousands, else 1,2'),
        ("9;300x200x200;food=1.500", '"food=1.500"; allowed: 1500 where the point marks thousands, else 1,5'),
        ("1.050,5;300x200x200;", '"1.050,5"; allowed: a number without a mark for thousands: 1050,5.'),
        ("1,050.5;300x200x200;", '"1,050.5"; allowed: a number without a mark for thousands: 1050.5.'),
        ("9;1.050,5x200x200;", '"1.050,5x200x200"; allowed: a number without a mark for thousands: 1050,5.'),
    ],
)  # fmt: skip
def test_a_mark_for_thousands_is_refused_where_the_list_has_decimal_commas(trip, cells, says):
    (told,) = marked(trip, f"big;{cells}", "bag;8,5;300x200x200;")
    assert told.startswith(says)


def test_a_point_and_three_digits_is_a_fraction_where_a_list_has_no_decimal_comma(read):
    things, _ = read("name;mass_kg;size_mm\nbag;1.200;300x200x200\n")
    assert things["bag"].mass_kg.likely == 1.2


@pytest.mark.parametrize("kg", ["0.500", "8.25", "1.2345"])
def test_what_can_be_no_mark_for_thousands_is_a_point(read, kg):
    things, _ = read(f"name;mass_kg;size_mm\nbag;{kg};300x200x200\nbox;8,5;300x200x200\n")
    assert things["bag"].mass_kg.likely == float(kg)
