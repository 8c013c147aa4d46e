"""The pairs of the shipped rule book against the published table of IMDG 7.2.4.

1 is "away from", 2 "separated from"; X: see the individual entry. Two copies of the table agree on every cell. They are
rules for cargo units at sea: the rule book reads 1 as not in one space and 2 as not in one volume of air, a choice and
not law.
"""

from itertools import combinations
from typing import Any

import pytest

from models.reading import shipped_rulebook

CLASSES = ("2.1", "2.2", "3", "4.1", "5.1", "8", "9")
TABLE = {
    "2.1": "X X 2 1 2 1 X",
    "2.2": "X X 1 X X X X",
    "3": "2 1 X X 2 X X",
    "4.1": "1 X X X 1 1 X",
    "5.1": "2 X 2 1 X 2 X",
    "8": "1 X X 1 2 X X",
    "9": "X X X X X X X",
}
CELL: dict[tuple[Any, Any], str] = {
    (row, column): cell for row, line in TABLE.items() for column, cell in zip(CLASSES, line.split(), strict=True)
}
BOOK = shipped_rulebook()
LEVELS: dict[frozenset[str], set[str]] = {}
for apart in BOOK.segregation:
    for pair in apart.pairs:
        LEVELS.setdefault(frozenset(pair), set()).add(apart.level)

STRICT = {"lpg", "gas_cartridge", "petrol", "petrol_equipment", "ethanol"}
"""What burns readily and is carried in amounts; with 5.1 the rule book follows the table to the letter."""
LAXER = {
    # pair: why the rule book asks less than the table, or nothing. All are differences of this rule book.
    "extinguisher": "it belongs near what burns",
    "diesel": "burns only above 60 C; kept out of one space with 5.1",
}
READ_AS_A_SPACE = {
    # pair: why "separated from" is read as another space and locker alone. Also differences of this rule book.
    "2.1 and 3": "both ride in the open side by side, or in a locker alone",
    "aerosol and oxidiser": "small cans: limited quantities are not segregated at all",
}


def test_the_table_is_symmetric():
    assert all(CELL[row, column] == CELL[column, row] for row in CLASSES for column in CLASSES)
    assert set(TABLE["9"].split()) == {"X"}
    assert {cell for cell in CELL.values() if cell != "X"} == {"1", "2"}


def of_class(name: str) -> list[str]:
    return [word for word, hazard in BOOK.hazards.items() if hazard.un_class == name]


@pytest.mark.parametrize("word", sorted(STRICT | {"corrosive", "wet_battery"}))
def test_separated_from_an_oxidiser_means_another_air(word):
    un_class = BOOK.hazards[word].un_class
    assert CELL[un_class, "5.1"] == "2"
    assert "air" in LEVELS[frozenset({word, "oxidiser"})]


@pytest.mark.parametrize(("one", "other"), [
    ("lpg", "firelighter"), ("gas_cartridge", "firelighter"), ("gas_cartridge", "corrosive"),
    ("gas_cartridge", "wet_battery"), ("lpg", "corrosive"), ("lpg", "wet_battery"),
    ("firelighter", "oxidiser"), ("firelighter", "corrosive"), ("firelighter", "wet_battery"),
])  # fmt: skip
def test_away_from_means_another_space(one, other):
    assert CELL[BOOK.hazards[one].un_class, BOOK.hazards[other].un_class] == "1"
    assert LEVELS[frozenset({one, other})] & {"space", "air"}


def excused(one: str, other: str) -> bool:
    classes = " and ".join(sorted((str(BOOK.hazards[one].un_class), str(BOOK.hazards[other].un_class))))
    told = {one, other, classes, " and ".join(sorted((one, other)))}
    return bool(told & set(LAXER)) or (bool(told & set(READ_AS_A_SPACE)) and "space" in levels_of(one, other))


def levels_of(one: str, other: str) -> set[str]:
    return LEVELS.get(frozenset({one, other}), set())


@pytest.mark.parametrize("other", ["aerosol", "firelighter", "corrosive", "wet_battery"])
def test_oxygen_is_kept_out_of_one_space_with_what_its_other_class_is_kept_from(other):
    assert BOOK.hazards["oxygen"].un_class == "2.2 + 5.1"
    assert CELL["5.1", str(BOOK.hazards[other].un_class)] in {"1", "2"}
    assert CELL["2.2", str(BOOK.hazards[other].un_class)] == "X"
    assert levels_of("oxygen", other) == {"space"}


def test_oxygen_shares_no_air_with_fuel_and_gas():
    for other in (*STRICT, "diesel", "oil"):
        assert "air" in levels_of("oxygen", other)


def test_every_cell_of_the_table_is_followed_or_its_difference_is_told():
    missing = []
    for one, other in combinations([word for name in CLASSES for word in of_class(name)], 2):
        cell = CELL[str(BOOK.hazards[one].un_class), str(BOOK.hazards[other].un_class)]
        levels = levels_of(one, other)
        enough = {"X": True, "1": bool(levels), "2": "air" in levels}[cell]
        if not enough and not excused(one, other):
            missing.append((cell, one, other))
    assert missing == []


def test_food_is_kept_from_poison_and_acid():
    # NSW EPA: food apart from classes 2.3, 6 and 8.
    for word in ("toxic", "corrosive", "wet_battery", "clinical_waste"):
        assert "space" in LEVELS[frozenset({word, "food"})]


def test_t8_where_sources_differ_the_strictest_is_shipped():
    # T8: Western Australia says never in an enclosed boot, Queensland and Tasmania "preferably in the boot".
    assert set(BOOK.hazards["lpg"].air) == {"locker", "open"}


def test_cylinders_and_cans():
    # Queensland: at most 2 cylinders of at most 9 kg, upright; Western Australia: cans of at most 25 L.
    lpg, petrol = BOOK.hazards["lpg"], BOOK.hazards["petrol"]
    assert (lpg.totals.total_count, lpg.totals.each_kg, lpg.upright) == (2, 9, True)
    assert (petrol.totals.each_l, petrol.approved_can) == (25, True)
