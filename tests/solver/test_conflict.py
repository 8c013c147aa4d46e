"""Demands that cannot hold together: proven, none to spare, and each dropped to see whether a plan is found."""

from dataclasses import replace

import pytest

from models.trip import Lock
from solver import SILENT, Status, propose, revise
from solver.asking import Asked, dropped, optional, with_more
from solver.clock import Clock
from solver.conflict import not_brought_together
from solver.passing import lightened, over_kg
from solver.search import quick_plan
from solver.state import State, lying
from tests.solver.conftest import QUICK, conflict_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def dropping_gives_a_plan(case, demand, locks=()) -> bool:
    asked = dropped(Asked(case, tuple(locks), True), demand)
    found = propose(asked.case, replace(QUICK, use_reserve=asked.use_reserve), locks=asked.locks)
    return found.plan is not None and check(asked.case, found.plan).broken == ()


def kinds(conflict) -> list[str]:
    return [demand.kind for demand in conflict.demands]


def test_a_lock_against_a_rule_is_refused_before_any_search(pair):
    pair.vehicle["spaces"][1]["limit_kg"] = 6
    pair.trip["locks"] = [{"thing": "one", "in": "high", "by": "Ada", "because": "always there"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock"]
    assert "Ada: always there" in conflict.demands[0].says
    assert "space_mass: it weighs 10.0 kg and high holds 6 kg." in conflict.says
    assert dropping_gives_a_plan(pair.case(), conflict.demands[0])


def test_two_locks_on_one_thing_in_two_spaces(pair):
    pair.trip["locks"] = [{"thing": "one", "in": "high"}, {"thing": "one", "in": "low"}, {"thing": "two", "in": "low"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock"]
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


@pytest.mark.long
def test_a_thing_kept_out_of_every_space_it_may_have(pair):
    pair.trip["locks"] = [{"thing": "one", "not_in": "high"}, {"thing": "one", "not_in": "low"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock", "must come"]
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


def test_musts_over_the_total_are_told_by_how_much_before_any_search(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2012.5
    conflict = conflict_of(pair)
    assert conflict.says == (
        "What must come is 7.5 kg over the total allowed at go.",
        "The heaviest of it: one 10.0 kg, two 10.0 kg.",
    )
    assert kinds(conflict) == ["must come", "limit"]
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)
    assert [way.says for way in conflict.ways_out] == [
        "Leaving at home: two.",
        "With 10 kg more of this limit: the total may be 2012.5 kg.",
    ]


def test_a_thing_without_a_place_and_a_limit_that_is_passed_without_it_are_both_told(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2012.5
    pair.thing("ladder", 30, size_mm=[900, 200, 200])
    conflict = conflict_of(pair)
    assert conflict.says[0] == "ladder has no lawful place in this vehicle."
    assert "Even without ladder: what must come is 7.5 kg over the total allowed at go." in conflict.says
    assert [way.says for way in conflict.ways_out] == ["Leaving at home: ladder, two."]


def test_every_way_out_comes_with_a_plan(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2012.5
    assert all(way.plan is not None and way.plan.placements for way in conflict_of(pair).ways_out)


def test_more_in_one_space_than_goes_in_is_told_as_the_locks_that_have_to_give(tiny):
    tiny.space("chest", size_mm=[500, 400, 200])
    tiny.space("bay", (2600, 0, 500), size_mm=[800, 400, 400])
    for name in ("long one", "long two", "long three"):
        tiny.thing(name, size_mm=[260, 260, 200])
    tiny.thing("small")
    tiny.trip["locks"] = [{"thing": one["name"], "in": "chest"} for one in tiny.things]
    conflict = conflict_of(tiny)
    assert kinds(conflict) == ["lock"]
    assert conflict.demands[0].subject == "long two, long three"
    assert "together these do not go into it" in conflict.says[0]
    assert conflict.demands[0].shown
    assert dropping_gives_a_plan(tiny.case(), conflict.demands[0])
    assert conflict.ways_out[0].says == "Without these 2 locks, all in chest: long two, long three."


@pytest.mark.parametrize("slides", [True, False])
def test_what_is_not_free_in_a_space_is_told_where_things_do_not_go_in_together(tiny, slides):
    # Two of them lie side by side in the tray; the drawer before it goes out where one of them would lie.
    tiny.space("drawer", (2000, 0, 500), size_mm=[500, 200, 200])
    if slides:
        tiny.vehicle["spaces"][-1]["slides"] = {"to": "rear", "mm": 600}
    tiny.space("tray", (2600, 0, 400), size_mm=[300, 700, 400])
    for name in ("one", "two"):
        tiny.thing(name, size_mm=[300, 350, 250], turns="fixed")
    conflict = propose(tiny.case(), QUICK).conflict
    if not slides:
        assert conflict is None
        return
    assert conflict is not None
    assert conflict.says[0] == (
        "tray is 300 x 700 x 400 mm less the way of drawer; together these do not go into it, however they lie: "
        "one 300 x 350 x 250 mm, two 300 x 350 x 250 mm."
    )


def test_two_locks_at_corners_that_share_room_are_told_as_such_and_not_as_things_that_never_go_in(tiny):
    tiny.space("bay", (2600, 0, 500), size_mm=[800, 400, 400])
    tiny.space("other", (2600, 500, 500), size_mm=[800, 400, 400])
    tiny.thing("one", size_mm=[400, 300, 300])
    tiny.thing("two", size_mm=[400, 300, 300])
    tiny.trip["locks"] = [
        {"thing": "one", "in": "bay", "at_mm": [2600, 0, 500]},
        {"thing": "two", "in": "bay", "at_mm": [2700, 50, 500]},
    ]
    conflict = conflict_of(tiny)
    assert kinds(conflict) == ["lock", "lock"]
    assert conflict.says[0] == (
        "bay is 800 x 400 x 400 mm; together these do not go into it, with one at [2600, 0, 500] and two at "
        "[2700, 50, 500] where their locks keep them: one 400 x 300 x 300 mm, two 400 x 300 x 300 mm."
    )


def test_two_faults_at_once_are_told_together_with_a_way_out_that_mends_both(tiny):
    tiny.space("chest", size_mm=[300, 200, 200])
    tiny.space("bay", (2600, 0, 500), size_mm=[800, 400, 400])
    tiny.vehicle["spaces"][1]["limit_kg"] = 35
    for name in ("a", "b", "c"):
        tiny.thing(name)
    tiny.thing("long", size_mm=[500, 200, 200])
    tiny.trip["locks"] = [
        {"thing": "a", "in": "chest"},
        {"thing": "b", "in": "chest"},
        {"thing": "long", "in": "chest"},
    ]
    conflict = conflict_of(tiny)
    assert [demand.subject for demand in conflict.demands] == ["a, b, long"]
    assert conflict.demands[0].shown
    assert dropping_gives_a_plan(tiny.case(), conflict.demands[0])
    assert conflict.ways_out[0].says.startswith("Without these 2 locks, all in chest: ")
    assert "inside: it is 200 mm too long for chest in every turn it may take." in conflict.says


def test_a_rack_that_cannot_carry_what_is_locked_on_it(pair):
    pair.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": 15}}]
    pair.vehicle["spaces"][1]["on"] = ["roof"]
    pair.trip["locks"] = [{"thing": "one", "in": "high"}, {"thing": "two", "in": "high"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock", "limit"]
    assert conflict.demands[2].says == "roof may carry 15 kg anywhere"
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


@pytest.mark.long
def test_a_rack_is_told_with_what_hangs_on_it_and_by_how_much_all_that_is_asked_is_too_much(pair):
    pair.vehicle["racks"] = [
        {"name": "roof", "own_mass_kg": 3, "limits": {"any_kg": 15}},
        {"name": "frame", "on": "roof", "own_mass_kg": 6, "at_mm": [2600, 0, 1900], "limits": {"any_kg": 90}},
    ]
    for space in pair.vehicle["spaces"]:
        space["on"] = ["frame"]
    pair.thing("heavy", 14)
    pair.vehicle["fittings"] = [{"name": "awning", "mass_kg": 2, "at_mm": [2600, 0, 1900], "on": ["frame"]}]
    conflict = conflict_of(pair)
    # With 8 kg of frame and awning the three of 34 kg are 27 kg over 15 kg. The roof's own mass does not count there.
    assert conflict.demands[-1].says == "roof may carry 15 kg anywhere (of that 6 kg frame, 2 kg awning)"
    assert conflict.says[0] == "roof gets at least 27.0 kg too much with all that is asked, wherever things lie."


@pytest.mark.parametrize(
    ("hazard", "each", "count", "says"),
    [
        (
            "petrol",
            {"holds_l": 20, "approved_can": True},
            4,
            "hazard: 80 L of petrol must come, and a vehicle may carry 60 L",
        ),
        ("lpg", {"net_kg": 2}, 3, "hazard: 3 of lpg must come, and a vehicle may carry 2 of it in all"),
    ],
)
def test_more_of_a_hazard_than_the_rule_book_lets_a_vehicle_carry(tiny, hazard, each, count, says):
    tiny.space("outside", size_mm=[800, 400, 400], air="outside", holds="holder", accepts=["can"])
    tiny.thing("can", count=count, hazard=hazard, holder="can", **each)
    conflict = conflict_of(tiny)
    assert conflict.says[0].startswith(says)
    assert [demand.subject for demand in conflict.demands] == ["can"]
    assert [way.says for way in conflict.ways_out] == [f"Leaving at home: can (1 of {count})."]


def test_spaces_that_are_closed_for_a_while_or_shut_by_the_trailer_are_told(tiny):
    tiny.space("bay")
    tiny.space("chest", (2600, 0, 500))
    tiny.space("nook", (3200, 0, 500), opening="left flap", face="left")
    tiny.vehicle["openings"][1]["stuck_when"] = ["trailer on"]
    tiny.vehicle["limits"] |= {"tow_ball_kg": 200, "tow_ball_behind_rear_axle_mm": 1000}
    tiny.trip["towing"] = {"ball_kg": 50, "trailer_kg": 500}
    tiny.trip["stages"] = [{"name": "go", "surface": "off_road", "towing": True, "closed": ["nook"]}]
    tiny.thing("crate", count=4, spread=4)
    conflict = conflict_of(tiny)
    assert conflict.says[1:] == (
        "Closed for a while, and so open to nothing that is aboard then: nook (at go).",
        "With the trailer on nobody gets at: bay, chest.",
    )
    tiny.trip["stages"][0] |= {"towing": False, "closed": []}
    assert len(conflict_of(tiny).says) == 1


def test_the_rear_axle_alone_can_be_the_reason(tiny):
    tiny.space("tail", (5000, 0, 500))
    tiny.thing("engine", mass_kg=100)
    tiny.vehicle["limits"] |= {"rear_axle_kg": 1000}
    tiny.trip["locks"] = []
    conflict = conflict_of(tiny)
    assert kinds(conflict) == ["must come", "limit"]
    assert conflict.demands[1].subject == "rear axle"
    assert all(demand.shown and dropping_gives_a_plan(tiny.case(), demand) for demand in conflict.demands)


def test_a_limit_that_is_passed_as_well_once_another_is_higher_is_told(tiny):
    tiny.space("tail", (5000, 0, 500), size_mm=[600, 400, 400])
    tiny.thing("engine", mass_kg=100)
    tiny.thing("gearbox", mass_kg=60)
    tiny.vehicle["limits"] |= {"gvm_kg": 2100, "rear_axle_kg": 1000}
    conflict = conflict_of(tiny)
    assert conflict.says[0] == "What must come is 60.0 kg over the total allowed at go."
    assert any(
        one.startswith("Even with a higher limit of the total: the rear axle gets at least ") for one in conflict.says
    )


@pytest.mark.long
def test_an_axle_that_is_far_too_weak_is_told_in_kilograms_with_what_to_leave_and_how_much_more(tiny):
    tiny.space("tail", (5000, 0, 500), size_mm=[800, 400, 400])
    for name, mass_kg in (("a", 20), ("b", 30), ("c", 40), ("d", 50), ("e", 60), ("f", 70)):
        tiny.thing(name, mass_kg=mass_kg)
    # All six together put about 460 kg on the axle; 900 kg are there without load.
    tiny.vehicle["limits"] |= {"rear_axle_kg": 1250}
    conflict = conflict_of(tiny)
    assert (set(kinds(conflict)), kinds(conflict)[-1]) == ({"must come", "limit"}, "limit")
    assert all(demand.shown and dropping_gives_a_plan(tiny.case(), demand) for demand in conflict.demands)
    assert conflict.says[0].startswith("The rear axle gets at least ")
    home, more = conflict.ways_out[0], conflict.ways_out[-1]
    assert home.says in ("Leaving at home: f.", "Leaving at home: e.", "Leaving at home: d.")
    assert home.plan is not None
    assert check(tiny.case(), home.plan).broken != ()  # what has to come is left: that is the way out
    assert check(optional(tiny.case(), tuple("abcdef")), home.plan).broken == ()
    kg = float(more.says.removeprefix("With ").split()[0])
    assert more.plan is not None
    assert check(with_more(tiny.case(), "rear axle", kg), more.plan).broken == ()
    assert not propose(with_more(tiny.case(), "rear axle", kg - 20), QUICK).plan


def test_two_that_a_rule_keeps_apart_are_told_with_the_rule(pair):
    pair.trip["apart"] = [["one", "two"]]
    pair.trip["locks"] = [{"thing": "one", "in": "high"}, {"thing": "two", "in": "high"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock"]
    assert conflict.says == ("apart: one and two may not be in one space.",)
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


@pytest.mark.long
def test_a_kit_that_finds_no_space_together_is_told_as_one(pair):
    for thing in pair.things:
        thing |= {"kit": "both", "together": True}
    pair.trip["locks"] = [{"thing": "one", "in": "low"}, {"thing": "two", "in": "high"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock", "together"]
    assert conflict.says[0].startswith("kit: one and two stay together in one space")
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


def test_a_member_that_is_proven_not_to_be_enough_is_marked_so(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2012.5
    pair.trip["locks"] = [{"thing": "one", "not_in": "high"}, {"thing": "one", "not_in": "low"}]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock", "must come"]
    locks = conflict.demands[:2]
    assert not any(demand.shown for demand in locks)
    assert all(demand.not_enough for demand in locks)


def test_where_nothing_is_proven_the_locks_that_have_to_give_are_found(pair):
    case = pair.case()
    plan = propose(case, QUICK).plan
    words = ({"thing": "one", "in": "low"}, {"thing": "two", "in": "high"}, {"thing": "two", "in": "low"})
    asked = Asked(case, tuple(Lock.model_validate(one) for one in words), True)

    def feasible(problem, clock, near=None, cost=None, *, keenly=False):
        return quick_plan(problem, plan, clock, near, cost, keenly=keenly)

    conflict = not_brought_together(asked, Clock(60.0, SILENT), feasible)
    assert (conflict.proven, kinds(conflict)) == (False, ["lock", "lock", "lock"])
    assert [demand.shown for demand in conflict.demands].count(True) >= 1
    assert all(demand.subject == "two" for demand in conflict.demands if demand.shown)
    assert conflict.ways_out[0].says.startswith("Without this lock: two is locked in ")
    assert conflict.ways_out[0].plan is not None


def test_what_lies_on_a_rack_is_lightened_by_the_fewest_things(tiny):
    tiny.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": 50}}]
    tiny.space("top", on=["roof"], size_mm=[800, 400, 400])
    for name, mass_kg in (("a", 5), ("b", 20), ("c", 24), ("d", 30)):
        tiny.thing(name, mass_kg=mass_kg)
    limits = tiny.problem()
    state = State(limits)
    for n, piece in enumerate(limits.pieces):
        state.add(lying(limits, piece.index, 0, 0, 2000 + 200 * n, 0, 500))
    assert over_kg(state, limits, "rack roof") == pytest.approx(29)
    assert lightened(state, limits, "rack roof", ("a", "b", "c", "d")) == ("d",)
    assert lightened(state, limits, "rack roof", ("a", "b", "c")) == ("c", "a")
    assert lightened(state, limits, "rack roof", ("a", "b")) == ()


def test_revise_tells_the_same_conflict(pair):
    plan = propose(pair.case(), QUICK).plan
    assert plan is not None
    pair.trip["locks"] = [{"thing": "one", "not_in": "high"}, {"thing": "one", "not_in": "low"}]
    found = revise(pair.case(), plan, QUICK).proposal
    assert (found.status, found.plan) == (Status.IMPOSSIBLE, None)
    assert kinds(found.conflict) == ["lock", "lock", "must come"]


def test_two_things_without_a_place_are_told_with_the_locks_of_one_of_them(pair):
    pair.trip["locks"] = [{"thing": "one", "not_in": "low"}, {"thing": "one", "not_in": "high"}]
    pair.things[1]["size_mm"] = [900, 900, 900]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock", "must come"]
    assert conflict.demands[-1].says == "one 10 kg and two 10 kg must come (20 kg together)"
    assert [way.says for way in conflict.ways_out] == ["Leaving at home: one, two."]


def test_what_is_enough_by_itself_stands_in_one_member_only(pair):
    """Any two of three do not go in together; without the long one the other two still do not."""
    pair.vehicle["spaces"] = pair.vehicle["spaces"][:1]
    for thing, kg in zip(pair.things, (10, 20), strict=True):
        thing |= {"size_mm": [400, 400, 300], "mass_kg": kg}
    pair.thing("three", 30, size_mm=[400, 400, 300])
    named = [name for one in conflict_of(pair).demands for name in one.things]
    assert sorted(named) == sorted(set(named))


def test_two_locks_on_one_thing_at_two_corners_are_both_named_and_nothing_else(pair):
    pair.trip["locks"] = [
        {"thing": "one", "not_in": "high"},
        {"thing": "one", "in": "low", "at_mm": [2000, 0, 500], "by": "Ada"},
        {"thing": "one", "in": "low", "at_mm": [2100, 0, 500], "by": "Ben"},
    ]
    conflict = conflict_of(pair)
    assert kinds(conflict) == ["lock", "lock"]
    told = [demand.says for demand in conflict.demands]
    assert ["Ada" in told[0], "Ben" in told[1]] == [True, True]
    assert ["[2000, 0, 500]" in told[0], "[2100, 0, 500]" in told[1]] == [True, True]
    assert all(demand.shown and dropping_gives_a_plan(pair.case(), demand) for demand in conflict.demands)


def test_two_locks_on_one_thing_at_the_same_corner_hold_together(pair):
    corner = {"thing": "one", "in": "low", "at_mm": [2100, 0, 500]}
    pair.trip["locks"] = [corner | {"by": "Ada"}, corner | {"by": "Ben"}]
    found = propose(pair.case(), QUICK)
    assert found.plan is not None
    assert next(place.corner_mm for place in found.plan.placements if place.thing == "one") == (2100, 0, 500)
