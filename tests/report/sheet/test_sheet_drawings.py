"""Drawings are to scale, their numbers are those of the lists, and nothing hides a number."""

from collections.abc import Sequence
from itertools import pairwise
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.case import Copy, copy_of
from models.geometry import Box, Point
from models.plan import Placement
from report.drawings.labels import crowded, letters, spread
from report.drawings.opened import _seen, steps_of
from report.drawings.projection import crossing, eye_for, far_first, hides, outline
from report.drawings.scene import Scene, Shown
from report.drawings.seeing import sight

AXES = {"view-left": (0, 2), "view-above": (0, 1), "view-behind": (1, 2)}


def picture(made: Any, key: str) -> Any:
    (found,) = [one for one in made.page.named("svg") if one.get("aria-labelledby").startswith(f"{key}-title")]
    return found


def number_of(made: Any) -> dict[str, int]:
    return {one.name: one.number for one in made.sheet.places}


@pytest.mark.parametrize("key", AXES)
def test_things_and_spaces_are_to_scale(made, key):
    svg = picture(made, key)
    scale = float(svg.get("data-mm-per-unit"))
    across, up = AXES[key]
    drawn = {one.get("data-number"): one for one in svg.all() if one.get("data-number")}
    assert len(drawn) == len(made.told.plan.placements)
    for placement in made.told.plan.placements:
        name = made.told.case.called(copy_of(placement))
        rect = drawn[str(number_of(made)[name])]
        assert float(rect.get("width")) * scale == pytest.approx(placement.size_mm[across], abs=0.01 * scale)
        assert float(rect.get("height")) * scale == pytest.approx(placement.size_mm[up], abs=0.01 * scale)
    for space in made.told.case.vehicle.spaces:
        (rect,) = [one for one in svg.all() if one.get("data-space") == space.name]
        assert float(rect.get("width")) * scale == pytest.approx(space.size_mm[across], abs=0.01 * scale)


def test_two_things_lie_as_far_apart_as_they_are(made):
    svg = picture(made, "view-left")
    scale, at = float(svg.get("data-mm-per-unit")), {o.get("data-number"): o for o in svg.all() if o.get("data-number")}
    numbers, corner = number_of(made), {p.thing: p.corner_mm for p in made.told.plan.placements if p.copy_number == 1}
    apart = float(at[str(numbers["food box"])].get("x")) - float(at[str(numbers["shovel"])].get("x"))
    assert apart * scale == pytest.approx(corner["food box"][0] - corner["shovel"][0], abs=0.02 * scale)


def test_every_thing_is_numbered_once_where_its_space_is_opened(made):
    told = [one.number for space in made.sheet.drawings.spaces for step in space.steps for one in step.now]
    assert sorted(told) == sorted(number_of(made).values()) == list(range(1, len(told) + 1))
    for space in made.sheet.drawings.spaces:
        for step in space.steps:
            svg = picture(made, step.picture.key)
            numbers = {one.text for one in svg.all() if one.tag == "text" and one.get("class") == "number"}
            assert numbers == {str(one.number) for one in step.now}


def test_lists_and_drawings_use_one_number(made):
    numbers = number_of(made)
    loaded = {i.name: i.number for works in made.sheet.loading.rounds for work in works for i in work.items}
    assert loaded == numbers
    needed = {n.place.name: n.place.number for i in made.sheet.hurry.incidents for n in i.things}
    assert needed.items() <= numbers.items()


def test_numbers_in_a_view_do_not_lie_on_each_other(made):
    for key in AXES:
        texts = [
            one for one in picture(made, key).all() if one.tag == "text" and one.get("class") in {"number", "letter"}
        ]
        spots = [(float(o.get("x")), float(o.get("y")), len(o.text) * float(o.get("font-size")) * 0.62) for o in texts]
        assert len(spots) > 8
        pairs = [(a, b) for i, a in enumerate(spots) for b in spots[:i]]
        assert [
            p for p in pairs if abs(p[0][1] - p[1][1]) < 12 and abs(p[0][0] - p[1][0]) < (p[0][2] + p[1][2]) / 2
        ] == []


def test_hazards_are_hatched_and_marked_without_colour(made):
    hatched = [one for one in picture(made, "view-left").all() if "hazard" in one.get("class").split()]
    assert {one.get("data-number") for one in hatched} == {
        str(number) for name, number in number_of(made).items() if name.startswith("extinguisher")
    }
    assert all("hazard" in one.marks for one in made.sheet.places if one.name.startswith("extinguisher"))


def test_steps_follow_the_order_of_loading(made):
    for space in made.sheet.drawings.spaces:
        seen = [one.number for step in space.steps for one in step.now]
        assert seen == sorted(seen)
        for n, step in enumerate(space.steps):
            assert sorted(step.earlier) == sorted(o.number for s in space.steps[:n] for o in s.now)


def shown(number: int, corner: Point, size: Point) -> Shown:
    told = {"thing": "tent", "copy": number, "space": "left bay", "corner_mm": corner, "size_mm": size}
    placement = Placement.model_validate(told)
    return Shown(Copy("tent", number), "tent", number, placement, (), soft=False)


def test_a_thing_that_a_later_one_hides_gets_a_step_of_its_own(told):
    bay = told.case.space_named["left bay"]
    (x, y, z), (length, width, height) = bay.corner_mm, bay.size_mm
    small = shown(1, (x + length - 300, y + width - 80, z), (80, 80, 80))
    beside = shown(2, (x, y, z), (100, 100, 100))
    plate = shown(3, (x + length - 200, y, z), (60, width, height))
    eye = eye_for(bay.face, y + width / 2)
    assert eye.towards_x == 1
    steps = steps_of(Scene(told.case, (small, beside, plate)), bay)
    assert [[one.number for one in step.now] for step in steps] == [[1, 2], [3]]
    assert len(steps_of(Scene(told.case, (small, beside)), bay)) == 1


@pytest.mark.parametrize("seed", range(4))
def test_each_step_shows_as_much_as_can_be_seen_at_once(told, seed):
    """What is looked at again when one more thing goes in is told from looking at all of it anew."""
    chance, bay = Random(seed), told.case.space_named["left bay"]  # noqa: S311 - no secret
    things = []
    for n in range(1, 26):
        length, width, height = (chance.randint(60, 300) for _ in range(3))
        room = zip(bay.corner_mm, bay.size_mm, (length, width, height), strict=True)
        x, y, z = (low + chance.randint(0, far - side) for low, far, side in room)
        things.append(shown(n, (x, y, z), (length, width, height)))
    steps = steps_of(Scene(told.case, tuple(things)), bay)
    assert [one for step in steps for one in step.now] == things
    assert 1 < len(steps) < len(things)
    eye, paper = _seen(bay)

    def all_seen(now: Sequence[Shown]) -> bool:
        boxes = [one.box for one in now]
        return all(sight(eye, paper, box, boxes) is not None for box in boxes)

    for step, after in pairwise(steps):
        assert len(step.now) == 1 or all_seen(step.now)
        assert not all_seen((*step.now, after.now[0]))


FAR, NEAR = Box((0, 0, 0), (100, 500, 300)), Box((200, 0, 0), (260, 500, 500))


def test_what_is_nearer_hides_and_is_painted_later():
    eye = eye_for("rear", 100.0)
    assert hides(eye, NEAR, FAR)
    assert not hides(eye, FAR, NEAR)
    assert far_first(eye, [NEAR, FAR]) == [1, 0]
    assert not crossing(outline(eye, FAR), outline(eye, Box((0, 5000, 0), (10, 5100, 10))))


boxes = st.tuples(*[st.integers(0, 400)] * 3, *[st.integers(20, 200)] * 3).map(
    lambda b: Box((b[0], b[1], b[2]), (b[0] + b[3], b[1] + b[4], b[2] + b[5]))
)


@given(boxes, boxes, st.sampled_from(["rear", "left", "right", "front", "top"]), st.sampled_from([-1.0, 1.0]))
def test_of_two_boxes_apart_at_most_one_hides_the_other(one, other, face, side):
    eye = eye_for(face, side)
    apart = any(one.high[i] <= other.low[i] or other.high[i] <= one.low[i] for i in range(3))
    if apart:
        assert not (hides(eye, one, other) and hides(eye, other, one))
        if hides(eye, one, other):
            assert far_first(eye, [one, other]) == [1, 0]


@given(st.lists(st.floats(0, 500, allow_nan=False), max_size=20))
def test_labels_are_spread_within_their_line(wished):
    places = spread(wished, 20, 0, 500)
    assert len(places) == len(wished)
    assert all(-1e-6 <= at <= 500 + 1e-6 for at in places)
    assert not crowded(places, 20 if len(wished) * 20 <= 500 else 500 / max(1, len(wished)) - 1e-6)
    by_wish = [at for _, at in sorted(zip(wished, places, strict=True))]
    assert by_wish == sorted(by_wish)


def test_spaces_beyond_the_alphabet_have_letters_too():
    assert [letters(n) for n in (0, 25, 26, 27, 52)] == ["A", "Z", "AA", "AB", "BA"]


@pytest.mark.parametrize(
    ("key", "left"), [("view-left", "the front"), ("view-above", "the front"), ("view-behind", "the left side")]
)
def test_what_lies_to_the_left_is_told_as_it_is(made, key, left):
    (told,) = [one.text for one in picture(made, key).all() if one.tag == "desc"]
    assert f", {left} to the left. " in told
