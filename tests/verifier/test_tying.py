"""Advice on tying: counts, forces, what tips; and that it breaks nothing."""

from math import inf
from typing import Any

import pytest

from models.reading import case_from
from verifier import Tie, TiedSpace, Verdict, straps_by_length, tips


def space(world: Any, name: str) -> TiedSpace:
    verdict: Verdict = world.verdict()
    (found,) = [one for one in verdict.tying.spaces if one.space == name]
    return found


def tie(world: Any, name: str) -> Tie:
    verdict: Verdict = world.verdict()
    (found,) = [one for told in verdict.tying.spaces for one in told.ties if one.name == name]
    return found


def points(world: Any, name: str, *rated: float) -> None:
    world.space(name)["tie_downs"] = [{"rated_dan": dan} for dan in rated]


def test_everything_that_has_to_be_tied_is_told_once(world):
    told = world.verdict().tying
    assert {one.space: [tied.name for tied in one.ties] for one in told.spaces} == {
        "right bay": ["fridge"], "roof place": ["roof tent"],
    }  # fmt: skip
    assert told.barrier is None


def test_the_rule_and_the_advice_ask_for_the_same_ties(world):
    world.gear["petrol can"]["tied"] = True  # its holder holds it
    world.gear["food box"]["tied"] = True
    world.gear["jackets"]["tied"] = True
    verdict = world.verdict()
    judged = {one.subject for one in verdict.findings if one.rule == "restraint" and one.unit == "N"}
    assert {one.space for one in verdict.tying.spaces} == judged == {"right bay", "rear bench", "roof place"}
    assert [one.name for one in space(world, "right bay").ties] == ["fridge", "food box"]


def test_the_four_forces(world):
    found = tie(world, "roof tent")
    forces = (found.forward_n, found.rearward_n, found.sideways_n, found.upward_n)
    assert forces == pytest.approx([56.5 * 9.81 * share for share in (0.8, 0.5, 0.5, 0.2)])
    assert (found.kg, found.in_it_kg) == (56.5, 1.5)  # the tent with the bedding in it


def test_straps_by_strength_to_the_weakest_point(world):
    points(world, "roof place", 200, 20, 100)
    found = tie(world, "roof tent")  # 443.412 N to points of which the weakest holds 100 N
    assert (found.by_strength, found.straps) == (5, 5)
    assert space(world, "roof place").points_dan == (200, 100, 20)


def test_a_hard_thing_has_two_straps_and_a_soft_one_has_one(world):
    points(world, "roof place", 100, 100)
    found = tie(world, "roof tent")
    assert (found.by_strength, found.by_length, found.straps) == (1, 1, 2)
    world.gear["roof tent"]["shape"] = "soft"
    assert tie(world, "roof tent").straps == 1
    assert space(world, "roof place").straps_together == 1


def test_a_long_thing_has_as_many_as_its_length_asks_for(world):
    # 3049 mm are more than ten feet: three straps by length, one by strength.
    world.space("roof place").update(corner_mm=[0, -500, 1950], size_mm=[3100, 1000, 500])
    del world.places["sleeping bag #2"]
    world.gear["roof tent"]["size_mm"] = [3049, 1000, 350]
    world.put("roof tent", (0, -500, 1950), size_mm=(3049, 1000, 350))
    found = tie(world, "roof tent")
    assert (found.by_strength, found.by_length, found.straps) == (1, 3, 3)


def test_the_longer_side_on_the_ground_counts(world):
    world.space("roof place")["corner_mm"] = [1600, -900, 1950]
    world.space("roof place")["size_mm"] = [1200, 1800, 500]
    world.gear["roof tent"]["size_mm"] = [1200, 1600, 350]
    world.put("roof tent", (1600, -900, 1950), size_mm=(1200, 1600, 350))
    assert tie(world, "roof tent").by_length == 2
    world.gear["roof tent"]["size_mm"] = [1200, 1000, 1600]
    world.put("roof tent", (1600, -900, 1950), size_mm=(1200, 1000, 1600))
    assert tie(world, "roof tent").by_length == 1


@pytest.mark.parametrize(("holds", "count"), [("enclosed", 1), ("barrier", 1), ("tie_downs", 2), ("none", 2)])
def test_what_stops_a_thing_forward_by_how_its_space_holds(world, holds, count):
    world.vehicle["spaces"].remove(world.space("can holder"))
    del world.gear["petrol can"], world.places["petrol can"]
    world.space("right bay").update(holds=holds, corner_mm=[2600, 100, 900], size_mm=[1700, 540, 600], solid=[])
    world.vehicle["cargo_barrier"] = {"rated_kg": 100, "top_z_mm": 1500}
    world.gear["fridge"]["size_mm"] = [1600, 300, 400]
    world.put("fridge", (2600, 150, 900), size_mm=(1600, 300, 400))
    assert tie(world, "fridge").by_length == count


def test_lashed_together_the_strongest_points_count_first(world):
    points(world, "roof place", 10, 40, 10, 40, 10)  # 443.412 N of 200 + 200 + 50
    found = space(world, "roof place")
    assert (found.straps_together, found.straps_apart) == (3, 9)


def test_points_that_hold_exactly_are_enough(world):
    points(world, "roof place", 29.5608, 29.5608, 29.5608)  # three times a third of 443.412 N
    found = space(world, "roof place")
    assert (found.straps_together, found.straps_apart) == (3, 3)


def test_points_that_do_not_hold(world):
    points(world, "roof place", 50)
    found = world.verdict().tying
    assert space(world, "roof place").straps_together is None
    assert space(world, "roof place").straps_apart == 2
    assert (found.straps_together, found.straps_apart) == (None, 4)


def test_no_points_at_all(world):
    points(world, "roof place")
    found = space(world, "roof place")
    assert (found.straps_together, found.straps_apart) == (None, None)
    assert (found.pressed_forward_kg, found.pressed_sideways_kg) == (None, None)
    one = tie(world, "roof tent")
    assert (one.by_strength, one.straps, one.pressing_forward, one.pressing_sideways) == (None, None, None, None)
    assert world.verdict().tying.straps_apart is None


def test_the_straps_of_the_whole_vehicle(world):
    points(world, "right bay", 200, 200)
    points(world, "roof place", 20, 20, 20, 20, 20)
    told = world.verdict().tying
    assert (told.straps_together, told.straps_apart) == (2 + 5, 2 + 5)


def test_a_soft_thing_beside_a_hard_one_has_no_fewer_straps(world):
    world.gear["stove"] |= {"tied": True, "shape": "soft"}
    found = space(world, "right bay")
    assert (found.straps_together, found.straps_apart) == (2, 3)


def test_the_heaviest_stage_counts(world):
    world.gear["food box"]["tied"] = True
    assert tie(world, "food box").kg == 10
    for stage in world.trip["stages"]:
        stage["left"] = {"food": 0.5}
    world.trip["stages"][1]["left"] = {"food": 0.75}
    assert tie(world, "food box").kg == pytest.approx(8.5)


def test_the_most_mass_counts(world):
    world.gear["roof tent"]["mass_kg"] = {"least": 50, "likely": 55, "most": 60}
    assert tie(world, "roof tent").kg == 61.5


@pytest.mark.parametrize(("size", "ways"), [
    ((320, 240, 400), ("forward", "sideways")),  # 0.8 and 0.6 exactly: at equality it tips
    ((321, 241, 400), ()),
    ((200, 300, 400), ("forward", "rearward")),  # 0.5 exactly
    ((201, 300, 400), ("forward",)),
    ((400, 240, 400), ("sideways",)),
])  # fmt: skip
def test_what_tips(world, size, ways):
    world.gear["fridge"]["size_mm"] = list(size)
    world.put("fridge", (2600, 150, 900), size_mm=size)
    assert tie(world, "fridge").tips == ways
    world.gear["fridge"]["shape"] = "soft"
    assert tie(world, "fridge").tips == ()


def test_more_weight_downwards_keeps_it_standing():
    assert tips(700, 1000, 0.8, downward_g=1.0)
    assert not tips(700, 1000, 0.8, downward_g=1.2)
    assert not tips(801, 1000, 0.8)


def test_what_a_strap_holds_that_only_presses(world):
    # 2 · 0.15 · sin 75° · 500 N, against (0.8 - 0.15) · 9.81 · 1.25 and (0.5 - 0.15) · 9.81 · 1.1 for each kg.
    points(world, "roof place", 100, 300)
    found = space(world, "roof place")
    holds = 2 * 0.15 * 0.9659258262890683 * 500
    assert found.pressed_forward_kg == pytest.approx(holds / (0.65 * 9.81 * 1.25))
    assert found.pressed_sideways_kg == pytest.approx(holds / (0.35 * 9.81 * 1.1))
    one = tie(world, "roof tent")  # 56.5 kg by 18.2 and 38.4 kg
    assert (one.pressing_forward, one.pressing_sideways) == (4, 2)


def test_the_heaviest_behind_the_barrier(world):
    world.space("right bay")["holds"] = "barrier"
    world.vehicle["cargo_barrier"] = {"rated_kg": 45, "top_z_mm": 1400}
    barrier = world.verdict().tying.barrier
    assert (barrier.name, barrier.kg, barrier.in_it_kg, barrier.rated_kg) == ("fridge", 30, 0, 45)
    assert barrier.force_n == pytest.approx(20 * 9.81 * 30)
    assert barrier.energy_j == pytest.approx(0.5 * 30 * (48 / 3.6) ** 2)


def test_no_barrier_no_advice_on_it(world):
    world.space("right bay")["holds"] = "barrier"
    assert world.verdict().tying.barrier is None
    world.space("right bay")["holds"] = "enclosed"
    world.vehicle["cargo_barrier"] = {"rated_kg": 45, "top_z_mm": 1400}
    assert world.verdict().tying.barrier is None


@pytest.mark.parametrize(("kg", "mm", "blocked", "count"), [
    (498.95, 1524, False, 1), (498.96, 1524, False, 2), (1, 1525, False, 2), (1, 3048, False, 2), (1, 3049, False, 3),
    (1, 6096, False, 3), (1, 6097, False, 4), (900, 1, True, 1), (900, 3048, True, 1), (900, 3049, True, 2),
])  # fmt: skip
def test_counts_by_length_at_their_edges(world, kg, mm, blocked, count):
    assert straps_by_length(kg, mm, blocked, world.case().rulebook.strapping) == count


def test_a_plan_that_names_what_is_not_there_gives_no_error(world):
    world.places["roof tent"]["space"] = "cellar"
    assert [one.space for one in world.verdict().tying.spaces] == ["right bay"]


def test_no_figure_of_the_advice_changes_a_finding(world):
    # Not even friction enough to hold everything: the roof tent pulls too hard for its point and stays broken.
    points(world, "roof place", 50)
    source = "a book of one's own"
    own = {
        "strapping": {"hard_least": 1, "sideways_tip_g": 0.1, "source": source},
        "pressing": {"friction": 1.0, "safety_forward": 0.1, "source": source},
        "lifting": {"load_kg": 1000, "source": source},
        "crash": {"deceleration_g": 1, "source": source},
    }
    case = case_from(world.vehicle, list(world.gear.values()), world.trip, own)
    theirs, ours = world.verdict(case), world.verdict()
    assert theirs.findings == ours.findings
    assert {(one.rule.value, one.subject) for one in theirs.broken} == {("restraint", "roof place")}
    assert theirs.tying.spaces[-1].pressed_forward_kg == inf
    assert theirs.tying.spaces[-1].ties[0].pressing_forward == 0
