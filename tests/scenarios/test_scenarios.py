"""Every worked trip: a quick search gives a plan that holds everything and meets what is expected of the trip."""

from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from models.case import Case, copy_of
from models.geometry import placed_box
from models.plan import Plan
from models.reading import read_case
from models.rules import Rule
from solver import Options, propose
from solver.eligible import reasons
from solver.problem import Problem
from verifier import Verdict, check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_less")

FOLDERS = sorted(path.parent for path in (Path(__file__).parents[2] / "scenarios").glob("*/expected.yaml"))
QUICK = Options(effort=0.04, seconds=600)
NEARLY = 0.02
"""A limit of which less than this share is left binds."""


@cache
def solved(folder: Path) -> tuple[Case, Plan, Verdict, dict[str, Any]]:
    case = read_case(folder / "trip.yaml").case
    plan = propose(case, QUICK).plan
    assert plan is not None
    expected = yaml.safe_load((folder / "expected.yaml").read_text())
    return case, plan, check(case, plan), expected


each = pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)


def test_there_are_three() -> None:
    assert len(FOLDERS) == 3


@each
def test_every_limit_is_held(folder: Path) -> None:
    verdict = solved(folder)[2]
    assert verdict.holds is True, [finding.says for finding in verdict.findings if finding.holds is not True]
    assert verdict.claims_off == ()
    assert verdict.questions == ()
    assert read_case(folder / "trip.yaml").questions == ()


@each
def test_masses_axles_and_heights_are_as_expected(folder: Path) -> None:
    _, _, verdict, expected = solved(folder)
    for stage, ranges in expected["totals"].items():
        found = verdict.totals[stage]
        values = {
            "mass_kg": found.mass_kg,
            "front_axle_kg": found.front_axle_kg,
            "rear_axle_kg": found.rear_axle_kg,
            "cg_height_mm": found.cg_mm[2],
        }
        for name, (low, high) in ranges.items():
            value = values[name]
            assert value is not None
            assert low <= value <= high, (stage, name)


@each
def test_the_highest_stage_is_not_the_first(folder: Path) -> None:
    case, _, verdict, _ = solved(folder)
    driving = [stage.name for stage in case.trip.stages if stage.driving]
    heights = {name: verdict.totals[name].cg_mm[2] or 0.0 for name in driving}
    assert max(driving, key=heights.__getitem__) != driving[0]


@each
def test_what_stays_and_what_comes(folder: Path) -> None:
    _, plan, _, expected = solved(folder)
    home = [left.thing for left in plan.left_at_home]
    carried = {placement.thing for placement in plan.placements}
    assert set(expected["stays_home"]["always"]) <= set(home)
    assert len(home) >= expected["stays_home"]["at_least"]
    assert set(expected["carried"]) <= carried


@each
def test_nothing_is_where_it_may_never_be(folder: Path) -> None:
    case, plan, _, expected = solved(folder)
    for never in expected["never"]:
        for placement in plan.placements:
            if placement.thing == never["thing"]:
                space = case.space_named[placement.space]
                assert placement.space != never.get("space")
                assert case.vehicle.air[space.air] != never.get("air")


def near_a_limit(verdict: Verdict) -> set[Rule]:
    return {
        finding.rule
        for finding in verdict.findings
        if finding.margin is not None and finding.limit and finding.margin < NEARLY * finding.limit
    }


def shuts_a_lower_space(case: Case, plan: Plan) -> set[Rule]:
    """Rules that alone keep a carried thing out of a space in which it would lie lower than it does."""
    found: set[Rule] = set()
    for placement in plan.placements:
        thing = case.thing_named[placement.thing]
        bottom = placed_box(placement).low[2]
        for space in case.vehicle.spaces:
            if space.corner_mm[2] < bottom:
                rules = {reason.rule for reason in reasons(case, thing, space)}
                found |= rules if len(rules) == 1 else set()
    return found


def keeps_out_of_a_lower_space(case: Case, plan: Plan) -> set[Rule]:
    """Rules by which one carried thing keeps another out of a lower space that is otherwise open to it."""
    problem, found = Problem(case), set[Rule]()
    pieces = {placement: problem.pieces[problem.piece_of[copy_of(placement)]] for placement in plan.placements}
    for placement, piece in pieces.items():
        bottom = placed_box(placement).low[2]
        lower = [room for room in problem.fits[piece.index] if problem.rooms[room].low[2] < bottom]
        for other, against in pieces.items():
            for veto in problem.vetoes.of[piece.kind].get(against.kind, ()):
                if any(problem.vetoes.apart(veto, room, problem.room_of[other.space]) for room in lower):
                    found.add(veto.rule)
    return found


def racks_keep_something_out(case: Case, plan: Plan, verdict: Verdict) -> set[Rule]:
    """The rule `rack` where the least left on a rack is less than a thing weighs that may lie there and does not."""
    problem = Problem(case)
    there = {(placement.thing, placement.space) for placement in plan.placements}
    for finding in verdict.findings:
        if finding.rule is not Rule.RACK or finding.margin is None or finding.subject not in case.rack_named:
            continue
        rooms = [room for room in problem.rooms if finding.subject in case.racks_under(room.space)]
        for piece in problem.pieces:
            outside = all((piece.thing.name, room.space.name) not in there for room in rooms)
            may = any(room.index in problem.fits[piece.index] for room in rooms)
            if outside and may and piece.thing.mass_kg.most > finding.margin:
                return {Rule.RACK}
    return set()


@each
def test_at_least_five_rules_bind_and_those_that_are_named_do(folder: Path) -> None:
    case, plan, verdict, expected = solved(folder)
    binding = near_a_limit(verdict) | shuts_a_lower_space(case, plan)
    binding |= keeps_out_of_a_lower_space(case, plan) | racks_keep_something_out(case, plan, verdict)
    if any(lock.in_ or lock.not_in for lock in case.trip.locks):
        binding.add(Rule.LOCK)
    assert len(binding) >= 5
    assert {Rule(word) for word in expected["binding"]} <= binding
