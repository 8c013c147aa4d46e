"""`lowstow revise` of a plan that holds and that the search, which asks more, does not come upon."""

import json
from importlib import import_module
from pathlib import Path

import pytest

from models.reading import read_plan
from solver import Proposal, Status
from tests.chances import some

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little", "no_ways_out")

QUICK = ("--effort", 0.01, "--seconds", 600)
VEHICLE = """
name: V
wheelbase_mm: 3200
track_mm: 1570
outline_mm: {front: -850, rear: 4450, width: 1880, height: 1950}
kerb: {front_kg: 1190, rear_kg: 960, cg_height_mm: 700}
limits: {gvm_kg: 3200, front_axle_kg: 1480, rear_axle_kg: 1850}
seats: [{name: driver, at_mm: [1500, 380, 800], back_top_z_mm: 1150}]
air: {tub: sealed}
openings: [{name: tailgate, side: rear}]
spaces:
  - {name: tub, corner_mm: [2400, -600, 700], size_mm: [1900, 600, 600], limit_kg: 300, air: tub, opening: tailgate}
  - {name: crate drawer, corner_mm: [2420, -580, 720], size_mm: [500, 400, 200], limit_kg: 30, air: tub,
     opening: tailgate, face: top, inside_of: crate, slides: {to: rear, mm: 400}}
"""
GEAR = """
- {name: crate, mass_kg: 20, size_mm: [600, 500, 400], turns: fixed, access: seldom}
- {name: block, mass_kg: 5, size_mm: [1200, 600, 600], turns: fixed, access: seldom}
"""
IN_HAND = """
trip: trip.yaml
placements:
  - {thing: crate, copy: 1, space: tub, corner_mm: [CRATE, -600, 700], size_mm: [600, 500, 400], turn: lwh}
  - {thing: block, copy: 1, space: tub, corner_mm: [BLOCK, -600, 700], size_mm: [1200, 600, 600], turn: lwh}
"""


def changed(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


@pytest.fixture
def drawer(tmp_path: Path) -> Path:
    """A crate whose drawer would run into a block, were the crate where its drawer is described."""
    (tmp_path / "vehicle.yaml").write_text(VEHICLE, "utf-8")
    (tmp_path / "gear.yaml").write_text(GEAR, "utf-8")
    stages = "stages: [{name: go, surface: sealed_road}]"
    (tmp_path / "trip.yaml").write_text(f"name: T\nvehicle: vehicle.yaml\ngear: gear.yaml\n{stages}\n", "utf-8")
    return tmp_path


@pytest.mark.parametrize("fresh", some([(), ("--fresh",)], 1))
def test_a_plan_in_hand_that_holds_is_kept_where_the_search_finds_none(run, drawer, fresh):
    path = drawer / "plan.yaml"
    path.write_text(IN_HAND.replace("CRATE", "3650").replace("BLOCK", "2400"), "utf-8")
    assert run("check", path).exit_code == 0
    found = run("revise", path, *fresh, *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("Nothing moves.\n")
    assert "May we drive?  YES." in found.stdout
    found = run("revise", path, *fresh, *QUICK, "--json")
    told = json.loads(found.stdout)
    assert (told["moves"], told["left_behind"], told["claims_off"]) == ([], [], [])
    assert f"Nothing is new; {path} stays as it is." in found.stderr


def test_a_worse_plan_made_anew_takes_no_place_of_one_that_only_a_check_takes(run, drawer, monkeypatch):
    path, mat = drawer / "plan.yaml", "mat, copy: 1, space: tub, corner_mm: [2400, -600, 1300], size_mm: [500, 400, 10]"
    changed(drawer / "vehicle.yaml", "size_mm: [1900, 600, 600]", "size_mm: [1900, 600, 650]")
    (drawer / "gear.yaml").write_text(GEAR + "- {name: mat, mass_kg: 1, size_mm: [500, 400, 10], carry: 50}\n", "utf-8")
    path.write_text(f"{IN_HAND.replace('CRATE', '3650').replace('BLOCK', '2400')}  - {{thing: {mat}}}\n", "utf-8")
    assert run("check", path).exit_code == 0
    plan = read_plan(path).plan
    worse = plan.model_copy(update={"placements": plan.placements[:2]})
    monkeypatch.setattr(import_module("solver.revise"), "propose", lambda *_, **__: Proposal(Status.FOUND, plan=worse))
    found = run("revise", path, "--fresh", *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("Nothing moves.\n")
    assert read_plan(path).plan.placements == plan.placements


def test_a_plan_in_hand_that_does_not_hold_is_refused_where_the_search_finds_none(run, drawer):
    path = drawer / "plan.yaml"
    path.write_text(IN_HAND.replace("CRATE", "2400").replace("BLOCK", "3000"), "utf-8")
    changed(drawer / "vehicle.yaml", "size_mm: [1900, 600, 600]", "size_mm: [1810, 600, 600]")
    assert run("check", path).exit_code == 1
    before = path.read_bytes()
    found = run("revise", path, *QUICK)
    assert found.exit_code == 4
    assert BUT_FOR not in found.stdout
    assert path.read_bytes() == before


BUT_FOR = "The plan in hand, with nothing moved, holds but for what must come"


def test_a_refusal_says_that_the_plan_in_hand_holds_but_for_what_is_new(run, drawer):
    path = drawer / "plan.yaml"
    path.write_text(IN_HAND.replace("CRATE", "3650").replace("BLOCK", "2400"), "utf-8")
    with (drawer / "gear.yaml").open("a", encoding="utf-8") as gear:
        gear.write("- {name: new bag, mass_kg: 5, size_mm: [100, 100, 100], turns: fixed}\n")
    found = run("revise", path, *QUICK, "--json")
    assert found.exit_code == 4, found.output
    assert json.loads(found.stdout)["closest"][0].startswith(f"{BUT_FOR} and is not in it: new bag.")


def test_nothing_moves_in_a_plan_in_hand_that_holds_where_the_search_would_move_things(run, drawer):
    # In a tub as wide as two of them a plan is found in which the block makes way for a drawer that is not there.
    path = drawer / "plan.yaml"
    path.write_text(IN_HAND.replace("CRATE", "3650").replace("BLOCK", "2400"), "utf-8")
    changed(drawer / "vehicle.yaml", "size_mm: [1900, 600, 600]", "size_mm: [1900, 1200, 600]")
    found = run("revise", path, *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("Nothing moves.\n")


@pytest.mark.long
def test_what_is_off_the_list_is_taken_out_of_a_plan_in_hand_that_holds_without_it(run, drawer):
    path = drawer / "plan.yaml"
    extra = "  - {thing: block, copy: 2, space: tub, corner_mm: [2400, 0, 700], size_mm: [1200, 600, 600], turn: lwh}\n"
    in_hand = IN_HAND.replace("CRATE", "3650").replace("BLOCK", "2400")
    path.write_text(f"trip_digest: 'sha256:{'0' * 64}'{in_hand}{extra}", "utf-8")
    found = run("revise", path, *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("Take out: block #2, out of tub (no longer on the list).\n")
    assert "block #1: " not in found.stdout.split("May we drive?")[0]
