"""New patterns of rooms that are part of a thing, and of rooms that no pattern uses yet."""

from random import Random

import pytest

from models.case import Copy
from solver import SILENT
from solver.clock import Clock
from solver.elsewhere import Elsewhere
from solver.filling import fill, stays_in
from solver.footing import standing_under
from solver.grow import grow
from solver.insert import put
from solver.patterns import Patterns, patterns_of
from solver.recombine import lowest
from solver.state import State
from solver.trying import Trial
from tests.solver.test_explain import PLENTY, plan_at


def grown(state: State) -> Patterns:
    """The patterns after some growing at any price."""
    patterns = patterns_of(state)
    for seed in range(20):
        relaxed = lowest(state)
        assert relaxed is not None
        grow(relaxed, 1e9, Random(seed), Clock(600, SILENT), 1e6)  # noqa: S311
    return patterns


@pytest.mark.parametrize("part", [True, False])
def test_a_room_that_is_part_of_a_thing_grows_like_any_other(pair, part):
    pair.things = []
    pair.thing("chest", size_mm=[400, 400, 400])
    pair.thing("bag", size_mm=[100, 100, 100])
    pair.thing("hat", size_mm=[100, 100, 100])
    if part:
        pair.space("in it", (2050, 50, 550), size_mm=[250, 250, 250], inside_of="chest")
    else:
        pair.space("in it", (2050, 450, 550), size_mm=[250, 250, 250])
    problem = pair.problem()
    state, room = State(problem), problem.room_of["in it"]
    chest, bag, hat = (next(p for p in problem.pieces if p.name == name) for name in ("chest", "bag", "hat"))
    assert put(state, chest, [problem.room_of["low"]])
    assert put(state, bag, [room])
    assert put(state, hat, [problem.room_of["high"]])
    patterns = grown(state)
    both = patterns.key(room, (), patterns.classes[bag.index], patterns.classes[hat.index])
    assert patterns.lowest(both) is not None


def test_a_room_that_nothing_lies_in_is_grown_too(pair):
    problem = pair.problem()
    state = State(problem)
    assert all(put(state, piece, [problem.room_of["high"]]) for piece in problem.pieces)
    patterns = grown(state)
    low = problem.room_of["low"]
    assert all(patterns.lowest(patterns.key(low, (), number)) for number in patterns.classes)


@pytest.mark.parametrize("locked", [True, False])
def test_what_lies_there_counts_among_what_is_asked_for(pair, locked):
    # One box lies under a locked lid in the room that is to hold both: one more is put down, not two.
    pair.things = []
    pair.thing("box", count=2)
    pair.thing("lid")
    if locked:
        pair.trip["locks"] = [{"thing": "lid", "in": "high", "at_mm": [2600, 0, 1100]}]
    high = ("high", (2600, 0, 900))
    plan = plan_at(box_1=high, lid=("high", (2600, 0, 1100)), box_2=("low", (2000, 0, 500)))
    trial = Trial(pair.case(), plan, PLENTY)
    work = Elsewhere(trial, trial.problem.piece_of[Copy("box", 2)])
    target = work.target(trial.problem.room_of["high"])
    relaxed = lowest(trial.now)
    assert relaxed is not None
    base = stays_in(trial.now, target.room, standing_under(trial.now, trial.now.locked))
    for seed in range(20):
        fill(relaxed, target.room, target.asked, base, Random(seed))  # noqa: S311
    held = [dict(counts) for room, counts in work.patterns.heights() if room == target.room]
    assert any(all(here.get(number, 0) >= n for number, n in target.asked.items()) for here in held)
