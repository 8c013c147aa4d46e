"""A plan in hand is read as the verifier reads it: no facing is to the rear, and without free air none counts."""

import pytest

from models.plan import Plan
from packing import moves_between
from solver.plans import from_plan
from solver.problem import Problem
from verifier import check

GAP = {"air_gap_mm": {"rear": 50}, "turns": "upright"}


@pytest.mark.parametrize(
    ("more", "facing", "taken"),
    [(GAP, None, True), (GAP, "rear", True), (GAP, "left", False), ({}, None, True), ({}, "left", True)],
)
def test_a_facing_left_out_or_given_for_nothing(tiny, more, facing, taken):
    tiny.space("bay")
    tiny.thing("one", size_mm=[200, 150, 200], **more)
    place = {"thing": "one", "space": "bay", "corner_mm": [2000, 0, 500], "size_mm": [200, 150, 200], "turn": "lwh"}
    plan = Plan.model_validate({"trip": "t", "placements": [place | ({"facing": facing} if facing else {})]})
    assert (check(tiny.case(), plan).holds is True) is taken
    assert bool(from_plan(Problem(tiny.case(), before=plan), plan).at) is taken
    told = plan.model_copy(update={"placements": (plan.placements[0].model_copy(update={"facing": "rear"}),)})
    assert (moves_between(tiny.case(), plan, told).moves == ()) is taken
