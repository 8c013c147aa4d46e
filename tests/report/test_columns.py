"""How many columns of a terminal a text takes, and tables that stand straight with any writing."""

import unicodedata
from textwrap import wrap

import pytest
from hypothesis import given
from hypothesis import strategies as st

from report.terminal.columns import clusters, left, right, width_of, wrapped
from report.terminal.table import bullets, paragraph, table

FAMILY = "👩\u200d👩\u200d👧"
ACCENTED = unicodedata.normalize("NFD", "réchaud à gaz")
LETTERS = ["a", "z", " ", "-", "é", "水", "ガ", "한", "⛺", "🚙", "e\u0301", FAMILY]
names = st.lists(st.sampled_from(LETTERS), max_size=60).map("".join)


@pytest.mark.parametrize(
    ("text", "columns"),
    [
        ("", 0),
        ("axe", 3),
        ("水罐", 4),
        ("ガスボンベ", 10),
        ("ｶﾞｽ", 3),
        ("한국", 4),
        (unicodedata.normalize("NFD", "한국"), 4),
        ("é", 1),
        ("e\u0301", 1),
        (ACCENTED, 13),
        ("⛺", 2),
        ("🚙 box", 6),
        (FAMILY, 2),
        ("👍🏽", 2),
        ("☀\ufe0f", 2),
        ("☀", 1),
        ("a\u200bb", 2),
        ("soft\u00adly", 7),
        ("ж°±", 3),
    ],
)
def test_the_columns_of_a_text(text, columns):
    assert width_of(text) == columns


def test_what_is_one_to_the_eye_stays_together():
    assert list(clusters(f"a{FAMILY}e\u0301水")) == ["a", FAMILY, "e\u0301", "水"]


@given(names)
def test_clusters_are_the_text(text):
    assert "".join(clusters(text)) == text


def test_padding_is_by_columns():
    assert left("水", 4) == "水  "
    assert right("水", 4) == "  水"
    assert left("water", 3) == "water"


@given(st.text("ab c-xyz", max_size=120), st.integers(1, 40), st.sampled_from(["", "- ", "  12. "]))
def test_plain_text_is_wrapped_as_everyone_does(text, width, first):
    rest = " " * len(first)
    if width > len(first):
        plain = wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
        assert wrapped(text, width, first, rest) == [line.rstrip() for line in plain]


@given(names, st.integers(4, 40))
def test_no_line_is_too_wide_and_nothing_is_lost(text, width):
    lines = wrapped(text, width)
    assert all(width_of(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_character_wider_than_the_room_still_ends():
    assert wrapped("水火", 1) == ["水", "火"]
    assert wrapped("水 火", 0, "- ", "  ") == ["- 水", "  火"]


def test_numbers_stand_under_each_other_beside_any_name():
    rows = [("axe", "2"), ("水罐", "21"), ("⛺ 帐篷", "8"), (ACCENTED, "13"), (FAMILY, "1")]
    lines = table(("name", "kg"), rows, 40)
    assert {width_of(line) for line in lines} == {2 + 13 + 2 + 2}
    assert lines[3] == "  水罐           21"


@given(st.lists(st.tuples(names, st.integers(-9999, 9999).map(str), names), min_size=1, max_size=4))
def test_no_line_of_a_table_is_wider_than_the_width(rows):
    lines = table(("first", "kg", "last"), rows, 80, frozenset({0, 2}))
    assert max(map(width_of, lines)) <= 80


@given(names)
def test_paragraphs_and_bullets_are_within_their_width(text):
    assert max(map(width_of, [*paragraph(text, 30, "水: "), *bullets([text], 30)])) <= 30
