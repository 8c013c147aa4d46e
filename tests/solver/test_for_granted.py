"""What a proof may take for granted: only what holds in every plan that `check` takes."""

from typing import Any

import pytest

from models.plan import Plan
from solver import Status, propose, revise
from solver.answers import SILENT
from solver.asking import Asked
from solver.clock import Clock
from solver.plain import plain_conflict
from solver.search import impossible_anyhow
from solver.seen import cannot_be
from solver.together import too_full
from tests.solver.conftest import QUICK
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

HALF = [200, 200, 200]


def lies(thing: str, space: str, corner: list[int], size: Any = HALF, copy: int = 1) -> dict[str, Any]:
    """A copy as it is listed, at a corner in mm."""
    return {"thing": thing, "copy": copy, "space": space, "corner_mm": corner, "size_mm": size, "turn": "lwh"}


def by_hand(made: Any, *placements: dict[str, Any]) -> None:
    """A plan by hand that holds every limit."""
    plan = Plan.model_validate({"trip": "t", "placements": list(placements)})
    assert [one.says for one in check(made.case(), plan).findings if one.holds is not True] == []


def proven(made: Any) -> bool:
    """Whether it is proven that there is no plan."""
    return cannot_be(Asked(made.case(), (), True, None), Clock(20.0, SILENT))


@pytest.fixture
def chest(tiny):
    """A chest in a bay of its size, with two tins that may be in the chest alone."""
    tiny.space("bay", size_mm=[800, 400, 400])
    tiny.space("in the chest", (2000, 0, 500), size_mm=[400, 200, 200], inside_of="chest", accepts=["tin"])
    tiny.thing("chest", size_mm=[800, 400, 400])
    tiny.thing("tin", 2, holder="tin", count=2)
    return tiny


def full(made: Any) -> bool:
    """Whether it is proven that more is sent into one space than goes in."""
    return too_full(Asked(made.case(), (), True, None), Clock(20.0, SILENT)) is not None


def test_a_room_that_is_part_of_a_thing_takes_what_goes_in(chest):
    by_hand(
        chest,
        lies("chest", "bay", [2000, 0, 500], [800, 400, 400]),
        lies("tin", "in the chest", [2000, 0, 500]),
        lies("tin", "in the chest", [2200, 0, 500], copy=2),
    )
    assert not full(chest)


def test_a_room_that_is_part_of_a_thing_takes_no_more(chest):
    chest.things[1]["size_mm"] = [201, 200, 200]
    assert full(chest)
    found = propose(chest.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert "in the chest" in found.conflict.says[0]


@pytest.mark.long
def test_other_rooms_are_not_told_for_it(chest):
    chest.space("tray", (3000, 0, 500), size_mm=[200, 200, 300], accepts=["tray"])
    for name in ("pan", "pot"):
        chest.thing(name, 2, holder="tray")
    found = propose(chest.case(), QUICK)
    assert found.conflict is not None
    assert "tray" in found.conflict.says[0]
    assert not any("tin" in one.says for one in found.conflict.demands)


@pytest.fixture
def barrier(tiny):
    """A chest of 10 kg with two compartments behind a barrier that is rated for 60 kg, and a tin for the left one."""
    tiny.vehicle["cargo_barrier"] = {"behind_seats": ["driver"], "rated_kg": 60, "top_z_mm": 1500}
    tiny.space("bay", size_mm=[800, 400, 400], holds="barrier", accepts=["chest"])
    tiny.space("chest left", (2000, 0, 500), inside_of="chest", face="top", accepts=["tin"])
    tiny.space("chest right", (2400, 0, 500), inside_of="chest", face="top")
    tiny.space("tray", (3000, 0, 500))
    tiny.thing("chest", 10, size_mm=[800, 400, 400], holder="chest")
    tiny.thing("battery", 55)
    tiny.thing("tin", 50, holder="tin")
    return tiny


def test_what_another_compartment_may_hold_proves_nothing(barrier):
    by_hand(
        barrier,
        lies("chest", "bay", [2000, 0, 500], [800, 400, 400]),
        lies("tin", "chest left", [2000, 0, 500]),
        lies("battery", "tray", [3000, 0, 500]),
    )
    found = propose(barrier.case(), QUICK)
    assert found.status is not Status.IMPOSSIBLE


def test_what_is_left_of_a_barrier_beside_the_chest_proves_it(barrier):
    barrier.things[2]["mass_kg"] = 50.1
    found = propose(barrier.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert found.conflict.says[0].startswith("chest left gets at least 0.1 kg too much")
    assert any("leaves 50 kg for what is in chest left" in one.says for one in found.conflict.demands)


def test_a_compartment_bounds_no_value_by_what_the_other_may_hold(barrier):
    barrier.things[2]["carry"] = 50
    found = propose(barrier.case(), QUICK)
    value = next(one for one in found.levels if one.name == "value carried")
    assert value.bound == 50
    assert not any("no plan" in why for why in found.home_reasons.values())
    barrier.things[2]["mass_kg"] = 50.1
    found = propose(barrier.case(), QUICK)
    value = next(one for one in found.levels if one.name == "value carried")
    assert (value.bound, value.state) == (0, "proven")
    assert all("no plan with what must come takes it" in why for why in found.home_reasons.values())


@pytest.fixture
def pouch(tiny):
    """Gold in the pouch of a bag in a bay; in a chest, around the pouch as well, is a tray whose tie-downs are weak."""
    tiny.space("bay")
    weak = {"holds": "tie_downs", "tie_downs": [{"rated_dan": 5}]}
    tiny.space("tray", size_mm=[300, 300, 300], inside_of="chest", **weak)
    tiny.space("in the bag", size_mm=HALF, inside_of="bag")
    tiny.thing("chest", 2, size_mm=[400, 400, 400], carry=5)
    tiny.thing("bag", 1, size_mm=[300, 300, 300])
    tiny.thing("gold", 50)
    tiny.trip["locks"] = [{"thing": "bag", "in": "bay"}, {"thing": "gold", "in": "in the bag"}]
    return tiny


def test_ties_in_a_thing_that_stays_at_home_prove_nothing(pouch):
    by_hand(pouch, lies("bag", "bay", [2000, 0, 500], [300] * 3), lies("gold", "in the bag", [2000, 0, 500]))
    assert not proven(pouch)


def test_ties_of_a_space_of_the_vehicle_prove_it(pouch):
    pouch.vehicle["spaces"][0] |= {"holds": "tie_downs", "tie_downs": [{"rated_dan": 5}]}
    assert proven(pouch)


def test_ties_in_a_thing_prove_what_is_tied_there(pouch):
    pouch.trip["locks"] = [{"thing": "gold", "in": "tray"}]
    assert proven(pouch)


@pytest.fixture
def fire(tiny):
    """An extinguisher at a belted seat, another reached from outside, and a pit for two blankets on each other."""
    tiny.vehicle["air"]["cabin"] = "people"
    near = {"air": "cabin", "opening": "door", "in_reach_when": ["belted driver"]}
    tiny.space("footwell", (1000, 0, 500), face="top", size_mm=HALF, **near)
    tiny.space("side", (3000, 0, 500), size_mm=HALF, opening="left flap", face="left")
    tiny.space("pit", size_mm=[200, 200, 400], face="top", accepts=["blanket"])
    tiny.thing("extinguisher", 2, needed_when=["fire"], count=2)
    tiny.thing("blanket", 2, needed_when=["fire"], holder="blanket", count=2)
    return tiny


def test_what_is_for_a_fire_may_lie_on_another_where_two_are_free(fire):
    by_hand(
        fire,
        lies("extinguisher", "footwell", [1000, 0, 500]),
        lies("extinguisher", "side", [3000, 0, 500], copy=2),
        lies("blanket", "pit", [2000, 0, 500]),
        lies("blanket", "pit", [2000, 0, 700], copy=2),
    )
    assert propose(fire.case(), QUICK).status is not Status.IMPOSSIBLE


@pytest.mark.parametrize("quick", [{"access": "at_once"}, {"needed_when": ["injury"]}])
def test_what_is_wanted_at_once_may_not(fire, quick):
    fire.vehicle["openings"][1]["seconds"] = 5
    fire.things[1] |= quick
    assert propose(fire.case(), QUICK).status is Status.IMPOSSIBLE


@pytest.fixture
def slow(tiny):
    """A bay that takes 400 s to open, and lunch in it."""
    tiny.vehicle["openings"][1]["seconds"] = 400
    tiny.space("bay")
    tiny.thing("lunch", 5, uses_up={"food": 5})
    tiny.trip["stages"] = [{"name": "go", "surface": "off_road"}, {"name": "camp", "surface": "parked"}]
    return tiny


@pytest.mark.parametrize(
    ("access", "stages"), [("each_camp", [1]), ("each_stop", [0]), ("at_once", [0, 1]), ("belted", [0, 1])]
)
def test_what_is_gone_need_not_be_in_hand(slow, access, stages):
    slow.things[0]["access"] = access
    assert propose(slow.case(), QUICK).status is Status.IMPOSSIBLE
    for stage in stages:
        slow.trip["stages"][stage]["left"] = {"food": 0}
    by_hand(slow, lies("lunch", "bay", [2000, 0, 500]))
    found = propose(slow.case(), QUICK)
    assert found.plan is not None
    assert check(slow.case(), found.plan).holds is True


def test_what_is_gone_at_every_stage_may_be_buried(slow):
    slow.vehicle["spaces"][0] |= {"face": "top", "size_mm": [200, 200, 400]}
    slow.things[0]["access"] = "at_once"
    slow.thing("box", 5)
    for stage in slow.trip["stages"]:
        stage["left"] = {"food": 0}
    slow.vehicle["openings"][1]["seconds"] = 5
    by_hand(slow, lies("lunch", "bay", [2000, 0, 500]), lies("box", "bay", [2000, 0, 700]))
    slow.trip["locks"] = [{"thing": "lunch", "in": "bay", "at_mm": [2000, 0, 500]}]
    assert propose(slow.case(), QUICK).plan is not None
    slow.trip["stages"][1]["left"] = {"food": 1}
    assert propose(slow.case(), QUICK).plan is None


def test_nothing_is_wanted_at_a_stop_of_what_only_stands(slow):
    slow.things[0]["access"] = "each_stop"
    slow.trip["stages"] = slow.trip["stages"][1:]
    assert propose(slow.case(), QUICK).plan is not None


@pytest.mark.parametrize("needed", [{"access": "at_once"}, {"needed_when": ["injury"]}])
def test_seconds_that_meet_a_limit_exactly_hold(tiny, needed):
    names, chain = ("outer", "middle", "inner"), (3.8, 11.9, 14.3)
    assert sum(reversed(chain)) > 30  # but for the arithmetic it is 30
    tiny.vehicle["openings"] = [
        {"name": name, "side": "rear", "seconds": seconds, "after": list(names[max(0, i - 1) : i])}
        for i, (name, seconds) in enumerate(zip(names, chain, strict=True))
    ]
    tiny.space("bay", opening="inner")
    tiny.thing("kit", **needed)
    by_hand(tiny, lies("kit", "bay", [2000, 0, 500]))
    found = propose(tiny.case(), QUICK)
    assert found.plan is not None
    assert check(tiny.case(), found.plan).holds is True
    tiny.vehicle["openings"][0]["seconds"] = 12
    assert propose(tiny.case(), QUICK).status is Status.IMPOSSIBLE


TEN = 10


@pytest.fixture
def halves(tiny):
    """Ten boxes that weigh half a gram less than a kilogram each."""
    tiny.space("bay", size_mm=[200 * TEN, 200, 200])
    for number in range(TEN):
        tiny.thing(f"box {number}", 1.0, uses_up={"food": 0.001})
    tiny.trip["stages"][0]["left"] = {"food": 0.5}
    return tiny


def total(made: Any, kg: float) -> None:
    made.vehicle["limits"]["gvm_kg"] = 2000 + kg


def bay(made: Any, kg: float) -> None:
    made.vehicle["spaces"][0]["limit_kg"] = kg


def rack(made: Any, kg: float) -> None:
    made.vehicle["racks"] = [{"name": "frame", "limits": {"any_kg": kg}}]
    made.vehicle["spaces"][0]["on"] = ["frame"]


@pytest.mark.parametrize("limit", [total, bay, rack])
def test_grams_that_meet_a_limit_exactly_hold(halves, limit):
    limit(halves, 9.995)
    by_hand(halves, *(lies(f"box {i}", "bay", [2000 + 200 * i, 0, 500]) for i in range(TEN)))
    assert not proven(halves)
    limit(halves, 9.98)
    assert proven(halves)


@pytest.fixture
def nose(tiny):
    """With nothing loaded 36 kg too little is in front; 45 kg on the nose mend 41 kg, and take 15 kg of the reserve."""
    tiny.vehicle["kerb"] |= {"front_kg": 692, "rear_kg": 1388}
    tiny.vehicle["limits"] |= {"gvm_kg": 2130, "front_share_min": 0.35}
    tiny.trip["reserve_kg"] = 20
    tiny.space("nose", (-1000, 0, 500))
    tiny.thing("winch", 45, size_mm=[400, 400, 400])
    return tiny


def test_what_is_loaded_may_take_the_reserve_of_the_total(nose):
    by_hand_less = Plan.model_validate(
        {"trip": "t", "placements": [lies("winch", "nose", [-1000, 0, 500], [400] * 3)], "reserve_kept_kg": 5}
    )
    assert check(nose.case(), by_hand_less).holds is True
    assert impossible_anyhow(plain_conflict(nose.problem())) is False
    found = propose(nose.case(), QUICK)
    assert found.plan is not None
    assert (found.reserve_given_up, found.plan.reserve_kept_kg) == (True, 5)
    assert revise(nose.case(), by_hand_less, QUICK).moves.moves == ()


@pytest.mark.parametrize(("front_kg", "never"), [(683, True), (684, False)])
def test_what_is_loaded_mends_no_more_than_all_of_it_at_the_farthest_wall(nose, front_kg, never):
    # 45 kg at -1000 mm: 45 * (1 - 0.35 + 1000 / 3000) = 44.25 kg, where 45 and 44 kg are missed.
    nose.vehicle["kerb"] |= {"front_kg": front_kg, "rear_kg": 2080 - front_kg}
    nose.things[0]["carry"] = 50  # else what must come is too much with the reserve, which is told first
    conflict = plain_conflict(nose.problem())
    assert conflict is not None
    assert impossible_anyhow(conflict) is never
    told = "44.3 kg of that off" if never else "29.5 kg of that off, 20 kg of reserve kept"
    assert told in conflict.says[0]


def test_the_other_side_is_made_up_for_with_the_reserve_of_the_total(nose):
    # 78 kg more are on the right, 36.4 kg too much; 45 kg at -700 mm take 40.3 kg off, 30 kg at the wall only 34.4 kg.
    nose.vehicle["kerb"] |= {"front_kg": 1100, "rear_kg": 980, "right_of_centre_mm": 30}
    nose.vehicle["limits"] |= {"front_share_min": 0.0, "side_difference_share": 0.02}
    nose.vehicle["spaces"][0]["corner_mm"] = [2000, -900, 500]
    plan = Plan.model_validate(
        {"trip": "t", "placements": [lies("winch", "nose", [2000, -900, 500], [400] * 3)], "reserve_kept_kg": 5}
    )
    assert check(nose.case(), plan).holds is True
    assert propose(nose.case(), QUICK).plan is not None
