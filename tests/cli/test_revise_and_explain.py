"""`lowstow revise` and `lowstow explain`, on the starter trip packed by hand."""

import json
import re
import shlex
from pathlib import Path

import pytest

import cli.explaining
from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.reading import read_plan
from report.explained import Explained, RowTold
from solver import Explanation, Options, Price, Row
from tests.chances import some
from verifier import check, highest_mm

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

LOCK = "{thing: tent, in: right shelf, by: Ada, because: it is wet}"
QUICK = ("--effort", 0.01, "--seconds", 600)
QUICKEST = ("--effort", 0.01, "--seconds", 600)


def change(trip: Path, name: str, old: str, new: str) -> None:
    text = (trip / name).read_text("utf-8")
    assert text.count(old) == 1
    (trip / name).write_text(text.replace(old, new), "utf-8")


def spaces(path: Path) -> dict[Copy, str]:
    return {copy_of(place): place.space for place in read_plan(path).plan.placements}


def test_a_lock_moves_what_it_has_to_and_the_plan_is_replaced(run, trip):
    change(trip, "trip.yaml", "locks: []", f"locks: [{LOCK}]")
    before = spaces(trip / "plan.yaml")
    found = run("revise", trip / "plan.yaml", *QUICK)
    assert found.exit_code == 0, found.output
    after = spaces(trip / "plan.yaml")
    assert {copy.thing for copy in after if after[copy] != before[copy]} == {"tent"}
    text = found.stdout
    assert text.index("Moves, in an order that works: 1 moved in 1 lift") < text.index("May we drive?  YES.")
    assert "tent: from right drawer to right shelf" in text
    assert max(map(len, text.split("The plan is in")[0].splitlines())) <= 80
    assert run("check", trip / "plan.yaml").exit_code == 0


def test_another_file_leaves_the_plan_as_it_was(run, trip):
    before = (trip / "plan.yaml").read_bytes()
    assert run("revise", trip / "plan.yaml", "-o", trip / "new.yaml", *QUICK).exit_code == 0
    assert (trip / "plan.yaml").read_bytes() == before
    assert spaces(trip / "new.yaml") == spaces(trip / "plan.yaml")


def test_comments_stay_in_a_plan_that_is_revised_and_nothing_new_is_not_written(run, trip):
    path, tent = trip / "plan.yaml", "  - {thing: tent, "
    assert run("revise", path, *QUICK).exit_code == 0
    change(trip, "plan.yaml", tent, f"  # Ada's, and wet\n{tent}")
    before, at = path.read_bytes(), path.stat().st_mtime_ns
    found = run("revise", path, *QUICK)
    assert found.stdout.endswith(f"\nNothing is new; {path} stays as it is.\n")
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (before, at)
    change(trip, "trip.yaml", "locks: []", f"locks: [{LOCK}]")
    found = run("revise", path, *QUICK)
    assert (found.exit_code, found.stderr) == (0, "")
    assert found.stdout.endswith(f"The plan is in {path}.\n")
    assert f"  # Ada's, and wet\n{tent}" in path.read_text("utf-8")
    assert spaces(path)[Copy("tent", 1)] == "right shelf"


def test_a_comment_that_goes_with_a_copy_is_told(run, trip):
    change(trip, "plan.yaml", "{thing: shovel,", "{thing: shovel,  # sharp\n   ")
    change(trip, "gear.yaml", "- name: shovel", "- name: spade")
    other_files(trip)
    found = run("revise", trip / "plan.yaml", *QUICK)
    assert found.exit_code == 0
    gone = "some comments went: what they stood at is no longer in the plan, or all of it was in braces."
    assert found.stderr == f"{trip / 'plan.yaml'}: {gone}\n"


def other_files(trip: Path) -> None:
    """The plan is of other files than these."""
    change(trip, "plan.yaml", "placements:", 'trip_digest: "sha256:0"\nplacements:')


def test_copies_off_the_list_are_taken_out(run, trip):
    change(trip, "gear.yaml", "- name: water can\n  count: 2\n", "- name: water can\n  count: 1\n")
    other_files(trip)
    view = json.loads(run("revise", trip / "plan.yaml", "-o", trip / "new.yaml", "--json", *QUICK).stdout)
    assert view["no_longer_listed"] == [{"thing": "water can", "copy": 2, "from": "left bay"}]
    told = run("revise", trip / "plan.yaml", *QUICK).stdout
    assert told.startswith("Take out: water can #2 (#1 until now), out of left bay (no longer on the list).\n")


def fewer_cans(trip: Path, locks: str) -> None:
    change(trip, "gear.yaml", "- name: water can\n  count: 2\n", "- name: water can\n  count: 1\n")
    change(trip, "plan.yaml", "placements:", f"locks:\n{locks}placements:")
    other_files(trip)


def cans(path: Path) -> dict[int, tuple[int, int, int]]:
    return {one.copy_number: one.corner_mm for one in read_plan(path).plan.placements if one.thing == "water can"}


@pytest.mark.long
@pytest.mark.parametrize("options", some([("--fresh", "--effort", 0.02, "--seconds", 600), QUICK], 1))
def test_a_locked_copy_beyond_the_list_stays_with_its_lock(run, trip, options):
    there, out = cans(trip / "plan.yaml"), trip / "new.yaml"
    corner = list(there[2])
    fewer_cans(trip, f"  - {{thing: water can, copy: 2, in: left bay, at_mm: {corner}, by: Ada}}\n")
    told = run("revise", trip / "plan.yaml", "-o", out, *options).stdout
    assert told.startswith("Take out: water can #2 (#1 until now), out of left bay (no longer on the list).\n")
    assert "New numbers of water can, as the list has fewer: #1 is now #2, #2 is now #1;" in " ".join(told.split())
    assert "locks[0]" not in told
    assert cans(out) == {1: there[2]}
    (lock,) = read_plan(out).plan.locks
    assert (lock.copy_number, lock.at_mm, lock.by) == (1, there[2], "Ada")


def test_comments_go_along_with_a_copy_and_its_lock_to_the_new_number(run, trip):
    corner = list(cans(trip / "plan.yaml")[2])
    fewer_cans(trip, f"  - {{thing: water can, copy: 2, in: left bay, at_mm: {corner}}}  # as agreed\n")
    change(trip, "plan.yaml", "  - {thing: water can, copy: 1,", "  # the dented one\n  - {thing: water can, copy: 1,")
    change(
        trip, "plan.yaml", "  - {thing: water can, copy: 2, space", "  # Ada's\n  - {thing: water can, copy: 2, space"
    )
    found = run("revise", trip / "plan.yaml", *QUICK)
    text = (trip / "plan.yaml").read_text("utf-8")
    assert "  # Ada's\n  - {thing: water can, copy: 1, space: left bay" in text
    assert re.search(r"- \{thing: water can, copy: 1, in: left bay.*\}  # as agreed\n", text)
    assert "dented" not in text
    assert "some comments went" in found.stderr


def test_a_lock_that_the_files_no_longer_know_is_told_at_the_top(run, trip):
    change(trip, "gear.yaml", "- name: shovel\n", "- name: shovels\n")
    locks = "  - {thing: shovel, in: left bay, by: Ilka, because: dry there}\n  - {thing: tent, in: right drawer}\n"
    change(trip, "plan.yaml", "placements:", f"locks:\n{locks}placements:")
    other_files(trip)
    view = json.loads(run("revise", trip / "plan.yaml", "-o", trip / "new.yaml", "--json", *QUICK).stdout)
    (gone,) = view["locks_gone"]
    assert gone["lock"] == {"thing": "shovel", "in": "left bay", "by": "Ilka", "because": "dry there"}
    assert 'did you mean "shovels"?' in gone["why"][0]
    told = run("revise", trip / "plan.yaml", *QUICK).stdout
    top, rest = (" ".join(part.split()) for part in told.split("\n\n", 1))
    assert top.startswith("Take out: shovel, out of left bay")
    begin = "Lock gone from the plan: shovel in left bay (Ilka: dry there), as the files have changed: "
    assert begin in top
    assert 'locks[0].thing: found "shovel"' in top
    assert "locks[0]" not in rest
    assert [lock.thing for lock in read_plan(trip / "plan.yaml").plan.locks] == ["tent"]


def test_of_more_locks_than_copies_the_one_that_goes_is_told(run, trip):
    locks = "".join(f"  - {{thing: water can, copy: {n}, in: left bay, by: Ada}}\n" for n in (1, 2))
    fewer_cans(trip, locks)
    top = run("revise", trip / "plan.yaml", *QUICK).stdout.split("\n\n", 1)[0]
    assert "Lock gone from the plan: water can #2 in left bay (Ada)," in " ".join(top.split())
    assert [lock.copy_number for lock in read_plan(trip / "plan.yaml").plan.locks] == [1]


def test_a_copy_that_goes_has_in_compare_the_name_that_revise_gives_it(run, trip):
    corner, out = list(cans(trip / "plan.yaml")[2]), trip / "new.yaml"
    fewer_cans(trip, f"  - {{thing: water can, copy: 2, in: left bay, at_mm: {corner}}}\n")
    view = json.loads(run("revise", trip / "plan.yaml", "-o", out, "--json", *QUICK).stdout)
    assert view["new_numbers"] == [
        {"thing": "water can", "copy": 1, "was": 2},
        {"thing": "water can", "copy": 2, "was": 1},
    ]
    compared = json.loads(run("compare", trip / "plan.yaml", out, "--json").stdout)
    assert compared["moves"] == view["moves"]
    told = " ".join(run("compare", trip / "plan.yaml", out).stdout.split())
    assert "water can #2 in left bay; like copies have the numbers of B here and below." in told


@pytest.mark.parametrize("gone", [False, True], ids=["their space is there", "their space is gone"])
def test_copies_of_a_thing_off_the_list_have_the_same_names_everywhere(run, trip, gone):
    change(trip, "gear.yaml", "- name: water can\n", "- name: jug\n")
    other_files(trip)
    if gone:
        text = (trip / "plan.yaml").read_text("utf-8")
        (trip / "plan.yaml").write_text(re.sub(r"(water can.*)space: left bay", r"\1space: loft", text), "utf-8")
    space, out = "loft" if gone else "left bay", trip / "new.yaml"
    told = run("revise", trip / "plan.yaml", "-o", out, *QUICK).stdout
    assert told.startswith(
        f"Take out: water can #1, out of {space} (no longer on the list).\n"
        f"Take out: water can #2, out of {space} (no longer on the list).\n"
    )
    lying = f"water can #1 in {space}, water can #2 in {space}"
    compared, checked = (
        " ".join(run(*words).stdout.split())
        for words in (("compare", trip / "plan.yaml", out), ("check", trip / "plan.yaml"))
    )
    for text in (told, compared, checked):
        assert not re.search(r"water can(?! #\d)", text.split("Notes from reading")[0])
    assert f"without what they no longer know: {lying}." in compared
    assert f"In A, and unknown to the files of B: {lying}." in compared
    assert f"{lying}." in checked


def test_what_lay_in_a_space_that_is_gone_does_not_come_aboard(run, trip):
    change(trip, "vehicle.yaml", "name: right shelf", "name: right rack")
    other_files(trip)
    view = json.loads(run("revise", trip / "plan.yaml", "-o", trip / "new.yaml", "--json", *QUICK).stdout)
    assert {one["from"] for one in view["from_gone_space"]} == {"right shelf"}
    assert view["left_behind"] == []  # the chair, which need not come, was in it too
    assert {"camp chair", "clothes bag"} <= {one["thing"] for one in view["plan"]["placements"]}
    told = run("revise", trip / "plan.yaml", *QUICK).stdout.split("May we drive?")[0]
    text = " ".join(told.split())
    assert "clothes bag #1: from right shelf, which is no longer in the vehicle, to" in text
    assert "comes aboard" not in text.replace("camp chair #2: comes aboard", "")
    assert "Comes now: clothes bag" not in text


def test_a_thing_off_the_list_is_taken_out_from_behind_what_goes_back(run, trip):
    text = (trip / "gear.yaml").read_text("utf-8")
    begin = text.index("- name: shovel")
    (trip / "gear.yaml").write_text(text[:begin] + text[text.index("- name: tool box") :], "utf-8")
    (trip / "plan.yaml").write_text(
        (trip / "plan.yaml").read_text("utf-8").replace("placements:", 'trip_digest: "sha256:0"\nplacements:'), "utf-8"
    )
    found = run("revise", trip / "plan.yaml", *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith(
        "Take out: shovel, out of left bay (no longer on the list).\n\n"
        "Moves, in an order that works: 1 moved in 5 lifts"
    )
    assert "3. shovel: out of left bay, it stays at home\n" in found.stdout
    assert "left out, as the files have changed" in found.stdout


def test_fresh_may_move_everything_that_is_not_locked(run, trip):
    found = run("revise", trip / "plan.yaml", "--fresh", "--effort", 0.02, "--seconds", 600, "--json")
    view = json.loads(found.stdout)
    assert (found.exit_code, view["holds"], view["status"]) == (0, True, "found")
    assert view["moves"]


def test_what_cannot_be_ends_with_3_and_writes_nothing(run, trip):
    change(trip, "vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2300,")
    before = (trip / "plan.yaml").read_bytes()
    found = run("revise", trip / "plan.yaml", *QUICKEST)
    assert found.exit_code == 3, found.output
    assert "What must come is" in found.stdout
    assert "Ways out, each of them tried" in found.stdout
    assert (trip / "plan.yaml").read_bytes() == before


@pytest.mark.long
def test_what_cannot_be_is_told_to_machines(run, trip):
    change(trip, "vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2300,")
    view = json.loads(run("revise", trip / "plan.yaml", "--json", *QUICKEST).stdout)
    assert [one["kind"] for one in view["conflict"]["demands"]] == ["must come", "limit"]


def test_the_numbers_that_are_promised_appear_in_the_plan_that_is_written(run, trip):
    out = trip / "other.yaml"
    words = ("tent", "--instead", "right shelf", "-o", out, "--json", *QUICK)
    found = run("explain", trip / "plan.yaml", *words)
    assert found.exit_code == 0, found.output
    (row,) = json.loads(found.stdout)["rows"]
    then = row["offer"]["then"]
    read = read_plan(out)
    verdict = check(read.case, read.plan)
    assert verdict.holds is True
    assert verdict.totals[then["stage"]].cg_mm[2] == pytest.approx(then["height_mm"])
    rear = [one for one in verdict.findings if one.subject == "rear axle" and one.unit == "kg"]
    assert min(one.margin for one in rear if one.margin is not None) == pytest.approx(then["rear_left_kg"])
    assert {str(copy): space for copy, space in spaces(out).items()}["tent"] == "right shelf"


def test_explain_tells_a_sentence_and_a_row_for_every_other_space(run, trip):
    found = run("explain", trip / "plan.yaml", "tent", *QUICK)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("tent is in right drawer")
    case = read_plan(trip / "plan.yaml").case
    assert all(name in found.stdout for name in case.space_named)
    assert max(len(line) for line in found.stdout.splitlines() if str(trip) not in line) <= 80


@pytest.mark.long
def test_the_same_words_again_for_machines(run, trip):
    view = json.loads(run("explain", trip / "plan.yaml", "tent", "--json", *QUICK).stdout)
    case = read_plan(trip / "plan.yaml").case
    assert {row["space"] for row in view["rows"]} == set(case.space_named) - {"right drawer"}
    cannot = next(row for row in view["rows"] if row["space"] == "cabin bracket")
    assert (cannot["kind"], cannot["in_any_plan"], cannot["offer"]) == ("cannot", True, None)
    assert any("250 mm too long" in why for why in cannot["why"])


@pytest.mark.long
def test_a_lock_is_told_as_asked_for(run, trip):
    change(trip, "trip.yaml", "locks: []", "locks: [{thing: tent, in: right drawer, by: Ada, because: always there}]")
    told = " ".join(run("explain", trip / "plan.yaml", "tent", *QUICK).stdout.split())
    assert told.startswith("tent is in right drawer because that was asked for: tent is locked in right drawer (Ada:")


def test_a_plan_that_breaks_a_lock_of_the_trip_is_not_written(run, trip):
    change(trip, "trip.yaml", "locks: []", "locks: [{thing: tent, in: right drawer}]")
    out = trip / "out.yaml"
    found = run("explain", trip / "plan.yaml", "tent", "--instead", "right shelf", "-o", out, *QUICK)
    assert (found.exit_code, out.exists()) == (2, False)
    assert "the trip's own file is against it" in found.stderr


@pytest.mark.long
@pytest.mark.parametrize("lock", some(["not_in: right shelf", "in: right drawer"], 1))
def test_what_is_refused_for_a_lock_names_it_and_its_file(run, trip, lock):
    change(trip, "trip.yaml", "locks: []", f"locks: [{{thing: tent, {lock}, by: Ada, because: damp}}]")
    words = ("explain", trip / "plan.yaml", "tent", "--instead", "right shelf", *QUICK)
    told = run(*words)
    assert told.exit_code == 0, told.output
    flat = " ".join(told.stdout.split())
    assert "In right shelf instead: allowed once its lock is lifted." in flat
    unbroken = "".join(flat.split())  # a long path goes over lines
    assert f"Thelockhastocomeoutof{trip / 'trip.yaml'}first" in unbroken
    assert "-o FILE" not in flat
    found = run(*words, "-o", trip / "out.yaml")
    assert (found.exit_code, (trip / "out.yaml").exists()) == (2, False)
    assert "the trip's own file is against it: tent should" in found.stderr
    assert f"(Ada):damp.Takethatlockoutof{trip / 'trip.yaml'}first" in "".join(found.stderr.split())


@pytest.mark.parametrize(
    "lock", some(["in: right drawer, at_mm: CORNER", "in: right drawer", "not_in: right shelf"], 1)
)
def test_a_plan_is_offered_without_its_own_lock_and_holds(run, trip, lock):
    text = (trip / "plan.yaml").read_text("utf-8")
    (corner,) = (place.corner_mm for place in read_plan(trip / "plan.yaml").plan.placements if place.thing == "tent")
    its = lock.replace("CORNER", str(list(corner)))
    assert "locks:" not in text
    locks = f"locks: [{{thing: tent, {its}}}, {{thing: shovel, in: left bay}}]"
    (trip / "plan.yaml").write_text(text.replace("placements:", f"{locks}\nplacements:"), "utf-8")
    out = trip / "out.yaml"
    found = run("explain", trip / "plan.yaml", "tent", "--instead", "right shelf", "-o", out, *QUICK)
    assert found.exit_code == 0, found.output
    assert "The lock is this plan's own: the plan that was tried does without." in " ".join(found.stdout.split())
    assert [lock.thing for lock in read_plan(out).plan.locks] == ["shovel"]
    assert spaces(out)[Copy("tent", 1)] == "right shelf"
    assert run("check", out).exit_code == 0


@pytest.mark.parametrize(
    ("space", "corner"),
    [
        ("right drawer", [2470, 80, 1100]),
        pytest.param("right shelf", [3300, 260, 1380], marks=pytest.mark.long),
    ],
)
def test_a_corner_of_the_plans_own_lock_is_taken_up_again(run, trip, space, corner):
    lock = f"locks: [{{thing: tent, in: {space}, at_mm: {corner}}}]"
    change(trip, "plan.yaml", "placements:", f"{lock}\nplacements:")
    out = trip / "out.yaml"
    found = run("explain", trip / "plan.yaml", "tent", "--instead", space, "-o", out, *QUICK)
    assert found.exit_code == 0, found.output
    assert f"In {space} at the corner of its lock: allowed." in " ".join(found.stdout.split())
    told = read_plan(out).plan
    assert [list(place.corner_mm) for place in told.placements if place.thing == "tent"] == [corner]
    assert [one.thing for one in told.locks] == ["tent"]
    assert run("check", out).exit_code == 0


@pytest.mark.parametrize(
    ("lock", "name"),
    [
        ("in: right drawer", "-tent"),
        pytest.param("in: right drawer", "- a tent", marks=pytest.mark.long),
        pytest.param("not_in: right shelf", "tent", marks=pytest.mark.long),
    ],
)
def test_the_commands_that_are_told_do_what_was_tried(run, trip, lock, name):
    """They take out the lock that stands against the space, and no other on the thing, whatever it is called."""
    change(trip, "gear.yaml", "- name: tent\n", f"- name: {json.dumps(name)}\n")
    it = f"thing: {json.dumps(name)}"
    change(trip, "plan.yaml", "thing: tent,", f"{it},")
    locks = f"locks: [{{{it}, {lock}}}, {{{it}, not_in: left bay}}, {{{it}, carried: true}}]"
    change(trip, "plan.yaml", "placements:", f"{locks}\nplacements:")
    out = trip / "out.yaml"
    found = run("explain", trip / "plan.yaml", "--instead", "right shelf", "-o", out, *QUICK, "--", name)
    told = re.split(r"(?:If you want|Put) it there[^:]*:", found.stdout)[1].partition("Or write")[0]
    for line in told.replace("\\\n", " ").strip().splitlines():
        done = run(*shlex.split(line)[1:])
        assert done.exit_code == 0, done.output
    left = read_plan(trip / "plan.yaml").plan
    tried = read_plan(out).plan
    assert [one for one in left.locks if one.in_ is None] == list(tried.locks)
    assert [one.in_ for one in left.locks if one.in_ is not None] == ["right shelf"]
    assert spaces(trip / "plan.yaml")[Copy(name, 1)] == "right shelf"


@pytest.mark.long
def test_the_command_that_writes_what_was_tried_searches_as_before(run, trip):
    options = ("--effort", 0.01, "--seconds", 600, "--seed", 3)
    found = run("explain", trip / "plan.yaml", "tent", "--instead", "right shelf", *options)
    line = found.stdout.partition("Or write the plan that was tried:\n")[2].replace("\\\n", " ")
    assert "--seconds 600 --effort 0.01 --seed 3 -o FILE" in " ".join(line.split())
    out = trip / "out.yaml"
    done = run(*(out if word == "FILE" else word for word in shlex.split(line)[1:]))
    assert done.exit_code == 0, done.output
    assert spaces(out)[Copy("tent", 1)] == "right shelf"


def test_where_one_space_was_asked_about_it_is_not_asked_for_again(run, trip, monkeypatch):
    """The tent is too long for the bracket; for the shelf no plan is found, as where the time was short."""
    words = ("explain", trip / "plan.yaml", "tent", "-o", trip / "out.yaml", *QUICK, "--instead")
    never = run(*words, "cabin bracket")
    assert (never.exit_code, never.stdout) == (2, "")
    told = " ".join(never.stderr.split())
    assert told.endswith("there is no plan to write; it cannot be in cabin bracket; without -o it is told why.")
    row = RowTold("right shelf", "none found", ())
    asked = Explained(Copy("tent", 1), "right drawer", (), (row,), "plan.yaml", deep=True)
    monkeypatch.setattr("cli.explaining.why_here", lambda *_: asked)
    none = run(*words, "right shelf")
    assert (none.exit_code, none.stdout) == (2, "")
    told = " ".join(none.stderr.split())
    assert told.endswith(
        "no plan to write; none was found with it in right shelf in this time; --seconds gives it more."
    )


@pytest.mark.long
def test_what_lies_with_other_sides_than_it_has_now_is_to_be_put_somewhere_first(run, trip):
    """The gear list has changed since: `check` tells it as broken, and this is no mistake of ours."""
    change(trip, "plan.yaml", "size_mm: [700, 250, 250]", "size_mm: [600, 250, 250]")
    found = run("explain", trip / "plan.yaml", "tent", *QUICK)
    assert (found.exit_code, found.stdout) == (2, "")
    told = " ".join(found.stderr.split())
    assert "tent lies in right drawer with 600×250×250 mm, which it may not have by the gear list" in told
    again = told.partition("Find it a place first: lowstow ")[2].rstrip(".")
    assert run(*shlex.split(again), *QUICK).exit_code == 0
    assert run("explain", trip / "plan.yaml", "tent", *QUICK).exit_code == 0


@pytest.mark.long
def test_a_lock_that_stands_against_a_space_is_told_to_machines(run, trip):
    change(trip, "trip.yaml", "locks: []", "locks: [{thing: tent, not_in: right shelf, by: Ada}]")
    view = json.loads(run("explain", trip / "plan.yaml", "tent", "--json", *QUICK).stdout)
    told = {"says": "tent is kept out of right shelf (Ada)", "file": str(trip / "trip.yaml"), "of_trip": True}
    assert (view["asked_for"], view["locks"]) == ([], [told])
    lifted = {row["space"]: row["lifted"] for row in view["rows"]}
    assert lifted.pop("right shelf") == [told]
    assert not any(lifted.values())


@pytest.mark.parametrize("of_trip", [True, False], ids=["of the trip", "of the plan"])
def test_what_a_lock_keeps_at_home_comes_without_it_where_the_plan_has_it(run, trip, of_trip):
    lock = "[{thing: camp chair, copy: 2, at_home: true, by: Ada}]"
    if of_trip:
        change(trip, "trip.yaml", "locks: []", f"locks: {lock}")
    else:
        change(trip, "plan.yaml", "placements:", f"locks: {lock}\nplacements:")
    out = trip / "out.yaml"
    found = run("explain", trip / "plan.yaml", "--left", "camp chair #2", "-o", out, *QUICK)
    assert (found.exit_code, out.exists()) == ((2, False) if of_trip else (0, True)), found.output
    if of_trip:
        assert "camp chair #2 should stay at home and is carried (Ada)" in found.stderr
    else:
        assert "because that was asked for: camp chair #2 stays at home (Ada)" in " ".join(found.stdout.split())
        assert run("check", out).exit_code == 0


@pytest.mark.parametrize("typed", ["camp chair #2", "camp chair"], ids=["by its number", "the one that is left"])
def test_why_something_stays_at_home_and_how_it_could_come(run, trip, typed):
    found = run("explain", trip / "plan.yaml", "--left", typed, "-o", trip / "out.yaml", *QUICK)
    assert found.exit_code == 0, found.output
    assert "it is worth 30 of 100 to you" in " ".join(found.stdout.split())
    assert "there is room for it as it is" in found.stdout
    assert len(spaces(trip / "out.yaml")) == len(spaces(trip / "plan.yaml")) + 1
    assert run("check", trip / "out.yaml").exit_code == 0


@pytest.mark.long
def test_the_commands_that_are_printed_take_along_what_stays_at_home(run, trip):
    found = run("explain", trip / "plan.yaml", "--left", "camp chair #2", *QUICK)
    told = found.stdout.partition("Take it along if you like:")[2].partition("Or write")[0]
    lines = told.replace("\\\n", " ").strip().splitlines()
    assert [line.split()[1] for line in lines] == ["lock", "revise"]
    for line in lines:
        done = run(*shlex.split(line)[1:])
        assert done.exit_code == 0, done.output
    assert Copy("camp chair", 2) in spaces(trip / "plan.yaml")


@pytest.mark.parametrize("space", ["left bay", "cabin bracket"])
def test_one_space_of_a_thing_at_home(run, trip, space):
    """The one takes it, the other takes extinguishers alone."""
    out = () if space == "cabin bracket" else ("-o", trip / "out.yaml")
    found = run("explain", trip / "plan.yaml", "camp chair #2", "--instead", space, *out, *QUICK)
    assert found.exit_code == 0, found.output
    assert (f"In {space}: cannot. No plan may have it there." in found.stdout) is not bool(out)
    if out:
        assert spaces(trip / "out.yaml")[Copy("camp chair", 2)] == space


def test_what_comes_along_is_named(run, trip):
    more = (
        "- {name: lantern, mass_kg: 0.5, size_mm: [80, 80, 120], access: seldom, carry: 20, with: [lamp oil]}\n"
        "- {name: lamp oil, mass_kg: 0.5, size_mm: [80, 80, 120], access: seldom, carry: 10}\n"
    )
    (trip / "gear.yaml").write_text((trip / "gear.yaml").read_text("utf-8").rstrip() + "\n" + more, "utf-8")
    found = run("explain", trip / "plan.yaml", "--left", "lantern", "-o", trip / "out.yaml", *QUICK)
    assert found.exit_code == 0, found.output
    assert "there is room for it as it is, and lamp oil comes along: height" in " ".join(found.stdout.split())
    assert run("check", trip / "out.yaml").exit_code == 0


@pytest.mark.long
@pytest.mark.parametrize(
    "words", some([("first aid kit",), ("--left", "camp chair #2"), ("--left", "shovel"), ("tent",)], 1)
)
def test_a_plan_that_is_broken_itself_is_explained_and_is_no_fault_of_ours(run, trip, words):
    """The tool box is pushed into the tent, and the shovel is left behind."""
    text = (trip / "plan.yaml").read_text("utf-8").replace("[2460, 390, 1100]", "[2460, 200, 1100]")
    kept = [line for line in text.splitlines() if "thing: shovel" not in line]
    (trip / "plan.yaml").write_text("\n".join(kept) + "\n", "utf-8")
    found = run("explain", trip / "plan.yaml", *words, "--seconds", 1, "--effort", 0.05)
    assert found.exit_code == 0, found.output
    assert "This plan breaks 2 limits or rules" in found.stdout


@pytest.mark.long
def test_what_more_of_a_limit_would_buy(run, trip):
    found = run("explain", trip / "plan.yaml", "--limit", "drawer frame", *QUICKEST)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("rack drawer frame: 56 of 120 kg at 'leaving', 64 kg left.")
    # 64 kg are left, so that more of it is of no use.
    assert "10 kg more of it would buy nothing that was found" in found.stdout


@pytest.fixture
def unpriced(monkeypatch) -> list[str]:
    """Nothing is solved again to price a limit; the limits that were to be priced."""
    asked: list[str] = []

    def price(_case: Case, _plan: Plan, limit: str, _options: Options) -> Price:
        asked.append(limit)
        return Price(limit, 10.0, None, None)

    monkeypatch.setattr("cli.limits.price_of", price)
    return asked


def test_what_uses_up_a_limit(run, trip, unpriced):
    drawer = {"tool box": 18.0, "tent": 12.0, "first aid kit": 2.0}
    shelf = {"clothes bag": 16.0, "sleeping bag": 4.0, "camp chair": 4.0}
    view = json.loads(run("explain", trip / "plan.yaml", "--limit", "drawer frame", "--json").stdout)
    assert unpriced == ["rack drawer frame"]
    assert {one["thing"]: one["kg"] for one in view["uses"] if one["kg"]} == pytest.approx(drawer | shelf)


@pytest.mark.parametrize("word", some(["GVM", "gross mass", "gvm_kg", "total"], 1))
def test_the_total_is_known_by_its_other_names(run, trip, word, unpriced):
    found = run("explain", trip / "plan.yaml", "--limit", word)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith("total: ")
    assert unpriced == ["total"]


TOWS = "towing: {ball_kg: 80, trailer_kg: 900}"


def tow(trip: Path) -> None:
    change(trip, "trip.yaml", "locks: []", f"locks: []\n{TOWS}")
    vehicle = (trip / "vehicle.yaml").read_text("utf-8")
    limits = "gcm_kg: {kg: 4500, source: handbook}\n  tow_ball_kg: {kg: 100, source: plate}\n  "
    limits += "tow_ball_behind_rear_axle_mm: 1200\n  rear_axle_kg:"
    (trip / "vehicle.yaml").write_text(vehicle.replace("rear_axle_kg:", limits, 1), "utf-8")


@pytest.mark.parametrize("word", some(["with trailer", "GCM", "gcm_kg"], 1))
def test_the_total_with_the_trailer_is_told_as_the_total_is(run, trip, word, unpriced):
    """The trailer weighs 900 kg, of which the ball carries 80; no reserve is kept of this limit."""
    tow(trip)
    total = json.loads(run("explain", trip / "plan.yaml", "--limit", "total", "--json").stdout)
    view = json.loads(run("explain", trip / "plan.yaml", "--limit", word, "--json").stdout)
    assert unpriced == ["total", "with trailer"]
    assert (view["name"], view["limit_kg"], view["reserve_kg"]) == ("with trailer", 4500, 0)
    assert view["value_kg"] == pytest.approx(total["value_kg"] - total["reserve_kg"] - 80 + 900)
    assert [(one["thing"], pytest.approx(one["kg"])) for one in total["uses"]] == [
        (one["thing"], one["kg"]) for one in view["uses"]
    ]
    text = run("explain", trip / "plan.yaml", "--limit", word).stdout
    assert text.startswith("with trailer: ")
    assert "and vehicle, people, fluids and the trailer: " in " ".join(text.split())


@pytest.mark.parametrize(
    ("word", "limit"),
    [("gross_mass", "total"), ("axle", "front axle"), ("rack", "rack drawer frame"), ("space_mass", "space")],
)
@pytest.mark.usefixtures("unpriced")
def test_the_word_of_a_rule_means_its_tightest_limit(run, trip, word, limit):
    found = run("explain", trip / "plan.yaml", "--limit", word)
    assert found.exit_code == 0, found.output
    assert found.stdout.startswith(limit)


@pytest.mark.usefixtures("unpriced")
def test_the_word_of_the_total_means_that_with_the_trailer_where_it_is_tighter(run, trip):
    tow(trip)
    change(trip, "vehicle.yaml", "kg: 4500", "kg: 3300")
    assert run("explain", trip / "plan.yaml", "--limit", "gross_mass").stdout.startswith("with trailer: ")


@pytest.mark.usefixtures("unpriced")
def test_a_space_with_the_name_of_a_rule_is_that_space(run, trip):
    change(trip, "vehicle.yaml", "name: right shelf", "name: lock")
    (trip / "plan.yaml").write_text((trip / "plan.yaml").read_text("utf-8").replace("right shelf", "lock"), "utf-8")
    assert run("explain", trip / "plan.yaml", "--limit", "lock").stdout.startswith("space lock: ")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "THING: say one thing"),
        (("tent", "--left", "tent"), "THING: say one thing"),
        (("--instead", "right shelf"), "THING: say one thing"),
        (("tnet", "--instead", "moon"), "found no space of that name"),
        (("bag",), "say which thing"),
        (("elephant",), "found no thing of that name"),
        (("extinguisher #3",), "a copy from 1 to 2"),
        (("tent", "--instead", "right drawer"), "is in right drawer already"),
        (("--limit", "moon"), 'found no limit of that name; allowed: "total", "front axle", "rear axle"'),
        (("--limit", "moon"), "or the word of a rule for its tightest limit: gross_mass, axle, rack, space_mass."),
        (("--limit", "tow ball"), "is not made up of things"),
        (("--limit", "with trailer"), "with trailer: the trip has no trailer."),
        (("--limit", "lock"), "lock: is a rule without a limit in kg; allowed:"),
        (("--limit", "hazard"), "hazard: is a rule without a limit in kg; allowed:"),
    ],
)
def test_what_cannot_be_asked_is_one_sentence(run, trip, words, says):
    found = run("explain", trip / "plan.yaml", *words, "--seconds", 1)
    assert (found.exit_code, found.stdout) == (2, "")
    assert says in " ".join(found.stderr.split())


def test_of_a_better_plan_the_lowest_is_offered_and_not_the_one_that_moves_least(run, trip, monkeypatch):
    """The first aid kit is on the shelf; with few moves it comes into the drawer, and the pots go up."""
    text, lowest = (trip / "plan.yaml").read_text("utf-8"), read_plan(trip / "plan.yaml").plan
    up = "space: right shelf, corner_mm: [3300, 260, 1380]"
    kit, pots = "space: right drawer, corner_mm: [3200, 80, 1100]", "space: left bay, corner_mm: [3560, -720, 1150]"
    assert (text.count(kit), text.count(pots)) == (1, 1)
    (trip / "few.yaml").write_text(text.replace(pots, up), "utf-8")
    (trip / "plan.yaml").write_text(text.replace(kit, up), "utf-8")
    few, now = read_plan(trip / "few.yaml").plan, read_plan(trip / "plan.yaml")

    def height_mm(plan: Plan) -> float:
        found = highest_mm(now.case, plan)
        assert found is not None
        return found

    def found(_: Case, plan: Plan, copy: Copy, *_more: object) -> Explanation:
        mm = height_mm(lowest) - height_mm(plan)
        return Explanation(
            copy, "right shelf", (Row("right drawer", "could", higher_mm=mm, plan=few, lowest=lowest),), plan
        )

    monkeypatch.setattr(cli.explaining, "why_not", found)
    assert height_mm(few) > height_mm(now.plan) > height_mm(lowest)
    told = run("explain", trip / "plan.yaml", "first aid kit", "-o", trip / "new.yaml")
    assert told.exit_code == 0, told.output
    assert "a better plan was found with it in right drawer" in " ".join(told.stdout.split())
    assert height_mm(read_plan(trip / "new.yaml").plan) == pytest.approx(height_mm(lowest))


def test_of_what_no_space_may_hold_nobody_is_told_to_ask_for_one(run, trip):
    anvil = "- {name: anvil, mass_kg: 900, size_mm: [500, 500, 500], carry: 5}\n"
    (trip / "gear.yaml").write_text((trip / "gear.yaml").read_text("utf-8") + anvil, "utf-8")
    found = run("explain", trip / "plan.yaml", "--left", "anvil", "-o", trip / "new.yaml", *QUICK)
    assert found.exit_code == 2
    assert "no space may hold it, or sums alone rule it out; without -o it is told why." in found.stderr
    assert not (trip / "new.yaml").exists()


def test_a_fault_of_our_own_while_telling_leaves_the_plan_as_it_was(run, trip, monkeypatch):
    change(trip, "trip.yaml", "locks: []", f"locks: [{LOCK}]")
    path, out = trip / "plan.yaml", trip / "new.yaml"
    before = path.read_bytes()
    with monkeypatch.context() as faulty:
        faulty.setattr("report.terminal.revision.revision_report", lambda *_, **__: 1 // 0)
        assert run("revise", path, *QUICK).exit_code == 70
        assert run("revise", path, "-o", out, *QUICK).exit_code == 70
    assert (path.read_bytes(), out.exists()) == (before, False)
    assert run("revise", path, *QUICK).exit_code == 0
    assert path.read_bytes() != before


def test_moves_that_nobody_can_be_told_leave_the_plan_as_it_was(run, trip, monkeypatch):
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    change(trip, "trip.yaml", "locks: []", f"locks: [{LOCK}]")
    before = (trip / "plan.yaml").read_bytes()
    monkeypatch.setattr("cli.commands.revise.typer.echo", full)
    assert run("revise", trip / "plan.yaml", *QUICK).exit_code == 2
    assert (trip / "plan.yaml").read_bytes() == before
