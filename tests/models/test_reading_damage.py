"""Damaged files are read as a case or refused with file and line: nothing else ever comes."""

import pytest

from benchmarks.damaged_files import DAMAGES, run, sound_files
from models.reading import read_case
from models.schema import KINDS, schema_of
from models.starter import starter_files
from tests.chances import seeds


@pytest.mark.parametrize("seed", seeds(1, of=8, first=11))
def test_damaged_files(seed):
    counts, wrong = run(150, seed)
    assert wrong == []
    assert counts["refused"] > 75
    assert counts["read"] > 0


def test_the_sound_files_are_read_without_a_remark_on_the_starter(tmp_path):
    for name, text in sound_files().items():
        (tmp_path / name).write_text(text)
    assert len(read_case(tmp_path / "trip.yaml").case.things) == 14
    for name, text in starter_files().items():
        (tmp_path / name).write_text(text)
    read = read_case(tmp_path / "trip.yaml")
    assert (len(read.case.vehicle.spaces), len(read.case.things), read.notes) == (5, 12, ())
    assert len(DAMAGES) > 8


def test_schemas_describe_every_key_and_its_default():
    found = {kind: schema_of(kind) for kind in KINDS}
    assert sorted(found) == ["gear", "plan", "rulebook", "trip", "vehicle"]
    space = found["vehicle"]["$defs"]["Space"]
    assert space["additionalProperties"] is False
    assert space["properties"]["face"]["default"] == "top"
    assert "with" in found["gear"]["$defs"]["Thing"]["properties"]
    assert found["rulebook"]["$defs"]["SourcedKg_in_kg_over_shipped"]["required"] == ["source"]
    assert all(field.get("description") for field in found["trip"]["properties"].values() if "title" not in field)
