"""`lowstow check`: recomputes any plan and ends with the code of its verdict."""

import json
from pathlib import Path

import pytest


def spoil(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert text.count(old) == 1
    file.write_text(text.replace(old, new), "utf-8")


def test_a_plan_that_holds_ends_with_0(run, trip):
    found = run("check", trip / "plan.yaml")
    assert (found.exit_code, found.stderr) == (0, "")
    assert "May we drive?  YES." in found.stdout


def test_a_broken_limit_ends_with_1(run, trip):
    spoil(trip / "vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2000,")
    found = run("check", trip / "plan.yaml")
    assert found.exit_code == 1
    assert "May we drive?  NO." in found.stdout


def test_an_unknown_limit_ends_with_5(run, trip):
    spoil(trip / "vehicle.yaml", "gvm_kg: {kg: 3200, source: plate}", "gvm_kg: unknown")
    found = run("check", trip / "plan.yaml")
    assert found.exit_code == 5
    assert "NOT SIGNED OFF" in found.stdout


def test_all_faults_are_told_at_once_and_end_with_2(run, trip):
    spoil(trip / "gear.yaml", "mass_kg: 18", "mass_kg: -18")
    spoil(trip / "trip.yaml", "reserve_kg: 20", "reserv_kg: 20")
    found = run("check", trip / "plan.yaml")
    assert (found.exit_code, found.stdout) == (2, "")
    assert "-18" in found.stderr
    assert "reserv_kg" in found.stderr
    assert "Traceback" not in found.stderr


@pytest.mark.parametrize("name", ["nothing.yaml", "."])
def test_a_plan_that_cannot_be_read_ends_with_2(run, trip, name):
    found = run("check", trip / name)
    assert found.exit_code == 2
    assert len(found.stderr.splitlines()) == 1


def test_json_is_all_of_the_output(run, trip):
    found = run("check", trip / "plan.yaml", "--json")
    view = json.loads(found.stdout)
    assert (found.exit_code, view["holds"], view["digest_matches"]) == (0, True, None)


def test_changed_files_are_said_and_checked_as_they_are(run, trip):
    spoil(trip / "plan.yaml", "trip: trip.yaml", f"trip: trip.yaml\ntrip_digest: sha256:{'0' * 64}")
    found = run("check", trip / "plan.yaml")
    assert found.exit_code == 0
    assert "The files have changed since this plan was made" in found.stdout
    assert json.loads(run("check", trip / "plan.yaml", "--json").stdout)["digest_matches"] is False


def test_what_was_converted_is_echoed(run, trip):
    spoil(trip / "gear.yaml", "mass_kg: 18", "mass_kg: 33 lb")
    found = run("check", trip / "plan.yaml")
    assert "Notes from reading the files" in found.stdout
    assert "33 lb" in found.stdout
