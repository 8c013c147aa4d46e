"""`lowstow suggest` with the real search, started as people start it where that does not take long."""

import json
import subprocess
import sys

import pytest

RUN = "from cli.main import command; command()"


@pytest.fixture
def suggest(trip, request):
    def running(*words: object) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-c", RUN, "suggest", str(trip / "trip.yaml"), *map(str, words)]
        return subprocess.run(command, cwd=request.config.rootpath, capture_output=True, text=True, check=False)

    return running


@pytest.mark.long
def test_the_starter_trip_gets_a_plan_and_nothing_else_is_printed(suggest, trip, run):
    found = suggest("--effort", 0.01, "--seconds", 600, "--json", "-o", trip / "found.yaml")
    assert found.returncode == 0, found.stderr
    view = json.loads(found.stdout)
    assert (view["holds"], view["status"]) == (True, "found")
    assert {level["state"] for level in view["levels"]} <= {"proven", "found", "unknown"}
    assert run("check", trip / "found.yaml").exit_code == 0


@pytest.mark.long
def test_a_lock_that_breaks_a_rule_by_itself_is_refused_as_proven(suggest, trip):
    file = trip / "trip.yaml"
    lock = "{thing: tent, in: cabin bracket, by: Ada, because: always there}"
    file.write_text(file.read_text("utf-8").replace("locks: []", f"locks: [{lock}]"), "utf-8")
    found = suggest()
    assert found.returncode == 3, found.stderr
    assert "No plan exists: proven." in found.stdout
    assert "Ada: always there" in found.stdout


@pytest.mark.long
@pytest.mark.usefixtures("soon_given_up")
def test_where_no_plan_is_found_it_is_told_what_is_missed_and_by_how_much(run, trip):
    file = trip / "vehicle.yaml"
    # 1229.8 kg stand on the front axle with nothing loaded, and loads can take less than 46 kg off.
    whole = trip / "trip.yaml"
    whole.write_text(whole.read_text("utf-8").replace("reserve_kg: 20", "reserve_kg: 0"), "utf-8")
    file.write_text(file.read_text("utf-8").replace("front_axle_kg: {kg: 1480", "front_axle_kg: {kg: 1194"), "utf-8")
    found = run("suggest", whole, "--effort", 0.01, "--seconds", 600, "--json")
    assert found.exit_code == 4, found.stderr
    view = json.loads(found.stdout)
    assert (view["status"], view["plan"]) == ("not found", None)
    assert "kg too much on the front axle at leaving" in view["closest"][0]
    assert view["closest"][-1].startswith("The layout that came closest ")
    assert any("more of this limit: the front axle may carry 1194 kg" in way for way in view["conflict"]["ways_out"])


@pytest.mark.parametrize(
    ("begun_s", "words", "seconds"), [(0.5, (), 13.0), (2.0, (), 11.4), (9.0, (), 5.0), (9.0, ("--seconds", 20), 20.0)]
)
def test_a_slow_machine_searches_for_less_unless_it_is_told(run, trip, monkeypatch, begun_s, words, seconds):
    asked = []

    def searched(_read, options):
        asked.append(options.seconds)
        raise KeyboardInterrupt

    monkeypatch.setattr("cli.commands.suggest._searched", searched)
    monkeypatch.setattr("cli.clock.time.process_time", lambda: begun_s)
    run("suggest", trip / "trip.yaml", *words)
    assert asked == [pytest.approx(seconds)]
