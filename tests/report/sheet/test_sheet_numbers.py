"""Every number on the sheet is the verifier's, to the digit that is printed."""

import json
import re
from collections import Counter
from math import ceil, floor
from types import SimpleNamespace
from typing import Any

import pytest

import verifier
from models.case import Copy, copy_of, fresh
from models.gear import Mass
from models.trip import Stream, Towing
from packing import way_to
from report.sheet.asked import Asked
from report.sheet.emptying import cans as cans_of
from report.sheet.leaving import tightest_at
from report.sheet.short import sheet_text
from verifier import check, required_restraint_n

SHOWN_AS = {"kg", "mm", "N"}
WATER = {"drinking water": Stream(fluid="water")}


def numbers(made: Any) -> list[tuple[list[Any], str]]:
    return [(json.loads(one.get("data-of")), one.text) for one in made.page.root.all() if "data-of" in one.attributes]


def finding(made: Any, rule: str, subject: str, stage: str | None) -> Any:
    (found,) = [
        one
        for one in made.told.verdict.findings
        if (one.rule.value, one.subject, one.stage) == (rule, subject, stage) and one.unit in {*SHOWN_AS, "s"}
    ]
    return found


def nearest(value: float | None) -> str:
    return "unknown" if value is None else f"{floor(value + 0.5)}"


def margin(one: Any) -> str:
    if one.margin is None:
        return "?"
    if one.holds:
        return f"{floor(one.margin)}"
    return f"over {ceil(-one.margin)}" if one.margin <= -1 else f"over {-one.margin:.1f}"


def expected(made: Any, of: list[Any]) -> str:
    kind, *rest = of
    verdict = made.told.verdict
    if kind == "finding":
        rule, subject, stage, part = rest
        one = finding(made, rule, subject, stage)
        reserved = rule == "axle" or (rule, subject) == ("gross_mass", "total")
        reserve = made.told.case.reserve_kg if reserved else 0
        if one.unit == "s":
            return f"{one.value:.0f}" if one.value < 5 else f"{5 * floor(one.value / 5 + 0.5)}"
        return {
            "load": nearest(None if one.value is None else one.value - reserve),
            "value": nearest(one.value),
            "limit": "unknown" if one.limit is None else f"{floor(one.limit)}",
            "margin": margin(one),
        }[part]
    if kind == "totals":
        stage, part, *axis = rest
        value = getattr(verdict.totals[stage], part)
        return nearest(value[int(axis[0])] if axis else value)
    if kind == "doubt":
        return f"± {getattr(verdict.doubts[rest[0]], rest[1]):.0f}"
    raise AssertionError(of)


@pytest.mark.parametrize("which", ["made", "broken", "cans"])
def test_every_number_is_the_verifiers(which, request):
    made = request.getfixturevalue(which)
    told = [(of, text) for of, text in numbers(made) if of[0] in {"finding", "totals", "doubt"}]
    assert len(told) > 60
    assert {of[0] for of, _ in told} == {"finding", "totals", "doubt"}
    assert [(of, text, expected(made, of)) for of, text in told if text != expected(made, of)] == []


def test_limits_on_the_first_page_are_all_marked_with_their_place(made):
    section = next(one for one in made.page.named("section") if one.get("aria-labelledby") == "drive")
    subjects = {json.loads(o.get("data-of"))[2] for o in section.all() if o.get("data-of").startswith('["finding')}
    verdict = made.told.verdict
    weighed = {f.subject for f in verdict.findings if f.rule.value in {"gross_mass", "axle", "balance", "rack"}}
    # Of the spaces the one of whose limit the least share is left.
    spaces = [f for f in verdict.findings if f.rule.value == "space_mass" and f.limit]
    full = min(spaces, key=lambda one: one.margin / one.limit)
    assert subjects == {full.subject} | weighed - {"front share"} - {f.subject for f in verdict.findings if not f.unit}


def test_the_tightest_stage_is_the_one_shown(made):
    verdict = made.told.verdict
    for bar in made.sheet.drive.bars:
        margins = [f.margin for f in verdict.findings if f.subject == bar.subject and f.unit == "kg"]
        assert bar.margin.value == min(margins)


@pytest.mark.parametrize(
    ("limits", "stage", "holds"),
    [
        ("{parked_kg: unknown, sealed_road_kg: 120, off_road_kg: 25}", "halfway", False),
        ("{parked_kg: unknown, sealed_road_kg: 120, off_road_kg: 56}", "last camp", None),
    ],
    ids=["passed", "met"],
)
def test_a_limit_that_is_passed_is_shown_before_one_that_is_unknown_and_that_before_one_that_holds(
    folder, make, limits, stage, holds
):
    folder.change("vehicle.yaml", "limits: {any_kg: 120}", f"limits: {limits}")
    (bar,) = [one for one in make(folder.told).sheet.drive.bars if one.subject == "drawer frame"]
    assert (bar.stage, bar.holds) == (stage, holds)


def test_a_can_poured_over_moves_axles_and_height_by_its_moments(cans):
    case, verdict = cans.told.case, cans.told.verdict
    tank = case.vehicle.tanks[0]
    kg, now = 20 * 0.5, verdict.totals["halfway"]
    stage = next(one for one in cans.sheet.leaving if one.name == "halfway")
    assert {one.name for one in stage.emptied} == {"water can #1", "water can #2"}
    for one in stage.emptied:
        place = next(p for p in cans.told.plan.placements if f"{p.thing} #{p.copy_number}" == one.name)
        x, z = (place.corner_mm[i] + place.size_mm[i] / 2 for i in (0, 2))
        moved = kg * (tank.at_mm[0] - x) / case.vehicle.wheelbase_mm
        assert one.rear.value == pytest.approx(now.rear_axle_kg + moved)
        assert one.front.value == pytest.approx(now.front_axle_kg - moved)
        assert one.height.value == pytest.approx(now.cg_mm[2] + kg * (tank.at_mm[2] - z) / now.mass_kg)
        assert one.rear.text == nearest(one.rear.value)


@pytest.mark.parametrize(
    ("spare", "level", "how"),
    [
        ("spare tank", 1.0, "poured into main tank"),
        pytest.param("spare tank", 0.9, "poured into main tank and spare tank", marks=pytest.mark.long),
        ("grey tank", 0.0, "poured into main tank"),
    ],
)
def test_only_tanks_that_take_some_of_it_are_named(cans, make, spare, level, how):
    """The main tank takes all but 3 L of a can, and a waste tank is none to pour into."""
    told = cans.told
    (main,) = told.case.vehicle.tanks
    tanks = (main, main.model_copy(update={"name": spare, "holds_l": 50.0}))
    levels = {main.name: 1 - 7 / main.holds_l if level < 1 and spare == "spare tank" else 0.5, spare: level}
    stages = tuple(
        one.model_copy(update={"tanks": levels if one.name == "halfway" else {**one.tanks, spare: 1.0}})
        for one in told.case.trip.stages
    )
    vehicle = told.case.vehicle.model_copy(update={"tanks": tanks})
    trip = told.case.trip.model_copy(update={"stages": stages})
    told.case = told.case.model_copy(update={"vehicle": vehicle, "trip": trip})
    told.verdict = check(told.case, told.plan)
    stage = next(one for one in make(told).sheet.leaving if one.name == "halfway")
    assert {one.how for one in stage.emptied} == {how}


def test_who_is_not_aboard_at_first_never_got_out_and_a_tank_lost_nothing(folder, make):
    told = folder.told
    (main,) = told.case.vehicle.tanks
    first, *rest = told.case.trip.stages
    first = first.model_copy(update={"people": ("Ada",), "tanks": {main.name: 0.4}})
    rest[0] = rest[0].model_copy(update={"people": ("Ada", "Ben"), "tanks": {main.name: 0.2}})
    trip = told.case.trip.model_copy(update={"stages": (first, *rest)})
    told.case = told.case.model_copy(update={"trip": trip})
    told.verdict = check(told.case, told.plan)
    before, after, *_ = make(told).sheet.leaving
    assert {"without Ben", "main tank at 40%"} <= set(before.changes)
    assert any(one.startswith("Ben gets in") for one in after.changes)
    assert any(one.startswith("main tank at 20%, ") and one.endswith(" less") for one in after.changes)


LIGHT, LIGHT_TOLD = {"ball_kg": 89.811, "trailer_kg": 900.4}, "weighs 900 kg, 90 kg of them on the ball"
TRIP_TOLD = "weighs 1000 kg, 100 kg of them on the ball"


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ((None, None, None), ((), (), ())),
        ((LIGHT, None, False), ((LIGHT_TOLD,), (TRIP_TOLD,), ("is off",))),
        ((False, LIGHT, True), (("is off",), (f"is on and {LIGHT_TOLD}",), (TRIP_TOLD,))),
        ((False, True, False), (("is off",), ("is on",), ("is off",))),
    ],
)
def test_what_the_trailer_weighs_is_told_where_it_changes(folder, make, own, says):
    folder.change("trip.yaml", "locks: []", "towing: {ball_kg: 100, trailer_kg: 1000}\nlocks: []")
    told = folder.told
    of = [Towing(**one) if isinstance(one, dict) else one for one in own]
    stages = told.case.trip.stages
    stages = tuple(stage.model_copy(update={"towing": one}) for stage, one in zip(stages, of, strict=True))
    told.case = fresh(told.case, trip=told.case.trip.model_copy(update={"stages": stages}))
    told.verdict = check(told.case, told.plan)
    found = [[one for one in stage.changes if "trailer" in one] for stage in make(told).sheet.leaving]
    assert found == [[f"the trailer {word}" for word in words] for words in says]


def test_cans_that_stand_alike_are_weighed_once_and_as_each_is_by_itself(folder):
    """Two bottles side by side, the one behind them, and the one on them: three places that count."""
    four = "- {name: bottle, count: 4, mass_kg: 3, size_mm: [100, 100, 100], uses_up: {drinking water: 2}}\n"
    corners = [(2460, -720, 1500), (2460, -620, 1500), (2560, -720, 1500), (2460, -720, 1600)]
    lines = (
        f"  - {{thing: bottle, copy: {n}, space: left bay, corner_mm: {list(at)}, size_mm: [100, 100, 100]}}\n"
        for n, at in enumerate(corners, start=1)
    )
    folder.change("gear.yaml", "- name: tent\n", f"{four}- name: tent\n")
    folder.change("plan.yaml", "placements:\n", f"placements:\n{''.join(lines)}")
    told, asked = folder.told, Counter[str]()
    trip = told.case.trip.model_copy(update={"streams": WATER})
    told.case = told.case.model_copy(update={"trip": trip})
    told.verdict = check(told.case, told.plan)

    def weighed(case, plan, rules):
        asked.update(place.thing for place in plan.placements if place.thing.endswith(", emptied"))
        return verifier.weighed(case, plan, rules)

    one = Asked(told.case, told.plan, told.verdict, SimpleNamespace(weighed=weighed))
    found = [can for can in cans_of(one) if can.copy.thing == "bottle"]
    assert sorted(can.copy.number for can in found) == [1, 2, 3, 4]
    assert asked["bottle, emptied"] == 3
    for can in found:
        (own,) = [place for place in told.plan.placements if copy_of(place) == can.copy]
        rest = [place for place in told.plan.placements if place != own]
        empty = own.model_copy(update={"thing": "empty", "copy_number": 1})
        full = told.case.thing_named["bottle"]
        bare = {"name": "empty", "mass_kg": Mass(least=1, likely=1, most=1), "uses_up": {}}
        thing = full.model_copy(update=bare)
        case = fresh(told.case, things=(*told.case.things, thing))
        verdict = check(case, told.plan.model_copy(update={"placements": (*rest, empty)}))
        for name, totals in verdict.totals.items():
            mine = can.weighed.totals[name]
            assert mine.rear_axle_kg == pytest.approx(totals.rear_axle_kg)
            assert mine.cg_mm[2] == pytest.approx(totals.cg_mm[2])
            tight, least = tightest_at(can.weighed, name), tightest_at(verdict, name)
            assert tight is not None
            assert least is not None
            assert tight.subject == least.subject
            assert tight.margin == pytest.approx(least.margin)


def test_a_full_tank_has_no_room_for_a_can(cans):
    assert cans.sheet.leaving[0].emptied == ()


@pytest.mark.parametrize(
    ("halfway", "last", "offered"),
    [
        (1.0, 1.0, set()),  # never used
        (1.0, 0.5, {"halfway"}),
        (0.5, 0.5, {"leaving"}),
        (0.5, 0.2, {"leaving", "halfway"}),
        (0.0, 0.0, {"leaving"}),
    ],
)
def test_what_no_tank_takes_is_offered_where_it_is_used_by_the_next_stage(folder, make, halfway, last, offered):
    """The vehicle has no tank for water."""
    told = folder.told
    trip = told.case.trip
    left = dict(zip(("halfway", "last camp"), (halfway, last), strict=True))
    stages = tuple(
        one.model_copy(update={"left": {**one.left, "drinking water": left.get(one.name, 1.0)}}) for one in trip.stages
    )
    told.case = told.case.model_copy(update={"trip": trip.model_copy(update={"stages": stages, "streams": WATER})})
    told.verdict = check(told.case, told.plan)
    made = make(told)
    assert {stage.name for stage in made.sheet.leaving if stage.emptied} == offered
    assert {can.how for stage in made.sheet.leaving for can in stage.emptied} <= {"water used"}


def test_what_braking_asks_for_is_the_verifiers(folder, make):
    folder.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  tied: true\n")
    made = make(folder.told)
    (space,) = made.sheet.holding.spaces
    (tie,) = space.ties
    assert tie.pull.value == required_restraint_n(18, 0.8, 9.81)
    assert tie.pull.text == "141"
    forces = {of[0]: text for of, text in numbers(made) if of[1] == "tool box" and len(of) == 2}
    assert forces == {"pull": "141", "rearward": "88", "sideways": "88", "upward": "35"}


def test_seconds_that_no_rule_asks_for_are_reckoned_all_the_same(made):
    chair = next(one for one in made.sheet.places if one.name == "camp chair #1")
    assert chair.seconds.value == finding(made, "reach", "camp chair #1", None).value


def test_the_answer_is_the_verdicts(made, broken):
    assert made.sheet.drive.answer == "YES"
    assert broken.sheet.drive.answer == "NO"
    assert any("total" in told for told in broken.sheet.drive.broken)
    assert any("rear axle" in told for told in broken.sheet.drive.unknown)


@pytest.mark.parametrize(("drawer_s", "word"), [(22, "in reach"), (23, "NOT ALL IN REACH")])
def test_page_and_terminal_say_in_the_same_words_whether_what_an_incident_needs_is_in_reach(
    folder, make, drawer_s, word
):
    """The first aid kit may take 30 s: 8 s for the tailgate and the rest for its drawer."""
    drawer = "drawer front, side: rear, seconds:"
    folder.change("vehicle.yaml", f"{drawer} 4", f"{drawer} {drawer_s}")
    made = make(folder.told)
    assert f"Injury: {word}" in [one.text for one in made.page.named("h3")]
    assert f"  Injury: {word}\n" in sheet_text(made.sheet, 80)


def test_seconds_are_those_of_find_also_where_what_lies_in_another_space_is_moved_first(folder, make):
    """A first aid kit in a box below the left bay's floor: what stands on its lid is lifted first, and in no rule."""
    own = "  - {thing: first aid kit, copy: 1, space: right drawer"
    line = next(one for one in (folder.path / "plan.yaml").read_text("utf-8").splitlines() if one.startswith(own))
    below = "  - {thing: first aid kit, space: floor box, corner_mm: [2460, -720, 640], size_mm: [300, 200, 150]}"
    folder.change("plan.yaml", line, below)
    box = "corner_mm: [2460, -720, 640], size_mm: [400, 600, 200], air: canopy, opening: left canopy door"
    folder.change("vehicle.yaml", "  - name: left bay\n", f"  - {{name: floor box, {box}}}\n  - name: left bay\n")
    made = make(folder.told)
    (kit,) = [one for one in made.sheet.places if one.name == "first aid kit"]
    placed = {copy_of(one): one for one in made.told.plan.placements}
    way = way_to(made.told.case, placed, Copy("first aid kit", 1))
    assert len(kit.first) == len(way.move_first) > 0
    assert kit.seconds.value == way.seconds
    (ruled,) = {f.value for f in made.told.verdict.findings if (f.rule, f.subject) == ("reach", kit.name)}
    assert kit.counted.value == ruled < way.seconds
    says = f"{kit.seconds.text} s (the rule counts {kit.counted.text} s, without what lies in other spaces)"
    assert says in " ".join(re.sub("<[^>]*>", "", made.html).split())
    assert says in " ".join(sheet_text(made.sheet, 300).split())
    others = [one for one in made.sheet.places if one.counted is None]
    assert len(others) == len(made.sheet.places) - 1
    for one in others:
        copy = next(copy for copy in placed if made.told.case.called(copy) == one.name)
        assert one.seconds.value == way_to(made.told.case, placed, copy).seconds


def test_the_loading_order_tells_what_a_thing_weighs_when_it_is_loaded(folder, make):
    folder.change("gear.yaml", "- name: tent\n  mass_kg: 12\n", "- name: tent\n  mass_kg: 12\n  fills: {rain: 5}\n")
    made = make(folder.told)
    items = {item.name: item.kg for turns in made.sheet.loading.rounds for work in turns for item in work.items}
    assert items["tent"] == "7.0"
    assert items["water can #1"] == "21"
    full = make(folder.change("gear.yaml", "  fills: {rain: 5}\n", "").told)
    (dry,), (wet,) = made.sheet.loading.budget, full.sheet.loading.budget
    assert int(wet.split()[-2]) - int(dry.split()[-2]) == 5
