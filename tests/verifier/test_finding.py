"""A limit met exactly holds, a limit of nothing too, and the words for it."""

import pytest

from models.rules import Rule
from verifier.finding import against, at, at_least, within


@pytest.mark.parametrize(("value", "most", "least"), [(0.0, True, True), (1e-9, False, True), (-1e-9, True, False)])
def test_a_limit_of_nothing(value, most, least):
    assert within(Rule.RACK, "rack", None, value, 0.0, "kg", "says").holds is most
    assert at_least(Rule.RACK, "rack", None, value, 0.0, "kg", "says").holds is least


@pytest.mark.parametrize(("off", "holds"), [(0.9e-9, True), (1.1e-9, False)])
def test_one_part_in_a_thousand_million_is_rounding(off, holds):
    assert within(Rule.RACK, "rack", None, 500 * (1 + off), 500.0, "kg", "says").holds is holds
    assert at_least(Rule.RACK, "rack", None, 500 * (1 - off), 500.0, "kg", "says").holds is holds


def test_words():
    assert (at("camp"), at(None)) == (" at 'camp'", "")
    assert against(0.0, 0.0, "kg") == "0.0 kg of 0.0 kg"
    assert against(2.0, 1.5, "kg") == "2.0 kg of 1.5 kg, 0.5 kg too much"
    assert against(500 * (1 + 0.9e-9), 500.0, "kg") == "500.0 kg of 500.0 kg"
    assert against(2.0, None, "kg") == "2.0 kg; the limit is not known"
    assert against(None, 2.0, "kg") == "is not known"
