"""Tables and paragraphs within a width."""

from hypothesis import given
from hypothesis import strategies as st

from report.terminal.table import bullets, paragraph, table

words = st.text("abc xyz-", min_size=0, max_size=90)


def test_texts_stand_left_and_numbers_right():
    assert table(("name", "kg"), [("axe", "2"), ("water can", "21")], 40) == [
        "  name       kg",
        "  ---------  --",
        "  axe         2",
        "  water can  21",
    ]


def test_a_long_text_is_wrapped_in_its_column():
    assert table(("name", "kg"), [("a name that is long", "21")], 20)[2:] == ["  a name that is  21", "  long"]


@given(st.lists(st.tuples(words, st.integers(-9999, 9999).map(str), words), min_size=1, max_size=4))
def test_no_line_is_longer_than_the_width(rows):
    lines = table(("first", "kg", "last"), rows, 80, frozenset({0, 2}))
    assert max(map(len, lines)) <= 80


@given(words)
def test_paragraphs_keep_every_word(text):
    lines = [*paragraph(text, 30, "Note: "), *bullets([text], 30)]
    assert max(map(len, lines)) <= 30
    assert "".join(lines[: len(paragraph(text, 30, "Note: "))]).replace(" ", "") == f"Note:{text}".replace(" ", "")


def test_where_the_texts_are_narrow_already_figures_break_between_words():
    rows = [["leaving", *(f"{kg} (over 4779)" for kg in (7809, 5532, 2358, 1183))]]
    told = table(("stage", "total", "front", "rear", "aside"), rows, 70)
    assert max(map(len, told)) <= 70
    assert [line.split() for line in told[2:]] == [
        ["leaving", *(word for kg in ("7809", "5532", "2358", "1183") for word in (kg, "(over"))], ["4779)"] * 4,
    ]  # fmt: skip


def test_a_table_that_has_room_breaks_no_figure():
    rows = [["a long name of a stage", "7809 (over 4779)"]]
    assert table(("stage", "total"), rows, 34)[2].endswith("7809 (over 4779)")
