"""What is written with -o takes the place of a file of its own kind alone: nobody's gear list is lost to a slip."""

import errno
import json
import os
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import yaml

from tests.chances import some

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

WRITE = {
    "schema": ("schema", "gear"),
    "sheet": ("sheet", "plan.yaml"),
    "suggest": ("suggest", "trip.yaml", "--effort", "0.02", "--seconds", "600"),
    "revise": ("revise", "plan.yaml", "--effort", "0.02", "--seconds", "600"),
    "tradeoff": ("tradeoff", "trip.yaml", "--effort", "0.02", "--seconds", "600"),
}
"""By command how it is called before `-o`."""


def called(run: Any, trip: Path, name: str, out: Path) -> Any:
    words = [trip / word if word.endswith(".yaml") else word for word in WRITE[name]]
    return run(*words, "-o", out)


@pytest.mark.parametrize("name", WRITE)
@pytest.mark.parametrize(("file", "text"), [("other.yaml", "- name: swag\n  mass_kg: 9\n"), ("notes.md", "# Notes\n")])
def test_a_file_of_another_kind_stays(run, trip, name, file, text):
    out = trip / file
    out.write_text(text, encoding="utf-8")
    found = called(run, trip, name, out)
    assert found.exit_code == 2
    assert "is there already and is not a" in found.stderr
    assert out.read_text("utf-8") == text


@pytest.mark.parametrize("name", some(["schema", "sheet", "revise", "suggest"], 3))
def test_a_file_of_its_own_kind_is_written_anew(run, trip, name):
    ends = {"schema": "json", "sheet": "html"}.get(name, "yaml")
    out = trip / f"out.{ends}"
    assert called(run, trip, name, out).exit_code == 0
    assert called(run, trip, name, out).exit_code == 0


@pytest.mark.parametrize("braces", [False, True])
def test_a_plan_in_another_hand_is_a_plan_too(run, trip, braces):
    """Keys in quotes, or all of it in braces with comments, which then have nothing to stand at."""
    path = trip / "plan.yaml"
    text = (
        path.read_text("utf-8").replace("\nplacements:", '\n"placements":').replace("left_at_home:", "'left_at_home':")
    )
    if braces:
        told = yaml.safe_load(text)
        text = "".join(f"{'{' if not n else ','}{key}: {json.dumps(told[key])}  # own\n" for n, key in enumerate(told))
    path.write_text(f"{text}}}\n" if braces else text, encoding="utf-8")
    found = called(run, trip, "revise", path)
    assert found.exit_code == 0
    gone = "some comments went: what they stood at is no longer in the plan, or all of it was in braces.\n"
    assert found.stderr == (f"{path}: {gone}" if braces else "")


def test_an_empty_file_is_nobodys_loss(run, trip):
    (trip / "sheet.html").write_text("\n", encoding="utf-8")
    assert called(run, trip, "sheet", trip / "sheet.html").exit_code == 0


@pytest.mark.parametrize("name", WRITE)
def test_a_write_protected_file_is_refused_before_any_search(run, trip, name, monkeypatch):
    monkeypatch.setattr("solver.propose", lambda *_, **__: pytest.fail("it was searched"))
    monkeypatch.setattr("os.access", lambda _, mode: mode != os.W_OK)  # whoever is root may write to all
    out = trip / {"schema": "a.json", "sheet": "a.html", "tradeoff": "a.html"}.get(name, "a.yaml")
    out.write_text("\n", encoding="utf-8")
    found = called(run, trip, name, out)
    assert found.exit_code == 2
    assert "is write-protected; choose another name with -o" in " ".join(found.stderr.split())


@pytest.mark.parametrize("name", [*WRITE, "explain"])
def test_a_folder_that_is_not_there_is_no_file_of_that_name(run, trip, name, monkeypatch):
    monkeypatch.setattr("solver.propose", lambda *_, **__: pytest.fail("it was searched"))
    words = ("explain", "plan.yaml", "tent") if name == "explain" else WRITE[name]
    typed = [trip / word if word.endswith(".yaml") else word for word in words]
    found = run(*typed, "-o", f"{trip / 'out'}{os.sep}")
    assert (found.exit_code, found.stdout) == (2, "")
    assert f"out{os.sep}: its folder does not exist; make it first." in " ".join(found.stderr.split())
    assert not (trip / "out").exists()
    (trip / "out").mkdir()
    there = run(*typed, "-o", f"{trip / 'out'}{os.sep}")
    assert there.exit_code == 2
    assert "out: is a folder; name a file such as" in " ".join(there.stderr.split())


@pytest.mark.parametrize("name", WRITE)
def test_a_write_protected_folder_is_refused_before_any_search(run, trip, name, monkeypatch):
    monkeypatch.setattr("solver.propose", lambda *_, **__: pytest.fail("it was searched"))
    closed = trip / "closed"
    closed.mkdir()
    access = os.access  # whoever is root may write to all
    monkeypatch.setattr("os.access", lambda path, mode: Path(path) != closed and access(path, mode))
    out = closed / {"schema": "a.json", "sheet": "a.html", "tradeoff": "a.html"}.get(name, "a.yaml")
    found = called(run, trip, name, out)
    assert (found.exit_code, found.stdout) == (2, "")
    assert found.stderr == f"{out}: its folder is write-protected; choose a name in another folder with -o.\n"


def test_a_plan_in_a_write_protected_folder_is_not_revised(run, trip, monkeypatch):
    monkeypatch.setattr("solver.revise", lambda *_, **__: pytest.fail("it was searched"))
    access = os.access
    monkeypatch.setattr("os.access", lambda path, mode: Path(path) != trip and access(path, mode))
    found = run("revise", trip / "plan.yaml")
    assert found.exit_code == 2
    assert "its folder is write-protected" in found.stderr


@pytest.mark.long
@pytest.mark.parametrize("words", some([(), ("--json",)], 1))
@pytest.mark.parametrize("name", ["suggest", "revise"])
def test_a_plan_that_was_found_is_told_where_it_cannot_be_written(run, trip, name, words, monkeypatch):
    def full(**_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "a name of no meaning")

    monkeypatch.setattr("models.writing.tempfile", SimpleNamespace(mkstemp=full))
    out = trip / "new.yaml"
    typed = [trip / word if word.endswith(".yaml") else word for word in WRITE[name]]
    found = run(*typed, *words, "-o", out)
    assert found.exit_code == 2
    assert found.stderr == f"{out}: {os.strerror(errno.ENOSPC).lower()}; nothing was written.\n"
    if words:
        assert json.loads(found.stdout)["plan"]["placements"]
    else:
        assert "May we drive?  YES." in found.stdout
        assert "The plan is in" not in found.stdout


@pytest.mark.long
def test_the_page_of_a_tradeoff_that_cannot_be_written_leaves_the_table(run, trip, monkeypatch):
    def closed(**_):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), "a name of no meaning")

    monkeypatch.setattr("models.writing.tempfile", SimpleNamespace(mkstemp=closed))
    found = called(run, trip, "tradeoff", trip / "a.html")
    assert found.exit_code == 2
    assert "mm" in found.stdout
    assert found.stderr == f"{trip / 'a.html'}: permission denied; nothing was written.\n"
