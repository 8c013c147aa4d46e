"""`lowstow check`: recomputes any plan and ends with the code of its verdict."""

import json
import re
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


def test_a_trip_that_never_drives_is_not_signed_off_and_ends_with_5(run, trip):
    text = (trip / "trip.yaml").read_text("utf-8")
    (trip / "trip.yaml").write_text(text.replace("sealed_road", "parked").replace("off_road", "parked"), "utf-8")
    spoil(trip / "vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2200,")
    found = run("check", trip / "plan.yaml")
    told = " ".join(found.stdout.split())
    assert found.exit_code == 5
    assert "NOT SIGNED OFF. No driving stage is in the trip: driving was not checked, neither the total nor an" in told
    assert "YES" not in told
    assert "height unknown" not in told


def unmarked(trip: Path) -> None:
    spoil(trip / "gear.yaml", "- name: tool box\n", "- name: petrol jerrycan\n")
    spoil(trip / "plan.yaml", "{thing: tool box,", "{thing: petrol jerrycan,")


ASKED = "No `hazard` is given for petrol jerrycan, so it was allowed in any air"


def test_people_on_a_rack_while_driving_are_told_once_where_it_breaks_the_rule(run, trip):
    spoil(trip / "trip.yaml", "surface: off_road", "surface: off_road, on_racks: {drawer frame: 10}")
    told = " ".join(run("check", trip / "plan.yaml").stdout.split())
    assert "rack: People are on drawer frame" in told
    assert "Ask first" not in told
    assert told.count("while the vehicle moves") == 1
    assert "while driving" not in told


@pytest.mark.parametrize("command", [("check",), ("sheet",)])
def test_what_is_odd_is_asked_at_the_answer(run, trip, command):
    unmarked(trip)
    spoil(trip / "vehicle.yaml", "at_mm: [1500, 380, 800]", "at_mm: [-1500, 380, 800]")
    found = run(*command, trip / "plan.yaml")
    told = " ".join(found.stdout.split())
    assert "but 2 questions have to be answered first. Ask first" in told
    first, rest = told.split("Cautions")[0].split("lies outside the vehicle")
    assert ASKED in first
    assert "Loading order" not in first
    assert "Masses in kg" not in first
    assert "lies outside the vehicle" not in rest


def test_what_is_odd_is_asked_on_the_page_and_for_machines(run, trip):
    unmarked(trip)
    spoil(trip / "vehicle.yaml", "at_mm: [1500, 380, 800]", "at_mm: [-1500, 380, 800]")
    page = trip / "sheet.html"
    run("sheet", trip / "plan.yaml", "-o", page)
    text = page.read_text("utf-8")
    assert (
        text.index("Ask first") < text.index("No `hazard` is given") < text.index("lies outside") < text.index("<nav")
    )
    for view in (
        json.loads(run("check", trip / "plan.yaml", "--json").stdout),
        json.loads(run("sheet", trip / "plan.yaml", "--json").stdout)["drive"],
    ):
        assert [ASKED in one for one in view["questions"]] == [True, False]
        assert "lies outside the vehicle" in view["questions"][1]


def test_how_high_it_stands_is_told_once(run, trip):
    spoil(trip / "vehicle.yaml", "height: 1950", "height: 1951")
    for command in ("check", "sheet"):
        told = run(command, trip / "plan.yaml").stdout
        assert told.count("1.96 m high as loaded (the body)") == 1
    assert json.loads(run("check", trip / "plan.yaml", "--json").stdout)["tallest"] == {
        "top_mm": 1951,
        "what": "the body",
    }


def test_light_steering_and_a_heavy_side_are_told_once_where_they_are(run, trip):
    plain = json.loads(run("check", trip / "plan.yaml", "--json").stdout)
    assert (plain["climbing"], plain["leaning"]) == (None, None)
    assert {*plain["totals"].popitem()[1]} >= {"tip_back_deg", "climb_front_share"}
    own = "climb: {light_front_share: 0.9, source: our club}\nside_difference_told: {value: 0.0001, source: our club}\n"
    (trip / "own.yaml").write_text(own)
    spoil(trip / "trip.yaml", "name: Starter trip", "rulebook: own.yaml\nname: Starter trip")
    told = json.loads(run("check", trip / "plan.yaml", "--json").stdout)
    assert told["climbing"].startswith("Light steering: on a climb of 15 and 25 degrees the front wheels carry ")
    assert "wheels carry more by " in told["leaning"]
    for command in ("check", "sheet"):
        text = " ".join(run(command, trip / "plan.yaml").stdout.split())
        assert text.count(told["climbing"]) == text.count(told["leaning"]) == 1


def test_what_must_be_lifted_before_the_water_is_told(run, trip):
    spoil(trip / "vehicle.yaml", "air:  ", "wading_line_mm: 851\nair:  ")
    spoil(trip / "gear.yaml", "- name: shovel\n", "- name: shovel\n  weather: dry\n")
    reach = "the wading line of 851 mm and a bow wave of 150 mm (common practice, no source)"
    told = f"Before water up to {reach}, lift these or bag them: shovel (850 mm)."
    for command in ("check", "sheet"):
        assert told in " ".join(run(command, trip / "plan.yaml").stdout.split())
    assert json.loads(run("check", trip / "plan.yaml", "--json").stdout)["before_water"] == told


def test_what_is_no_longer_listed_and_lies_aboard_is_no_plan_that_holds(run, trip):
    plan = trip / "plan.yaml"
    plan.write_text(
        plan.read_text("utf-8").replace("trip: trip.yaml", f"trip: trip.yaml\ntrip_digest: 'sha256:{'0' * 64}'"),
        "utf-8",
    )
    gear = (trip / "gear.yaml").read_text("utf-8")
    assert "- name: tent\n" in gear
    (trip / "gear.yaml").write_text(gear.replace("- name: tent\n", "- name: tarp\n"), "utf-8")
    checked = run("check", plan)
    told = " ".join(checked.stdout.split())
    assert "Still aboard by this plan and no longer on the gear list at all, so in no sum: tent in" in told
    assert "The plan names tent, which the gear list does not have." in told
    assert checked.exit_code == run("sheet", plan).exit_code == run("compare", plan, plan).exit_code == 1
    assert json.loads(run("check", plan, "--json").stdout)["holds"] is False


@pytest.mark.parametrize(
    ("lock", "says"),
    [
        ("{thing: tent, at_mm: [2400, 20, 800]}", "`at_mm` together with `in`"),
        ("{thing: tent}", 'a lock on "tent" that fixes nothing'),
        ("{thing: tent, copy: 5, in: right shelf}", "a copy from 1 to 1"),
        ("{thing: tent, at_home: true, carried: true}", "one of the two"),
    ],
)
def test_a_lock_of_a_plan_is_refused_like_one_of_the_trip(run, trip, lock, says):
    plan = trip / "plan.yaml"
    text = re.sub(r"^locks:.*\n(?:[ -].*\n)*", "", plan.read_text("utf-8"), flags=re.MULTILINE)
    plan.write_text(f"{text}locks: [{lock}]\n", "utf-8")
    found = run("check", plan)
    assert found.exit_code == 2
    assert says in found.stderr
    assert "plan.yaml, line" in found.stderr
