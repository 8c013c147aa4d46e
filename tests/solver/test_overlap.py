"""overlap: the solver's side."""

import pytest

from models.plan import Plan
from solver import Options, Status, propose
from solver.rules import inside, overlap
from tests.chances import some
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def test_two_things_share_no_room(pair):
    assert pair.allows(overlap.add)
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2199, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2200, 0, 500))})


def test_nothing_stands_in_the_air_of_another(pair):
    pair.things[0]["air_gap_mm"] = {"rear": 50}
    assert pair.allows(overlap.add)
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2249, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2250, 0, 500))})


def test_two_airs_may_share_room(pair):
    for thing in pair.things:
        thing["air_gap_mm"] = {"rear": 100, "front": 100}
    assert not pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2299, 0, 500))})
    assert pair.allows(overlap.add, places={"one": ("low", (2000, 0, 500)), "two": ("low", (2300, 0, 500))})


def test_a_slide_runs_free(tiny):
    tiny.space("drawer", (2000, 0, 500), slides={"to": "rear", "mm": 300})
    tiny.space("behind", (2400, 0, 400))
    tiny.thing("one")
    assert tiny.allows(overlap.add)
    assert not tiny.allows(overlap.add, places={"one": ("behind", (2400, 0, 500))})
    assert tiny.allows(overlap.add, places={"one": ("behind", (2700, 0, 500))})


@pytest.fixture
def beside_a_slide(tiny):
    """A table slides from 1500 as far as 2200 mm into a shelf, in which a fridge wants 100 mm of air in front of it."""
    tiny.space("shelf", size_mm=[600, 400, 400])
    tiny.space("table", (1500, 0, 500), slides={"to": "rear", "mm": 300})
    tiny.thing("fridge", air_gap_mm={"front": 100}, size_mm=[300, 200, 200])
    return tiny


@pytest.mark.parametrize(("x", "holds"), [(2200, True), (2199, False), (2300, True)])
def test_air_may_reach_into_the_way_of_a_slide_and_no_thing(beside_a_slide, x, holds):
    places = {"fridge": ("shelf", (x, 0, 500))}
    assert beside_a_slide.allows(overlap.add, inside.add, places=places) is holds
    beside_a_slide.trip["locks"] = [{"thing": "fridge", "in": "shelf", "at_mm": [x, 0, 500]}]
    case = beside_a_slide.case()
    found = propose(case, Options(effort=0.02, seconds=600.0))
    assert found.status is (Status.FOUND if holds else Status.IMPOSSIBLE)
    place = {"thing": "fridge", "space": "shelf", "corner_mm": (x, 0, 500), "size_mm": (300, 200, 200)}
    assert check(case, Plan.model_validate({"trip": "trip.yaml", "placements": [place]})).holds is holds


def test_where_air_alone_reaches_into_a_slide_there_is_room(beside_a_slide):
    beside_a_slide.thing("block", size_mm=[100, 400, 400])
    beside_a_slide.trip["locks"] = [
        {"thing": "block", "in": "shelf", "at_mm": [2500, 0, 500]},
        {"thing": "fridge", "not_in": "table"},
    ]
    case = beside_a_slide.case()
    found = propose(case, Options(effort=0.02, seconds=600.0))
    assert found.plan is not None
    assert check(case, found.plan).holds


def test_the_air_of_a_thing_reaches_into_no_solid(beside_a_slide):
    beside_a_slide.vehicle["spaces"][1:] = []
    beside_a_slide.vehicle["spaces"][0]["solid"] = [{"corner_mm": [2000, 0, 500], "size_mm": [200, 400, 400]}]
    assert beside_a_slide.allows(overlap.add, inside.add, places={"fridge": ("shelf", (2300, 0, 500))})
    assert not beside_a_slide.allows(overlap.add, inside.add, places={"fridge": ("shelf", (2299, 0, 500))})


@pytest.fixture
def drawer(tiny):
    """A drawer of 300 mm in a chest in a bay goes 400 mm to the rear, into another bay, in which a narrow tin lies."""
    tiny.space("bay")
    tiny.space("shelf", (2400, 0, 500))
    tiny.space("drawer", size_mm=[300, 300, 300], inside_of="chest", slides={"to": "rear", "mm": 400})
    tiny.thing("chest", size_mm=[400, 400, 400])
    tiny.thing("spoons", size_mm=[100, 100, 100])
    tiny.thing("tin", size_mm=[200, 100, 200])
    tiny.trip["locks"] = [{"thing": "spoons", "in": "drawer"}, {"thing": "tin", "in": "shelf"}]
    return tiny


@pytest.mark.parametrize(("y", "holds"), [(300, True), (299, False)])
def test_the_drawer_of_a_thing_runs_free(drawer, y, holds):
    boxes = {"chest": ("bay", (2000, 0, 500)), "tin": ("shelf", (2400, y, 500)), "spoons": ("drawer", (2000, 0, 500))}
    assert drawer.allows(overlap.add, places=boxes) is holds
    sizes = {"chest": [400] * 3, "tin": [200, 100, 200], "spoons": [100] * 3}
    places = [
        {"thing": name, "space": space, "corner_mm": at, "size_mm": sizes[name]} for name, (space, at) in boxes.items()
    ]
    assert check(drawer.case(), Plan.model_validate({"trip": "t", "placements": places})).holds is holds


def test_a_plan_leaves_the_way_of_a_drawer_of_a_thing_free(drawer):
    found = propose(drawer.case(), Options(effort=0.02, seconds=600.0))
    assert found.plan is not None
    assert check(drawer.case(), found.plan).holds is True


def test_the_drawer_of_a_thing_that_stays_at_home_is_in_nobodys_way(drawer):
    drawer.things[0]["carry"] = drawer.things[1]["carry"] = 1
    drawer.trip["locks"] = [
        {"thing": "chest", "at_home": True},
        {"thing": "tin", "in": "shelf", "at_mm": [2400, 0, 500]},
    ]
    found = propose(drawer.case(), Options(effort=0.02, seconds=600.0))
    assert found.status is Status.FOUND


def test_it_is_not_proven_to_be_in_the_way_where_the_thing_need_not_come(drawer):
    drawer.things[0]["carry"] = drawer.things[1]["carry"] = 1
    drawer.trip["locks"] = [{"thing": "tin", "in": "shelf", "at_mm": [2400, 0, 500]}]
    assert propose(drawer.case(), Options(effort=0.02, seconds=600.0)).status is not Status.IMPOSSIBLE


SPOONS = {"thing": "spoons", "space": "drawer", "corner_mm": [2010, 10, 510], "size_mm": [100] * 3}


@pytest.fixture
def chests(tiny):
    """The drawer of two chests alike goes 400 mm to the rear, as far as 2700 mm; spoons lie in it."""
    tiny.space("bay", size_mm=[1100, 400, 400])
    tiny.space("drawer", (2010, 10, 510), size_mm=[290, 290, 290], inside_of="chest", slides={"to": "rear", "mm": 400})
    tiny.thing("chest", size_mm=[400, 400, 400], count=2)
    tiny.thing("spoons", size_mm=[100, 100, 100])
    tiny.trip["locks"] = [{"thing": "spoons", "in": "drawer"}]
    return tiny


@pytest.mark.parametrize("around", some([1, 2], 1))
@pytest.mark.parametrize(("x", "holds"), [(2700, True), (2699, False)])
def test_a_copy_lies_in_no_way_of_the_drawer_of_another(chests, around, x, holds):
    other = 3 - around
    chests.trip["locks"] += [
        {"thing": "chest", "copy": around, "in": "bay", "at_mm": [2000, 0, 500]},
        {"thing": "chest", "copy": other, "in": "bay", "at_mm": [x, 0, 500]},
    ]
    found = propose(chests.case(), Options(effort=0.02, seconds=600.0))
    assert found.status is (Status.FOUND if holds else Status.NOT_FOUND)
    boxes = [(around, [2000, 0, 500]), (other, [x, 0, 500])]
    places = [{"thing": "chest", "copy": n, "space": "bay", "corner_mm": at, "size_mm": [400] * 3} for n, at in boxes]
    plan = Plan.model_validate({"trip": "t", "placements": [*places, SPOONS]})
    assert check(chests.case(), plan).holds is holds


@pytest.mark.parametrize(("length", "found"), [(1100, True), (1099, False)])
def test_two_copies_lie_beside_the_way_of_the_drawer_of_one(chests, length, found):
    chests.vehicle["spaces"][0]["size_mm"][0] = length
    case = chests.case()
    proposed = propose(case, Options(effort=0.02, seconds=600.0))
    assert (proposed.plan is not None) is found
    assert proposed.plan is None or check(case, proposed.plan).holds


def test_the_model_keeps_a_copy_out_of_the_way_of_the_drawer_of_another(chests):
    boxes = {"chest": ("bay", (2000, 0, 500)), "spoons": ("drawer", (2010, 10, 510))}
    assert chests.allows(overlap.add, inside.add, places=boxes | {"chest #2": ("bay", (2700, 0, 500))})
    assert not chests.allows(overlap.add, inside.add, places=boxes | {"chest #2": ("bay", (2699, 0, 500))})


@pytest.fixture
def wagon(chests):
    """A chest lies in a wagon, in a tray that is part of that, and its drawer goes as far as 2700 mm."""
    chests.things[0]["count"] = 1
    chests.thing("wagon", size_mm=[420, 400, 400])
    chests.things[0]["holder"] = "wagon"
    chests.space("tray", (2005, 5, 505), size_mm=[400, 390, 390], inside_of="wagon", accepts=["wagon"])
    chests.space("shelf", (2000, 500, 500), size_mm=[400, 400, 400], accepts=["wagon"])
    chests.things[0]["size_mm"] = [390, 390, 390]
    return chests


@pytest.mark.parametrize(("x", "holds"), [(2000, True), (2005, True), (2006, False), (2400, False), (2700, True)])
def test_what_lies_around_the_thing_of_a_drawer_is_in_no_way_of_it(wagon, x, holds):
    # Where it holds the tray, or out of the way; the chest itself lies elsewhere in the model of this rule alone.
    boxes = {"chest": ("shelf", (2000, 500, 500)), "wagon": ("bay", (x, 0, 500)), "spoons": ("drawer", (2010, 10, 510))}
    assert wagon.allows(overlap.add, places=boxes) is holds


def test_a_drawer_in_a_thing_in_a_thing_is_used(wagon):
    wagon.vehicle["spaces"].pop()
    case = wagon.case()
    found = propose(case, Options(effort=0.02, seconds=600.0))
    assert found.plan is not None
    assert check(case, found.plan).holds is True
