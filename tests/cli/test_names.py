"""Names as people type them."""

from unicodedata import normalize

import pytest

from cli.answering import BadInput
from cli.names import matching, the_one, with_number

NAMES = ("first aid kit", "recovery kit", "water can", "jerry can", "tool box", "extinguisher", "Béla's bag")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("Tool Box", ["tool box"]),
        ("tool", ["tool box"]),
        ("toolbox", ["tool box"]),
        ("tol bx", ["tool box"]),
        ("frist ad", ["first aid kit"]),
        ("extingusher", ["extinguisher"]),
        ("kit recovery", ["recovery kit"]),
        ("kit", ["first aid kit", "recovery kit"]),
        ("can", ["water can", "jerry can"]),
        ("béla", ["Béla's bag"]),
        (normalize("NFD", "béla"), ["Béla's bag"]),
        ("bela bag", ["Béla's bag"]),
        ("hovercraft", []),
        ("?!", []),
    ],
)
def test_matching(typed, meant):
    assert list(matching(typed, NAMES)) == meant


def test_what_is_typed_exactly_wins_over_a_part():
    assert matching("can", ("can", "water can")) == ("can",)


@pytest.mark.parametrize(
    ("typed", "names", "meant"),
    [
        ("かぎ", ("かぎ束", "かき"), ["かぎ束"]),
        ("tür", ("Tür", "Tur"), ["Tür"]),
        ("Ölkanne 2", ("Ölkanne", "Olkanne 2"), ["Olkanne 2"]),
        ("zoe", ("Zoë", "Zora"), ["Zoë"]),
    ],
)
def test_what_is_found_with_its_accents_is_not_looked_for_without(typed, names, meant):
    assert list(matching(typed, names)) == meant


@pytest.mark.parametrize(
    ("typed", "names", "meant"),
    [
        ("चाय", ["चिया बीज", "चाय का डिब्बा"], ["चाय का डिब्बा"]),
        ("น้ำ", ["น่ารำ", "ถังน้ำ"], ["ถังน้ำ"]),
        ("میخواهم", ["می\u200cخواهم", "خواهم"], ["می\u200cخواهم"]),
    ],
)
def test_vowels_that_are_marks_are_letters_and_what_is_not_seen_is_none(typed, names, meant):
    assert list(matching(typed, names)) == meant


@pytest.mark.parametrize("typed", ["Box", "box", "box!", "?!"])
def test_names_alike_but_for_case_and_signs_are_told_apart(typed):
    assert the_one(typed, ("Box", "box", "box!", "?!", "box lid"), "thing") == typed


def test_ambiguity_is_refused_with_the_choices():
    with pytest.raises(BadInput, match='"water can" or "jerry can": say which thing'):
        the_one("can", NAMES, "thing")


def test_nothing_near_is_refused_with_what_is_allowed():
    with pytest.raises(BadInput, match=r'found no thing of that name; allowed: "first aid kit", "recovery kit", '):
        the_one("hovercraft", NAMES, "thing")


@pytest.mark.parametrize(
    ("typed", "meant"), [("can #2", ("can", 2)), ("can#12", ("can", 12)), ("can", ("can", None)), ("#2", ("#2", None))]
)
def test_a_copy_by_its_number(typed, meant):
    assert with_number(typed) == meant


def test_a_name_that_ends_like_a_number_of_a_copy_is_a_name():
    assert with_number("can #2", ("can #2", "can")) == ("can #2", None)
