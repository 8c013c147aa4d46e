"""The order of loading, and its replay."""

from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.case import fresh
from packing import Tangle, first_fault, loading_order
from packing.digging import by_space, directly_before, wall_of
from packing.steps import loaded_kg


def test_a_stack_behind_a_face_has_one_order_alone(bay):
    bay.put("tall", (600, 0, 0), (400, 400, 600))
    bay.put("on base", (0, 0, 300), (400, 400, 300))
    bay.put("lid", (0, 0, 600), (1000, 400, 100))
    bay.put("base", (0, 0, 0), (400, 400, 300))
    assert bay.names == ["base", "on base", "tall", "lid"]
    sound = [order for order in permutations(bay.placements) if first_fault(bay.case, order) is None]
    assert [[placement.thing for placement in order] for order in sound] == [["base", "on base", "tall", "lid"]]


def test_replay_says_the_first_fault(bay):
    bay.put("base", (0, 0, 0), (400, 400, 300))
    bay.put("upper", (0, 0, 300), (400, 400, 300))
    bay.put("front", (500, 0, 0), (400, 400, 400))
    base, upper, front = bay.placements
    assert first_fault(bay.case, [upper]) == "upper has nothing under it in bay yet."
    assert first_fault(bay.case, [front, base]) == "base cannot get past front in bay."
    assert first_fault(bay.case, [front, base, upper]) == "base cannot get past front in bay."
    assert first_fault(bay.case, [base, base]) == "base goes into bay twice."
    assert first_fault(bay.case, [base, upper, front]) is None


def test_replay_refuses_what_goes_in_under_a_thing(new_bay):
    bay = new_bay("rear")
    bay.put("left post", (0, 0, 0), (300, 300, 300))
    bay.put("beam", (0, 0, 300), (300, 900, 100))
    bay.put("right post", (0, 600, 0), (300, 300, 300))
    left, beam, right = bay.placements
    assert first_fault(bay.case, [left, beam, right]) == "right post would have to go in under beam in bay."
    assert first_fault(bay.case, [left, right, beam]) is None


def test_a_ring_is_named_and_no_order_is_made_up(bay):
    # The slab lies on the sill, the post stands before the slab, the foot before the post, and the sill on the foot.
    bay.put("slab", (100, 0, 300), (300, 900, 200))
    bay.put("post", (450, 500, 0), (200, 300, 500))
    bay.put("foot", (700, 0, 0), (200, 900, 100))
    bay.put("sill", (100, 0, 100), (800, 300, 200))
    found = loading_order(bay.case, bay.plan)
    assert isinstance(found, Tangle)
    assert {copy.thing for copy in found.copies} == {"slab", "post", "foot", "sill"}
    assert all(name in str(found) for name in ("slab", "post", "foot", "sill"))
    assert all(first_fault(bay.case, order) is not None for order in permutations(bay.placements))


def test_spaces_are_loaded_one_after_the_other_and_buried_ones_first(bay):
    bay.put("crate", (0, 0, 0), (300, 300, 300))
    bay.put("other crate", (400, 0, 0), (300, 300, 300))
    bay.add_space("well", (2600, -500, 300), (1000, 1000, 300), face="top", opening="hatch")
    bay.put_in("water", (2600, -500, 300), (300, 300, 300))
    assert bay.names == ["water", "crate", "other crate"]


def test_a_thing_goes_in_before_what_is_put_inside_it(bay):
    bay.add_space("in the tent", (3000, -400, 700), (400, 400, 100), face="rear", inside_of="tent")
    bay.put_in("bedding", (3000, -400, 700), (300, 300, 100))
    bay.put("tent", (400, 100, 100), (400, 400, 200))
    bay.put("table", (400, 100, 0), (400, 400, 100))
    assert bay.names == ["table", "tent", "bedding"]


def test_one_packer_keeps_going_where_nothing_forces_a_change(bay):
    for number, packer in enumerate(("Ada", "Ben", "Ada", "Ben")):
        bay.put(f"{packer} {number}", (0, 250 * number, 0), (300, 250, 300), packer=packer)
    told = [step.packer for step in bay.steps]
    assert sorted(told) == told or sorted(told, reverse=True) == told


def test_a_step_tells_what_lifting_asks_for(bay):
    bay.put("low", (0, 0, 0), (400, 400, 700), kg=26)
    bay.put("high", (0, 0, 700), (400, 400, 300), kg=10.5)
    bay.put("light", (400, 0, 0), (400, 400, 700), kg=10, two_person=True)
    steps = {step.copy.thing: step for step in bay.steps}
    assert (steps["low"].heavy, steps["low"].above_shoulder, steps["low"].two_person) == (True, False, False)
    assert (steps["high"].heavy, steps["high"].above_shoulder) == (False, True)
    assert (steps["light"].heavy, steps["light"].above_shoulder, steps["light"].two_person) == (False, False, True)
    assert [one.thing for one in steps["high"].rests_on] == ["low"]
    assert steps["low"].openings == ("tailgate", "bay front")


@pytest.mark.parametrize(("kg", "marked", "people"), [
    (25, False, 1), (25.1, False, 2), (50, False, 2), (50.1, False, 3), (5, True, 2), (140, True, 6),
])  # fmt: skip
def test_a_step_tells_how_many_lift_it(bay, kg, marked, people):
    bay.put("thing", (0, 0, 0), (400, 400, 700), kg=kg, two_person=marked)
    assert [step.people for step in bay.steps] == [people]


@st.composite
def stacks(draw):
    """Boxes dropped one after the other through the roof, each coming to rest on the highest thing below it."""
    face = draw(st.sampled_from(["top", "rear", "front", "left", "right"]))
    boxes: list[tuple[int, int, int, int, int, int]] = []
    for _ in range(draw(st.integers(1, 12))):
        length, width, height = (draw(st.integers(1, 5)) * 100 for _ in range(3))
        x, y = draw(st.integers(0, 10 - length // 100)) * 100, draw(st.integers(0, 10 - width // 100)) * 100
        below = [b for b in boxes if x < b[0] + b[3] and b[0] < x + length and y < b[1] + b[4] and b[1] < y + width]
        z = max((b[2] + b[5] for b in below), default=0)
        if z + height <= 1000:
            boxes.append((x, y, z, length, width, height))
    return face, boxes


@given(stacks())
def test_every_order_that_is_given_can_be_followed(new_bay, stack):
    face, boxes = stack
    bay = new_bay(face)
    for number, (x, y, z, length, width, height) in enumerate(boxes):
        bay.put(f"box {number}", (x, y, z), (length, width, height))
    found = loading_order(bay.case, bay.plan)
    assert face != "top" or not isinstance(found, Tangle)
    if isinstance(found, Tangle):
        held, wall = by_space(bay.placed)["bay"], wall_of(bay.case.space_named["bay"])
        for earlier, later in pairwise((*found.copies, found.copies[0])):
            assert later in directly_before(held, earlier, face, wall)
        return
    assert sorted(step.copy for step in found) == sorted(bay.placed)
    assert first_fault(bay.case, [step.placement for step in found]) is None


def test_what_is_lifted_in_is_told_by_what_it_weighs_then(bay):
    """A tank that fills on the way goes in empty, and what is used up goes in full."""
    bay.put("toilet", (0, 0, 0), (200, 200, 200), kg=40.0, fills={"waste": 35.0})
    bay.put("water", (200, 0, 0), (200, 200, 200), kg=40.0, uses_up={"water": 35.0})
    steps = {step.copy.thing: step for step in bay.steps}
    assert [(steps[name].heavy, steps[name].people) for name in ("toilet", "water")] == [(False, 1), (True, 2)]
    case = bay.case
    stages = [{"filled": {"waste": 0.4}, "left": {"water": 0.0}}, {"filled": {"waste": 0.7}, "left": {"water": 0.3}}]
    own = tuple(case.trip.stages[0].model_copy(update=one) for one in stages)
    later = fresh(case, trip=case.trip.model_copy(update={"stages": own}))
    toilet, water = (later.thing_named[name] for name in ("toilet", "water"))
    assert loaded_kg(later, toilet, "most") == pytest.approx(5 + 0.4 * 35)
    assert loaded_kg(later, water, "likely") == pytest.approx(5)
    alone = water.model_copy(update={"uses_up": {"water": 40.0}})
    assert loaded_kg(later, alone, "most") == pytest.approx(0.3 * 40), "what is not there at first comes aboard later"
    nowhere = later.trip.model_copy(update={"stages": own[:1]})
    assert loaded_kg(fresh(later, trip=nowhere), alone, "most") == 40
