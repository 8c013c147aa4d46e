"""What lies in another space, on a lid or before an opening, is lifted first and put back, and loaded after."""

import pytest

from models.case import Case
from models.plan import Plan
from packing import in_other_spaces, moves_between, way_to
from tests.packing.test_moves import moved, replay

WELL = (2600, -500, 200)


@pytest.fixture
def well(bay):
    """A chest in the bay on the lid of a well in which a jack lies."""
    bay.put("chest", (0, 0, 0), (900, 900, 500), kg=40.0)
    bay.add_space("well", WELL, (1000, 1000, 400), face="top")
    bay.put_in("jack", WELL, (300, 300, 200))
    return bay


def told(case: Case, before: Plan, after: Plan) -> list[tuple[str, str]]:
    found = moves_between(case, before, after)
    assert found.stuck == ()
    replay(case, before, after, found)
    return [(one.kind, one.copy.thing) for one in found.moves]


def test_what_lies_on_a_lid_is_set_down_and_put_back(well):
    after = moved(well.plan, "jack", (2900, -500, 200))
    assert told(well.case, well.plan, after) == [("set down", "chest"), ("move", "jack"), ("put back", "chest")]


def test_minutes_of_what_makes_way_are_counted(well):
    after = moved(well.plan, "jack", (2900, -500, 200))
    found = moves_between(well.case, well.plan, after)
    jack, lift = next(one.minutes for one in found.moves if one.copy.thing == "jack"), 20 / 60
    assert found.minutes == pytest.approx(jack + 2 * lift)


@pytest.mark.parametrize(("gap_mm", "lifts"), [(50, 3), (51, 1)])
def test_a_space_with_a_deck_of_its_own_shuts_nothing_in(bay, gap_mm, lifts):
    x, y, z = WELL
    bay.put("chest", (0, 0, 0), (900, 900, 500))
    bay.add_space("well", (x, y, z - gap_mm), (1000, 1000, 400), face="top")
    bay.put_in("jack", (x, y, z - gap_mm), (300, 300, 200))
    after = moved(bay.plan, "jack", (x + 300, y, z - gap_mm))
    assert len(told(bay.case, bay.plan, after)) == lifts


@pytest.mark.parametrize("more", [{"slides": {"to": "rear", "mm": 900}}, {"opening": "hatch"}])
def test_a_drawer_and_another_opening_are_under_no_lid(bay, more):
    bay.put("chest", (0, 0, 0), (900, 900, 500))
    bay.add_space("well", WELL, (1000, 1000, 400), face="top", **more)
    bay.put_in("jack", WELL, (300, 300, 200))
    after = moved(bay.plan, "jack", (2900, -500, 200))
    assert told(bay.case, bay.plan, after) == [("move", "jack")]


def test_what_goes_under_a_lid_goes_before_what_comes_onto_it(bay):
    bay.put("chest", (0, 0, 0), (900, 900, 500))
    bay.add_space("well", WELL, (1000, 1000, 400), face="top")
    bay.put_in("jack", WELL, (300, 300, 200))
    only = bay.plan.model_copy(update={"placements": ()})
    assert told(bay.case, only, bay.plan) == [("bring in", "jack"), ("bring in", "chest")]
    assert told(bay.case, bay.plan, only) == [("take out", "chest"), ("take out", "jack")]


def test_what_changes_places_over_a_lid_is_untangled(bay):
    bay.put("chest", (0, 0, 0), (300, 300, 200))
    bay.add_space("well", WELL, (1000, 1000, 400), face="top")
    bay.put_in("jack", WELL, (300, 300, 200))
    after = moved(bay.plan, "jack", (2600, -500, 600), space="bay")
    after = moved(after, "chest", WELL, space="well")
    assert told(bay.case, bay.plan, after) == [
        ("set down", "chest"),
        ("set down", "jack"),
        ("put in", "chest"),
        ("put in", "jack"),
    ]


@pytest.mark.parametrize(("across_mm", "lifts"), [(299, 3), (300, 1)])
def test_only_what_is_right_before_a_place_shuts_it_in(bay, across_mm, lifts):
    bay.put("deep", (0, 0, 0), (300, 300, 200))
    bay.add_space("outer", (3600, -500, 600), (400, 1000, 1000), face="rear", opening="tailgate")
    bay.put_in("before", (3600, -500 + across_mm, 600), (300, 300, 200))
    after = moved(bay.plan, "deep", (2700, -500, 600))
    assert len(told(bay.case, bay.plan, after)) == lifts


def test_find_names_what_lies_on_a_lid_and_what_rests_on_that(well):
    well.things.append({"name": "bag", "mass_kg": 5, "size_mm": [300, 300, 200]})
    chest = well.placements[0]
    bag = chest.model_copy(update={"thing": "bag", "corner_mm": (2600, -500, 1100), "size_mm": (300, 300, 200)})
    well.placements.append(bag)
    jack = next(copy for copy in well.placed if copy.thing == "jack")
    way = way_to(well.case, well.placed, jack)
    assert [(copy.thing, space) for copy, space in zip(way.move_first, way.move_from, strict=True)] == [
        ("chest", "bay"),
        ("bag", "bay"),
    ]
    assert way.seconds == 12 + 20 + 6
    assert in_other_spaces(well.case, well.placed, way.move_first[0]) == ()


@pytest.fixture
def crate(bay):
    """A chain in a crate, with a space of its own that opens at the top, and a box on the crate."""
    bay.put("crate", (0, 0, 0), (400, 400, 300))
    bay.put("box", (0, 0, 300), (300, 300, 200))
    bay.add_space("in crate", (2610, -490, 610), (380, 380, 280), face="top", opening="hatch", inside_of="crate")
    bay.put_in("chain", (2610, -490, 610), (200, 200, 100))
    return bay


def test_what_is_in_a_thing_comes_before_what_is_put_on_it(crate):
    assert crate.names == ["crate", "chain", "box"]
    crate.placements[1] = crate.placements[1].model_copy(update={"corner_mm": (3010, -500, 600)})
    assert crate.names[-1] == "chain"


def test_what_is_on_a_thing_is_lifted_for_what_is_in_it(crate):
    after = moved(crate.plan, "chain", (2710, -490, 610))
    assert told(crate.case, crate.plan, after) == [("set down", "box"), ("move", "chain"), ("put back", "box")]


def test_what_is_on_the_lid_over_a_thing_is_lifted_for_what_is_in_it(well):
    well.put_in("crate", (3000, -500, 200), (400, 400, 300))
    well.add_space("in crate", (3010, -490, 210), (380, 380, 280), face="top", opening="hatch", inside_of="crate")
    well.put_in("chain", (3010, -490, 210), (200, 200, 100))
    assert well.names.index("chain") < well.names.index("chest")
    after = moved(well.plan, "chain", (3110, -490, 210))
    assert told(well.case, well.plan, after) == [("set down", "chest"), ("move", "chain"), ("put back", "chest")]
