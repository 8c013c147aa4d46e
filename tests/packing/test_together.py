"""Packers side by side: rounds that replay, on plans stacked by chance; and who never works at the same time."""

import random
from typing import Any

import pytest

from models.case import Case, fresh
from models.geometry import Box, box, contact_mm2, contains, meets
from models.plan import Placement, Plan
from models.reading import case_from
from models.rules import Rule
from models.spaces import Space
from models.stages import opening_chain
from models.trip import Person
from packing import Tangle, first_fault, loading_order
from packing.together import Round, rounds
from tests.chances import seeds
from verifier import check

FACES = ("rear", "left", "right", "top", "front")
PACKERS = ("Ada", "Ben", "Cid", None)


def van(chance: random.Random, vehicle: dict[str, Any]) -> dict[str, Any]:
    """Four bays apart from each other, each with a face and a door by chance, one with a step in its floor."""
    sides = ["left", "right", "rear", "top", "inside"]
    doors = [{"name": f"door {n}", "side": chance.choice(sides), "seconds": 5} for n in range(4)]
    doors[3]["after"] = chance.choice([[], ["door 0"]])
    bays = [
        {
            "name": f"bay {n}", "corner_mm": [1200 + 800 * n, -400, 500], "size_mm": [750, 800, 600],
            "air": "load room", "opening": f"door {n}", "face": chance.choice(FACES), "limit_kg": 500,
            "solid": [{"corner_mm": [1200 + 800 * n, -400, 500], "size_mm": [200, 200, 150]}] if n == 2 else [],
        }
        for n in range(4)
    ]  # fmt: skip
    return {**vehicle, "openings": doors, "spaces": bays}


def things(chance: random.Random, count: int) -> list[dict[str, Any]]:
    spans = ((80, 500), (80, 500), (60, 300))
    sizes = [[chance.randrange(low, high, 20) for low, high in spans] for _ in range(count)]
    return [
        {
            "name": f"thing {n}",
            "mass_kg": round(size[0] * size[1] * size[2] / 1e6 * chance.uniform(0.1, 1.5), 2),
            "turns": "upright",
            "access": "seldom",
            "size_mm": size,
            "packer": chance.choice(PACKERS),
        }
        for n, size in enumerate(sizes)
    ]


def stands(at: Box, space: Space, there: list[Box]) -> bool:
    """Whether a box is within its space, meets nothing and stands on a level base below its middle."""
    walls, solids = box(space.corner_mm, space.size_mm), [box(s.corner_mm, s.size_mm) for s in space.solid]
    if not contains(walls, at) or any(meets(at, other) for other in (*solids, *there)):
        return False
    floor = Box(walls.low, (walls.high[0], walls.high[1], walls.low[2]))
    under = [one for one in (floor, *solids, *there) if contact_mm2(at, one) > 0]
    middle = at.centre_mm
    over = any(all(one.low[i] <= middle[i] <= one.high[i] for i in (0, 1)) for one in under)
    return over and 10 * sum(contact_mm2(at, one) for one in under) >= 7 * at.size_mm[0] * at.size_mm[1]


def spots(space: Space, there: list[Box]) -> list[tuple[int, int, int]]:
    boxes = [*there, *(box(s.corner_mm, s.size_mm) for s in space.solid)]
    low = space.corner_mm
    xs, ys, zs = ({low[i], *(one.high[i] for one in boxes)} for i in range(3))
    return [(x, y, z) for x in sorted(xs) for y in sorted(ys) for z in sorted(zs)]


def stacked(chance: random.Random, case: Case) -> Plan:
    """A plan made by putting each thing at a place by chance where it stands; what finds none stays at home."""
    there: dict[str, list[Box]] = {space.name: [] for space in case.vehicle.spaces}
    placements = []
    for thing in case.things:
        space = chance.choice(case.vehicle.spaces)
        size = thing.size_mm
        assert size is not None
        free = [at for at in spots(space, there[space.name]) if stands(box(at, size), space, there[space.name])]
        if free:
            at = chance.choice(free)
            there[space.name].append(box(at, size))
            placements.append(Placement(thing=thing.name, space=space.name, corner_mm=at, size_mm=size))
    return Plan(trip="trip.yaml", placements=tuple(placements))


def made(seed: int, vehicle: dict[str, Any]) -> tuple[Case, Plan]:
    chance = random.Random(seed)  # noqa: S311 - a load by chance, not a secret
    trip = {"name": "by chance", "stages": [{"name": "leaving", "surface": "sealed_road"}]}
    case = case_from(van(chance, vehicle), things(chance, 24), trip)
    return case, stacked(chance, case)


@pytest.fixture(scope="session")
def vehicle(new_bay) -> dict[str, Any]:
    told: dict[str, Any] = new_bay().case.vehicle.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    return {key: value for key, value in told.items() if key not in {"openings", "spaces", "limits"}}


def replayed(turns: tuple[Round, ...]) -> list[Placement]:
    return [step.placement for one in turns for turn in one for step in turn.steps]


@pytest.mark.parametrize("seed", seeds(15, of=50))
def test_rounds_replay_on_plans_stacked_by_chance(seed, vehicle):
    case, plan = made(seed, vehicle)
    wrong = {f.rule for f in check(case, plan).broken}
    assert wrong.isdisjoint({Rule.INSIDE, Rule.OVERLAP, Rule.SUPPORT})
    order = loading_order(case, plan)
    if isinstance(order, Tangle):
        # Things stacked by chance may lock each other in; `test_order.py` shows that such a ring is one.
        assert len(order.copies) > 1
        return
    found = rounds(case, order)
    assert first_fault(case, replayed(found)) is None
    assert sorted(replayed(found), key=str) == sorted(plan.placements, key=str)
    for one in found:
        ways = [{at.side for at in opening_chain(case.vehicle, case.space_named[t.space].opening)} for t in one]
        assert len(set().union(*ways)) == sum(map(len, ways))
        assert len({turn.packer for turn in one}) == len(one)
        # Nobody is told to travel: those who are named pack, and anybody else.
        busy = [max(step.people for step in turn.steps) for turn in one]
        assert len(one) == 1 or sum(busy) <= len({thing.packer for thing in case.things})


@pytest.mark.long
def test_most_plans_by_chance_have_an_order_and_some_rounds_are_shared(vehicle):
    plans = [made(seed, vehicle) for seed in range(50)]
    orders = [(case, loading_order(case, plan)) for case, plan in plans]
    held = [rounds(case, order) for case, order in orders if not isinstance(order, Tangle)]
    assert len(held) >= 40
    assert any(len(one) > 1 for found in held for one in found)
    assert min(len(plan.placements) for _, plan in plans) >= 6


def two_bays(
    bay: Any, box: dict[str, Any] | None = None, packer: str | None = "Ben", **second: Any
) -> tuple[Case, Plan]:
    bay.put("box", (0, 0, 0), (300, 300, 300), packer="Ada", **(box or {}))
    bay.add_space("side bay", second.pop("corner", (1000, -500, 600)), (500, 500, 500), **second)
    bay.things.append({"name": "bag", "mass_kg": 5, "size_mm": [100, 100, 100], "packer": packer})
    corner = bay.spaces[-1]["corner_mm"]
    bay.placements.append(Placement(thing="bag", space="side bay", corner_mm=tuple(corner), size_mm=(100, 100, 100)))
    return bay.case, bay.plan


def rounds_of(case: Case, plan: Plan) -> list[list[str]]:
    order = loading_order(case, plan)
    assert not isinstance(order, Tangle)
    return [[turn.space for turn in one] for one in rounds(case, order)]


def test_two_packers_on_two_sides_work_at_the_same_time(bay):
    case, plan = two_bays(bay, opening="hatch", face="top")
    assert [sorted(one) for one in rounds_of(case, plan)] == [["bay", "side bay"]]


def test_two_packers_at_one_door_wait_for_each_other(bay):
    case, plan = two_bays(bay, opening="tailgate", face="top")
    assert sorted(len(one) for one in rounds_of(case, plan)) == [1, 1]


def test_a_space_in_the_way_of_another_waits(bay):
    # The bay is loaded from the rear; this one stands right behind it.
    case, plan = two_bays(bay, opening="hatch", face="top", corner=(3700, -500, 600))
    assert rounds_of(case, plan) == [["bay"], ["side bay"]]


def test_one_packer_does_one_thing_at_a_time(bay):
    case, plan = two_bays(bay, opening="hatch", face="top")
    same = fresh(case, things=tuple(t.model_copy(update={"packer": "Ada"}) for t in case.things))
    assert sorted(len(one) for one in rounds_of(same, plan)) == [1, 1]


@pytest.mark.parametrize(("after", "turns"), [((), [2]), (("tailgate",), [1, 1])])
def test_two_packers_wait_for_each_other_at_any_opening_of_their_ways(bay, after, turns):
    # The bay is behind the tailgate; so is the hatch, by its side elsewhere, where it opens after the tailgate.
    case, plan = two_bays(bay, opening="hatch", face="top")
    hatch = case.opening_named["hatch"].model_copy(update={"after": after})
    openings = tuple(hatch if one.name == "hatch" else one for one in case.vehicle.openings)
    case = fresh(case, vehicle=case.vehicle.model_copy(update={"openings": openings}))
    assert [len(one) for one in rounds_of(case, plan)] == turns


def beside(case: Case, plan: Plan, thing: str) -> int:
    """How many turns the round has in which a thing goes in."""
    order = loading_order(case, plan)
    assert not isinstance(order, Tangle)
    (found,) = [one for one in rounds(case, order) if thing in {s.copy.thing for turn in one for s in turn.steps}]
    return len(found)


@pytest.mark.parametrize(("kg", "marked", "turns"), [(25, False, 2), (25.1, False, 1), (5, True, 1), (200, False, 1)])
def test_what_two_lift_keeps_the_second_of_two_packers_busy(bay, kg, marked, turns):
    case, plan = two_bays(bay, {"kg": kg, "two_person": marked}, opening="hatch", face="top")
    assert beside(case, plan, "box") == turns


@pytest.mark.parametrize(("kg", "turns"), [(50, 2), (50.1, 1)])
def test_with_three_packers_one_of_the_others_helps(bay, kg, turns):
    bay.put("jug", (400, 0, 0), (200, 200, 200), packer="Cid")
    case, plan = two_bays(bay, {"kg": kg}, opening="hatch", face="top")
    assert beside(case, plan, "box") == turns


@pytest.mark.parametrize(("people", "turns"), [(0, 2), (1, 1), (2, 2)])
def test_what_anybody_packs_takes_somebody_who_travels(bay, people, turns):
    case, plan = two_bays(bay, packer=None, opening="hatch", face="top")
    travel = tuple(Person.model_validate({"name": f"one {n}", "mass_kg": 70, "seat": f"s {n}"}) for n in range(people))
    case = fresh(case, trip=case.trip.model_copy(update={"people": travel}))
    assert beside(case, plan, "box") == turns
