"""What brings mass to where a missed limit of the whole vehicle wants it."""

from random import Random

import pytest

from solver.bring_over import brought_over, missed_way
from solver.problem import Problem
from solver.repack import Repacker, score
from solver.state import State, laid, lying

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def chance(seed: int) -> Random:
    return Random(seed)  # noqa: S311 - to search, not to keep secrets


def at(problem: Problem, **places: tuple[str, tuple[int, int, int]]) -> State:
    """Cubes of 200 mm at corners, by name."""
    of = {piece.name: piece.index for piece in problem.pieces}
    things = [lying(problem, of[name], problem.room_of[room], 0, *corner) for name, (room, corner) in places.items()]
    return laid(problem, things)


@pytest.fixture
def long(tiny):
    """A bay over the rear axle and a longer one behind and before it, on the left; one heavy thing and a light one."""
    tiny.space("front", (1000, -200, 500), size_mm=[400, 200, 200])
    tiny.space("tail", (5000, -200, 500), size_mm=[400, 200, 200])
    tiny.thing("heavy", 100)
    tiny.thing("light", 5)
    return tiny


@pytest.mark.parametrize("limit", [{"rear_axle_kg": 1000}, {"front_share_min": 0.53}], ids=["rear axle", "front share"])
def test_a_rear_axle_with_too_much_and_a_front_one_with_too_small_a_share_want_mass_forward(long, limit):
    long.vehicle["limits"] |= limit
    problem = Problem(long.case())
    assert missed_way(at(problem, heavy=("tail", (5000, -200, 500)))) == (0, -1)
    assert missed_way(at(problem, heavy=("front", (1000, -200, 500)))) is None


def test_a_front_axle_with_too_much_wants_mass_back(long):
    long.vehicle["limits"]["front_axle_kg"] = 1110
    problem = Problem(long.case())
    assert missed_way(at(problem, heavy=("front", (1000, -200, 500)))) == (0, 1)


def test_sides_that_differ_too_much_want_mass_across(tiny):
    tiny.vehicle["limits"]["side_difference_share"] = 0.01
    tiny.space("left", (2000, -900, 500))
    tiny.space("right", (2000, 500, 500))
    tiny.thing("heavy", 100)
    problem = Problem(tiny.case())
    assert missed_way(at(problem, heavy=("left", (2000, -900, 500)))) == (1, 1)
    assert missed_way(at(problem, heavy=("right", (2000, 500, 500)))) == (1, -1)


def test_a_total_that_is_passed_wants_it_nowhere(long):
    long.vehicle["limits"]["gvm_kg"] = 2050
    assert missed_way(at(Problem(long.case()), heavy=("front", (1000, -200, 500)))) is None


def test_it_goes_as_far_as_it_can_and_what_was_there_makes_way(long):
    long.vehicle["limits"]["rear_axle_kg"] = 1000
    problem = Problem(long.case())
    for seed in range(20):
        state = at(problem, heavy=("tail", (5000, -200, 500)), light=("front", (1000, -200, 500)))
        if brought_over(state, chance(seed)) and problem.pieces[0].index in state.at:
            break
    it = state.at[problem.pieces[0].index]
    assert (it.room, it.box[0]) == (problem.room_of["front"], 1000)


def test_what_is_locked_stays(long):
    long.vehicle["limits"]["rear_axle_kg"] = 1000
    problem = Problem(long.case())
    state = at(problem, heavy=("tail", (5000, -200, 500)))
    state.locked = frozenset(state.at)
    assert not any(brought_over(state.copy(), chance(seed)) for seed in range(20))


def test_a_layout_that_leans_is_mended(tiny):
    """Twelve things on one side, of which chance alone seldom brings the heavy ones across."""
    tiny.vehicle["limits"]["side_difference_share"] = 0.02
    tiny.space("left", (2000, -900, 500), size_mm=[600, 400, 400])
    tiny.space("right", (2000, 500, 700), size_mm=[600, 400, 400])
    masses = (60, 40, 30, 5, 5, 5, 4, 4, 3, 3, 2, 2)
    for number, mass in enumerate(masses):
        tiny.thing(f"t{number}", mass)
    problem = Problem(tiny.case())
    corners = [(x, y, z) for z in (500, 700) for y in (-900, -700) for x in (2000, 2200, 2400)]
    state = at(problem, **{f"t{n}": ("left", corner) for n, corner in enumerate(corners)})
    assert not score(state, problem.pieces, State.height_mm).holds
    held = 0
    for seed in range(10):
        work = Repacker(state, problem.pieces, State.height_mm, chance(seed), 0.3)
        work.run(20, lambda: False, lambda found: found.holds)
        held += work.best_score.holds
    assert held == 10
