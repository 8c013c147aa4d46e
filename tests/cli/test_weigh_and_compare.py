"""`lowstow weigh` and `lowstow compare`."""

import json
import re
from pathlib import Path

import pytest


def weigh(run, trip, *words: object):
    return run("weigh", trip / "plan.yaml", *words)


def test_a_ticket_that_fits_ends_with_0(run, trip):
    found = weigh(run, trip, "--stage", "leaving", "--front", 1240, "--rear", 1120)
    assert (found.exit_code, found.stderr) == (0, "")
    assert "The ticket agrees with the plan" in found.stdout


def test_an_axle_over_its_limit_as_weighed_ends_with_1(run, trip):
    found = weigh(run, trip, "--stage", "leav", "--front", 1240, "--rear", 1851)
    assert found.exit_code == 1
    assert "NO, as weighed." in found.stdout


def test_an_axle_that_is_over_its_plate_is_over_at_a_parked_stage_too(run, trip):
    found = weigh(run, trip, "--stage", "last camp", "--front", 1174, "--rear", 1900)
    assert found.exit_code == 1
    assert "Within the limits?  NO, as weighed." in found.stdout


def test_sides_that_are_off_at_a_parked_stage_are_not_signed_off_and_break_nothing(run, trip):
    found = weigh(run, trip, "--stage", "last camp", "--front", 1174, "--rear", 1034, "--left", 1164, "--right", 1044)
    assert found.exit_code == 5
    told = " ".join(found.stdout.split())
    assert "NOT SIGNED OFF. Parked at 'last camp' it breaks no limit, but it may not drive as it was weighed." in told
    assert "Left and right differ by 120 kg, 10 kg more than is allowed when driving" in told


def test_at_a_parked_stage_nobody_says_that_it_breaks_no_limit_where_one_is_unknown(run, trip):
    vehicle = (trip / "vehicle.yaml").read_text("utf-8")
    (trip / "vehicle.yaml").write_text(vehicle.replace("gvm_kg: {kg: 3200, source: plate}", "gvm_kg: unknown"), "utf-8")
    found = weigh(run, trip, "--stage", "last camp", "--front", 1174, "--rear", 1034, "--left", 1164, "--right", 1044)
    assert found.exit_code == 5
    told = " ".join(found.stdout.split())
    assert "Parked at 'last camp' no mass is over as weighed, but a limit is unknown, and it may not drive" in told
    assert "breaks no limit" not in told


def test_an_unknown_limit_ends_with_5(run, trip):
    text = (trip / "vehicle.yaml").read_text("utf-8")
    known = "gvm_kg: {kg: 3200, source: plate}"
    assert known in text
    (trip / "vehicle.yaml").write_text(text.replace(known, "gvm_kg: unknown"), "utf-8")
    assert weigh(run, trip, "--stage", "leaving", "--front", 1240, "--rear", 1120).exit_code == 5


def test_vehicle_and_trailer_over_what_both_may_weigh_end_with_1(run, trip):
    towing = "towing: {ball_kg: 100, trailer_kg: 1000}\nlocks: []"
    (trip / "trip.yaml").write_text((trip / "trip.yaml").read_text("utf-8").replace("locks: []", towing, 1), "utf-8")
    ball = "  tow_ball_behind_rear_axle_mm: 1220\n  gcm_kg: 3399\n  gvm_kg:"
    (trip / "vehicle.yaml").write_text(
        (trip / "vehicle.yaml").read_text("utf-8").replace("  gvm_kg:", ball, 1), "utf-8"
    )
    found = weigh(run, trip, "--stage", "leaving", "--front", 1210, "--rear", 1290)
    assert (found.exit_code, found.stderr) == (1, "")
    assert re.search(r"with trailer +\d+ +- +3400 ", found.stdout)


def test_the_trailer_of_the_stage_is_told(run, trip):
    towing = "towing: {ball_kg: 100, trailer_kg: 1000}\nlocks: []"
    text = (trip / "trip.yaml").read_text("utf-8").replace("locks: []", towing, 1)
    text = text.replace("{name: leaving,", "{name: leaving, towing: {ball_kg: 110, trailer_kg: 1180},", 1)
    (trip / "trip.yaml").write_text(text, "utf-8")
    found = weigh(run, trip, "--stage", "leaving", "--front", 1210, "--rear", 1290)
    assert "With trailer: its 1180 kg are as typed in" in found.stdout


def test_json_has_all_of_it(run, trip):
    words = ("--stage", "leaving", "--front", 1250, "--rear", 1240, "--left", 1240, "--right", 1250, "--division", 10)
    view = json.loads(weigh(run, trip, *words, "--json").stdout)
    assert view["holds"] is True
    assert view["missing"]["x_mm"] == pytest.approx(2933, abs=5)
    assert [one["subject"] for one in view["differences"]][-1] == "right wheels"
    assert view["corrections"]


@pytest.mark.parametrize(
    "words",
    [
        ("--stage", "leaving", "--front", 1240),
        ("--stage", "nowhere", "--front", 1240, "--rear", 1120),
        ("--stage", "leaving", "--front", "nan", "--rear", 1120),
        ("--stage", "leaving", "--front", -5, "--rear", 1120),
        ("--stage", "leaving", "--front", 1240, "--rear", 1120, "--left", 1200),
        ("--stage", "leaving", "--front", 1240, "--rear", 1120, "--division", 0),
    ],
)
def test_what_cannot_be_a_ticket_ends_with_2(run, trip, words):
    found = weigh(run, trip, *words)
    assert (found.exit_code, found.stdout) == (2, "")
    assert "Traceback" not in found.stderr


def test_all_of_a_ticket_that_cannot_be_is_told_at_once(run, trip):
    found = weigh(run, trip, "--stage", "leaving", "--front", 0, "--rear", "x", "--left", -4, "--division", 0.05)
    assert (found.exit_code, found.stdout) == (2, "")
    assert [line.split(":")[0] for line in found.stderr.splitlines()] == ["--front", "--rear", "--left", "--division"]
    assert "--rear: found x; allowed: a number from 1 to 100000, such as 1240." in found.stderr
    for kg in (1, 100_000):  # both ends are allowed
        assert weigh(run, trip, "--stage", "leaving", "--front", kg, "--rear", 1120).exit_code in {1, 5}


def changed(trip, old: str, new: str):
    """Another plan's file with one place changed."""
    text = (trip / "plan.yaml").read_text("utf-8")
    assert text.count(old) == 1
    (trip / "other.yaml").write_text(text.replace(old, new), "utf-8")
    return trip / "other.yaml"


def test_two_plans_that_hold(run, trip):
    other = changed(trip, "corner_mm: [3200, 80, 1100]", "corner_mm: [3300, 80, 1100]")
    found = run("compare", trip / "plan.yaml", other)
    assert (found.exit_code, found.stderr) == (0, "")
    assert "first aid kit: within right drawer" in found.stdout


def test_the_worse_of_two_decides_the_code(run, trip):
    other = changed(trip, "[2460, 390, 1100]", "[2460, 300, 1100]")
    found = run("compare", trip / "plan.yaml", other)
    assert found.exit_code == 1
    assert "Broken in B" in found.stdout
    assert run("compare", other, other).exit_code == 1


def test_compare_for_machines(run, trip):
    other = changed(trip, "corner_mm: [3200, 80, 1100]", "corner_mm: [3300, 80, 1100]")
    view = json.loads(run("compare", trip / "plan.yaml", other, "--json").stdout)
    assert [(one["thing"], one["kind"]) for one in view["moves"]] == [("first aid kit", "move")]
    assert view["minutes"] == pytest.approx((4 + 8 + 6) / 60)
    assert (view["a"]["holds"], view["b"]["holds"], view["other_files"]) == (True, True, False)
    assert {one["subject"] for one in view["margins"]} >= {"total", "front axle", "rear axle", "drawer frame"}


def test_a_stage_that_one_trip_alone_has_is_told_and_not_compared(run, trip):
    for name in ("trip", "plan"):
        text = (trip / f"{name}.yaml").read_text("utf-8").replace("trip: trip.yaml", "trip: trip_b.yaml")
        (trip / f"{name}_b.yaml").write_text(text.replace("name: halfway", "name: midway"), "utf-8")
    told = run("compare", trip / "plan.yaml", trip / "plan_b.yaml").stdout
    assert "alike at every stage that both have.\nOnly in A: 'halfway'.\nOnly in B: 'midway'.\n" in told
    assert "unknown" not in told


def test_plans_for_other_files(run, trip):
    """A thing that the second gear list does not have is named, and the rest is compared."""
    for name in ("gear", "trip", "plan"):
        text = (trip / f"{name}.yaml").read_text("utf-8").replace("gear.yaml", "gear_b.yaml")
        text = text.replace("trip.yaml", "trip_b.yaml")
        if name == "gear":
            text = text.replace("- name: shovel\n", "- name: spade\n")
        if name == "plan":
            text = text.replace("thing: shovel", "thing: spade")
        (trip / f"{name}_b.yaml").write_text(text, "utf-8")
    found = run("compare", trip / "plan.yaml", trip / "plan_b.yaml")
    assert found.exit_code == 0
    assert "They are for different files" in found.stdout
    assert "In A, and unknown to the files of B: shovel in left bay." in found.stdout
    told = " ".join(found.stdout.split())
    assert told.index("shovel: out of left bay, it stays at home") < told.index("spade: comes aboard")


def fewer_extinguishers(trip: Path) -> Path:
    """A with two extinguishers in two spaces, and one on the list since: B has it where the second of A is."""
    gear, plan = trip / "gear.yaml", trip / "plan.yaml"
    text = gear.read_text("utf-8")
    assert text.count("- name: extinguisher\n  count: 2\n") == 1
    text = re.sub(r"\n  spread: 2 .*", "", text)
    gear.write_text(text.replace("- name: extinguisher\n  count: 2\n", "- name: extinguisher\n"), "utf-8")
    lines = plan.read_text("utf-8").splitlines()
    (first,) = (line for line in lines if "thing: extinguisher, copy: 1" in line)
    (last,) = (line for line in lines if "thing: extinguisher, copy: 2" in line)
    other = [line for line in lines if line != first]
    other[other.index(last)] = last.replace("copy: 2", "copy: 1")
    (trip / "other.yaml").write_text("\n".join(other), "utf-8")
    plan.write_text("trip_digest: sha256:other\n" + "\n".join(lines), "utf-8")
    return trip / "other.yaml"


def test_what_is_no_longer_listed_has_the_name_that_the_moves_give_it(run, trip):
    told = " ".join(run("compare", trip / "plan.yaml", fewer_extinguishers(trip)).stdout.split())
    (out,) = re.findall(r"(extinguisher #\d): out of ([a-z ]+), it stays at home", told)
    assert f"In A, and unknown to the files of B: {out[0]} in {out[1]}" in told


def test_what_is_no_longer_on_the_list_is_told_and_taken_out_before_its_place_is_taken(run, trip):
    """The shovel of A is called spade since, and B puts the spade where the shovel still stands."""
    plan, gear = trip / "plan.yaml", trip / "gear.yaml"
    plan.write_text(f"trip_digest: sha256:other\n{plan.read_text('utf-8')}", "utf-8")
    other = changed(trip, "thing: shovel", "thing: spade")
    gear.write_text(gear.read_text("utf-8").replace("- name: shovel\n", "- name: spade\n"), "utf-8")
    found = run("compare", plan, other)
    told = " ".join(found.stdout.split())
    assert "The files have changed since A was made: it is checked against them as they are now" in told
    assert "without what they no longer know: shovel in left bay." in told
    assert "In A, and unknown to the files of B: shovel in left bay." in told
    assert told.index("shovel: out of left bay, it stays at home") < told.index("spade: comes aboard, into left bay")
    view = json.loads(run("compare", plan, other, "--json").stdout)
    assert view["a"]["left_out"] == [{"thing": "shovel", "copy": 1, "from": "left bay"}]
    assert (view["a"]["digest_matches"], view["unknown_to_b"]) == (False, ["shovel"])
    assert [one["kind"] for one in view["moves"] if one["thing"] in {"shovel", "spade"}] == ["take out", "bring in"]
