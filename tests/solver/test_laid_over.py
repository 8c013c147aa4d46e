"""What lay in one room, laid into another."""

import pytest

from models.case import Copy
from solver.geometry import allowed
from solver.laid_over import laid_over
from solver.limits import room_for_mass
from solver.patterns import Patterns
from solver.state import State
from solver.trying import Trial
from tests.solver.test_explain import PLENTY, plan_at

NEAR_LEFT, ON_IT = (2000, 0, 500), (2000, 0, 700)


@pytest.fixture
def laid(pair):
    """Two things on each other in a near left corner, their patterns, and a way to lay them into another room."""
    pair.things[0]["mass_kg"] = 20

    def lay(*locked: str):
        trial = Trial(pair.case(), plan_at(one=("low", NEAR_LEFT), two=("low", ON_IT)), PLENTY)
        problem = trial.problem
        patterns = Patterns(problem, frozenset(problem.piece_of[Copy(name, 1)] for name in locked))
        found = laid_over(patterns, trial.now.inside[problem.room_of["low"]], problem.room_of["high"])
        if found is None:
            return None
        state = State(problem)
        for it in sorted(found, key=lambda it: it.box[2]):
            assert room_for_mass(state, problem.pieces[it.piece], it.room)
            assert allowed(state, it)
            state.add(it)
        return {problem.pieces[it.piece].copy.thing: it.box[:3] for it in found}

    return lay


def test_things_lie_to_each_other_as_they_lay(laid):
    assert laid() == {"one": (2600, 0, 900), "two": (2600, 0, 1100)}


def test_where_a_wall_is_in_the_way_they_lie_mirrored(pair, laid):
    pair.vehicle["spaces"][1]["solid"] = [{"corner_mm": [2600, 0, 900], "size_mm": [200, 200, 400]}]
    assert laid() == {"one": (2600, 200, 900), "two": (2600, 200, 1100)}


@pytest.mark.parametrize(
    "change",
    [{"limit_kg": 25}, {"size_mm": [400, 400, 300]}, {"size_mm": [150, 400, 400]}, {"accepts": ["bottle"]}],
    ids=["mass", "height", "length", "words"],
)
def test_what_is_not_lawful_there_is_not_laid_there(pair, laid, change):
    pair.vehicle["spaces"][1].update(change)
    assert laid() is None


def test_what_is_locked_stays(laid):
    assert laid("two") is None
