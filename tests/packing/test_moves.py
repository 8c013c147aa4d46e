"""From plan to plan: every list of moves is replayed, and nothing meets, hangs in the air or is pulled from under."""

from random import Random

import pytest

from models.case import Case, Copy, copy_of
from models.geometry import Box, box, contact_mm2, meets, placed_box, swept
from models.plan import Placement, Plan
from models.trip import Lock
from packing import MoveList, handling_seconds, minutes_of_copy, moves_between
from tests.chances import seeds

BIG = (300, 300, 300)


def plan_of(placements) -> Plan:
    return Plan(trip="trip.yaml", placements=tuple(placements))


def moved(plan: Plan, name: str, corner: tuple[int, int, int], **more) -> Plan:
    return plan_of(
        p.model_copy(update={"corner_mm": corner, **more}) if p.thing == name else p for p in plan.placements
    )


def walls(case: Case, name: str) -> Box:
    space = case.space_named[name]
    return box(space.corner_mm, space.size_mm)


def way_is_clear(case: Case, here: dict[Copy, Placement], copy: Copy, place: Placement) -> None:
    at, space = placed_box(place), case.space_named[place.space]
    for other, there in here.items():
        if other != copy and there.space == place.space:
            assert not meets(placed_box(there), swept(at, space.face, walls(case, space.name))), f"{copy} past {other}"
            assert contact_mm2(placed_box(there), at) == 0, f"{copy} under {other}"


def stands(case: Case, here: dict[Copy, Placement], place: Placement) -> bool:
    at = placed_box(place)
    space = case.space_named[place.space]
    on_floor = at.low[2] == space.corner_mm[2]
    on_solid = any(contact_mm2(at, box(solid.corner_mm, solid.size_mm)) for solid in space.solid)
    return on_floor or on_solid or any(contact_mm2(at, placed_box(p)) for p in here.values() if p.space == place.space)


def replay(case: Case, before: Plan, after: Plan, found: MoveList) -> None:
    """Carry the moves out one by one; end with what the plan after says, like copies being alike."""
    here = _renamed(before, found)
    for one in found.moves:
        if one.from_space is not None:
            old = here.pop(one.copy)
            assert old.space == one.from_space
            way_is_clear(case, here, one.copy, old)
        else:
            assert one.copy not in here
        if one.placement is not None:
            way_is_clear(case, here, one.copy, one.placement)
            assert stands(case, here, one.placement), f"{one.copy} hangs in the air"
            here[one.copy] = one.placement
    assert sorted(_spots(here.values())) == sorted(_spots(after.placements))


def _renamed(before: Plan, found: MoveList) -> dict[Copy, Placement]:
    """Copies before; the tests that replay use things of one copy, whose names do not change."""
    assert all(one.copy.number == 1 for one in found.moves)
    return {copy_of(p): p for p in before.placements}


def _spots(placements) -> list[tuple[str, str, tuple[int, int, int]]]:
    return [(p.thing, p.space, p.corner_mm) for p in placements]


def kinds(found: MoveList) -> list[tuple[str, str]]:
    return [(one.copy.thing, one.kind) for one in found.moves]


def test_nothing_moves_between_a_plan_and_itself(bay):
    bay.put("box", (0, 0, 0), BIG)
    assert moves_between(bay.case, bay.plan, bay.plan) == MoveList((), 0.0)


def test_what_stands_in_the_new_place_goes_first(bay):
    bay.put("one", (0, 0, 0), BIG)
    bay.put("two", (0, 400, 0), BIG)
    after = moved(moved(bay.plan, "one", (2600, -100, 600)), "two", (2600, 250, 600))
    found = moves_between(bay.case, bay.plan, after)
    assert kinds(found) == [("two", "move"), ("one", "move")]
    replay(bay.case, bay.plan, after, found)


def test_two_that_change_places_need_the_ground_once(bay):
    bay.put("light", (0, 0, 0), BIG, kg=3)
    bay.put("heavy", (0, 400, 0), BIG, kg=20)
    after = moved(moved(bay.plan, "light", (2600, -100, 600)), "heavy", (2600, -500, 600))
    found = moves_between(bay.case, bay.plan, after)
    assert kinds(found) == [("light", "set down"), ("heavy", "move"), ("light", "put in")]
    assert [one.needs_ground for one in found.moves] == [True, False, False]
    replay(bay.case, bay.plan, after, found)


def test_what_rests_on_a_thing_is_set_down_and_put_back(bay):
    bay.put("below", (0, 0, 0), BIG)
    bay.put("above", (0, 0, 300), BIG)
    bay.put("foot", (0, 400, 0), BIG)
    after = moved(moved(bay.plan, "below", (2600, -100, 600)), "foot", (2600, -500, 600))
    found = moves_between(bay.case, bay.plan, after)
    assert ("above", "set down") in kinds(found)
    assert kinds(found)[-1] == ("above", "put back")
    assert set(found.moved) == {Copy("below", 1), Copy("foot", 1)}
    replay(bay.case, bay.plan, after, found)


def test_what_comes_aboard_goes_behind_what_is_in_its_way(bay):
    bay.put("near the door", (600, 0, 0), BIG)
    start = bay.plan
    bay.put("shopping", (0, 0, 0), BIG)
    found = moves_between(bay.case, start, bay.plan)
    assert kinds(found) == [("near the door", "set down"), ("shopping", "bring in"), ("near the door", "put back")]
    replay(bay.case, start, bay.plan, found)


def test_what_is_left_at_home_goes_out_first(bay):
    bay.put("stays", (0, 400, 0), BIG)
    bay.put("leaves", (0, 0, 0), BIG)
    after = plan_of([bay.plan.placements[0].model_copy(update={"corner_mm": (2600, -500, 600)})])
    assert kinds(moves_between(bay.case, bay.plan, after)) == [("leaves", "take out"), ("stays", "move")]


def test_minutes_are_the_openings_at_both_places_and_the_lift(bay):
    copy = bay.put("box", (0, 0, 0), BIG, kg=10)
    bay.add_space("hatch bay", (2600, 550, 600), (500, 350, 500), opening="hatch")
    lift = handling_seconds(10, bay.case.rulebook)
    assert lift == 12
    assert minutes_of_copy(bay.case, copy, "bay", "bay") * 60 == pytest.approx(4 + 8 + lift)
    assert minutes_of_copy(bay.case, copy, "bay", "hatch bay") * 60 == pytest.approx(4 + 8 + 20 + lift)
    assert minutes_of_copy(bay.case, copy, None, "hatch bay") * 60 == pytest.approx(20 + lift)
    after = moved(bay.plan, "box", (2600, 550, 600), space="hatch bay")
    assert moves_between(bay.case, bay.plan, after).minutes * 60 == pytest.approx(44)


def test_like_copies_that_change_numbers_are_not_moved(bay):
    bay.put("jug", (0, 0, 0), BIG, count=2)
    first = bay.plan.placements[0]
    second = first.model_copy(update={"copy_number": 2, "corner_mm": (2600, 0, 600)})
    swapped = [
        first.model_copy(update={"corner_mm": second.corner_mm}),
        second.model_copy(update={"corner_mm": first.corner_mm}),
    ]
    before, after = plan_of([first, second]), plan_of(swapped)
    assert moves_between(bay.case, before, after).moves == ()
    locked = after.model_copy(update={"locks": (Lock.model_validate({"thing": "jug", "copy": 1, "carried": True}),)})
    assert len(moves_between(bay.case, before, locked).moved) == 2


def test_one_of_two_like_copies_that_leaves_keeps_a_name_of_its_own(bay):
    bay.put("jug", (0, 0, 0), BIG, count=2)
    first = bay.plan.placements[0]
    second = first.model_copy(update={"copy_number": 2, "corner_mm": (2600, 0, 600)})
    after = plan_of([second.model_copy(update={"copy_number": 1})])
    found = moves_between(bay.case, plan_of([first, second]), after)
    assert [(one.copy, one.kind) for one in found.moves] == [(Copy("jug", 2), "take out")]


def test_a_drawer_cannot_be_used_while_something_stands_where_it_slides(bay):
    bay.add_space("drawer", (3700, -500, 600), (400, 400, 300), face="top", slides={"to": "rear", "mm": 400})
    bay.add_space("tail", (4200, -500, 600), (240, 400, 300))
    bay.put("elsewhere", (0, 0, 0), (200, 200, 200))
    start = bay.plan
    bay.put_in("in the tail", (4200, -500, 600), (200, 200, 200))
    blocked = bay.plan
    inside = moved(start, "elsewhere", (3700, -500, 600), space="drawer")
    found = moves_between(bay.case, blocked, inside)
    assert kinds(found) == [("in the tail", "take out"), ("elsewhere", "move")]


def piled(rng: Random, names: list[str]) -> Plan:
    """Boxes of one size on a grid of nine columns, three high at most, in a random order."""
    heights = dict.fromkeys(((x, y) for x in (0, 310, 620) for y in (0, 310, 620)), 0)
    found = []
    for name in rng.sample(names, len(names)):
        x, y = rng.choice([at for at, many in heights.items() if many < 3])
        corner = (2600 + x, -500 + y, 600 + 300 * heights[x, y])
        heights[x, y] += 1
        found.append(Placement(thing=name, space="bay", corner_mm=corner, size_mm=BIG))
    return plan_of(found)


@pytest.mark.parametrize("face", ["rear", "left", "top"])
@pytest.mark.parametrize("seed", seeds(6, of=12))
def test_random_piles_become_other_random_piles(new_bay, face, seed):
    bay, rng = new_bay(face), Random(seed)  # noqa: S311 - a test that repeats
    names = [f"box {n}" for n in range(rng.randint(2, 20))]
    for name in names:
        bay.things.append({"name": name, "mass_kg": float(rng.randint(1, 25)), "size_mm": list(BIG)})
    coming = rng.sample(names, max(1, len(names) - 2))
    before, after = piled(rng, names), piled(rng, coming)
    found = moves_between(bay.case, before, after)
    assert found.stuck == ()
    assert found.minutes == pytest.approx(sum(one.minutes for one in found.moves))
    lifts = [one.copy for one in found.moves]
    assert max(map(lifts.count, lifts)) <= 2
    replay(bay.case, before, after, found)


@pytest.mark.parametrize("seed", range(6))
def test_the_same_plans_give_the_same_moves(new_bay, seed):
    bay, rng = new_bay(), Random(seed)  # noqa: S311 - a test that repeats
    names = [f"box {n}" for n in range(8)]
    bay.things += [{"name": name, "mass_kg": 5.0, "size_mm": list(BIG)} for name in names]
    before, after = piled(rng, names), piled(rng, names)
    turned = plan_of(reversed(before.placements)), plan_of(reversed(after.placements))
    assert moves_between(bay.case, *turned) == moves_between(bay.case, before, after)
