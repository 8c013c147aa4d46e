"""`lowstow lock` and `lowstow unlock`: what people have decided stays decided, and nothing is half written."""

import json

import pytest

from cli.explaining import LockFiles
from models.case import Copy
from models.reading import read_plan
from tests.cli.conftest import off_the_list


def locks(trip) -> list[tuple[str, int | None, str | None, tuple[int, int, int] | None]]:
    return [(one.thing, one.copy_number, one.in_, one.at_mm) for one in read_plan(trip / "plan.yaml").plan.locks]


def refused(run, trip, *words: str) -> str:
    """What is said by a command that ends with 2 and leaves the plan as it was."""
    before = (trip / "plan.yaml").read_bytes()
    found = run(*words)
    assert (found.exit_code, found.stdout) == (2, "")
    assert (trip / "plan.yaml").read_bytes() == before
    return str(found.stderr)


def test_where_it_is(run, trip):
    before = read_plan(trip / "plan.yaml").plan
    found = run("lock", trip / "plan.yaml", "TENT", "--by", "Ada", "--because", "always there")
    assert found.exit_code == 0
    assert "tent in right drawer at [2460, 80, 1100] mm (Ada: always there)" in found.stdout
    after = read_plan(trip / "plan.yaml").plan
    assert locks(trip) == [("tent", 1, "right drawer", (2460, 80, 1100))]
    assert (after.locks[0].by, after.locks[0].because) == ("Ada", "always there")
    assert after.model_copy(update={"locks": ()}) == before
    assert run("check", trip / "plan.yaml").exit_code == 0


@pytest.mark.usefixtures("no_bound")
def test_a_lock_made_of_the_only_copy_leaves_later_ones_free(run, trip):
    assert run("lock", trip / "plan.yaml", "shovel").exit_code == 0
    gear = (trip / "gear.yaml").read_text("utf-8")
    assert gear.count("- name: shovel\n") == 1
    (trip / "gear.yaml").write_text(gear.replace("- name: shovel\n", "- name: shovel\n  count: 2\n"), "utf-8")
    found = run("revise", trip / "plan.yaml", "--effort", 0.05, "--seconds", 600)
    assert found.exit_code == 0, found.output
    read = read_plan(trip / "plan.yaml")
    first = next(place for place in read.plan.placements if place.thing == "shovel")
    assert (first.copy_number, first.corner_mm) == (1, (2460, -330, 850))
    assert sum(place.thing == "shovel" for place in read.plan.placements) == 2
    assert locks(trip) == [("shovel", 1, "left bay", (2460, -330, 850))]


def test_in_a_space_that_is_named_without_a_corner(run, trip):
    found = run("lock", trip / "plan.yaml", "tent", "--in", "left")
    assert found.exit_code == 0
    assert "revise" in found.stdout
    assert locks(trip) == [("tent", 1, "left bay", None)]
    assert run("check", trip / "plan.yaml").exit_code == 1


def test_all_of_a_space_a_kit_and_a_packer(run, trip):
    assert run("lock", trip / "plan.yaml", "--kit", "Kitchen").exit_code == 0
    assert [name for name, *_ in locks(trip)] == ["pots and plates"]
    assert run("lock", trip / "plan.yaml", "--space", "right drawer").exit_code == 0
    assert [name for name, *_ in locks(trip)] == ["pots and plates", "tool box", "tent", "first aid kit"]
    gear = (trip / "gear.yaml").read_text("utf-8")
    (trip / "gear.yaml").write_text(gear.replace("- name: shovel\n", "- name: shovel\n  packer: Mara\n"), "utf-8")
    assert run("lock", trip / "plan.yaml", "--packer", "mara").exit_code == 0
    assert locks(trip)[-1][0] == "shovel"


def test_what_is_locked_so_already_is_said_and_not_locked_twice(run, trip):
    run("lock", trip / "plan.yaml", "tent")
    before = (trip / "plan.yaml").read_bytes()
    found = run("lock", trip / "plan.yaml", "tent")
    assert (found.exit_code, (trip / "plan.yaml").read_bytes()) == (0, before)
    assert "Locked so already: tent." in found.stdout


def test_copies_that_are_not_aboard_stay_free(run, trip):
    view = json.loads(run("lock", trip / "plan.yaml", "chair", "--json").stdout)
    assert view["not_aboard"] == [{"thing": "camp chair", "copy": 2}]
    assert view["locked"] == [{"thing": "camp chair", "copy": 1, "in": "right shelf", "at_mm": [3200, 80, 1380]}]


def test_what_is_not_placed_is_refused(run, trip):
    assert "Not aboard: camp chair #2" in refused(run, trip, "lock", trip / "plan.yaml", "camp chair #2")
    assert run("lock", trip / "plan.yaml", "camp chair #2", "--in", "right shelf").exit_code == 0


def test_a_lock_that_breaks_a_rule_by_itself_is_refused_with_the_rule(run, trip):
    said = refused(run, trip, "lock", trip / "plan.yaml", "tent", "shovel", "--in", "cabin bracket")
    assert "inside: tent is not what cabin bracket takes: extinguisher." in said
    assert "space_mass: cabin bracket holds 12.0 kg of 6.0 kg" in said
    assert "shovel" in said, "all of it is told at once"


def test_another_lock_is_not_overruled(run, trip):
    run("lock", trip / "plan.yaml", "tent", "--by", "Ada", "--because", "wet")
    said = refused(run, trip, "lock", trip / "plan.yaml", "tent", "--in", "left bay", "--by", "Ben")
    assert said.startswith("tent is fixed: it is in right drawer (Ada: wet); unlock it first.")
    text = (trip / "trip.yaml").read_text("utf-8")
    lock = "locks: [{thing: shovel, not_in: right shelf, by: Ben}]"
    (trip / "trip.yaml").write_text(text.replace("locks: []", lock), "utf-8")
    said = refused(run, trip, "lock", trip / "plan.yaml", "shovel", "--in", "right shelf")
    assert "it is not in right shelf (Ben); change it in the trip's file." in said


def test_of_a_group_the_rest_is_locked_and_what_is_left_is_told(run, trip):
    plan = trip / "plan.yaml"
    run("lock", plan, "tent", "--in", "left bay", "--by", "Ada", "--because", "wet")
    found = run("lock", plan, "--space", "right drawer", "--by", "Ben")
    told = " ".join(found.stdout.split())
    assert found.exit_code == 0
    assert [name for name, *_ in locks(trip)] == ["tent", "tool box", "first aid kit"]
    assert "Left as they are, and not locked: - tent is fixed: it is in left bay (Ada: wet); unlock it first." in told


def test_what_is_left_of_a_group_is_told_to_machines(run, trip):
    run("lock", trip / "plan.yaml", "tent", "--in", "left bay")
    view = json.loads(run("lock", trip / "plan.yaml", "--space", "right drawer", "--json").stdout)
    assert len(view["locked"]) == 2
    assert view["left"] == [
        {"thing": "tent", "copy": 1, "because": ["tent is fixed: it is in left bay; unlock it first."]}
    ]


def test_a_group_of_which_nothing_can_be_locked_is_refused(run, trip):
    assert run("lock", trip / "plan.yaml", "pots", "--in", "right shelf").exit_code == 0
    assert "pots and plates is fixed" in refused(run, trip, "lock", trip / "plan.yaml", "--kit", "kitchen")


def test_of_things_that_are_named_all_or_none_is_locked(run, trip):
    run("lock", trip / "plan.yaml", "tent", "--in", "left bay")
    assert "tent is fixed" in refused(run, trip, "lock", trip / "plan.yaml", "tent", "tool box")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("bag",), '"clothes bag" or "sleeping bag": say which thing'),
        (("hovercraft",), "found no thing of that name"),
        (("water can #3",), "allowed: a copy from 1 to 2"),
        (("tent", "--in", "bracket"), '"cabin bracket" or "tailgate bracket": say which space'),
        (("--packer", "Ada"), "found no packer of that name; allowed: none is there"),
        ((), "say which things"),
        (("tent", "--because", "x" * 401), "allowed: up to 400"),
    ],
)
def test_names_that_are_not_clear_are_refused(run, trip, words, said):
    assert said in refused(run, trip, "lock", trip / "plan.yaml", *words)


def test_unlock(run, trip):
    run("lock", trip / "plan.yaml", "tent", "tool", "--by", "Ada")
    found = run("unlock", trip / "plan.yaml", "tent")
    assert found.exit_code == 0
    assert "tent in right drawer at [2460, 80, 1100] mm (Ada)" in found.stdout
    assert [name for name, *_ in locks(trip)] == ["tool box"]
    assert "Nothing of that is locked" in refused(run, trip, "unlock", trip / "plan.yaml", "tent")


def test_unlock_one_of_several_copies_that_one_lock_fixes(run, trip):
    text = (trip / "plan.yaml").read_text("utf-8")
    (trip / "plan.yaml").write_text(f"{text}locks: [{{thing: water can, in: left bay, by: Ben}}]\n", "utf-8")
    view = json.loads(run("unlock", trip / "plan.yaml", "water can #1", "--json").stdout)
    assert view["unlocked"] == [{"thing": "water can", "copy": 1, "in": "left bay", "by": "Ben"}]
    assert locks(trip) == [("water can", 2, "left bay", None)]


@pytest.mark.parametrize(
    ("words", "stays"),
    [
        ((), []),
        (("--in", "drawer"), ["not_in", "not_in", "at_home"]),
        (("--not-in", "shelf"), ["in", "not_in", "at_home"]),
        (("--not-in", "shelf", "--not-in", "left bay"), ["in", "at_home"]),
        (("--at-home",), ["in", "not_in", "not_in"]),
        (("--in", "right drawer", "--at-home"), ["not_in", "not_in"]),
    ],
)
def test_unlock_only_what_says_so(run, trip, words, stays):
    """And only of the thing that is named."""
    says = ("in: right drawer", "not_in: right shelf", "not_in: left bay", "at_home: true")
    texts = [f"{{thing: tent, {one}}}" for one in says] + ["{thing: shovel, in: right drawer}"]
    text = (trip / "plan.yaml").read_text("utf-8").replace("placements:", f"locks: [{', '.join(texts)}]\nplacements:")
    (trip / "plan.yaml").write_text(text.replace("tent", "camp chair"), "utf-8")
    assert run("unlock", trip / "plan.yaml", "camp chair", *words).exit_code == 0
    left = [one.model_dump(by_alias=True, exclude_defaults=True) for one in read_plan(trip / "plan.yaml").plan.locks]
    assert [[*one][1] for one in left] == [*stays, "in"]


def test_unlock_a_corner_and_keep_the_lock_into_the_same_space(run, trip):
    says = ("in: right drawer", "in: right drawer, at_mm: [2460, 80, 1100]", "not_in: left bay")
    texts = ", ".join(f"{{thing: tent, {one}}}" for one in says)
    text = (trip / "plan.yaml").read_text("utf-8").replace("placements:", f"locks: [{texts}]\nplacements:")
    (trip / "plan.yaml").write_text(text, "utf-8")
    refused(run, trip, "unlock", trip / "plan.yaml", "tent", "--at-corner", "left bay")
    assert run("unlock", trip / "plan.yaml", "tent", "--at-corner", "drawer").exit_code == 0
    left = [(one.in_, one.at_mm, one.not_in) for one in read_plan(trip / "plan.yaml").plan.locks]
    assert left == [("right drawer", None, None), (None, None, "left bay")]


@pytest.mark.parametrize(
    ("typed", "left"),
    [
        ("drawer", []),
        ("drawer@2460,80,1100", [(2470, -80, 1100)]),
        ("right drawer @ 2470, -80, 1100", [(2460, 80, 1100)]),
    ],
)
def test_unlock_one_of_two_corners_of_a_space(run, trip, typed, left):
    corners = ("2460, 80, 1100", "2470, -80, 1100")
    texts = ", ".join(f"{{thing: tent, in: right drawer, at_mm: [{one}]}}" for one in corners)
    text = (trip / "plan.yaml").read_text("utf-8").replace("placements:", f"locks: [{texts}]\nplacements:")
    (trip / "plan.yaml").write_text(text, "utf-8")
    refused(run, trip, "unlock", trip / "plan.yaml", "tent", "--at-corner", "drawer@2460,80,1101")
    for half in ("right drawer@", "drawer@1,2", "drawer@x", "drawer@2460,80,1100,0", "drawer@2460,80,1100mm"):
        refused(run, trip, "unlock", trip / "plan.yaml", "tent", "--at-corner", half)
    assert run("unlock", trip / "plan.yaml", "tent", "--at-corner", typed).exit_code == 0
    assert [one.at_mm for one in read_plan(trip / "plan.yaml").plan.locks] == left


def test_the_unlock_that_is_told_means_one_corner(run, trip):
    corners = ("2460, 80, 1100", "2470, -80, 1100")
    texts = ", ".join(f"{{thing: tent, in: right drawer, at_mm: [{one}]}}" for one in corners)
    text = (trip / "plan.yaml").read_text("utf-8").replace("placements:", f"locks: [{texts}]\nplacements:")
    (trip / "plan.yaml").write_text(text, "utf-8")
    read = read_plan(trip / "plan.yaml")
    told = list(LockFiles(read, str(trip / "plan.yaml"), Copy("tent", 1)).told(read.plan.locks))
    assert run("unlock", trip / "plan.yaml", "tent", *told[0].unlock).exit_code == 0
    assert [one.at_mm for one in read_plan(trip / "plan.yaml").plan.locks] == [(2470, -80, 1100)]


def test_unlock_what_nothing_says_is_refused(run, trip):
    run("lock", trip / "plan.yaml", "tent")
    assert "Nothing of that is locked" in refused(run, trip, "unlock", trip / "plan.yaml", "tent", "--in", "left bay")
    said = refused(run, trip, "unlock", trip / "plan.yaml", "tent", "--not-in", "attic")
    assert "found no space or rack of that name" in said


def test_unlock_all_that_is_locked_into_a_space(run, trip):
    run("lock", trip / "plan.yaml", "tent", "--in", "left bay")
    run("lock", trip / "plan.yaml", "first aid")
    assert run("unlock", trip / "plan.yaml", "--space", "left bay").exit_code == 0
    assert [name for name, *_ in locks(trip)] == ["first aid kit"]


def test_what_the_trip_fixes_is_not_unlocked(run, trip):
    text = (trip / "trip.yaml").read_text("utf-8")
    (trip / "trip.yaml").write_text(text.replace("locks: []", "locks: [{thing: tent, in: right drawer}]"), "utf-8")
    assert "fixed in the trip's file" in refused(run, trip, "unlock", trip / "plan.yaml", "tent")


def test_every_rule_against_a_lock_has_a_line_of_its_own(run, trip):
    told = refused(run, trip, "lock", trip / "plan.yaml", "food box", "--in", "cabin bracket").splitlines()
    assert told[0] == "food box cannot be locked in cabin bracket, as that breaks a rule by itself."
    assert told[1].startswith("  - inside: ")
    assert any(line.startswith("  - space_mass: ") for line in told[2:])


@pytest.mark.parametrize(("typed", "says"), [("Kitchen", "--kit kitchen"), ("left bay", "--space 'left bay'")])
def test_a_kit_or_a_space_typed_as_a_thing_is_told_with_its_option(run, trip, typed, says):
    refused = run("lock", trip / "plan.yaml", typed)
    assert refused.exit_code == 2
    assert refused.stderr.strip().endswith(f"say {says}.")


def test_a_lock_on_what_is_gone_is_taken_out_by_its_name_and_no_other(run, trip):
    plan = trip / "plan.yaml"
    text = plan.read_text("utf-8")
    gone = "locks:\n  - {thing: shovel, in: left bay}  # long\n  - {thing: water can, copy: 2, in: left bay}\n"
    plan.write_text(text.replace("placements:\n", f"{gone}placements:\n"), "utf-8")
    off_the_list(trip)
    before = plan.read_text("utf-8")
    told = run("unlock", plan, "Shovel")
    assert (told.exit_code, told.stdout.splitlines()[-1]) == (0, "  - shovel in left bay")
    assert plan.read_text("utf-8") == before.replace("  - {thing: shovel, in: left bay}  # long\n", "")
    assert run("unlock", plan, "--space", "left bay").exit_code == 0
    assert [one.lock.thing for one in read_plan(plan).lost_locks] == []
    assert "thing: shovel, " in plan.read_text("utf-8"), "what lies aboard stays in the plan"


@pytest.mark.parametrize(
    ("words", "left"),
    [
        (["shovel"], ["tent"]),
        (["shov", "--at-home"], ["shovel", "tent"]),
        (["--space", "gone space"], ["shovel", "shovel"]),
        (["ten"], ["shovel", "shovel"]),
        (["shovel", "--in", "left bay"], ["shovel", "tent"]),
        (["--space", "left bay", "--at-home"], None),
    ],
)
def test_of_locks_that_the_files_no_longer_know_those_go_that_are_meant(run, trip, words, left):
    plan = trip / "plan.yaml"
    locks = ("{thing: shovel, in: left bay}", "{thing: shovel, at_home: true}", "{thing: tent, in: gone space}")
    gone = "locks:\n" + "".join(f"  - {one}\n" for one in locks)
    plan.write_text(plan.read_text("utf-8").replace("placements:\n", f"{gone}placements:\n"), "utf-8")
    off_the_list(trip)
    told = run("unlock", plan, *words, "--json")
    assert told.exit_code == (2 if left is None else 0), told.stderr
    if left is not None:
        assert [one.lock.thing for one in read_plan(plan).lost_locks] == left
        assert [one["thing"] for one in json.loads(told.stdout)["still_locked"]] == left


def test_comments_that_cannot_be_kept_are_told(run, trip):
    plan = trip / "plan.yaml"
    plan.write_text("{trip: trip.yaml}  # all in one", "utf-8")
    told = run("lock", plan, "tent", "--in", "right drawer")
    assert (told.exit_code, "comments had to go" in told.stderr) == (0, True)
