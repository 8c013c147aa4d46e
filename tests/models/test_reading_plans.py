"""A plan's file: all that is wrong in it and in the files of its trip is told at once."""

import pytest

from models.reading import InputFaults, read_plan
from models.reading.faults import Fault
from tests.models.conftest import Trip

SOUND = "trip: trip.yaml\nplacements:\n- {thing: tent, space: left bay, corner_mm: [0, 0, 0], size_mm: [1, 1, 1]}\n"
NEAREST = {
    "placements[1].thing": 'did you mean "tent"?',
    "placements[1].space": 'did you mean "left bay"?',
    "left_at_home[0].thing": 'did you mean "tent"?',
    "locks[0].not_in": 'did you mean "left bay"?',
}
"""What is wrong with the names in `WRONG`, by place."""
WRONG = """- {thing: tnet, space: left bya, corner_mm: [0, 0], size_mm: [1, 1, 1]}
left_at_home:
- {thing: tnet, copy: 0}
locks:
- {thing: tent, not_in: left bya, carried: perhaps}
- {thing: tent}
"""


def told(trip: Trip, plan: str) -> dict[str, Fault]:
    with pytest.raises(InputFaults) as refused:
        read_plan(trip.write("plan.yaml", plan).folder / "plan.yaml")
    return {fault.path: fault for fault in refused.value.faults}


def test_faults_of_form_do_not_hide_those_of_names_nor_of_locks(trip):
    faults = told(trip, SOUND + WRONG)
    assert {path: faults[path].hint for path in NEAREST} == NEAREST
    form = {"placements[1].corner_mm", "left_at_home[0].copy", "locks[0].carried", "locks[1]"}
    assert set(faults) == set(NEAREST) | form


def test_faults_of_the_trip_do_not_hide_those_of_the_plan(trip):
    trip.change("gear.yaml", "kit: kitchen", "kit: kitchen\n  wet: wet")
    faults = told(trip, SOUND + WRONG)
    assert set(NEAREST) < set(faults)
    assert any(path.endswith(".wet") for path in faults)


def test_names_are_no_faults_where_the_files_have_changed(trip):
    plan = SOUND + "- {thing: tnet, space: left bay, corner_mm: [0, 0, 0], size_mm: [1, 1, 1]}\ntrip_digest: sha256:0\n"
    read = read_plan(trip.write("plan.yaml", plan).folder / "plan.yaml")
    assert [place.thing for place in read.plan.placements] == ["tent"]
    assert [place.thing for place in read.lost] == ["tnet"]
    assert set(told(trip, plan + "reserve_kept_kg: x\n")) == {"reserve_kept_kg"}


def test_a_plan_of_a_trip_that_is_not_there_is_told_with_its_own_faults(trip):
    assert set(told(trip, SOUND.replace("trip.yaml", "trp.yaml") + WRONG)) == {
        "trip", "placements[1].corner_mm", "left_at_home[0].copy", "locks[0].carried",
    }  # fmt: skip
