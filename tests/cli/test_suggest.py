"""`lowstow suggest`, with a search that is played so that each of its answers is met."""

import json
from types import SimpleNamespace

import pytest

import solver
from cli.screen import ProgressLine, progress_text
from models.reading import read_plan
from solver.answers import Conflict, Options, Status

HEIGHT = SimpleNamespace(name="height", value=702.0, bound=698.0, unit="mm", state="found")


@pytest.fixture
def search(monkeypatch, trip):
    """What the search will answer, and what it was asked."""
    plan = read_plan(trip / "plan.yaml").plan
    answer = SimpleNamespace(
        status=Status.FOUND, plan=plan, levels=(HEIGHT,), conflict=None, reserve_given_up=False, interrupted=False,
        cut_short=False, must_only_height_mm=None, home_reasons={}, closest=(),
    )  # fmt: skip

    def propose(_, options, progress):
        progress.step(1.0, "start", None, None)
        answer.asked = options
        return answer

    monkeypatch.setattr(solver, "propose", propose, raising=False)
    monkeypatch.setattr(solver, "Status", Status, raising=False)
    monkeypatch.setattr(solver, "Options", Options, raising=False)
    return answer


def test_a_plan_is_verified_told_and_written(run, trip, search):
    out = trip / "out.yaml"
    found = run("suggest", trip / "trip.yaml", "-o", out, "--seed", 7, "--effort", 2, "--seconds", 3)
    assert (found.exit_code, found.stderr) == (0, "")
    assert "at most 4 mm lower is possible" in " ".join(found.stdout.split())
    assert read_plan(out).plan.placements == search.plan.placements
    assert search.asked == Options(effort=2.0, seconds=3.0, seed=7)
    assert run("check", out).exit_code == 0


@pytest.mark.usefixtures("search")
def test_the_plan_names_its_trip_as_seen_from_its_own_folder(run, trip):
    (trip / "plans").mkdir()
    assert run("suggest", trip / "trip.yaml", "-o", trip / "plans" / "a.yaml").exit_code == 0
    assert read_plan(trip / "plans" / "a.yaml").plan.trip == "../trip.yaml"


@pytest.mark.parametrize("name", ["trip.yaml", "vehicle.yaml", "gear.yaml", "missing/plan.yaml", "."])
def test_no_file_that_was_read_is_written_over(run, trip, search, name):
    before = {file.name: file.read_bytes() for file in trip.iterdir()}
    found = run("suggest", trip / "trip.yaml", "-o", trip / name)
    assert found.exit_code == 2
    assert not hasattr(search, "asked")
    assert {file.name: file.read_bytes() for file in trip.iterdir()} == before


def test_a_plan_that_breaks_a_limit_is_refused_and_not_written(run, trip, search):
    search.plan = search.plan.model_copy(update={"placements": search.plan.placements[1:]})
    found = run("suggest", trip / "trip.yaml", "-o", trip / "out.yaml")
    assert found.exit_code == 70
    assert found.stdout == ""
    assert "carried: recovery kit must come" in found.stderr
    assert not (trip / "out.yaml").exists()


@pytest.mark.usefixtures("search")
def test_an_unknown_limit_ends_with_5_and_still_tells_the_plan(run, trip):
    file = trip / "vehicle.yaml"
    file.write_text(file.read_text("utf-8").replace("gvm_kg: {kg: 3200, source: plate}", "gvm_kg: unknown"), "utf-8")
    found = run("suggest", trip / "trip.yaml", "-o", trip / "out.yaml")
    assert found.exit_code == 5
    assert "NOT SIGNED OFF" in found.stdout
    assert (trip / "out.yaml").exists()


@pytest.mark.parametrize(
    "expected",
    [(Status.IMPOSSIBLE, 3, "No plan exists: proven."), (Status.NOT_FOUND, 4, "No plan was found in the time given.")],
)
def test_no_plan_says_whether_that_is_proven(run, trip, search, expected):
    status, code, says = expected
    search.status, search.plan, search.conflict = status, None, Conflict((), ("the tent is 200 mm too long",))
    found = run("suggest", trip / "trip.yaml", "-o", trip / "out.yaml")
    assert found.exit_code == code
    assert says in found.stdout
    assert "the tent is 200 mm too long" in found.stdout
    assert not (trip / "out.yaml").exists()
    view = json.loads(run("suggest", trip / "trip.yaml", "--json").stdout)
    assert (view["status"], view["plan"], view["conflict"]["says"]) == (status, None, ["the tent is 200 mm too long"])


@pytest.mark.usefixtures("search")
def test_json_holds_plan_levels_and_verdict(run, trip):
    found = run("suggest", trip / "trip.yaml", "--json", "-o", trip / "out.yaml")
    view = json.loads(found.stdout)
    assert (view["status"], view["holds"], view["levels"][0]["state"]) == ("found", True, "found")
    assert len(view["plan"]["placements"]) == 16


def test_what_was_stopped_by_hand_says_so(run, trip, search):
    search.interrupted = True
    assert "this is the best plan so far" in run("suggest", trip / "trip.yaml").stdout


def test_progress_is_a_line_on_a_terminal_alone(capsys, monkeypatch):
    line = ProgressLine()
    line.step(1.0, "start", 700.0, 690.0)
    line.done()
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    watched = ProgressLine()
    watched.step(1.0, "start", 700.0, 690.5)
    watched.done()
    told = capsys.readouterr().err
    assert told.startswith("\r1 s, start, height 700.0 mm, at most 10 mm lower possible")
    assert told.endswith("\r")


def test_progress_says_what_is_known():
    assert progress_text(3.4, "first plan", None, None) == "3 s, first plan"
    assert progress_text(3.4, "improving", 812.44, None) == "3 s, improving, height 812.4 mm"


def test_where_nothing_is_on_the_list_that_is_said(trip, run):
    text = (trip / "trip.yaml").read_text(encoding="utf-8")
    for left in (", left: {food: 0.5, drinking water: 0.5}", ", left: {food: 0.3, drinking water: 0.2}"):
        text = text.replace(left, "")
    (trip / "trip.yaml").write_text(text, encoding="utf-8")
    (trip / "gear.yaml").write_text("[]", encoding="utf-8")
    found = run("suggest", trip / "trip.yaml", "-o", trip / "bare.yaml")
    assert found.exit_code == 0
    assert "Nothing is on the list: this is the vehicle with its people and tanks." in found.stdout
    assert "Everything on the list comes" not in found.stdout
    assert run("find", trip / "bare.yaml", "--all").stdout == "Nothing is on the list.\n"
    assert run("sheet", trip / "bare.yaml", "-o", trip / "bare.html").exit_code == 0
    assert "Nothing is on the list" in (trip / "bare.html").read_text(encoding="utf-8")


def test_a_trip_that_names_no_list_is_refused_in_one_sentence(trip, run):
    text = (trip / "trip.yaml").read_text(encoding="utf-8")
    (trip / "trip.yaml").write_text(text.replace("[gear.yaml]", "[]"), encoding="utf-8")
    found = run("suggest", trip / "trip.yaml")
    assert found.exit_code == 2
    assert found.stderr.strip().endswith("gear: found an empty list; allowed: at least 1 of them.")
    assert len(found.stderr.strip().splitlines()) == 1
