"""A plan's file: all that is wrong in it and in the files of its trip is told at once."""

import errno
import os
from pathlib import Path

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


def test_a_plan_of_a_trip_in_a_closed_folder_is_told_as_what_may_not_be_read(trip, monkeypatch):
    stat = os.stat

    def closed(path, *args, **kwargs):  # whoever is root may read all
        if Path(os.fsdecode(path)).parent.name == "closed":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return stat(path, *args, **kwargs)

    monkeypatch.setattr("os.stat", closed)
    fault = told(trip, SOUND.replace("trip.yaml", "closed/trip.yaml"))["trip"]
    assert fault.found == 'a file that may not be read: "closed/trip.yaml"'


HEADING = "name,mass_kg,size_mm,shape,volume_l\n"
HOLLOW = "gear: found a heading and no things; allowed: the things that the vehicle, the trip or its plan names"


def hollow(trip: Trip, *, named: bool) -> Trip:
    """A gear list of a heading alone; `named`: the trip tells how much of its food is left."""
    trip.write("gear.csv", HEADING).change("trip.yaml", "[gear.yaml]", "[gear.csv]")
    for left in (
        () if named else (", left: {food: 0.5, drinking water: 0.5}", ", left: {food: 0.3, drinking water: 0.2}")
    ):
        trip.change("trip.yaml", left, "")
    return trip


def test_a_list_of_a_heading_alone_is_told_instead_of_the_names_that_refer_to_nothing_for_it(trip):
    hollow(trip, named=True).change(
        "trip.yaml", "locks: []", "locks: [{thing: tent, in: left bya}]\napart: [[tent, bag]]"
    )
    (first, lock) = told(trip, SOUND).values()
    assert str(first).replace(f"{trip.folder}/", "").startswith(f"gear.csv, line 1: {HOLLOW}")
    assert lock.path == "locks[0].in"


def test_a_plan_alone_that_names_things_tells_a_list_of_a_heading_alone(trip):
    assert set(told(hollow(trip, named=False), SOUND)) == {"gear"}


def test_a_plan_that_names_nothing_is_read_with_empty_lists(trip):
    plan = hollow(trip, named=False).write("plan.yaml", "trip: trip.yaml\n").folder / "plan.yaml"
    assert any("nothing stands in the gear lists" in note for note in read_plan(plan).notes)


def test_lists_emptied_since_the_plan_was_made_leave_out_what_it_names(trip):
    plan = hollow(trip, named=False).write("plan.yaml", f"trip_digest: 'sha256:0'\n{SOUND}").folder / "plan.yaml"
    read = read_plan(plan)
    assert [place.thing for place in read.lost] == ["tent"]


def test_a_space_that_is_part_of_a_thing_tells_an_empty_list(trip):
    trip.write("gear.yaml", "[]").change(
        "vehicle.yaml", "  - name: left bay\n", "  - name: left bay\n    inside_of: tent\n"
    )
    for left in (", left: {food: 0.5, drinking water: 0.5}", ", left: {food: 0.3, drinking water: 0.2}"):
        trip.change("trip.yaml", left, "")
    (fault,) = trip.faults()
    assert fault.startswith("gear.yaml, line 1: gear: found no things; allowed:")


CLAIMS = ("cg_height_mm", "front_axle_kg", "rear_axle_kg", "mass_kg")


@pytest.mark.parametrize("figure", [".nan", ".inf", "-.inf", "1e400", "yes", "heavy"])
@pytest.mark.parametrize("key", CLAIMS)
def test_a_claim_is_a_number(trip, key, figure):
    (path,) = told(trip, f"{SOUND}claims: {{{key}: {{leaving: {figure}}}}}\n")
    assert path.startswith(f"claims.{key}")


@pytest.mark.parametrize("figure", ["742", "-90", "742.125", "0"])
@pytest.mark.parametrize("key", CLAIMS)
def test_a_claim_may_be_any_number(trip, key, figure):
    text = f"{SOUND}claims: {{{key}: {{leaving: {figure}}}}}\n"
    read = read_plan(trip.write("plan.yaml", text).folder / "plan.yaml")
    assert getattr(read.plan.claims, key) == {"leaving": float(figure)}
