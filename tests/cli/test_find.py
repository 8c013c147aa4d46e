"""`lowstow find`: where is it, and how do I get at it."""

import json

import pytest

from tests.cli.conftest import off_the_list
from verifier.access import moved_first, seconds_to_hand
from verifier.layout import layout_of


def test_a_part_of_a_name_with_a_letter_wrong(run, trip):
    found = run("find", trip / "plan.yaml", "frist", "ad")
    assert (found.exit_code, found.stderr) == (0, "")
    assert found.stdout.splitlines()[0] == "first aid kit: right drawer"


def test_a_kit_by_its_name(run, trip):
    assert run("find", trip / "plan.yaml", "kitchen").stdout.startswith("pots and plates: left bay")


def test_one_copy_by_its_number(run, trip):
    view = json.loads(run("find", trip / "plan.yaml", "water can #2", "--json").stdout)
    (one,) = view["found"]
    assert (one["thing"], one["copy"], one["move_first"]) == ("water can", 2, [{"thing": "water can", "copy": 1}])


@pytest.mark.parametrize(
    ("typed", "known"),
    [("water can #9", "water can: a copy from 1 to 2"), ("shovel #2", "shovel: one, without a number")],
)
def test_a_copy_that_is_not_there_is_told_with_those_that_are(run, trip, typed, known):
    found = run("find", trip / "plan.yaml", typed)
    assert (found.exit_code, found.stderr) == (2, f'"{typed}": there is no such copy. {known}.\n')


def test_a_thing_whose_name_ends_like_a_number_of_a_copy(run, trip):
    for name in ("gear.yaml", "plan.yaml"):
        text = (trip / name).read_text("utf-8")
        (trip / name).write_text(text.replace("first aid kit", '"aid #2"'), "utf-8")
    assert run("find", trip / "plan.yaml", "aid #2").stdout.startswith("aid #2: right drawer")


def test_what_stays_at_home_is_said(run, trip):
    assert "camp chair #2: NOT ABOARD" in run("find", trip / "plan.yaml", "chair").stdout


@pytest.mark.parametrize("words", [(), ("zzzz",), ("water can #7",), ("tent", "--all")])
def test_what_cannot_be_answered_ends_with_2(run, trip, words):
    found = run("find", trip / "plan.yaml", *words)
    assert (found.exit_code, found.stdout) == (2, "")
    assert len(found.stderr.splitlines()) == 1


def test_all_of_it_by_alphabet(run, trip):
    lines = run("find", trip / "plan.yaml", "--all").stdout.splitlines()[2:]
    names = [line[2:17].strip() for line in lines[: lines.index("")]]
    assert names == sorted(names, key=str.casefold)
    assert len(names) == 17


def test_the_verifier_finds_the_same_way_to_everything(run, trip):
    from models.reading import read_plan  # noqa: PLC0415 - the command is what is tested

    view = json.loads(run("find", trip / "plan.yaml", "--all", "--json").stdout)
    read = read_plan(trip / "plan.yaml")
    layout = layout_of(read.case, read.plan)
    for one in layout.placed:
        (told,) = [way for way in view["found"] if (way["thing"], way["copy"]) == tuple(one.copy)]
        assert one.space is not None
        assert told["seconds"] == seconds_to_hand(layout, one, one.space, None)
        before = {other.copy for other in moved_first(layout, one, one.space, None)}
        assert {(other["thing"], other["copy"]) for other in told["move_first"]} == before


def test_what_is_off_the_list_and_lies_aboard_is_found(run, trip):
    off_the_list(trip)
    for words, name in ((["shovl"], "shovel"), (["water can", "#2"], "water can")):
        told = run("find", trip / "plan.yaml", *words).stdout
        assert told.startswith(name)
        assert "Aboard by this plan and no longer on the gear list:" in told
    view = json.loads(run("find", trip / "plan.yaml", "--all", "--json").stdout)
    assert view["off_the_list"] == [{"thing": "shovel", "copy": 1}, {"thing": "water can", "copy": 2}]
    assert "gear list: shovel, water can #2." in run("find", trip / "plan.yaml", "--all").stdout


def test_what_lies_in_a_space_that_is_gone_is_not_told_as_at_home(run, trip):
    off_the_list(trip)
    text = (trip / "vehicle.yaml").read_text("utf-8")
    (trip / "vehicle.yaml").write_text(text.replace("right drawer", "right tray"), "utf-8")
    told = run("find", trip / "plan.yaml", "tent").stdout
    assert told == "tent: in right drawer by this plan, a space that is no longer in the vehicle.\n"
    line = next(line for line in run("find", trip / "plan.yaml", "--all").stdout.splitlines() if "  tent " in line)
    assert "right drawer, which" in line
    view = json.loads(run("find", trip / "plan.yaml", "tent", "--json").stdout)
    assert view["space_is_gone"] == [{"thing": "tent", "copy": 1, "space": "right drawer"}]


@pytest.mark.parametrize(("words", "says"), [((), "everything."), (("tent", "--all"), "everything, not both.")])
def test_either_words_or_all_is_asked_for(run, trip, words, says):
    found = run("find", trip / "plan.yaml", *words)
    assert (found.exit_code, found.stderr) == (2, f"WORDS: say what to find, or --all for {says}\n")
