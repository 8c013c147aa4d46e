"""No command replaces a plan by a text that was not read back first; a name may hold whatever the reader takes."""

import pytest

from models.reading import read_plan

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

NAME = "\U0001f468\u200d\U0001f469\u200d\U0001f467 tent"
"""With signs that are joined by one that is not seen."""
UNREADABLE = 'trip: "\\ud83d"\n'
SHORT = ("--effort", "0.02", "--seconds", "600")


@pytest.fixture
def family(trip):
    """The trip with a thing that is called so."""
    for file in ("gear.yaml", "plan.yaml"):
        text = (trip / file).read_text("utf-8")
        assert text.count(": tent") == 1
        (trip / file).write_text(text.replace(": tent", f': "{NAME}"'), "utf-8")
    return trip


def test_a_thing_that_is_called_with_joined_signs_is_locked_and_unlocked(run, family):
    path = family / "plan.yaml"
    assert run("lock", path, "tent").exit_code == 0
    assert [lock.thing for lock in read_plan(path).plan.locks] == [NAME]
    assert run("unlock", path, "tent").exit_code == 0
    assert not read_plan(path).plan.locks


@pytest.mark.long
@pytest.mark.parametrize(
    "words", [("revise", "plan.yaml", *SHORT, "-o"), ("suggest", "trip.yaml", *SHORT, "-o")], ids=["revise", "suggest"]
)
def test_a_plan_with_such_a_thing_is_written_so_that_it_is_read(run, family, words):
    command, file, *options = words
    assert run(command, family / file, *options, family / "new.yaml").exit_code == 0
    assert NAME in {place.thing for place in read_plan(family / "new.yaml").plan.placements}


def test_a_lock_whose_text_does_not_read_back_leaves_the_plan(run, trip, monkeypatch):
    before = (trip / "plan.yaml").read_bytes()
    monkeypatch.setattr("models.amending.entry_lines", lambda _: ['  - {thing: "\\ud83d"}'])
    monkeypatch.setattr("models.amending.plan_text", lambda _: UNREADABLE)
    found = run("lock", trip / "plan.yaml", "tent")
    assert found.exit_code == 70
    assert "does not read back as the plan; nothing was written" in found.stderr
    assert (trip / "plan.yaml").read_bytes() == before


@pytest.mark.parametrize(
    "words",
    [
        ("suggest", "trip.yaml", *SHORT),
        ("revise", "plan.yaml", "--fresh", *SHORT),
    ],
    ids=["suggest", "revise"],
)
def test_a_plan_whose_text_does_not_read_back_is_not_written(run, trip, monkeypatch, words):
    out = trip / "plan.yaml"
    before = out.read_bytes()
    monkeypatch.setattr("models.writing.plan_text", lambda _: UNREADABLE)
    monkeypatch.setattr("models.commented.with_comments", lambda _, new: (new, False))
    command, file, *options = words
    assert run(command, trip / file, *options, "-o", out).exit_code == 70
    assert out.read_bytes() == before


def test_a_trip_whose_path_no_plan_can_hold_is_refused_before_any_search(run, trip, monkeypatch):
    (trip / "trip.yaml").rename(trip / "tr\tip.yaml")
    monkeypatch.setattr("solver.propose", lambda *_: pytest.fail("it was searched"))
    found = run("suggest", trip / "tr\tip.yaml", "-o", trip / "new.yaml")
    assert found.exit_code == 2
    assert "cannot hold the trip's path 'tr\\tip.yaml'" in found.stderr
    assert not (trip / "new.yaml").exists()
