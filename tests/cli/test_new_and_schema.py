"""`lowstow new` and `lowstow schema`."""

import json
from shlex import split

import pytest

from models.reading import read_case


def test_a_starter_trip_can_be_read_at_once(run, tmp_path):
    folder = tmp_path / "deep" / "trip"
    assert run("new", folder).exit_code == 0
    assert len(read_case(folder / "trip.yaml").case.things) == 12


def test_the_command_that_is_told_can_be_typed_as_it_stands(run, tmp_path):
    folder = tmp_path / "Ada's trip"
    told = split(run("new", folder).stdout.splitlines()[-1].partition(": ")[2])
    assert told == ["lowstow", "suggest", str(folder / "trip.yaml"), "-o", str(folder / "plan.yaml")]


def test_nothing_that_is_there_is_written_over(run, trip):
    before = {file.name: file.read_bytes() for file in trip.iterdir()}
    found = run("new", trip)
    assert found.exit_code == 2
    assert "already holds" in found.stderr
    assert {file.name: file.read_bytes() for file in trip.iterdir()} == before


def test_a_file_is_no_folder_for_a_trip(run, trip):
    found = run("new", trip / "trip.yaml")
    assert found.exit_code == 2
    assert len(found.stderr.splitlines()) == 1


@pytest.mark.parametrize("name", ["", "  "])
def test_no_name_is_not_the_folder_one_is_in(run, tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    found = run("new", name)
    assert (found.exit_code, found.stderr) == (2, "DIR: found no name; name a folder that is new or empty.\n")
    assert not list(tmp_path.iterdir())
    assert run("new", ".").exit_code == 0


def test_each_kind_has_its_schema(run):
    together = run("schema")
    assert together.exit_code == 0
    every = json.loads(together.stdout)
    assert set(every) == {"vehicle", "gear", "trip", "plan", "rulebook"}
    for kind, schema in every.items():
        alone = run("schema", kind)
        assert (alone.exit_code, json.loads(alone.stdout)) == (0, schema)
        assert schema["$schema"].startswith("https://json-schema.org/")


def test_an_unknown_kind_names_the_nearest(run):
    found = run("schema", "vehicel")
    assert found.exit_code == 2
    assert 'did you mean "vehicle"?' in found.stderr


def test_a_schema_goes_into_a_file_whole(run, tmp_path):
    assert run("schema", "trip", "-o", tmp_path / "trip.json").exit_code == 0
    assert json.loads((tmp_path / "trip.json").read_text("utf-8"))["title"] == "Trip"
    found = run("schema", "trip", "-o", tmp_path / "missing" / "trip.json")
    assert found.exit_code == 2
    assert "its folder does not exist" in found.stderr
