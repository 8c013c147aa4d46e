"""What tie-downs hold is told in kilograms, and a refusal says how much stronger they have to be."""

from typing import Any

import pytest

from models.case import Copy
from models.plan import Plan
from models.rules import Rule
from models.spaces import TieDown
from solver import propose, why_home
from solver.asking import Asked, lifted, raised
from solver.holding import held_kg, rated_dan_for
from solver.wording import limit_words
from tests.solver.conftest import conflict_of
from tests.solver.test_ways import QUICK, ways_of

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


@pytest.fixture
def shelf(tiny: Any) -> Any:
    """Two boxes of 30 kg and the one space that takes them, whose tie-downs hold 50.968 kg: 400 N by 0.8 of 9.81."""
    tiny.space("shelf", (2000, -200, 500), holds="tie_downs", tie_downs=[{"rated_dan": 40}, {"rated_dan": 40}])
    tiny.thing("crate", 30, size_mm=[200, 200, 200])
    tiny.thing("chest", 30, size_mm=[200, 200, 200])
    return tiny


def test_what_tie_downs_hold_and_what_they_have_to_be_rated_for_it(shelf):
    rule = shelf.case().rulebook.restraint
    points = [TieDown(rated_dan=40), TieDown(rated_dan=40)]
    assert held_kg(points, rule) == pytest.approx(50.968, abs=0.001)
    assert rated_dan_for(10, rule) == 16
    assert rated_dan_for(held_kg(points, rule), rule) == 80


def test_the_limit_of_tie_downs_is_told_in_kilograms_rounded_down(shelf):
    told = "the tie-downs of shelf are rated 80 daN together, which holds 50.9 kg in braking"
    assert limit_words(shelf.case(), "tie-downs shelf") == told


def test_tie_downs_that_hold_too_little_are_told_with_how_much_more_they_need(shelf):
    found = propose(shelf.case(), QUICK).conflict
    assert found is not None
    assert found.says[0] == "shelf gets at least 9.0 kg more than its tie-downs hold, wherever things lie."
    says = [way.says for way in ways_of(shelf.case())]
    assert any(one.startswith("With 16 daN more of this limit, for 10 kg more: the tie-downs of shelf") for one in says)


def test_tie_downs_are_raised_by_what_is_told_and_lifted_beyond_any_load(shelf):
    def held_g(case: Any) -> int | None:
        return Asked(case, (), use_reserve=True).problem().rooms[0].tied_g

    assert held_g(shelf.case()) == 50968
    assert held_g(raised(shelf.case(), "tie-downs shelf", 10)) == 61162
    assert held_g(lifted(shelf.case(), "tie-downs shelf")) == 50968399


@pytest.mark.parametrize("holds", ["tie_downs", "enclosed"])
def test_what_has_to_be_tied_where_the_points_are_too_weak_is_proven_not_to_go_there(tiny, holds):
    tiny.space("bay", holds=holds, tie_downs=[{"rated_dan": 20}, {"rated_dan": 20}])
    tiny.thing("fridge", 38, tied=True)
    conflict = conflict_of(tiny)
    assert [(one.kind, one.subject) for one in conflict.demands] == [
        ("must come", "fridge"),
        ("limit", "tie-downs bay"),
    ]
    assert conflict.says[0].startswith("bay gets at least 12.5 kg more than its tie-downs hold")
    # 0.5 of what is rated, 10 N a daN, against 0.8 g of 38 kg: by the rule book's figures 24 daN more.
    assert [way.says.split(":")[0] for way in conflict.ways_out] == [
        "Leaving at home",
        "With 24 daN more of this limit, for 15 kg more",
    ]


def test_what_its_tie_downs_do_not_hold_is_not_told_as_a_place(tiny):
    tiny.space("bay", holds="enclosed", tie_downs=[{"rated_dan": 40}])
    tiny.space("floor", (2600, 0, 500), holds="tie_downs", tie_downs=[{"rated_dan": 400}])
    tiny.thing("fridge", 38, tied=True, carry=50)
    plan = Plan.model_validate({"trip": "trip.yaml", "placements": ()})
    found = why_home(tiny.case(), plan, Copy("fridge", 1), QUICK)
    assert found.lawful == ("floor",)
    assert found.rules == (
        ("bay", ((Rule.RESTRAINT, "the tie-downs of bay hold 25.4 kg more and it weighs 38.0 kg"),)),
    )
