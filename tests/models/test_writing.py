"""Files are written whole or not at all, and a plan reads back as it was."""

import errno
import os
from pathlib import Path

import pytest

from models.plan import Plan
from models.reading import InputFaults, read_case, read_plan
from models.writing import plan_text, replace_whole

CORNER, SIZE = [2460, 80, 1380], [700, 250, 250]


@pytest.fixture
def plan(trip) -> Plan:
    digest = read_case(trip.folder / "trip.yaml").case.digest
    return Plan.model_validate(
        {
            "trip": "trip.yaml",
            "trip_digest": digest,
            "locks": [{"thing": "tent", "in": "right shelf", "by": "Ada", "because": "it's wet: # always"}],
            "placements": [
                {"thing": "tent", "space": "right shelf", "corner_mm": CORNER, "size_mm": SIZE, "turn": "wlh"}
            ],
            "left_at_home": [{"thing": "camp chair", "copy": 2}],
            "reserve_kept_kg": 20,
            "reserve_asked_kg": 25,
            "claims": {"cg_height_mm": {"leaving": 742.125}, "front_axle_kg": {"leaving": 1391}},
        }
    )


def test_a_plan_stands_in_one_form(plan):
    assert plan_text(plan).replace(str(plan.trip_digest), "sha256:0") == (
        "trip: trip.yaml\n"
        "trip_digest: sha256:0\n"
        "locks:\n"
        '  - {thing: tent, in: right shelf, by: Ada, because: "it\'s wet: # always"}\n'
        "placements:\n"
        "  - {thing: tent, copy: 1, space: right shelf, corner_mm: [2460, 80, 1380],"
        " size_mm: [700, 250, 250], turn: wlh}\n"
        "left_at_home:\n"
        "  - {thing: camp chair, copy: 2}\n"
        "reserve_kept_kg: 20\n"
        "reserve_asked_kg: 25\n"
        "claims:\n"
        "  cg_height_mm: {leaving: 742.125}\n"
        "  front_axle_kg: {leaving: 1391}\n"
    )


def write(path: Path, plan: Plan) -> None:
    replace_whole(path, plan_text(plan))


def test_write_read_write(trip, plan):
    path = trip.folder / "plan.yaml"
    write(path, plan)
    read = read_plan(path)
    assert read.plan == plan
    assert read.digest_matches is True
    assert plan_text(read.plan) == path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "name", ["no", "012", "1e3", "a: b", "a #b", "{x}", "'q'", '"', "été 1°", "- x", "2024-05-01", "null", "🛒", "a\\b"]
)
def test_odd_names_read_back(trip, plan, name):
    trip.change("gear.yaml", "name: tent", "name: " + ("'" + name.replace("'", "''") + "'"))
    (placement,) = plan.placements
    odd = plan.model_copy(update={"placements": (placement.model_copy(update={"thing": name}),), "locks": ()})
    write(trip.folder / "plan.yaml", odd)
    assert read_plan(trip.folder / "plan.yaml").plan == odd


def test_a_plan_in_another_folder_finds_its_trip(plan, tmp_path):
    (tmp_path / "plans").mkdir()
    path = tmp_path / "plans" / "plan.yaml"
    write(path, plan.model_copy(update={"trip": "../trip.yaml"}))
    assert read_plan(path).digest_matches is True


def test_changed_files_are_told_and_what_is_gone_is_left_out(trip, plan):
    write(trip.folder / "plan.yaml", plan)
    trip.change("gear.yaml", "name: tent", "name: big tent")
    read = read_plan(trip.folder / "plan.yaml")
    assert read.digest_matches is False
    assert not read.plan.placements
    assert not read.plan.locks
    assert sum("left out, as the files have changed" in note for note in read.notes) == 2


def test_a_plan_made_by_hand_refers_to_what_is_there(trip, plan):
    (placement,) = plan.placements
    odd = placement.model_copy(update={"space": "right shel"})
    write(trip.folder / "plan.yaml", plan.model_copy(update={"placements": (odd,), "trip_digest": None}))
    with pytest.raises(
        InputFaults, match=r'placements\[0\].space \(tent\): found "right shel".*did you mean "right shelf"'
    ):
        read_plan(trip.folder / "plan.yaml")


def test_a_full_disk_keeps_the_old_file_and_leaves_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "plan.yaml"
    path.write_text("old")

    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        replace_whole(path, "new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["plan.yaml"]
    assert path.read_text() == "old"


def test_an_interrupted_replacement_keeps_the_old_file(tmp_path, monkeypatch):
    path = tmp_path / "plan.yaml"
    path.write_text("old")

    def interrupted(_self: Path, _target: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", interrupted)
    with pytest.raises(KeyboardInterrupt):
        replace_whole(path, "new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["plan.yaml"]
    assert path.read_text() == "old"


def test_a_link_stays_and_the_file_it_points_to_is_replaced(tmp_path):
    real, link = tmp_path / "real.yaml", tmp_path / "link.yaml"
    real.write_text("old")
    real.chmod(0o640)
    link.symlink_to(real)
    replace_whole(link, "new")
    assert link.is_symlink()
    assert real.read_text() == "new"
    assert real.stat().st_mode & 0o777 == 0o640


def test_a_missing_folder_is_an_error_of_the_system(tmp_path):
    with pytest.raises(FileNotFoundError):
        replace_whole(tmp_path / "none" / "plan.yaml", "new")


def test_a_file_that_nobody_may_write_to_stays(tmp_path, monkeypatch):
    """Its folder may be written to, so that it could be replaced."""
    path = tmp_path / "plan.yaml"
    path.write_text("old", "utf-8")
    monkeypatch.setattr("os.access", lambda file, mode: (file, mode) != (path, os.W_OK))  # whoever is root may all
    with pytest.raises(PermissionError) as refused:
        replace_whole(path, "new")
    assert refused.value.filename == str(path)
    assert path.read_text("utf-8") == "old"
    replace_whole(tmp_path / "other.yaml", "new")


def test_a_file_that_cannot_be_written_is_named_as_it_was_asked_for(tmp_path):
    path = tmp_path / "gone" / "plan.yaml"
    with pytest.raises(FileNotFoundError) as refused:
        replace_whole(path, "new")
    assert refused.value.filename == str(path)
