"""What is typed in other units at a wall, on a solid or beside a thing lies there, in a plan as in a lock."""

import pytest

from models.reading import PlanRead, read_case, read_plan
from tests.models.conftest import Trip
from verifier import judge

BAY = "corner_mm: [2460, -720, 850] "
BAY_SIZE = "size_mm: [1700, 640, 850]"
ARCH = "corner_mm: [2860, -720, 850], size_mm: [680, 220, 230]"
BOX = "size_mm: [500, 260, 240]"
"""Sides of the tool box."""
SIDES = "size_mm: [501, 260, 240]"
"""As placed, where half a millimetre more was typed in the list."""
GEOMETRY = {"inside", "overlap", "support"}


def read(trip: Trip, *corners: str, more: str = "") -> PlanRead:
    """A plan of tool boxes in the left bay with these corners; `more`: further keys of the last of them."""
    text = "trip: trip.yaml\nplacements:\n" + "".join(
        f"- {{thing: tool box, copy: {n}, space: left bay, corner_mm: {corner}, {more or SIDES}}}\n"
        for n, corner in enumerate(corners, 1)
    )
    return read_plan(trip.write("plan.yaml", text).folder / "plan.yaml")


def corners(trip: Trip, *typed: str, more: str = "") -> list[tuple[int, int, int]]:
    return [place.corner_mm for place in read(trip, *typed, more=more).plan.placements]


def locked(trip: Trip, at: str) -> tuple[int, int, int] | None:
    trip.change("trip.yaml", "locks: []", f"locks: [{{thing: tool box, in: left bay, at_mm: {at}}}]")
    return read_case(trip.folder / "trip.yaml").case.trip.locks[0].at_mm


def test_what_is_typed_at_the_corner_of_a_space_lies_in_it(trip):
    trip.change("vehicle.yaml", BAY, 'corner_mm: ["96.87 in", -720, 850] ')  # 2460.5
    (corner,) = corners(trip, '["96.87 in", -500, 850]')
    assert corner == locked(trip, '["96.87 in", -500, 850]') == (2461, -500, 850)


def test_what_is_typed_on_a_solid_stands_on_it(trip):
    trip.change("vehicle.yaml", ARCH, ARCH.replace("230]", "23.04 cm]"))  # its top is at 1080.4
    more = "size_mm: [500, 260, 240]"
    found = read(trip, "[2900, -720, 108.04 cm]", more=more)
    assert found.plan.placements[0].corner_mm == locked(trip, "[2900, -720, 108.04 cm]") == (2900, -720, 1081)
    assert GEOMETRY & {one.rule for one in judge(found.case, found.plan).broken} == set()


@pytest.mark.parametrize(("typed", "x"), [("365.94 cm", 3658), ("365.95 cm", 3660), ("365.84 cm", 3658)])
def test_what_is_typed_flush_with_a_far_wall_is_not_rounded_through_it(trip, typed, x):
    trip.change("vehicle.yaml", BAY, "corner_mm: [246.05 cm, -720, 850] ")
    trip.change("vehicle.yaml", BAY_SIZE, "size_mm: [169.94 cm, 640, 850]")  # to 4159.9
    trip.change("gear.yaml", BOX, "size_mm: [50.05 cm, 260, 240]")  # 500.5: flush from 3659.4 on
    assert corners(trip, f"[{typed}, -500, 850]") == [(x, -500, 850)]
    assert locked(trip, f"[{typed}, -500, 850]") == (x, -500, 850)


def test_a_wall_in_whole_millimetres_is_flush_with_what_ends_there_as_typed(trip):
    trip.change("gear.yaml", BOX, "size_mm: [50.05 cm, 260, 240]")
    assert corners(trip, "[365.95 cm, -500, 850]", "[365.96 cm, -200, 850]") == [(3659, -500, 850), (3660, -200, 850)]


def test_a_wall_of_which_the_whole_side_changed_with_its_corner_is_where_it_was_typed(trip):
    trip.change("vehicle.yaml", BAY, "corner_mm: [246.04 cm, -720, 850] ")  # to 4160.4, so 2461 to 4160
    trip.change("gear.yaml", BOX, "size_mm: [50.05 cm, 260, 240]")
    assert corners(trip, "[365.99 cm, -500, 850]") == [(3659, -500, 850)]


@pytest.mark.parametrize(("y", "x"), [(-720, 2689), (-501, 2689), (-500, 2691)])
def test_what_is_typed_up_to_a_solid_ends_there_and_beside_it_need_not(trip, y, x):
    trip.change("vehicle.yaml", "corner_mm: [2860, -720, 850]", "corner_mm: [286.04 cm, -720, 850]")
    trip.change("gear.yaml", BOX, "size_mm: [17.02 cm, 260, 240]")
    assert corners(trip, f"[269.02 cm, {y}, 850]", more="size_mm: [171, 260, 240]") == [(x, y, 850)]


@pytest.mark.parametrize(("upper", "z"), [("109.08 cm", 1092), ("109.07 cm", 1091)])
def test_what_is_typed_on_a_thing_stands_on_it(trip, upper, z):
    trip.change("gear.yaml", BOX, f"count: 2\n  {BOX.replace('240]', '24.04 cm]')}")
    found = corners(
        trip, "[2460, -500, 85.04 cm]", f"[2460, -500, {upper}]", more="size_mm: [500, 260, 241]"
    )  # from 850.4 to 1090.8
    assert [corner[2] for corner in found] == [851, z]


def test_a_row_up_to_the_far_wall_is_moved_as_one(trip):
    trip.change("gear.yaml", BOX, "count: 2\n  size_mm: [50.05 cm, 260, 240]")
    found = corners(trip, "[315.9 cm, -500, 850]", "[365.95 cm, -500, 850]")
    assert [corner[0] for corner in found] == [3158, 3659]


def test_what_is_in_whole_millimetres_stays_where_it_was_typed(trip):
    trip.change("gear.yaml", BOX, "count: 2\n  size_mm: [50.05 cm, 260, 240]")
    assert corners(trip, "[3660, -500, 850]", "[365.95 cm, -200, 850]") == [(3660, -500, 850), (3659, -200, 850)]


def test_a_moved_place_is_told_once_as_what_it_became(trip):
    trip.change("gear.yaml", BOX, "size_mm: [50.05 cm, 260, 240]")
    notes = [note for note in read(trip, "[365.95 cm, -500, 850]").notes if "corner_mm" in note]
    assert [note.partition(": ")[2] for note in notes] == [
        'placements[0].corner_mm[0] (tool box): "365.95 cm" read as 3659 mm'
    ]


@pytest.mark.parametrize("wrong", ["thing: [tool box]", "thing: tent", "space: [left bay]", "turn: [l]"])
def test_faults_beside_a_length_in_another_unit_are_told(trip, wrong):
    key = wrong.partition(":")[0]
    parts = {"thing": "thing: tool box", "space": "space: left bay", "turn": "turn: lwh"} | {key: wrong}
    entry = f"{', '.join(parts.values())}, corner_mm: [3.2 m, 0, 900], size_mm: [1, 1, 1]"
    trip.write("plan.yaml", f"trip: trip.yaml\nplacements:\n- {{{entry}}}\n")
    if wrong == "thing: tent":
        assert read_plan(trip.folder / "plan.yaml").plan.placements[0].corner_mm == (3200, 0, 900)
    else:
        with pytest.raises(Exception, match=key):
            read_plan(trip.folder / "plan.yaml")
