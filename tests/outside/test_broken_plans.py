"""Good plans broken by construction: the verifier names the rule every time, and stays silent just within."""

import pytest

from benchmarks.broken_plans import broken, edges, few
from models.rules import Rule


@pytest.fixture(scope="module")
def bases():
    found = few()
    assert len(found) == 2
    return found


def test_every_rule_is_named_when_broken(bases):
    counts, missed = broken(bases, 130, seed=7)
    assert missed == []
    assert set(counts) == set(Rule)


@pytest.mark.long
def test_every_rule_just_beyond_and_just_within(bases):
    counts, wrong = edges(bases, 18, seed=8)
    assert wrong == []
    assert {rule for rule, (beyond, within) in counts.items() if beyond >= 8 and within >= 8} == set(Rule)
