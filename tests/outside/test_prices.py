"""Prices of explanations against a long search: the rows that are sampled, and what the search keeps of the locks."""

import pytest

from benchmarks.conversation import explained, sampled
from benchmarks.reference import Reference
from models.case import Case, Copy
from models.plan import Plan
from models.reading import case_from
from models.trip import Lock
from solver import Options, why_not
from solver.problem import Problem
from solver.trying import Trial

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


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


@pytest.fixture
def soon_told(monkeypatch):
    """Explanations with little search, for those who count rows."""
    quick = Options(effort=0.05, seconds=600.0)
    monkeypatch.setattr("benchmarks.conversation.why_not", lambda case, plan, copy: why_not(case, plan, copy, quick))


@pytest.mark.long
@pytest.mark.usefixtures("soon_told")
@pytest.mark.parametrize(("wanted", "there", "asked"), [(1, 1, 1), (5, 5, 2), (30, 6, 2)])
def test_rows_are_sampled_until_there_are_enough_or_no_more(shelves, wanted, there, asked):
    case, plan = shelves
    rows, seconds = sampled(case, plan, wanted, Reference(case, plan))
    assert (len(rows), len(seconds)) == (there, asked)
    assert "low" not in {space for _, space in rows}


@pytest.mark.long
@pytest.mark.usefixtures("soon_told")
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


def open_spaces(problem: Problem) -> dict[str, set[str]]:
    """Where each copy may be."""
    return {str(p.copy): {problem.rooms[room].space.name for room in problem.fits[p.index]} for p in problem.pieces}


ALL = {"low", "middle", "high", "highest"}


@pytest.mark.parametrize(
    ("lock", "second", "third"),
    [
        ({"thing": "can", "in": "low"}, {"low"}, {"low"}),
        ({"thing": "can", "not_in": "highest"}, ALL - {"highest"}, ALL - {"highest"}),
        ({"thing": "can", "copy": 3, "in": "low"}, ALL, {"low"}),
        ({"thing": "can", "copy": 1, "in": "low"}, ALL, ALL),
        ({"thing": "pan", "in": "low"}, ALL, ALL),
    ],
)
@pytest.mark.parametrize("kept_by", ["trip", "plan"])
def test_a_lock_on_all_copies_stays_on_those_that_are_not_asked_about(bench, kept_by, lock, second, third):
    for number, name in enumerate(("low", "middle", "high", "highest")):
        bench.space(name, [2000 + 900 * number, 0, 500 + 100 * number], [800, 400, 400])
    bench.thing("can", 10, [200, 200, 200], count=3)
    bench.thing("pan", 3, [200, 200, 200])
    for number in (1, 2, 3):
        bench.put("can", "low", (1800 + 200 * number, 0, 500), copy=number)
    bench.put("pan", "low", (2600, 0, 500))
    plan = Plan.model_validate({"trip": "t.yaml", "placements": tuple(bench.places)})
    if kept_by == "trip":
        bench.trip["locks"] = [lock]
    else:
        plan = plan.model_copy(update={"locks": (Lock.model_validate(lock),)})
    case = case_from(bench.vehicle, bench.things, bench.trip)
    found = open_spaces(Reference(case, plan).problem((Copy("can", 1), "high")))
    pan = {"low"} if lock["thing"] == "pan" else ALL
    assert found == {"can": {"high"}, "can #2": second, "can #3": third, "pan": pan}
    trial = Trial(case, plan, Options())
    one, high = trial.problem.piece_of[Copy("can", 1)], trial.problem.room_of["high"]
    assert open_spaces(trial.bound_to(one, [high], one_more=True)) == found


def test_copies_like_it_that_lie_in_the_space_asked_about_stay_there(bench):
    bench.space("low", [2000, 0, 500], [400, 400, 400])
    bench.space("high", [2600, 0, 900], [400, 400, 400])
    bench.thing("can", 10, [200, 200, 200], count=3)
    bench.put("can", "low", (2000, 0, 500), copy=1)
    bench.put("can", "high", (2600, 0, 900), copy=2)
    bench.put("can", "low", (2200, 0, 500), copy=3)
    bench.trip["locks"] = [{"thing": "can", "carried": True}]
    case = case_from(bench.vehicle, bench.things, bench.trip)
    plan = Plan.model_validate({"trip": "t.yaml", "placements": tuple(bench.places)})
    found = Reference(case, plan).problem((Copy("can", 1), "high"))
    assert open_spaces(found) == {"can": {"high"}, "can #2": {"high"}, "can #3": {"low", "high"}}
    assert all(one.carried for one in found.fixed)
