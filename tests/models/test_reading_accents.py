"""Names that look alike are alike, whichever way their accents were typed; files are found by the letters written."""

from unicodedata import normalize

import pytest

from models.reading import read_case, read_plan

ONE = normalize("NFC", "café pot")
APART = normalize("NFD", "café pot")


@pytest.mark.parametrize(("listed", "meant"), [(ONE, APART), (APART, ONE)], ids=["one", "apart"])
def test_a_lock_finds_its_thing(trip, listed, meant):
    trip.change("gear.yaml", "name: tent", f"name: {listed}")
    trip.change("trip.yaml", "locks: []", f"locks: [{{thing: {meant}, in: right drawer}}]")
    case = read_case(trip.folder / "trip.yaml").case
    assert case.trip.locks[0].thing in case.thing_named


def test_a_plan_finds_its_thing_and_its_space(trip):
    trip.change("gear.yaml", "name: tent", f"name: {ONE}")
    trip.change("vehicle.yaml", "name: right drawer", "name: " + normalize("NFD", "tiroir à gauche"))
    place = "corner_mm: [2460, 80, 1100], size_mm: [700, 250, 250]"
    space = normalize("NFC", "tiroir à gauche")
    trip.write("plan.yaml", f"trip: trip.yaml\nplacements:\n  - {{thing: {APART}, space: {space}, {place}}}\n")
    read = read_plan(trip.folder / "plan.yaml")
    (placed,) = read.plan.placements
    assert placed.thing in read.case.thing_named
    assert placed.space in read.case.space_named


def test_a_name_that_looks_like_another_is_that_name_again(trip):
    trip.change("gear.yaml", "name: tent", f"name: {ONE}").change("gear.yaml", "name: shovel", f"name: {APART}")
    (fault,) = trip.faults()
    assert "again; allowed: each name once" in fault


def test_a_stream_finds_its_fluid(trip):
    trip.change("gear.yaml", "uses_up: {food: 8}", "uses_up: {" + normalize("NFD", "blé") + ": 8}")
    trip.change("trip.yaml", "locks: []", "locks: []\nstreams: {" + normalize("NFC", "blé") + ": {fluid: water}}")
    trip.change("trip.yaml", "left: {food: 0.5, ", "left: {")
    trip.change("trip.yaml", "left: {food: 0.3, ", "left: {")
    assert read_case(trip.folder / "trip.yaml").case.trip.streams.keys() == {normalize("NFC", "blé")}


def test_a_file_is_found_by_its_letters(trip):
    name = normalize("NFD", "équipement.yaml")
    (trip.folder / "gear.yaml").rename(trip.folder / name)
    trip.change("trip.yaml", "[gear.yaml]", f"[{name}]")
    assert read_case(trip.folder / "trip.yaml").case.trip.gear == (name,)


def test_what_is_to_stay_apart_is_found(trip):
    trip.change("gear.yaml", "name: tent", f"name: {ONE}")
    trip.change("trip.yaml", "locks: []", f"locks: []\napart: [[{APART}, shovel]]")
    case = read_case(trip.folder / "trip.yaml").case
    assert case.trip.apart == ((ONE, "shovel"),)
