"""A trip's own rule book says how long it takes to move a thing out of the way: what is needed soon is not buried."""

import pytest

from models.reading import case_from
from solver import Options, propose
from solver.digging import in_reach
from solver.problem import Problem
from solver.state import State, lying
from tests.chances import some
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_out")


@pytest.fixture
def lane_of_two(tiny):
    """A space in which one thing lies behind the other; the heavier is needed at each stop."""
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.thing("needed", mass_kg=30, access="each_stop", uses_per_day=0)
    tiny.thing("light", mass_kg=10, uses_per_day=5)

    def case(seconds):
        steps = [{"up_to_kg": None, "seconds": seconds}]
        return case_from(tiny.vehicle, tiny.things, tiny.trip, {"handling": {"steps": steps, "source": "measured"}})

    return case


@pytest.mark.long
@pytest.mark.parametrize("seconds", some([20, 300], 1))
def test_no_plan_buries_it(lane_of_two, seconds):
    case = lane_of_two(seconds)
    for seed in range(8):
        found = propose(case, Options(effort=0.02, seconds=600.0, seed=seed))
        assert found.plan is not None
        assert check(case, found.plan).broken == ()


@pytest.mark.parametrize("seconds", [20, 300])
def test_in_reach_counts_what_the_book_says(lane_of_two, seconds):
    problem = Problem(lane_of_two(seconds))
    by_name = {piece.name: piece.index for piece in problem.pieces}
    state = State(problem)
    state.add(lying(problem, by_name["needed"], 0, 0, 2000, 0, 500))
    before_it = lying(problem, by_name["light"], 0, 0, 2200, 0, 500)
    assert in_reach(state, before_it) is (seconds == 20)
