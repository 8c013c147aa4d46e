"""Prices of explanations against a long search: the sample ends with the rows there are."""

import pytest

from benchmarks.conversation import explained, sampled
from benchmarks.reference import Reference
from models.case import Case
from models.plan import Plan
from models.reading import case_from

pytestmark = pytest.mark.usefixtures("no_bound")


@pytest.fixture
def shelves(bench) -> tuple[Case, Plan]:
    """Four shelves and two boxes on the lowest: each box has three other spaces, so that there are six rows."""
    for number, name in enumerate(("low", "middle", "high", "highest")):
        bench.space(name, [2000 + 600 * number, 0, 500 + 100 * number], [400, 400, 400])
    bench.thing("one", 10, [200, 200, 200])
    bench.thing("two", 12, [200, 200, 200])
    bench.put("one", "low", (2000, 0, 500))
    bench.put("two", "low", (2200, 0, 500))
    case = case_from(bench.vehicle, bench.things, bench.trip)
    return case, Plan.model_validate({"trip": "t.yaml", "placements": tuple(bench.places)})


@pytest.mark.parametrize(("wanted", "there", "asked"), [(1, 1, 1), (2, 2, 1), (4, 4, 2), (5, 5, 2), (30, 6, 2)])
def test_rows_are_sampled_until_there_are_enough_or_no_more(shelves, wanted, there, asked):
    case, plan = shelves
    rows, seconds = sampled(case, plan, wanted, Reference(case, plan))
    assert (len(rows), len(seconds)) == (there, asked)
    assert "low" not in {space for _, space in rows}


def test_it_is_said_where_there_are_fewer_rows_than_asked_for(shelves):
    case, plan = shelves
    row, lines = explained(case, plan, 30, 0.01)
    assert row[2:4] == [6, 6]
    assert lines[0] == "only 6 rows of the 30 asked for: there are no more"
    assert len(lines) == 7


def test_a_plan_of_nothing_has_no_rows(bench):
    bench.space("low", [2000, 0, 500], [400, 400, 400])
    case = case_from(bench.vehicle, [], bench.trip)
    row, lines = explained(case, Plan.model_validate({"trip": "t.yaml", "placements": ()}), 5, 0.01)
    assert row == [None, None, 0, 0, None]
    assert lines == ["only 0 rows of the 5 asked for: there are no more"]
