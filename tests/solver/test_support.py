"""support: the solver's side, stricter than the verifier: one supporter under 84 % of each side."""

import pytest

from models.plan import Plan
from solver import Options, propose
from solver.build import Build
from solver.geometry import borne
from solver.plans import from_plan
from solver.rules import inside, overlap, support
from tests.chances import rows
from tests.solver.conftest import Tiny, decided, piece_named, put
from verifier import check
from verifier.layout import layout_of
from verifier.rules.support import find

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

BASE = {"one": ("low", (2000, 0, 500))}


def on_top(x: int) -> dict[str, tuple[str, tuple[int, int, int]]]:
    return {**BASE, "two": ("low", (x, 0, 700))}


def test_nothing_hangs_in_the_air(pair):
    assert pair.allows(support.add)
    assert not pair.allows(support.add, places={"one": ("low", (2000, 0, 501))})
    assert pair.allows(support.add, places={"one": ("low", (2000, 0, 500))})


def test_most_of_a_base_is_on_its_supporter(pair):
    assert pair.allows(support.add, places=on_top(2032))
    assert not pair.allows(support.add, places=on_top(2033))


def test_a_solid_top_bears(pair):
    pair.vehicle["spaces"][0]["solid"] = [{"corner_mm": [2000, 0, 500], "size_mm": [400, 400, 50]}]
    assert pair.allows(inside.add, support.add, places={"one": ("low", (2000, 0, 550))})
    assert not pair.allows(inside.add, support.add, places={"one": ("low", (2000, 0, 551))})


def test_soft_things_bear_nothing(pair):
    assert pair.allows(overlap.add, support.add, places=on_top(2000))
    pair.things[0]["shape"] = "soft"
    assert not pair.allows(overlap.add, support.add, places=on_top(2000))
    assert pair.allows(overlap.add, support.add, places={**BASE, "two": ("low", (2200, 0, 500))})


def test_a_pile_counts_whole_on_the_lowest(pair):
    pair.vehicle["spaces"][0]["size_mm"] = [400, 400, 700]
    pair.thing("three")
    pile = {**on_top(2000), "three": ("low", (2000, 0, 900))}
    pair.things[0]["bears_kg"] = 20
    assert pair.allows(overlap.add, support.add, places=pile)
    pair.things[0]["bears_kg"] = 19.9
    assert not pair.allows(overlap.add, support.add, places=pile)
    assert pair.allows(overlap.add, support.add, places=on_top(2000))


def test_a_mere_touch_counts_whole_as_well(pair):
    pair.things[1] |= {"size_mm": [210, 200, 200]}
    pair.thing("beside", bears_kg=9)
    touching = {**on_top(2000), "beside": ("low", (2200, 0, 500))}
    assert not pair.allows(overlap.add, support.add, places=touching)
    assert pair.allows(overlap.add, support.add, places=touching | {"beside": ("low", (2200, 200, 500))})


CORNERS = {
    ("board", 1): ((2000, 0, 500), (400, 200, 100)),
    ("block", 1): ((2000, 0, 600), (200, 200, 200)),
    ("block", 2): ((2200, 0, 600), (200, 200, 200)),
    ("bridge", 1): ((2000, 0, 800), (400, 200, 100)),
}
"""A bridge over two blocks on a board, 10 kg each but the board."""


def bridged(tiny: Tiny, bears_kg: float) -> Plan:
    tiny.space("low", size_mm=[400, 400, 700])
    tiny.thing("board", size_mm=[400, 200, 100], bears_kg=bears_kg)
    tiny.thing("block", count=2)
    tiny.thing("bridge", size_mm=[400, 200, 100])
    made = [
        {"thing": thing, "copy": number, "space": "low", "corner_mm": corner, "size_mm": size}
        for (thing, number), (corner, size) in CORNERS.items()
    ]
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(made)})


@pytest.mark.parametrize(("bears_kg", "holds"), [(30, True), (29.9, False)])
def test_what_rests_on_two_things_counts_once_on_what_is_under_both(tiny, bears_kg, holds):
    plan = bridged(tiny, bears_kg)
    case = tiny.case()
    assert all(one.holds for one in find(layout_of(case, plan))) == holds
    problem = tiny.problem()
    whole = from_plan(problem, plan)
    for index in range(len(problem.pieces)):
        state = whole.copy()
        assert borne(state, state.remove(index)) == holds


@pytest.mark.parametrize(("bears_kg", "holds"), [(50, True), (49.9, False)])
def test_what_moves_is_borne_on_what_lies_still_counted_once(tiny, bears_kg, holds):
    """One more of 10 kg on the bridge: on the board 30 kg lie still, once, and 10 kg move, once for each way down."""
    plan = bridged(tiny, bears_kg)
    tiny.thing("more")
    problem = tiny.problem()
    more = piece_named(problem, "more")
    build = Build(problem, [more], range(len(problem.rooms)), from_plan(problem, plan))
    support.add(build)
    put(build, more, ("low", (2000, 0, 900)))
    assert decided(build) == holds


@pytest.mark.usefixtures("no_bound", "no_ways_told")
@pytest.mark.parametrize(("bears_kg", "holds"), [(60, True), (59.9, False)])
def test_planks_laid_crosswise_are_proposed_where_their_base_bears_them(tiny, bears_kg, holds):
    """Two planks to a layer, which no plank bears the base on; each way down counted, 80 kg would stand on the base."""
    tiny.space("low", size_mm=[200, 200, 250])
    tiny.thing("base", 70, size_mm=[200, 200, 100], bears_kg=bears_kg, carry="must")
    for name, size in (("first", [200, 100, 50]), ("second", [100, 200, 50]), ("third", [200, 100, 50])):
        tiny.thing(name, size_mm=size, count=2, bears_kg=50, carry="must")
    plan = propose(tiny.case(), Options(effort=0.02, seconds=600.0)).plan
    assert (plan is not None) == holds
    assert plan is None or check(tiny.case(), plan).holds


CUBE = [200, 200, 200]


def shelf(tiny: Tiny, bears_kg: float, waste_kg: float = 15) -> Plan:
    """Food of 15 kg, of which 10 are used up, beside waste of which 10 kg come to be: 20 kg on the board at each."""
    tiny.space("low", size_mm=[400, 200, 300])
    tiny.thing("board", size_mm=[400, 200, 100], bears_kg=bears_kg, carry="must")
    tiny.thing("food", 15, bears_kg=0, uses_up={"food": 10}, carry="must")
    tiny.thing("waste", waste_kg, bears_kg=0, fills={"waste": 10}, carry="must")
    tiny.trip["stages"] = [
        {"name": "out", "surface": "sealed_road"},
        {"name": "back", "surface": "sealed_road", "left": {"food": 0}, "filled": {"waste": 1}},
    ]
    lie = {"board": ([2000, 0, 500], [400, 200, 100]), "food": ([2000, 0, 600], CUBE), "waste": ([2200, 0, 600], CUBE)}
    made = [
        {"thing": thing, "copy": 1, "space": "low", "corner_mm": corner, "size_mm": size}
        for thing, (corner, size) in lie.items()
    ]
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(made)})


@pytest.mark.parametrize(("bears_kg", "holds"), [(20, True), (19.999, False)])
@pytest.mark.parametrize("free", [("food",), ("waste",), ("food", "waste"), ("board", "food", "waste")])
def test_what_goes_and_what_comes_is_borne_stage_by_stage(tiny, bears_kg, holds, free):
    plan = shelf(tiny, bears_kg)
    case = tiny.case()
    assert all(one.holds for one in find(layout_of(case, plan))) == holds
    problem = tiny.problem()
    whole = from_plan(problem, plan)
    moving = [piece_named(problem, name) for name in free]
    rest = whole.copy()
    for piece in moving:
        it = rest.remove(piece.index)
        without = whole.copy()
        without.remove(piece.index)
        assert borne(without, it) == holds
    build = Build(problem, moving, range(len(problem.rooms)), rest)
    support.add(build)
    for piece in moving:
        put(build, piece, ("low", whole.at[piece.index].box[:3]))
    assert decided(build) == holds


@pytest.mark.usefixtures("no_bound", "no_ways_told")
@pytest.mark.parametrize(
    ("bears_kg", "waste_kg", "found"), rows([(20, 15, True), (19.999, 15, False), (20, 15.001, False)], 2)
)
def test_food_and_waste_share_a_shelf_that_bears_one_of_them_full(tiny, bears_kg, waste_kg, found):
    shelf(tiny, bears_kg, waste_kg)
    plan = propose(tiny.case(), Options(effort=0.02, seconds=600.0)).plan
    assert (plan is not None) == found
    assert plan is None or check(tiny.case(), plan).holds
