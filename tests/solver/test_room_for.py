"""Whether a space, its racks and its tie-downs still take a thing, asked by itself; and what the sums count."""

from random import Random
from typing import Any

import pytest

from models.case import Copy
from solver import SILENT, Options
from solver.choose import Terms, take
from solver.clock import Clock
from solver.lanes import lane
from solver.limits import room_for_mass
from solver.repack import Repacker
from solver.state import State, lying
from solver.trying import Trial
from tests.solver.test_explain import plan_at


def takes_the_second(pair: Any, space: str = "high") -> bool:
    """Whether a space takes `two` once `one` lies in `low`."""
    problem = pair.problem()
    by_name = {piece.name: piece for piece in problem.pieces}
    state = State(problem)
    state.add(
        lying(problem, by_name["one"].index, problem.room_of["low"], 0, *problem.rooms[problem.room_of["low"]].low)
    )
    return room_for_mass(state, by_name["two"], problem.room_of[space])


@pytest.mark.parametrize(("mass_kg", "takes"), [(15, True), (15.001, False)])
def test_a_rack_below_bears_all_that_is_on_it(pair, mass_kg, takes):
    pair.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": 25}}]
    pair.vehicle["spaces"][0]["on"] = pair.vehicle["spaces"][1]["on"] = ["roof"]
    pair.things[0]["mass_kg"], pair.things[1]["mass_kg"] = 10, mass_kg
    assert takes_the_second(pair) is takes


@pytest.mark.parametrize(("left", "takes"), [(0.5, True), (0.6, False)])
def test_a_rack_counts_at_every_stage(pair, left, takes):
    # 10 kg on the road; 4 kg of the 10 are used up or not off the road, where the rack bears 20 - 2.
    pair.vehicle["racks"] = [{"name": "roof", "limits": {"sealed_road_kg": 90, "off_road_kg": 18}}]
    pair.vehicle["spaces"][0]["on"] = pair.vehicle["spaces"][1]["on"] = ["roof"]
    pair.things[0]["mass_kg"] = pair.things[1]["mass_kg"] = 10
    pair.things[0]["uses_up"] = {"food": 4}
    pair.trip["stages"] = [
        {"name": "road", "surface": "sealed_road"},
        {"name": "track", "surface": "off_road", "left": {"food": left}},
    ]
    assert takes_the_second(pair) is takes


@pytest.mark.parametrize(("over_kg", "takes"), [(0, True), (0.001, False)])
def test_tie_downs_hold_all_that_is_tied(pair, over_kg, takes):
    pair.vehicle["spaces"][0] |= {"holds": "tie_downs", "tie_downs": [{"rated_dan": 20}, {"rated_dan": 20}]}
    tied_g = pair.problem().rooms[pair.problem().room_of["low"]].tied_g
    assert tied_g is not None
    pair.things[0]["mass_kg"], pair.things[1]["mass_kg"] = 5, tied_g / 1000 - 5 + over_kg
    assert takes_the_second(pair, "low") is takes


def test_the_front_axle_counts_what_lies_behind_the_rear_one_at_its_lightest(tiny):
    # Behind the rear axle a load lifts the front one: it is surest counted light.
    tiny.space("tail", (4000, 0, 500))
    tiny.thing("crate", mass_kg={"least": 8, "likely": 10, "most": 12}, size_mm=[200, 200, 200])
    problem = tiny.problem()
    state = State(problem)
    state.add(lying(problem, 0, 0, 0, 4000, 0, 500))
    ahead2 = 2 * problem.constants.wheelbase - (4000 + 4200)
    assert ahead2 < 0
    assert lane(state.sums.front, 0) == ahead2 * 8000
    assert lane(state.sums.rear, 0) == (4000 + 4200) * 12000


def test_one_content_has_one_number_and_another_has_another(tiny):
    # -1 and -2 hash alike: a box and the same box turned, each a millimetre off on another side.
    tiny.space("low", (-2, -2, 500), size_mm=[300, 103, 400])
    tiny.thing("one", size_mm=[101, 100, 100], turns="upright")
    problem = tiny.problem()
    along, across = (
        next(i for i, shape in enumerate(problem.pieces[0].shapes) if shape.size[:2] == sides)
        for sides in ((101, 100), (100, 101))
    )
    one, other = State(problem), State(problem)
    one.add(lying(problem, 0, 0, along, -2, -1, 500))
    other.add(lying(problem, 0, 0, across, -1, -2, 500))
    assert one.content != other.content


def test_without_effort_only_free_places_are_taken(pair, monkeypatch):
    pair.thing("third", size_mm=[400, 400, 400], carry=5)
    problem = pair.problem()
    one, two, third = (next(piece for piece in problem.pieces if piece.name == n) for n in ("one", "two", "third"))
    state = State(problem)
    for piece, space in ((one, "low"), (two, "high")):
        room = problem.room_of[space]
        state.add(lying(problem, piece.index, room, 0, *problem.rooms[room].low))
    steps = list[float]()
    monkeypatch.setattr(Repacker, "step", lambda _, warmth: steps.append(warmth))
    take(state, [one, two], [third], Terms(1e9, Random(0), Clock(600, SILENT), 0.0))  # noqa: S311
    assert steps == []


def test_the_lowest_place_is_told_anew_where_a_thing_is_bound_to_other_spaces(pair):
    plan = plan_at(one=("high", (2600, 0, 900)), two=("low", (2000, 0, 500)))
    trial = Trial(pair.case(), plan, Options())
    index = trial.problem.piece_of[Copy("one", 1)]
    assert trial.problem.lowest2[index] == min(fit.lowest2 for fit in trial.problem.fits[index].values())
    high = trial.problem.room_of["high"]
    assert trial.bound_to(index, [high]).lowest2[index] == trial.problem.fits[index][high].lowest2
