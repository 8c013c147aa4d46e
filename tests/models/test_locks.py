"""Whose a lock is, and what stays of it, said in one place for whoever asks."""

import re
from pathlib import Path
from typing import Any

import pytest

from models.case import Case, Copy
from models.locks import keeps_out, left_of, locks_on, taken_off, under, without
from models.reading import read_case
from models.trip import Lock

ROOT = Path(__file__).resolve().parents[2]
CANS = tuple(Copy("water can", number) for number in (1, 2))


def lock(thing: str = "water can", /, **says: Any) -> Lock:
    return Lock.model_validate({"thing": thing, **says})


ALL, FIRST, OTHER = lock(carried=True), lock(copy=1, carried=True), lock("tent", carried=True)


@pytest.fixture
def case(trip) -> Case:
    return read_case(trip.folder / "trip.yaml").case


def test_a_lock_without_a_number_is_on_every_copy_of_its_thing(case):
    assert [under(case, one) for one in (ALL, FIRST, OTHER)] == [CANS, CANS[:1], (Copy("tent", 1),)]
    assert locks_on((ALL, OTHER, FIRST, ALL), CANS[1]) == (ALL,)
    assert locks_on((ALL, OTHER, FIRST, ALL), CANS[0]) == (ALL, FIRST)


@pytest.mark.parametrize(
    ("one", "free", "stays", "goes"),
    [
        (ALL, CANS[:1], (lock(copy=2, carried=True),), (FIRST,)),
        (ALL, CANS, (), (ALL,)),
        (ALL, (), (ALL,), ()),
        (FIRST, CANS[:1], (), (FIRST,)),
        (FIRST, CANS[1:], (FIRST,), ()),
        (OTHER, CANS, (OTHER,), ()),
    ],
)
def test_what_stays_of_a_lock_and_what_goes_are_the_whole_of_it(case, one, free, stays, goes):
    assert (left_of(case, one, free), taken_off(case, one, free)) == (stays, goes)


def test_only_what_is_lifted_is_taken_off(case):
    out = lock(not_in="left bay")
    assert without(case, (ALL, out), (out,), CANS[:1]) == (ALL, lock(copy=2, not_in="left bay"))


def test_whose_a_lock_is_is_asked_in_one_way():
    files = [
        path
        for name in ("models", "verifier", "packing", "solver", "report", "cli")
        for path in (ROOT / name).rglob("*.py")
    ]
    spelt = [path.name for path in files if re.search(r"copy_number (not )?in ", path.read_text("utf-8"))]
    assert spelt == ["trip.py"]


def test_a_lock_keeps_out_of_the_space_it_names_and_of_all_that_hangs_on_the_rack_it_names(case):
    on_rack = next(space for space in case.vehicle.spaces if case.racks_under(space))
    free = next(space for space in case.vehicle.spaces if not case.racks_under(space))
    rack = case.racks_under(on_rack)[0]
    told = [keeps_out(case, lock(not_in=name), space) for name in (rack, on_rack.name) for space in (on_rack, free)]
    assert told == [True, False, True, False]
    assert not any(keeps_out(case, ALL, space) for space in case.vehicle.spaces)
