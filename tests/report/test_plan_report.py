"""The report on the terminal, as people read it."""

import re
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import verifier
from models.case import Copy
from models.reading import read_plan
from models.rules import Rule
from report.figures import kilograms
from report.sheet import sheet_html, sheet_of
from report.sheet.short import sheet_text
from report.terminal import plan_report, refusal_report
from report.terminal.doubts import TOGETHER, _nearer_than_doubt
from report.terminal.heading import grouped, told_group
from verifier.finding import Finding


def level(name: str, value: float, bound: float | None, unit: str, state: str) -> SimpleNamespace:
    return SimpleNamespace(name=name, value=value, bound=bound, unit=unit, state=state)


LEVELS = (
    level("value carried", 30.0, 60.0, "", "found"),
    level("height", 702.1, 698.4, "mm", "found"),
    level("handling", 131.0, None, "s/day", "found"),
    level("tidiness", 12.0, None, "s/day", "unknown"),
)


def found(*levels: SimpleNamespace, **more: Any) -> SimpleNamespace:
    """A proposal as a report sees it."""
    plain: dict[str, Any] = {
        "levels": levels,
        "must_only_height_mm": None,
        "interrupted": False,
        "cut_short": False,
        "home_reasons": {},
    }
    return SimpleNamespace(**{**plain, **more})


def text_of(told: Any, **more: Any) -> str:
    return plan_report(told.case, told.plan, told.verdict, **more)


def test_a_plan_that_holds(told, golden):
    golden(
        "holds.txt",
        text_of(
            told,
            proposal=found(*LEVELS, must_only_height_mm=698.6),
            notes=["gear.yaml, line 3: 33 lb taken as 14.969 kg"],
        ),
    )


def test_the_starter_is_asked_nothing(folder, told):
    assert told.verdict.questions == ()
    assert read_plan(folder.path / "plan.yaml").questions == ()


def test_a_height_is_not_told_where_nothing_drives(folder):
    folder.change("trip.yaml", "surface: sealed_road", "surface: parked")
    folder.change("trip.yaml", "surface: off_road", "surface: parked")
    text = " ".join(text_of(folder.told, proposal=found(*LEVELS)).split())
    assert "height of the laden centre of gravity: not looked at, as no driving stage is in the trip" in text
    assert "unknown mm" not in text


def test_a_plan_that_breaks_limits_and_leans_on_unknown_ones(folder, golden):
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2393.8,")
    folder.change("vehicle.yaml", "rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown")
    folder.change("plan.yaml", "[2460, 390, 1100]", "[2460, 300, 1100]")
    golden("broken.txt", text_of(folder.told))


def test_the_wide_form(told, golden):
    text = text_of(told, width=200)
    assert 100 < max(map(len, text.splitlines())) <= 120
    golden("wide.txt", text)


def test_the_answer_comes_first(folder):
    assert "May we drive?  YES." in text_of(folder.told).splitlines()[2]
    folder.change("vehicle.yaml", "rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown")
    assert "May we drive?  NOT SIGNED OFF." in text_of(folder.told)
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2000,")
    assert "May we drive?  NO." in text_of(folder.told)


@pytest.mark.parametrize("width", [1, 80])
def test_long_names_still_fit_eighty_columns(folder, width):
    long = "the shelf behind the left rear wheel that Ada built out of a bed and never quite finished"
    folder.change("vehicle.yaml", "name: right shelf ", f"name: {long} ")
    plan = folder.path / "plan.yaml"
    plan.write_text(plan.read_text("utf-8").replace("right shelf", long), "utf-8")
    assert max(map(len, text_of(folder.told, width=width).splitlines())) <= 80


def test_long_names_of_stages_fit_eighty_columns(folder):
    text = (folder.path / "trip.yaml").read_text("utf-8")
    (folder.path / "trip.yaml").write_text(text.replace("last camp", "last camp above the river"), "utf-8")
    told = text_of(folder.told, width=80)
    assert "above the" in told
    assert max(map(len, told.splitlines())) <= 80


def test_a_reserve_given_up_is_in_the_heading(folder):
    folder.change("plan.yaml", "left_at_home:", "reserve_kept_kg: 5\nleft_at_home:")
    assert "THE RESERVE WAS GIVEN UP: 5 kg of 20 kg" in "\n".join(text_of(folder.told).splitlines()[:6])


def _page(told: Any) -> str:
    return sheet_html(sheet_of(told.case, told.plan, told.verdict, verifier))


def test_a_reserve_that_is_not_kept_either_is_not_called_kept(folder):
    folder.change("plan.yaml", "left_at_home:", "reserve_kept_kg: 5\nleft_at_home:")
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2000,")
    told = " ".join(text_of(folder.told).split())
    assert "GIVEN UP: this plan was to keep 5 kg of 20 kg free of the total and of each axle, and does not keep" in told
    assert "are kept free" not in told
    assert "was to keep 5 kg of 20 kg" in _page(folder.told)


def test_doubt_that_exceeds_what_is_left_is_said(folder):
    assert "may be over its limit on the scale" not in text_of(folder.told)
    assert "Weigh before you go:" not in text_of(folder.told)
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2395,")
    text = text_of(folder.told)
    assert "may be over its limit on the scale" in text
    beside_the_answer = " ".join(text.partition("Masses")[0].split())
    assert "on the scale this may be over its limit, as less is left than its doubt: the total." in beside_the_answer


@pytest.mark.parametrize(("limit_kg", "told"), [(60.2, False), (60.1, True), (55, False)])
def test_a_rack_that_holds_by_less_than_its_doubt_is_said(folder, limit_kg, told):
    """56 kg hang on it, known to 4.19; where it is broken, that is what is said."""
    folder.change("vehicle.yaml", "any_kg: 120", f"any_kg: {limit_kg}")
    text = " ".join(text_of(folder.told).split())
    assert ("as less is left than its doubt: rack drawer frame." in text.partition("Masses")[0]) is told
    assert (DOUBTED_RACK in text) is told
    assert text.count("Rack drawer frame at") == (1 if told else 0)
    assert ("doubt: rack drawer frame." in _page(folder.told).partition("Each limit where")[0]) is told


DOUBTED_RACK = (
    "Rack drawer frame at 'leaving' may be over its limit on the scale: 4 kg left are less than its doubt, "
    "+/- 4.2 kg, and no reserve is kept of it."
)


@pytest.mark.parametrize(("gcm_kg", "told"), [(3207, False), (3206, True)])
def test_vehicle_and_trailer_that_hold_by_less_than_their_doubt_are_said(folder, gcm_kg, told):
    """Of both no reserve is kept: 2374 and 800 kg, known to 32.2."""
    folder.change("vehicle.yaml", "\nlimits:", f"\nlimits:\n  gcm_kg: {gcm_kg}\n  tow_ball_kg: 200")
    folder.change("trip.yaml", "reserve_kg:", "towing: {ball_kg: 60, trailer_kg: 800}\nreserve_kg:")
    near = {one.called for one in _nearer_than_doubt(folder.told.case, folder.told.verdict, 20)}
    assert (TOGETHER in near) is told


def test_the_sheet_says_so_beside_its_answer_too(folder):
    assert "Weigh before you go:" not in _page(folder.told)
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2395,")
    assert "as less is left than its doubt: the total." in _page(folder.told).partition("Each limit where")[0]


def test_leaving_checks_say_which_masses_they_tell(told):
    page = sheet_html(sheet_of(told.case, told.plan, told.verdict, verifier))
    leaving = page.partition('id="leaving"')[2]
    assert "<p>Most likely mass " in leaving
    assert "Tightest now, at its heaviest:" in leaving


@pytest.mark.parametrize(("kg", "told"), [(20.5, "21"), (9.96, "10"), (9.94, "9.9"), (0.4, "0.4")])
def test_a_mass_is_rounded_alike_everywhere(kg, told):
    assert kilograms(kg) == told


@pytest.mark.parametrize(
    ("state", "bound", "says"),
    [
        ("proven", 702.0, "proven, no lower is possible within these limits"),
        ("found", 694.5, "found; at most 8 mm lower is possible"),
        ("found", 702.5, "found; at most 0 mm lower is possible"),
        ("found", None, "found; how much lower is possible is unknown"),
        ("unknown", None, "found; how much lower is possible is unknown"),
    ],
)
def test_proven_found_and_unknown_are_three_words(told, state, bound, says):
    text = " ".join(text_of(told, proposal=found(level("height", 702.0, bound, "mm", state))).split())
    assert says in text
    assert "optimal" not in text


def test_claims_that_do_not_stand_and_remarks_are_told(told):
    told.verdict = replace(told.verdict, claims_off=("The plan claims a height of 600.0 mm.",))
    text = text_of(told, remarks=["Stopped by you."])
    assert "Claims of the plan that do not stand\n  - The plan claims a height of 600.0 mm." in text
    assert "Stopped by you." in text.splitlines()[4]


def test_a_lock_tells_why_a_thing_stays(folder):
    folder.change(
        "plan.yaml",
        "left_at_home:",
        "locks: [{thing: camp chair, at_home: true, by: Ben, because: torn}]\nleft_at_home:",
    )
    assert "camp chair, 1 of the 2 (4 kg each): fixed by Ben to stay, because: torn" in text_of(folder.told)


def test_a_search_tells_why_a_thing_stays_and_that_it_was_stopped(told):
    reasons = {Copy("camp chair", 2): "each place it fits in is full"}
    text = text_of(told, proposal=found(home_reasons=reasons, interrupted=True))
    assert "(4 kg each): worth 30 of 100 to you; each place it fits in is full" in " ".join(text.split())
    assert "this is the best plan so far" in text
    assert "--seconds" not in text
    assert "this is the best plan so far" not in text_of(told, proposal=found())


def test_a_search_that_ran_out_of_time_says_so(told):
    assert "--seconds gives it more" in text_of(told, proposal=found(cut_short=True))
    assert "--seconds" not in text_of(told, proposal=found())


CONFLICT = SimpleNamespace(
    proven=True,
    says=("The tent is 200 mm too long.",),
    demands=(
        SimpleNamespace(
            says="Ada's lock keeps the tent in the drawer.", shown=True, not_enough=False, kind="lock", subject="tent"
        ),
        SimpleNamespace(says="The drawer holds 80 kg.", shown=False, not_enough=False, kind="limit", subject="drawer"),
    ),
    ways_out=(SimpleNamespace(says="Without Ada's lock a plan exists."),),
)


def test_what_is_not_enough_by_itself_is_told_so(told):
    axle = SimpleNamespace(says="The axle may carry 9 kg.", shown=False, not_enough=True, kind="limit", subject="axle")
    conflict = SimpleNamespace(proven=True, says=(), demands=(axle,), ways_out=())
    text = " ".join(refusal_report(told.case, True, conflict).split())
    assert "The axle may carry 9 kg. (giving up this alone is not enough)" in text
    assert "could not be shown" not in text


def test_where_there_is_no_plan_it_says_whether_that_is_proven(told, golden):
    golden("impossible.txt", refusal_report(told.case, True, CONFLICT))
    open_end = refusal_report(told.case, False)
    assert "Whether one exists is unknown" in " ".join(open_end.split())
    assert "proven" not in open_end
    assert "No plan was found" in refusal_report(told.case, False, CONFLICT)
    reserve = SimpleNamespace(says="20 kg are kept free.", shown=False, not_enough=False, kind="reserve", subject="")
    kept = SimpleNamespace(proven=True, says=(), demands=(reserve,), ways_out=())
    by_reserve = " ".join(refusal_report(told.case, False, kept).split())
    assert f"No plan keeps {told.case.reserve_kg:g} kg of reserve: proven." in by_reserve
    assert "Whether one exists is unknown" in by_reserve


def test_one_demand_by_itself_is_not_called_several(told):
    def title(*demands: SimpleNamespace) -> str:
        conflict = SimpleNamespace(proven=False, says=(), demands=demands, ways_out=())
        return " ".join(refusal_report(told.case, False, conflict).split())

    assert "This was not brought about - Ada's lock" in title(*CONFLICT.demands[:1])
    assert "These were not brought together - Ada's lock" in title(*CONFLICT.demands)


def test_how_near_a_search_came_is_told_where_nothing_was_found(told):
    late = " ".join(refusal_report(told.case, True, CONFLICT, cut_short=True).split())
    assert "The time was over before all of this was tried" in late
    text = " ".join(refusal_report(told.case, False, closest=("It missed the total by 3.0 kg.",)).split())
    assert "How near it came - It missed the total by 3.0 kg." in text
    assert "How near it came" not in refusal_report(told.case, False)


@pytest.mark.parametrize(
    ("most_kg", "state", "says"),
    [(18.1, "proven", "proven, no more is possible"), (20.0, "found", "found; at most 1.9 kg more is possible")],
)
def test_how_much_of_the_reserve_is_kept_is_told_with_its_bound(told, most_kg, state, says):
    text = text_of(told, proposal=found(level("reserve kept", 18.1, most_kg, "kg", state), *LEVELS))
    assert f"reserve kept 18.1 kg: {says}" in text


def test_a_vehicle_that_nobody_has_weighed_is_worth_weighing_before_its_load(folder, told):
    assert "empty vehicle" not in text_of(told)
    now = folder.change("vehicle.yaml", "known_from: weighbridge", "known_from: handbook").told
    assert "Worth weighing first: on the tightest axle the load's doubt is +/- 1.8 kg\n" in text_of(now)
    first = text_of(now).split("Worth weighing first")[1].splitlines()[1:3]
    assert first[0] == "  - the empty vehicle, axle by axle (from handbook): every sum rests on it"
    assert first[1].endswith("kg left once weighed")
    sheet = sheet_of(now.case, now.plan, now.verdict, verifier)
    assert sheet.worth_weighing[0] == "the empty vehicle, axle by axle (from handbook)"


def test_no_empty_lines_stand_where_no_limit_is_known(folder):
    for kg in ("gvm_kg: {kg: 3200, source: plate}", "front_axle_kg: {kg: 1480, source: plate}"):
        folder.change("vehicle.yaml", kg, f"{kg.split(':')[0]}: unknown")
    folder.change("vehicle.yaml", "rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown")
    folder.change("vehicle.yaml", "limits: {any_kg: 120}, source: maker's label", "limits: {}")
    folder.change("vehicle.yaml", "  front_kg: 1190\n  rear_kg: 960\n", "  total_kg: 2150\n")
    vehicle = folder.path / "vehicle.yaml"
    vehicle.write_text(re.sub(r"limit_kg: \d+", "limit_kg: unknown", vehicle.read_text("utf-8")), "utf-8")
    text = text_of(folder.told)
    assert "Tightest" not in text
    assert "\n\n\n" not in text


def test_a_parked_stage_is_told_to_take_other_masses_than_a_driving_one(folder):
    says = "driving: the worse end of doubtful masses, for the sides and parked: the likely"
    assert says in " ".join(text_of(folder.told).split())
    folder.change("gear.yaml", "mass_kg: {least: 15, likely: 16, most: 18}", "mass_kg: 16")
    assert says not in " ".join(text_of(folder.told).split())


def test_where_every_stage_drives_the_end_of_doubtful_masses_is_told_too(folder):
    folder.change("trip.yaml", "surface: parked", "surface: off_road")
    assert "doubtful masses at their worse end" in " ".join(text_of(folder.told).split())
    folder.change("gear.yaml", "mass_kg: {least: 15, likely: 16, most: 18}", "mass_kg: 16")
    assert "worse end" not in " ".join(text_of(folder.told).split())


def test_each_fault_of_one_thing_is_told_and_counted():
    """A jug in shut air, lying down, in no holder: three faults of one rule, the first with where the limit is from."""
    faults = [
        Finding(Rule.HAZARD, "jug", None, None, None, "", None, False, "rule book", f"jug is {what}.")
        for what in ("in shut air", "lying down", "in no holder")
    ]
    groups = grouped(faults, False)
    assert [told_group(group) for group in groups[:1]] == ["hazard: jug is in shut air. Limit from: rule book."]
    assert len(groups) == 3


def test_one_fault_at_several_stages_is_told_once():
    at = [
        Finding(Rule.RACK, "roof", stage, 60 + n, 50.0, "kg", -10.0 - n, False, None, f"roof carries {60 + n} kg.")
        for n, stage in enumerate(("out", "back"))
    ]
    (group,) = grouped([*at, *at], False)
    assert told_group(group) == "rack, over by 11 kg: roof carries 61 kg. Likewise at 'out'."


def test_the_space_that_is_nearest_to_full_stands_beside_the_tightest_limits(folder):
    """3 kg left of 101 are less than 2 of 6: a bracket for one thing is no news."""
    heavy = re.search(r"left bay +(\d+)", text_of(folder.told))
    assert heavy
    folder.change("vehicle.yaml", "limit_kg: 150", f"limit_kg: {int(heavy[1]) + 3}")
    told = folder.told
    assert "of the spaces: left bay, 3 kg left at 'leaving'" in " ".join(text_of(told).split())
    sheet = sheet_of(told.case, told.plan, told.verdict, verifier)
    bar = sheet.drive.bars[-1]
    assert (bar.subject, bar.margin.text, bar.stage) == ("left bay", "3", "leaving")
    assert next(stage.space.subject for stage in sheet.leaving if stage.space) == "left bay"
    assert "of the spaces: left bay, " in " ".join(sheet_text(sheet, 300).split())
    folder.change("vehicle.yaml", f"limit_kg: {int(heavy[1]) + 3}", "limit_kg: unknown")
    assert "of the spaces: left bay" not in " ".join(text_of(folder.told).split())


def test_an_axle_that_is_lifted_off_the_ground_is_told_below_zero_so_that_the_row_adds_up(folder):
    hoist = "fittings: [{name: hoist, mass_kg: 400, at_mm: [4400, 0, 900], on: []}]\n"
    folder.change("vehicle.yaml", "front_kg: 1190", "front_kg: 30").change(
        "vehicle.yaml", "seats:\n", f"{hoist}seats:\n"
    )
    told = folder.told
    row = next(line for line in plan_report(told.case, told.plan, told.verdict).splitlines() if "leaving (" in line)
    total, front, rear = (int(figure) for figure in re.findall(r"(-?\d+) \(", row.partition(")")[2])[:3])
    assert front < 0
    assert abs(front + rear - total) <= 1
