"""The door: the good plan holds, every rule speaks, and no plan is so wrong that checking it fails."""

import subprocess
import sys

import pytest

from models.rules import Rule
from verifier import found_by, highest_mm
from verifier.alone import BY_ITSELF, WITH_OTHERS
from verifier.rules import FIND


def test_the_good_plan_holds(world):
    verdict = world.verdict()
    assert [finding.says for finding in (*verdict.broken, *verdict.unknown)] == []
    assert verdict.holds is True


def test_every_rule_speaks_in_the_order_of_the_docs(world):
    told = dict.fromkeys(finding.rule for finding in world.verdict().findings)
    assert list(told) == list(Rule)


def test_a_plan_of_nonsense_gives_findings(world):
    world.places["x"] = {"thing": "anvil", "copy": 3, "space": "moon", "corner_mm": (0, 0, 0), "size_mm": (1, 1, 1)}
    world.put("stove", (0, 0, 0), space="moon")
    world.places["y"] = world.places["fridge"] | {"copy": 7}
    assert {"carried", "inside", "overlap"} <= {rule for rule, _ in world.broken()}


def test_an_empty_plan_breaks_only_what_must_come(world):
    world.places.clear()
    assert {rule for rule, _ in world.broken()} == {"carried"}


def test_margins_are_negative_exactly_where_a_rule_is_broken(world):
    world.space("right bay")["limit_kg"] = 70
    world.vehicle["limits"]["front_share_min"] = 0.9
    for finding in world.verdict().findings:
        if finding.margin is not None:
            assert finding.holds is (finding.margin >= -1e-9 * abs(finding.limit or 0))


def test_an_unknown_limit_is_neither_held_nor_broken(world):
    world.vehicle["limits"]["gvm_kg"] = "unknown"
    assert world.verdict().holds is None
    assert world.unknown() == {("gross_mass", "total")}


def test_a_broken_rule_outweighs_an_unknown_one(world):
    world.vehicle["limits"]["gvm_kg"] = "unknown"
    del world.places["jackets"]
    assert world.verdict().holds is False


def test_every_finding_says_one_sentence(world):
    for finding in world.verdict().findings:
        assert finding.says.endswith(".")
        assert "None" not in finding.says


def test_every_rule_has_its_own_module():
    assert list(FIND) == list(Rule)
    assert [find.__module__.rsplit(".", 1)[1] for find in FIND.values()] == [rule.value for rule in Rule]


def test_of_every_rule_it_is_said_whether_one_thing_can_break_it_by_itself():
    assert sorted(BY_ITSELF + WITH_OTHERS) == sorted(Rule)


@pytest.mark.parametrize("rule", Rule)
def test_one_rule_finds_what_it_finds_among_all(world, rule):
    del world.places["jackets"]
    case, plan = world.case(), world.made_plan()
    assert found_by(case, plan, rule) == tuple(one for one in world.verdict().findings if one.rule == rule)


def test_the_height_by_itself_is_that_of_the_highest_driving_stage(world):
    verdict = world.verdict()
    driving = [one.cg_mm[2] for one in verdict.totals.values() if one.driving]
    assert len(driving) > 1
    assert highest_mm(world.case(), world.made_plan()) == max(driving)


def test_the_height_by_itself_is_unknown_where_nothing_drives(world):
    world.trip["stages"] = [stage | {"surface": "parked"} for stage in world.trip["stages"]]
    assert highest_mm(world.case(), world.made_plan()) is None


def test_the_verifier_runs_without_the_search_library():
    # C60 of the expert's cases: a hand-made layout is checked where no solver is installed.
    code = "import sys; sys.modules['ortools'] = None; import verifier; assert 'numpy' not in sys.modules"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
