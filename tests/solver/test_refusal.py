"""What a person is told where there is no plan: the right limit, the right door, and nothing absurd."""

from typing import Any

import pytest

from models.plan import Plan
from solver import Status, propose, revise
from solver.answers import SILENT
from solver.asking import Asked
from solver.clock import Clock
from solver.core import by_sums
from solver.eligible import reasons
from solver.plain import plain_conflict
from solver.problem import Problem
from solver.relaxed import Relaxed
from tests.solver.conftest import QUICK, conflict_of

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def test_a_door_that_the_trailer_keeps_shut_is_named_with_the_trailer(starter):
    starter.trip["towing"] = {"ball_kg": 100, "trailer_kg": 1200}
    starter.vehicle["spaces"] = [one for one in starter.vehicle["spaces"] if one["name"] != "left bay"]
    case = starter.case()
    why = reasons(case, case.thing_named["recovery kit"], case.space_named["right shelf"])
    assert "tailgate does not open (trailer on) at leaving" in [one.says for one in why]
    starter.things = [one | ({} if one["name"] == "recovery kit" else {"carry": 10}) for one in starter.things]
    assert "tailgate does not open (trailer on) at leaving" in " ".join(conflict_of(starter).says)


def test_what_does_not_open_in_an_incident_is_named_too(starter):
    case = starter.case()
    why = reasons(case, case.thing_named["recovery kit"], case.space_named["right drawer"])
    assert "bogged: tailgate does not open (tail blocked)" in [one.says for one in why]


def test_of_a_thing_with_no_place_the_place_made_for_it_is_told_with_what_is_missing(starter):
    # By the letters before it, and by as many rules against it, the drawer would be told first.
    starter.vehicle["spaces"] = [
        one | ({"size_mm": [300, 130, 395]} if "bracket" in one["name"] else {"accepts": ["can"]})
        for one in starter.vehicle["spaces"]
    ]
    starter.things = [one | ({} if one["name"] == "extinguisher" else {"carry": 10}) for one in starter.things]
    said = conflict_of(starter).says
    assert said[0] == "extinguisher has no lawful place in this vehicle."
    assert said[-1] == "The 3 other spaces may not hold it either."
    assert sorted(said[1:-1]) == [
        "cabin bracket: it is 5 mm too tall and has to stay upright.",
        "tailgate bracket: it is 5 mm too tall and has to stay upright.",
    ]


def test_the_name_of_a_space_is_told_once(starter):
    starter.trip["stages"][0]["closed"] = [
        "left bay",
        "right drawer",
        "right shelf",
        "cabin bracket",
        "tailgate bracket",
    ]
    starter.things = [one | ({} if one["name"] == "recovery kit" else {"carry": 10}) for one in starter.things]
    said = conflict_of(starter).says
    assert any(told.startswith("left bay: it is closed") for told in said), said


@pytest.mark.long
def test_an_axle_that_no_load_relieves_enough_is_proven_with_its_figure(starter):
    starter.vehicle["limits"]["front_axle_kg"] = 1000
    conflict = conflict_of(starter)
    # 1190 kg with the driver, Ben's 75 kg at 1500 mm of 3200 mm.
    over = 1190 + 75 * (1 - 1500 / 3200) - 1000
    assert f"puts {over:.1f} kg too much on the front axle at leaving, which may carry 1000 kg" in conflict.says[0]
    assert [(one.kind, one.subject) for one in conflict.demands] == [("limit", "front axle")]
    assert conflict.ways_out[0].says.startswith("With ")


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_a_rear_axle_that_is_over_with_nothing_loaded(starter):
    starter.vehicle["limits"]["rear_axle_kg"] = 950
    says = conflict_of(starter).says[0]
    assert "too much on the rear axle at leaving, which may carry 950 kg, whatever is loaded." in says


def test_a_rear_axle_that_a_load_ahead_of_the_front_axle_relieves_is_no_proof(tiny):
    tiny.space("nose", (-1800, 0, 500))
    tiny.thing("anchor", mass_kg=100)
    # 900 kg without load; 100 kg at 1700 mm ahead take 56.7 kg off.
    tiny.vehicle["limits"]["rear_axle_kg"] = 850
    found = propose(tiny.case(), QUICK)
    assert found.status is Status.FOUND
    tiny.vehicle["limits"]["rear_axle_kg"] = 820
    assert "nothing loaded, puts 80.0 kg too much on the rear axle at go" in conflict_of(tiny).says[0]


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_a_heavy_person_is_told_by_axle_and_side_and_not_by_what_must_come(starter):
    starter.trip["people"][0]["mass_kg"] = 840
    says = conflict_of(starter).says
    assert any("on the front axle at leaving" in one for one in says)
    assert any("between its left and right wheels at halfway" in one for one in says)


def test_where_nothing_is_proven_the_nearest_layout_and_the_vehicle_itself_are_told(tiny):
    tiny.space("hold", (3000, 0, 500))
    tiny.thing("ballast", mass_kg=150)
    # Its middle may be 300 mm behind the rear axle, which takes 15 kg off; at the very wall it would be 20 kg.
    tiny.vehicle["limits"]["front_axle_kg"] = 1100 - 18
    found = propose(tiny.case(), QUICK)
    assert found.status is Status.NOT_FOUND
    assert "nothing loaded, puts 18.0 kg too much on the front axle at go" in found.closest[0]
    assert found.closest[-1].startswith("The layout that came closest puts 3.0 kg too much")
    lay = {"thing": "ballast", "space": "hold", "corner_mm": [3200, 0, 500], "size_mm": [200, 200, 200], "turn": "lwh"}
    plan = Plan.model_validate({"trip": "t", "placements": [lay]})
    assert revise(tiny.case(), plan, QUICK).proposal.closest == found.closest


@pytest.mark.long
@pytest.mark.usefixtures("no_ways_told")
def test_what_only_the_reserve_is_proven_to_forbid_is_no_proof_that_there_is_no_plan(tiny):
    tiny.space("hold", (3000, 0, 500))
    tiny.thing("ballast", mass_kg=150)
    # 18 kg too much and 5 kg of reserve are more than the 20 kg that the ballast could take off at the very wall.
    tiny.vehicle["limits"]["front_axle_kg"] = 1100 - 18
    tiny.trip["reserve_kg"] = 5
    lay = {"thing": "ballast", "space": "hold", "corner_mm": [3200, 0, 500], "size_mm": [200, 200, 200], "turn": "lwh"}
    plan = Plan.model_validate({"trip": "t", "placements": [lay]})
    for found in (propose(tiny.case(), QUICK), revise(tiny.case(), plan, QUICK).proposal):
        assert found.conflict is not None
        assert found.conflict.proven
        assert {one.kind for one in found.conflict.demands} == {"reserve", "limit"}
        assert found.status is Status.NOT_FOUND
        assert "puts 23.0 kg too much on the front axle at go" in found.conflict.says[0]
        assert "5 kg of reserve kept; what is loaded can take at most 20.0 kg of that off" in found.conflict.says[0]
    tiny.vehicle["limits"]["front_axle_kg"] = 1100 - 21
    assert propose(tiny.case(), QUICK).status is Status.IMPOSSIBLE


@pytest.mark.long
def test_the_total_with_its_trailer_is_called_by_its_name(pair):
    pair.trip["towing"] = {"ball_kg": 50, "trailer_kg": 1500}
    pair.vehicle["limits"] |= {"tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000, "gcm_kg": 3512}
    pair.trip["reserve_kg"] = 20
    conflict = conflict_of(pair)
    assert conflict.says[0] == "What must come is 8.0 kg over the total allowed of vehicle and trailer together at go."
    assert conflict.demands[-1].says == "vehicle and trailer together may weigh 3512 kg"
    pair.vehicle["limits"]["gcm_kg"] = 3520
    assert propose(pair.case(), QUICK).plan is not None, "the reserve is not kept free of the total with trailer"


@pytest.mark.long
def test_the_least_raise_is_the_miss_rounded_up_and_a_lighter_trailer_does_as_well(starter):
    starter.trip |= {"towing": {"ball_kg": 100, "trailer_kg": 1200}, "reserve_kg": 0}
    starter.vehicle["limits"] |= {"tow_ball_kg": 150, "tow_ball_behind_rear_axle_mm": 1200, "gcm_kg": 3440}
    for opening in starter.vehicle["openings"]:
        opening["stuck_when"] = []
    conflict = conflict_of(starter)
    assert "is 129.9 kg over the total allowed of vehicle and trailer together" in conflict.says[0]
    ways = [way.says for way in conflict.ways_out]
    told = (
        "With a trailer 130 kg lighter, or 130 kg more of this limit: vehicle and trailer together may weigh 3440 kg."
    )
    assert told in ways
    assert not any(way.startswith("Leaving at home") for way in ways), "nearly all would have to stay"


@pytest.mark.long
def test_a_raise_is_the_least_with_the_reserve_given_up_and_the_miss_tells_both_figures(starter):
    starter.vehicle["limits"]["gvm_kg"] = 2300
    conflict = conflict_of(starter)
    assert "is 69.9 kg over the total allowed at leaving; 89.9 kg with 20 kg of reserve." in conflict.says[0]
    more = "With 70 kg more of this limit: the total may be 2300 kg. The reserve is given up then."
    assert more in [way.says for way in conflict.ways_out]
    (way,) = [way for way in conflict.ways_out if way.says == more]
    assert way.case is not None
    assert way.case.vehicle.limits.gvm_kg.kg == 2370
    assert way.plan is not None


@pytest.mark.long
def test_many_things_at_home_are_told_by_number_where_there_is_no_other_way(tiny):
    tiny.space("box", size_mm=[400, 200, 200])
    for name in "abcdefgh":
        tiny.thing(name)
    ways = [way.says for way in conflict_of(tiny).ways_out]
    (way,) = ways
    assert way.startswith("Leaving at home about 6 of 8 things that must come (60 kg), in the plan that was found ")
    named = way.partition("found ")[2].partition(";")[0].split(", ")
    assert len(named) == 6
    assert set(named) <= set("abcdefgh")
    assert way.endswith("; with fewer no plan was found.")


def test_a_space_that_a_slide_runs_through_keeps_out_what_never_lies_clear_of_it(tiny):
    tiny.space("drawer", (2000, 0, 500), slides={"to": "rear", "mm": 500}, size_mm=[400, 400, 400])
    tiny.space("behind", (2500, 0, 500), size_mm=[400, 400, 550])
    tiny.thing("one")
    tiny.thing("flat", size_mm=[200, 200, 150])
    tiny.thing("rag", mass_kg=1, shape="soft", volume_l=1)
    case = tiny.case()

    def why(name: str) -> list[tuple[str, str]]:
        thing, space = case.thing_named[name], case.space_named["behind"]
        return [(one.rule.value, one.says) for one in reasons(case, thing, space)]

    # The drawer takes the lower 400 mm of 550: what is up to 150 mm high lies above its way.
    assert why("one") == [("overlap", "drawer slides through behind and would meet it wherever it lies")]
    assert why("flat") == []
    assert why("rag") == []


def test_a_lock_behind_a_slide_is_refused_with_that_reason(tiny):
    tiny.space("drawer", (2000, 0, 500), slides={"to": "rear", "mm": 500})
    tiny.space("behind", (2500, 0, 500))
    tiny.thing("one")
    tiny.trip["locks"] = [{"thing": "one", "in": "behind"}]
    conflict = conflict_of(tiny)
    assert "overlap: drawer slides through behind and would meet it wherever it lies." in conflict.says


def test_what_is_built_in_can_leave_no_room(tiny):
    tiny.space("arch", solid=[{"corner_mm": [2150, 0, 500], "size_mm": [100, 400, 400]}])
    tiny.space("free", (2600, 0, 500))
    tiny.thing("one")
    tiny.thing("slim", size_mm=[150, 200, 200])
    case = tiny.case()
    one, arch = case.thing_named["one"], case.space_named["arch"]
    assert [why.says for why in reasons(case, one, arch)] == ["what is built into arch leaves no room for it"]
    assert reasons(case, case.thing_named["slim"], arch) == []


def test_the_reserve_is_told_only_where_it_alone_is_too_much(pair):
    # 2000 kg with nothing loaded, 20 kg that must come.
    pair.trip["reserve_kg"] = 20
    pair.vehicle["limits"]["gvm_kg"] = 2015
    assert (
        conflict_of(pair).says[0].startswith("What must come is 5.0 kg over the total allowed at go; 25.0 kg with 20")
    )
    for thing in pair.things:
        thing["carry"] = 10
    problem = Problem(pair.case())
    conflict = plain_conflict(problem)
    assert conflict is not None
    assert [one.kind for one in conflict.demands] == ["reserve", "limit"]
    assert "is 5.0 kg over the total allowed at go, 20 kg of reserve kept, whatever is loaded." in conflict.says[0]
    assert plain_conflict(Problem(pair.case(), use_reserve=False)) is None


@pytest.mark.long
def test_what_is_enough_with_the_reserve_given_up_is_not_told_as_too_little(starter):
    """With a reserve that the vehicle never had, either of what is told is enough by itself."""
    starter.vehicle["limits"]["gvm_kg"] = 2300
    starter.trip["reserve_kg"] = 400
    conflict = conflict_of(starter)
    assert not any(one.not_enough for one in conflict.demands)
    assert "With 70 kg more of this limit: the total may be 2300 kg. The reserve is given up then." in [
        way.says for way in conflict.ways_out
    ]


@pytest.fixture
def overloaded(tiny):
    """Ten things, each with a space of its own that a lock sends it to; all of them are 10 kg over the total."""
    tiny.vehicle["limits"]["gvm_kg"] = 2090
    for n in range(10):
        tiny.space(f"s{n}", (2000, -1900 + 380 * n, 500), size_mm=[200, 200, 200])
        tiny.thing(f"t{n}")
    tiny.trip["locks"] = [{"thing": f"t{n}", "in": f"s{n}"} for n in range(10)]
    return Asked(tiny.case(), (), use_reserve=True)


def test_what_is_proven_when_the_time_is_over_names_few_demands_all_the_same(overloaded, monkeypatch):
    """As where the first guess at the few finds nothing."""
    monkeypatch.setattr(Relaxed, "few", lambda _, on, __: on)
    conflict = by_sums(overloaded, Clock(0.0, SILENT))
    assert conflict is not None
    assert [(one.kind, one.subject) for one in conflict.demands if one.kind != "must come"] == [("limit", "total")]
    assert conflict.says[0].startswith("The total gets at least 10.0 kg too much")


@pytest.mark.long
def test_figures_of_a_proof_are_not_worked_out_once_its_time_is_over(overloaded, monkeypatch):
    asked, least = list[str](), Relaxed.least_over_g

    def noted(self: Relaxed, subject: str, *rest: Any) -> int:
        asked.append(subject)
        return least(self, subject, *rest)

    monkeypatch.setattr(Relaxed, "least_over_g", noted)
    monkeypatch.setattr("solver.core.TELL_S", 0.0)
    assert by_sums(overloaded, Clock(0.0, SILENT)) is not None
    assert asked == []
    assert by_sums(overloaded, Clock(600.0, SILENT)) is not None
    assert set(asked) == {"total"}
