"""What breaks a limit whatever is loaded is told as proven before any search, and never comes out as a plan."""

from typing import Any

import pytest

from models.stages import trailer_at
from solver import Options, Status, propose
from solver.ways import sentence
from solver.wording import must_come
from tests.solver.conftest import conflict_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600.0)


def says(tiny: Any) -> str:
    """Why there is no plan; empty where one was found that the verifier accepts."""
    case = tiny.case()
    found = propose(case, QUICK)
    if found.plan is None:
        assert found.status is Status.IMPOSSIBLE
        assert found.conflict is not None
        return " ".join(found.conflict.says)
    assert not check(case, found.plan).broken
    return ""


def test_a_ball_over_its_limit(pair):
    for thing in pair.things:
        thing["carry"] = 50
    pair.vehicle["limits"] |= {"tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000, "gcm_kg": 9000}
    pair.trip["towing"] = {"ball_kg": 100, "trailer_kg": 1000}
    assert says(pair) == ""
    pair.trip["towing"]["ball_kg"] = 100.5
    assert says(pair) == "The trailer puts 100.5 kg on the tow ball, which may carry 100 kg."
    conflict = conflict_of(pair)
    assert [(one.subject, one.shown) for one in conflict.demands] == [("tow ball", True)]
    assert [way.says for way in conflict.ways_out] == ["With a trailer that puts 5 kg less on the tow ball."]
    (way,) = conflict.ways_out
    assert way.case is not None
    assert way.case.trip.towing is not None
    assert way.case.trip.towing.ball_kg == 95.5
    pair.trip["stages"][0]["towing"] = False
    assert says(pair) == "", "what is not towed puts nothing on the ball"


def test_a_thing_that_is_called_a_tow_ball_stays_at_home(pair):
    pair.thing("tow ball")
    assert sentence(must_come(pair.case(), ("tow ball",))) == "Leaving at home: tow ball."


def test_people_on_a_rack_while_driving(pair):
    pair.vehicle["racks"] = [{"name": "roof", "at_mm": [1500, 0, 1900], "limits": {"any_kg": 300}}]
    pair.trip["stages"] = [{"name": "camp", "surface": "parked", "on_racks": {"roof": 80}}, *pair.trip["stages"]]
    assert says(pair) == ""
    pair.trip["stages"][1]["on_racks"] = {"roof": 80}
    assert "People are on roof at " in says(pair)
    assert "while the vehicle moves: they have to come down there, or" in says(pair)


def test_a_rack_that_is_over_its_limit_with_nothing_loaded(pair):
    roof = {"name": "roof", "own_mass_kg": 24, "at_mm": [1500, 0, 1900], "counts_itself": True}
    pair.vehicle["racks"] = [{**roof, "limits": {"any_kg": 24}}]
    assert says(pair) == ""
    pair.vehicle["racks"] = [{**roof, "limits": {"any_kg": 23}}]
    assert "roof is 1.0 kg over its limit at " in says(pair)


def test_a_ball_over_its_limit_at_one_stage(pair):
    for thing in pair.things:
        thing["carry"] = 50
    pair.vehicle["limits"] |= {"tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000, "gcm_kg": 9000}
    pair.trip["towing"] = {"ball_kg": 90, "trailer_kg": 1000}
    late = {"name": "late", "surface": "off_road", "towing": {"ball_kg": 103, "trailer_kg": 900}}
    pair.trip["stages"] = [*pair.trip["stages"], late]
    assert says(pair) == "The trailer puts 103 kg on the tow ball at late, which may carry 100 kg."
    (way,) = conflict_of(pair).ways_out
    assert way.says == "With a trailer that puts 5 kg less on the tow ball."
    assert way.case is not None
    assert [trailer_at(way.case.trip, stage).ball_kg for stage in way.case.trip.stages] == [85, 98]  # type: ignore[union-attr]
    late["surface"] = "parked"
    assert says(pair) == ""
    late |= {"surface": "off_road", "towing": {"ball_kg": 100, "trailer_kg": 900}}
    assert says(pair) == ""
