"""What machines read."""

import json

import pytest

from report.json_view import json_text, levels_view, plan_view, verdict_view

FINDING = {"rule", "subject", "stage", "value", "limit", "unit", "margin", "holds", "source"}
TOTALS = {"mass_kg", "front_axle_kg", "rear_axle_kg", "cg_mm", "side_slope_deg"}


def test_a_verdict_has_the_agreed_shape(told):
    view = json.loads(json_text(verdict_view(told.verdict)))
    assert view["holds"] is True
    assert all(finding.keys() >= FINDING for finding in view["findings"])
    assert list(view["totals"]) == ["leaving", "halfway", "last camp"]
    assert all(sums.keys() >= TOTALS and len(sums["cg_mm"]) == 3 for sums in view["totals"].values())


def test_numbers_are_not_rounded(told):
    view = json.loads(json_text(verdict_view(told.verdict)))
    assert view["totals"]["leaving"]["cg_mm"][2] == told.verdict.totals["leaving"].cg_mm[2]
    assert [f["value"] for f in view["findings"]] == [f.value for f in told.verdict.findings]


def test_an_unknown_limit_is_null(folder):
    folder.change("vehicle.yaml", "rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown")
    view = json.loads(json_text(verdict_view(folder.told.verdict)))
    assert view["holds"] is None
    found = [f for f in view["findings"] if f["subject"] == "rear axle"]
    assert [(f["limit"], f["holds"]) for f in found] == [(None, None)] * 2


def test_a_plan_keeps_the_keys_of_its_file(told):
    first = plan_view(told.plan)["placements"][0]
    assert first == {
        "thing": "recovery kit", "copy": 1, "space": "left bay", "corner_mm": [2860, -720, 1080],
        "size_mm": [450, 300, 250], "turn": "lwh", "facing": None,
    }  # fmt: skip


@pytest.mark.parametrize("value", [float("inf"), float("-inf"), float("nan")])
def test_what_is_not_finite_becomes_null(value):
    assert json.loads(json_text({"a": [value, 1.5]})) == {"a": [None, 1.5]}


def test_levels_keep_their_state():
    class Height:
        name, value, bound, unit, state = "height", 702.0, None, "mm", "found"

    assert levels_view([Height()]) == [
        {"name": "height", "value": 702.0, "bound": None, "unit": "mm", "state": "found"}
    ]
