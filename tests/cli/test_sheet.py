"""`lowstow sheet`: one file, its exit code the verdict's, every fault a sentence."""

import json
import os
import re
from pathlib import Path

import pytest


def test_it_writes_one_page(run, trip):
    out = trip / "sheet.html"
    result = run("sheet", trip / "plan.yaml", "-o", out)
    assert result.exit_code == 0
    text = out.read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>")
    assert len(text.encode()) < 1_000_000
    assert result.stdout == ""
    assert str(out) in result.stderr


def test_a_broken_plan_gets_its_sheet_and_says_no(run, trip):
    vehicle = trip / "vehicle.yaml"
    vehicle.write_text(vehicle.read_text("utf-8").replace("gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2000,"), "utf-8")
    assert run("sheet", trip / "plan.yaml", "-o", trip / "sheet.html").exit_code == 1
    assert 'data-answer="NO"' in (trip / "sheet.html").read_text("utf-8")


def test_a_plan_that_names_what_is_not_there_gets_no_traceback(run, trip):
    plan = trip / "plan.yaml"
    plan.write_text(plan.read_text("utf-8").replace("space: right shelf", "space: attic"), "utf-8")
    result = run("sheet", plan, "-o", trip / "sheet.html")
    assert result.exit_code in {1, 2}
    assert "Traceback" not in result.output


CHANGED = "The files have changed since this plan was made"


def fewer(trip: Path) -> None:
    """The folder with a plan of two clothes bags and a tent, and one bag and another tent on the list since."""
    plan = trip / "plan.yaml"
    plan.write_text(plan.read_text("utf-8") + "trip_digest: sha256:0\n", "utf-8")
    gear = trip / "gear.yaml"
    assert gear.read_text("utf-8").count("- name: clothes bag\n  count: 2\n") == 1
    text = gear.read_text("utf-8").replace("- name: clothes bag\n  count: 2\n", "- name: clothes bag\n  count: 1\n")
    gear.write_text(text.replace("- name: tent\n", "- name: big tent\n"), "utf-8")


@pytest.mark.long
def test_a_copy_that_is_no_longer_listed_is_on_the_sheet_that_says_so(run, trip):
    fewer(trip)
    out = trip / "sheet.html"
    told = run("sheet", trip / "plan.yaml")
    assert told.exit_code == 1
    text = " ".join(told.stdout.split())
    assert text.index(CHANGED) < text.index("Broken")
    assert "no longer on the gear list, so in every sum: clothes bag #2 in" in text
    assert "no longer on the gear list at all, so in no sum: tent in" in text
    assert run("sheet", trip / "plan.yaml", "-o", out).exit_code == 1
    assert CHANGED in out.read_text("utf-8")
    view = json.loads(run("sheet", trip / "plan.yaml", "--json").stdout)
    assert "clothes bag #2" in {one["name"] for one in view["places"]}
    assert len(view["drive"]["changed"]) == 3


def test_a_sheet_of_files_that_have_not_changed_says_nothing_of_it(run, trip):
    assert CHANGED not in run("sheet", trip / "plan.yaml").stdout


def test_without_a_file_it_tells_the_sheet_in_short(run, trip):
    result = run("sheet", trip / "plan.yaml")
    assert result.exit_code == 0
    for title in ("Loading order", "In a hurry", "Holding it down", "Leaving checks", "Cautions"):
        assert f"\n{title}" in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_json_holds_the_content_with_numbers_in_full(run, trip):
    view = json.loads(run("sheet", trip / "plan.yaml", "--json").stdout)
    assert view["holds"] is True
    assert view["drive"]["answer"] == "YES"
    bar = next(one for one in view["drive"]["bars"] if one["subject"] == "rear axle")
    assert bar["margin"]["value"] != int(bar["margin"]["value"])
    assert len(view["places"]) == 16
    assert [stage["name"] for stage in view["leaving"]] == ["leaving", "halfway", "last camp"]


def with_packers(trip: Path) -> None:
    gear = trip / "gear.yaml"
    text = gear.read_text("utf-8").replace("- name: tent\n", "- name: tent\n  packer: Ben\n")
    gear.write_text(text.replace("- name: shovel\n", "- name: shovel\n  packer: Ada\n"), "utf-8")


def test_a_packer_gets_a_part_with_the_numbers_of_the_whole(run, trip):
    with_packers(trip)
    whole = json.loads(run("sheet", trip / "plan.yaml", "--json").stdout)
    mine = json.loads(run("sheet", trip / "plan.yaml", "--json", "--packer", "Ben").stdout)
    assert [one["name"] for one in mine["places"]] == ["tent"]
    assert mine["places"][0] in whole["places"]
    assert [i["name"] for works in mine["loading"]["rounds"] for w in works for i in w["items"]] == ["tent"]
    assert mine["leaving"] == []
    assert mine["hurry"] == whole["hurry"]
    assert run("sheet", trip / "plan.yaml", "--packer", "ben", "-o", trip / "ben.html").exit_code == 0
    assert "Ben" in (trip / "ben.html").read_text("utf-8")


def rounds(page: str) -> dict[str, str]:
    """The number of the round in which each thing is loaded, as a page tells it."""
    parts = re.split(r"<h3>Round (\d+)</h3>", page.split("</section>")[2])
    names = re.compile(r'<label for="tick-(\d+)">')
    return {tick: number for number, part in zip(parts[1::2], parts[2::2], strict=True) for tick in names.findall(part)}


def test_a_packer_s_page_keeps_the_rounds_of_the_whole(run, trip):
    with_packers(trip)
    pages = {}
    for name, words in {"whole": (), "mine": ("--packer", "Ben")}.items():
        assert run("sheet", trip / "plan.yaml", "-o", trip / f"{name}.html", *words).exit_code == 0
        pages[name] = rounds((trip / f"{name}.html").read_text("utf-8"))
    assert pages["mine"]
    assert pages["mine"].items() <= pages["whole"].items()
    assert "1" not in pages["mine"].values()


@pytest.mark.parametrize(("asked", "told"), [("Bem", '"Ben"'), ("", '"Ada", "Ben"')])
def test_a_packer_nobody_knows_is_one_sentence(run, trip, asked, told):
    with_packers(trip)
    result = run("sheet", trip / "plan.yaml", "--packer", asked)
    assert result.exit_code == 2
    assert told in result.stderr
    assert len(result.stderr.splitlines()) == 1


@pytest.mark.parametrize("name", ["plan.yaml", "trip.yaml", "gear.yaml", "vehicle.yaml"])
def test_it_never_writes_over_what_it_is_made_from(run, trip, name):
    before = (trip / name).read_bytes()
    result = run("sheet", trip / "plan.yaml", "-o", trip / name)
    assert result.exit_code == 2
    assert (trip / name).read_bytes() == before


def test_a_folder_to_write_to_is_told_a_name_of_a_page(run, trip):
    result = run("sheet", trip / "plan.yaml", "-o", trip)
    assert result.exit_code == 2
    assert "name a file such as" in result.stderr
    assert "sheet.html" in result.stderr


def test_in_short_it_names_what_is_broken_and_unknown(run, trip):
    vehicle = trip / "vehicle.yaml"
    text = vehicle.read_text("utf-8").replace("gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2000,")
    vehicle.write_text(text.replace("rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown"), "utf-8")
    told = " ".join(run("sheet", trip / "plan.yaml").stdout.split())
    answer, rest = told.split("Loading order")
    assert "NO. 1 limit or rule is broken. " in answer
    assert "Broken - The total with its reserve of 20 kg is" in answer
    assert "Unknown, so nobody can sign this off - The rear axle" in answer
    assert "Cautions" in rest


def test_in_short_it_tells_that_the_reserve_was_given_up_and_to_weigh_first(run, trip):
    plan, vehicle = trip / "plan.yaml", trip / "vehicle.yaml"
    plan.write_text(plan.read_text("utf-8").replace("left_at_home:", "reserve_kept_kg: 0\nleft_at_home:"), "utf-8")
    vehicle.write_text(vehicle.read_text("utf-8").replace("gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2375,"), "utf-8")
    told = " ".join(run("sheet", plan).stdout.split())
    assert "THE RESERVE WAS GIVEN UP: 0 kg of 20 kg are kept free" in told
    assert "Whether more can be kept is unknown here" in told
    assert "Weigh before you go: on the scale this may be over its limit" in told


def test_in_a_hurry_it_says_when_a_door_is_stuck(run, trip):
    told = " ".join(run("sheet", trip / "plan.yaml").stdout.split())
    assert "; stuck when on its left side" in told
    assert "open with" not in told


def test_several_alike_have_their_numbers_everywhere(run, trip):
    told = run("sheet", trip / "plan.yaml").stdout
    assert "water can #1" in told
    assert "water can #2" in told
    view = json.loads(run("check", trip / "plan.yaml", "--json").stdout)
    assert {one["subject"] for one in view["findings"] if "water can" in one["subject"]} == {
        "water can #1",
        "water can #2",
    }
    assert "water can #1" in run("find", trip / "plan.yaml", "--all").stdout


def test_a_pipe_or_a_device_is_never_replaced_by_a_file(run, trip):
    pipe = trip / "pipe"
    os.mkfifo(pipe)
    for words in (["sheet", trip / "plan.yaml"], ["schema"], ["suggest", trip / "trip.yaml"]):
        result = run(*words, "-o", pipe)
        assert result.exit_code == 2
        assert "no ordinary file" in result.stderr
        assert len(result.stderr.splitlines()) == 1
    assert pipe.is_fifo()
