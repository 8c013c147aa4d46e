"""Advice on tying and lifting, as people and machines read it."""

import json
from dataclasses import replace

import pytest

import verifier
from models.case import copy_of
from report.advice_view import lift_view
from report.advice_words import lifted_by, loaded, way_out
from report.json_view import json_text, verdict_view
from report.sheet import sheet_html, sheet_of, sheet_text
from report.terminal.advice import lifting, tying
from verifier import TooFew

DRAWER = "    size_mm: [1500, 640, 260]\n"
"""A line of the right drawer, to write its points behind."""


@pytest.fixture
def shelf(folder):
    """The starter, its shelf tied down instead of enclosed."""
    tied = "    face: rear\n    holds: tie_downs\n    tie_downs: [{rated_dan: 50}, {rated_dan: 50}]\n"
    return folder.change("vehicle.yaml", "    face: rear\n    holds: enclosed\n", tied)


def test_straps_of_a_space(shelf, golden):
    verdict = shelf.told.verdict
    assert verdict.holds is True
    golden("tying.txt", "\n".join([*tying(verdict.tying, 80), "", *tying(verdict.tying, 120)]) + "\n")


def test_nothing_tied_nothing_told(told):
    assert tying(told.verdict.tying, 80) == []


def test_points_that_are_too_weak_or_missing(folder):
    folder.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  tied: true\n")
    told = folder.told
    assert told.verdict.holds is False
    lines = tying(told.verdict.tying, 80)
    assert lines[0] == "Tying down: how many straps is open, as points are missing or too weak"
    assert lines[1] == "  - right drawer: 1 thing, no point to tie to counts; no tie-down points"
    assert len(lines) == 2
    text = sheet_text(sheet_of(told.case, told.plan, told.verdict, verifier), 80)
    assert "tool box in right drawer: no point to tie to counts" in text


def test_one_weak_point(folder):
    folder.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  tied: true\n")
    folder.change("vehicle.yaml", DRAWER, f"{DRAWER}    tie_downs: [{{rated_dan: 20}}]\n")
    lines = tying(folder.told.verdict.tying, 80)
    assert lines[1] == "  - right drawer: 1 thing, its points do not hold it; 1 point of 20 daN"
    assert lines[2].startswith("  Tie to the thing, not over it: a strap that only presses from above holds")


def test_one_strong_point_lets_a_hard_thing_turn(folder):
    folder.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  tied: true\n")
    folder.change("vehicle.yaml", DRAWER, f"{DRAWER}    tie_downs: [{{rated_dan: 90}}]\n")
    told = folder.told
    assert told.verdict.holds is True
    said = " ".join(" ".join(tying(told.verdict.tying, 80)).split())
    assert "1 thing, 2 straps; 1 point of 90 daN; one point alone lets a hard thing turn" in said


def test_lifting_tells_three_and_counts_the_rest(told):
    lines = lifting(told.verdict.lifts, 80)
    heavy = [one for one in told.verdict.lifts if one.too_heavy]
    assert [line[:4] for line in lines[1:4]] == ["  - "] * 3
    assert sum(2 if "(x 2)" in line else 1 for line in lines[1:4]) + 4 == len(heavy)
    assert "and 4 more, on the sheet." in lines[4]
    assert lifting([one for one in told.verdict.lifts if not one.too_heavy], 80) == []


def test_every_line_fits(shelf):
    verdict = shelf.told.verdict
    for width in (80, 120):
        assert all(len(line) <= width for line in [*tying(verdict.tying, width), *lifting(verdict.lifts, width)])


def test_machines_read_all_of_it(shelf):
    verdict = shelf.told.verdict
    view = json.loads(json_text(verdict_view(verdict)))
    (space,) = view["tying"]["spaces"]
    assert (view["tying"]["straps_together"], view["tying"]["straps_apart"]) == (2, space["straps_apart"])
    assert space["points_dan"] == [50, 50]
    assert len(space["ties"]) == len(verdict.tying.spaces[0].ties) > 3
    chair = next(tie for tie in space["ties"] if tie["thing"] == "camp chair")
    assert chair["forward_n"] == pytest.approx(0.8 * 9.81 * chair["kg"])
    assert (chair["copy"], chair["straps"], chair["by_strength"], chair["by_length"]) == (1, 2, 1, 1)
    assert view["tying"]["barrier"] is None
    heavy = [one for one in verdict.lifts if one.too_heavy]
    assert [(one["thing"], one["copy"]) for one in view["too_heavy_for_one"]] == [tuple(one.copy) for one in heavy]
    assert view["too_heavy_for_one"][0]["recommended_kg"] == heavy[0].recommended_kg


def test_the_sheet_tells_straps_in_all_and_all_that_is_heavy(shelf):
    told = shelf.told
    made = sheet_of(told.case, told.plan, told.verdict, verifier)
    apart = told.verdict.tying.straps_apart
    assert made.holding.straps == f"2 to {apart} straps"
    assert sum(int(tie.how_many.split()[0]) for tie in made.holding.spaces[0].ties) == apart
    assert [one.name for one in made.loading.alone] == [one.name for one in told.verdict.lifts if one.too_heavy]
    assert f"In the strap bag: 2 to {apart} straps" in sheet_text(made, 120)


def test_one_packers_sheet_has_no_straps_in_all(shelf):
    told = shelf.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  packer: Ada\n").told
    made = sheet_of(told.case, told.plan, told.verdict, verifier, "Ada")
    assert (made.holding.straps, made.holding.spaces) == (None, ())
    assert [one.name for one in made.loading.alone] == ["tool box"]
    says = "Nothing that Ada packs has to be tied: all is held by what it is in"
    assert says in " ".join(sheet_text(made, 80).split())
    assert says in sheet_html(made)
    assert "Nothing has to be tied" not in sheet_text(made, 80) + sheet_html(made)


def test_what_lies_loose_is_named_where_nothing_has_to_be_tied(shelf):
    told = shelf.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  packer: Ada\n").told
    box = next(one for one in told.plan.placements if one.thing == "tool box")
    tying = replace(told.verdict.tying, spaces=(), loose=((copy_of(box), "tool box"),))
    but = "has to be tied: all is held by what it is in, but for what lies loose: tool box."
    nothing = "has to be tied: all is held by what it is in."
    for packer, says in ((None, f"Nothing {but}"), ("Ada", f"Nothing that Ada packs {but}"),
                         ("Bob", f"Nothing that Bob packs {nothing}")):  # fmt: skip
        made = sheet_of(told.case, told.plan, replace(told.verdict, tying=tying), verifier, packer)
        assert made.holding.nothing == says


def test_what_lies_loose_is_named_beside_what_is_tied(shelf):
    told = shelf.told
    assert told.verdict.tying.spaces
    box = next(one for one in told.plan.placements if one.thing == "tool box")
    for loose, says in (((), None), (((copy_of(box), "tool box"),), "Nothing holds what is soft and light: tool box.")):
        verdict = replace(told.verdict, tying=replace(told.verdict.tying, loose=loose))
        made = sheet_of(told.case, told.plan, verdict, verifier, None)
        assert made.holding.loose == says
        for text in (sheet_text(made, 80), sheet_html(made)):
            assert ("Nothing holds what is soft" in text) is (says is not None)


def test_one_packers_sheet_says_whose_figures_it_tells(shelf):
    chair = shelf.told.verdict.tying.spaces[0].ties[0].name.partition(" #")[0]
    told = shelf.change("gear.yaml", f"- name: {chair}\n", f"- name: {chair}\n  packer: Ada\n").told
    whole, made = (sheet_of(told.case, told.plan, told.verdict, verifier, packer) for packer in (None, "Ada"))
    assert (whole.holding.spaces[0].together, made.holding.spaces[0].together) == (
        "Together",
        "Together with what others pack there",
    )
    assert made.holding.spaces[0].straps == f"{whole.holding.spaces[0].straps} for all that is tied there"
    assert "Together with what others pack there: braking pulls with" in sheet_html(made)


def test_who_packs_nothing_that_comes_is_told_that(folder):
    folder.change("gear.yaml", "- name: tool box\n", "- name: guitar\n  carry: 1\n  mass_kg: 2\n  packer: Ada\n"
                  "  size_mm: [300, 300, 100]\n- name: tool box\n")  # fmt: skip
    folder.change("plan.yaml", "left_at_home: [", "left_at_home: [{thing: guitar, copy: 1}, ")
    told = folder.told
    made = sheet_of(told.case, told.plan, told.verdict, verifier, "Ada")
    assert "Nothing that Ada packs comes along." in sheet_text(made, 80)
    assert "Nothing that Ada packs comes along." in sheet_html(made)


def test_what_stands_behind_the_barrier(folder):
    folder.change("vehicle.yaml", "spaces:\n", "cargo_barrier: {rated_kg: 60, top_z_mm: 1900}\nspaces:\n")
    folder.change("vehicle.yaml", "    face: left\n    holds: enclosed\n", "    face: left\n    holds: barrier\n")
    told = folder.told
    made = sheet_of(told.case, told.plan, told.verdict, verifier)
    assert made.holding.crash is not None
    assert "Heaviest behind the barrier: water can #1, 21 kg; the barrier is rated for 60 kg." in made.holding.crash
    assert "4.2 kN, at 48 km/h it brings 1.9 kJ" in made.holding.crash


def test_what_lies_in_a_thing_is_told_with_its_mass(shelf):
    tie = shelf.told.verdict.tying.spaces[0].ties[0]
    assert loaded(replace(tie, kg=10.0, in_it_kg=0.0)) == "10 kg"
    assert loaded(replace(tie, kg=102.0, in_it_kg=92.0)) == "102 kg, 92 kg of it inside"


def test_how_many_lift_it_and_how_many_travel(told):
    one = next(one for one in told.verdict.lifts if one.too_heavy)
    heavy = replace(one, elsewhere_helps=False, people=2, each_kg=25.0, too_few=None)
    assert way_out(heavy) == "two people"
    six = replace(heavy, people=6, too_few=TooFew("leaving", 6, 2))
    assert way_out(six) == "at least 6 people at 25 kg each, or a hoist; only 2 travel at leaving"
    less = replace(heavy, people=3, too_few=TooFew("camp", 2, 1))
    expected = "at least 3 people at 25 kg each, or a hoist; only 1 travels at camp, which takes 2 there"
    assert way_out(less) == expected
    assert lifted_by(2, 25) == "two people lift it"
    assert lifted_by(5, 25) == "at least 5 people at 25 kg each, or a hoist, lift it"


def test_what_is_marked_for_two_is_told_where_one_travels(folder):
    folder.change("gear.yaml", "- name: tool box\n", "- name: tool box\n  two_person: true\n")
    told = folder.told
    box = next(one for one in told.verdict.lifts if one.name == "tool box")
    assert not box.too_heavy
    alone = replace(box, too_few=TooFew("leaving", 2, 1))
    said = " ".join(" ".join(lifting([alone], 120)).split())
    assert "tool box in right drawer: 18 kg, marked for two, 10 kg recommended; two people; only 1 travels at" in said
    view = lift_view(alone)
    assert (view["two_person"], view["people"]) == (True, 2)
    assert view["too_few"] == {"stage": "leaving", "people": 2, "travel": 1}
