"""Who comes with whom: demands against each other are told before any search, and companions of musts come."""

from typing import Any

import pytest

from models.case import Copy
from solver import Options, Status, propose, revise
from tests.solver.conftest import Tiny
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600.0)


@pytest.fixture
def camp(tiny):
    """A stove that comes with its gas, and three chairs, all of which may stay at home; room for all."""
    for n, corner in enumerate(((2000, 0, 500), (2600, 0, 500), (2000, 600, 500))):
        tiny.space(f"space {n}", corner)
    tiny.thing("stove", carry=50, **{"with": ["gas"]})
    tiny.thing("gas", carry=1)
    tiny.thing("chair", carry=10, count=3)
    return tiny


def told(camp: Tiny, *locks: dict[str, Any], **stove: Any) -> list[str]:
    camp.things[0] |= stove
    camp.trip["locks"] = list(locks)
    found = propose(camp.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert found.conflict.proven
    assert all(
        way.case and way.plan and check(way.case, way.plan).holds is not False for way in found.conflict.ways_out
    )
    assert len(found.conflict.ways_out) >= 2
    return sorted(one.says for one in found.conflict.demands)


@pytest.mark.parametrize("asks", [{"carried": True}, {"in": "space 1"}])
@pytest.mark.parametrize("copy", [{}, {"copy": 2}])
def test_a_thing_locked_at_home_and_asked_for(camp, asks, copy):
    lock = {"thing": "chair", **copy}
    says = told(camp, {**lock, "at_home": True}, {**lock, **asks})
    name = "chair #2" if copy else "chair"
    assert says == sorted(
        [f"{name} stays at home", f"{name} {'has to come' if 'carried' in asks else 'is locked in space 1'}"]
    )


def test_a_must_whose_companion_is_locked_at_home(camp):
    assert told(camp, {"thing": "gas", "at_home": True, "by": "Ada"}, carry="must") == [
        "gas stays at home (Ada)",
        "stove must come (10 kg)",
    ]


def test_a_thing_asked_for_whose_companion_is_locked_at_home(camp):
    says = told(camp, {"thing": "gas", "at_home": True}, {"thing": "stove", "carried": True})
    assert says == ["gas stays at home", "stove has to come"]


def test_the_companion_of_a_companion(camp):
    camp.things[1]["with"] = ["hose"]
    camp.thing("hose", carry=1)
    says = told(camp, {"thing": "hose", "at_home": True}, carry="must")
    assert says == ["hose stays at home", "stove must come (10 kg)"]


def test_all_or_none_split_by_two_locks(camp):
    camp.things[2]["all_or_none"] = True
    says = told(camp, {"thing": "chair", "copy": 1, "at_home": True}, {"thing": "chair", "copy": 2, "carried": True})
    together = "all 3 of chair come or none (10 kg each, 30 kg together)"
    assert says == [together, "chair #1 stays at home", "chair #2 has to come"]


def test_a_companion_without_a_place_is_told_with_what_brings_it(camp):
    camp.things[0]["carry"] = "must"
    camp.things[1]["size_mm"] = [900, 900, 900]
    found = propose(camp.case(), QUICK)
    assert found.conflict is not None
    assert [one.says for one in found.conflict.demands] == ["stove must come (10 kg)"]
    assert found.conflict.says[:2] == (
        "stove does not come without gas.",
        "gas has no lawful place in this vehicle.",
    )


def test_the_companion_of_a_must_comes_though_it_is_not_worth_its_height(camp):
    camp.things[0]["carry"] = "must"
    camp.trip["choose_within_mm"] = 0
    for space in camp.vehicle["spaces"]:
        space["corner_mm"][2] = 2000
    case = camp.case()
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert check(case, plan).holds
    assert any(place.thing == "gas" for place in plan.placements)


def test_any_copy_of_a_companion_will_do(camp):
    camp.things[0]["carry"] = "must"
    camp.things[1]["count"] = 2
    camp.trip["locks"] = [{"thing": "gas", "copy": 1, "at_home": True}]
    case = camp.case()
    plan = propose(case, QUICK).plan
    assert plan is not None
    assert check(case, plan).holds
    # The copy that comes is still the one that lies there when the plan is revised.
    again = revise(case, plan, QUICK)
    assert again.proposal.plan is not None
    assert not again.moves.moved
    assert Copy("gas", 2) in {Copy(p.thing, p.copy_number) for p in again.proposal.plan.placements}


def test_a_locked_thing_and_a_must_over_one_rack(tiny):
    tiny.vehicle["racks"] = [{"name": "roof", "at_mm": [2000, 0, 1500], "limits": {"any_kg": 38}}]
    tiny.space("tray", (2000, 0, 1500), on=["roof"])
    tiny.thing("kayak", 27, size_mm=[380, 380, 380])
    tiny.thing("wheel", 34, size_mm=[300, 300, 300], carry=50)
    tiny.trip["locks"] = [{"thing": "wheel", "carried": True}]
    case = tiny.case()
    found = propose(case, QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert sorted(one.says for one in found.conflict.demands) == ["kayak must come (27 kg)", "wheel has to come"]
    assert any("kayak" in says and "wheel" in says for says in found.conflict.says)
    assert any("roof may carry 38 kg" in says and "23.0 kg too much" in says for says in found.conflict.says)
    assert len(found.conflict.ways_out) == 2


def test_a_companion_that_comes_all_or_none_comes_whole(camp):
    camp.things[0]["with"] = ["gas", "chair"]
    camp.things[2]["all_or_none"] = True
    plan = propose(camp.case(), QUICK).plan
    assert plan is not None
    assert sorted(place.thing for place in plan.placements) == ["chair", "chair", "chair", "gas", "stove"]
    assert check(camp.case(), plan).holds is True


def test_a_companion_that_cannot_come_whole_brings_nothing_along(camp):
    camp.things[0]["with"] = ["gas", "chair"]
    camp.things[2] |= {"all_or_none": True, "count": 30}
    plan = propose(camp.case(), QUICK).plan
    assert plan is not None
    assert [place.thing for place in plan.placements] == ["gas"]
    assert check(camp.case(), plan).holds is True


@pytest.mark.parametrize(
    ("locks", "comes"),
    [
        ([], ["chair", "chair", "chair", "gas", "stove"]),
        ([{"thing": "gas", "at_home": True}, {"thing": "chair", "copy": 3, "at_home": True}], []),
    ],
)
def test_revise_brings_or_leaves_what_the_gear_list_now_asks_to_come_together(camp, locks, comes):
    before = propose(camp.case(), QUICK).plan
    assert before is not None
    away = {("chair", 2), ("chair", 3), ("gas", 1)}
    some = tuple(place for place in before.placements if (place.thing, place.copy_number) not in away)
    camp.things[2]["all_or_none"] = True
    camp.trip["locks"] = locks
    found = revise(camp.case(), before.model_copy(update={"placements": some}), QUICK).proposal
    assert found.plan is not None
    assert sorted(place.thing for place in found.plan.placements) == comes
    assert check(camp.case(), found.plan).holds is True


def test_revise_leaves_nothing_alone_when_all_copies_of_its_companion_stay_behind(camp):
    camp.things[1] |= {"mass_kg": 20, "count": 2}
    before = propose(camp.case(), QUICK).plan
    assert before is not None
    assert len(before.placements) == 6
    camp.vehicle["limits"]["gvm_kg"] = 2045
    found = revise(camp.case(), before, QUICK).proposal
    assert found.plan is not None
    assert sorted(place.thing for place in found.plan.placements) == ["chair", "gas", "stove"]
    assert check(camp.case(), found.plan).holds is True
