"""Trips made by chance are what they say: the same for a seed, physically consistent, and packable."""

from itertools import combinations
from xml.etree import ElementTree

import pytest

from benchmarks.chart import Series, chart
from benchmarks.generate import Wanted, made_case, trip_parts, write_trip
from benchmarks.one_room import Worth, case_of, packed_worth
from benchmarks.quick import first_plan
from models.geometry import box, meets
from models.reading import read_case
from solver.plans import to_plan
from verifier import check

WANTED = (Wanted(12, 5, 1), Wanted(30, 12, 3), Wanted(60, 20, 5), Wanted(30, 12, 2, mixed=False))


@pytest.mark.parametrize("wanted", WANTED)
def test_spaces_do_not_meet_and_every_copy_counts(wanted):
    case = made_case(3, wanted)
    boxes = [box(space.corner_mm, space.size_mm) for space in case.vehicle.spaces]
    assert not any(meets(one, other) for one, other in combinations(boxes, 2))
    assert len(case.copies) == wanted.things
    assert len(case.trip.stages) == wanted.stages


def test_the_same_seed_gives_the_same_trip():
    assert trip_parts(5, WANTED[1]) == trip_parts(5, WANTED[1])
    assert trip_parts(5, WANTED[1]) != trip_parts(6, WANTED[1])


def test_a_mixed_trip_holds_every_kind_of_thing():
    case = made_case(1, Wanted(80, 20, 3))
    assert {thing.hazard for thing in case.things} >= {None, "petrol", "lpg", "lithium"}
    assert any(thing.air_gap_mm for thing in case.things)
    assert any(thing.size_mm is None for thing in case.things)
    assert any(not thing.must for thing in case.things)
    assert any(thing.mass_kg.least < thing.mass_kg.most for thing in case.things)


@pytest.mark.parametrize("seed", [1, 2])
def test_a_first_plan_is_lawful(seed):
    case = made_case(seed, WANTED[1])
    plan = first_plan(case)
    assert plan is not None
    assert check(case, plan).holds is True


def test_written_trips_read_back(tmp_path):
    write_trip(tmp_path, 4, WANTED[1])
    read = read_case(tmp_path / "trip.yaml").case
    made = made_case(4, WANTED[1])
    assert (read.vehicle, read.things) == (made.vehicle, made.things)


def test_a_room_is_filled_with_what_is_worth_most():
    # Eight cubes fill the room; the two worth nothing much stay out.
    kinds = (Worth((100, 100, 100), "fixed", 50, 8), Worth((100, 100, 100), "any", 1, 2))
    case = case_of((200, 200, 200), kinds)
    value, state = packed_worth(case, kinds, 0.0)
    assert value == 400
    assert not {f.rule for f in check(case, to_plan(state, reserve_kept_kg=0)).broken} & {
        "inside",
        "overlap",
        "support",
    }


def test_a_chart_is_a_picture_with_every_line():
    text = chart("Cost & growth", "things", [Series("a", [(10, 0.01), (400, 9.0)]), Series("b <s>", [(10, 120.0)])])
    root = ElementTree.fromstring(text)  # noqa: S314 - our own text
    told = [element.text for element in root.iter() if element.tag.endswith("text")]
    assert "b <s>" in told
    assert len([e for e in root.iter() if e.tag.endswith("circle")]) == 3
