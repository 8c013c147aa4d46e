"""Adapters of open instances: files in their published forms, in small, become the trips they stand for."""

import pytest

from benchmarks import gap, knapsack3d
from benchmarks.assignment import case_of, second_opinion_mm
from benchmarks.knapsack3d import Instance, containers, knapsacks, share, spaced
from benchmarks.one_room import Worth
from models.plan import Plan

GAP = """2 3
10 20 30
14 22 34
 8 15 14
 9 12 16
25 30
"""
"""Two agents and three jobs: costs, uses and capacities, as in the OR-Library."""

BOXES = """2
1 2502505
400 200 100
2
1 200 0 200 1 100 1 3
2 400 1 200 1 100 1 1
2 2502605
100 100 100
1
1 50 0 50 0 50 1 8
"""
"""Two problems: number and seed, the container, how many kinds, and each: three sides with a flag, how many."""

KNOWN = "Path,Best known solution value\nbischoff1995/BR1.txt_1,8000000\nbischoff1995/BR1.txt_2,1000000\n"

KNAPSACK = "dim,300,200,100\nbox, 0, 100, 200, 100, 2000200, 2\nbox, 1, 100, 100, 100, 1000200, 1\n"


def test_assignment_becomes_bars_in_shelves(tmp_path):
    path = tmp_path / "c0203_1"
    path.write_text(GAP)
    costs, uses, room = gap.read(path)
    assert (costs[1], uses[0], room) == ([14, 22, 34], [8, 15, 14], [25, 30])
    bars = gap.bars_of(path)
    # 20 mm a unit: the least use of each job; mean costs as kilograms; an agent's capacity is its shelf.
    assert (bars.length_mm, bars.mass_kg) == ((160, 240, 280), (12.0, 21.0, 32.0))
    assert (bars.shelf_mm, bars.floor_mm) == ((500, 600), (500, 1250))
    assert [space.size_mm[0] for space in case_of(bars).vehicle.spaces] == [500, 600]


def test_assignment_by_hand(tmp_path):
    # The lower shelf of 500 mm holds 160 and 280, or 240 alone: the 12 and 32 kg go below, the 21 kg above.
    path = tmp_path / "c0203_1"
    path.write_text(GAP)
    height_mm, proven = second_opinion_mm(gap.bars_of(path))
    assert proven
    assert height_mm == pytest.approx((2000 * 700 + 44 * 600 + 21 * 1350) / 2065)


@pytest.fixture
def folder(tmp_path):
    for name in ("bischoff1995", "egeblad2009"):
        (tmp_path / name).mkdir()
    (tmp_path / "bischoff1995" / "BR1.txt").write_text(BOXES)
    (tmp_path / "data_knapsack_bischoff1995_davies1999.csv").write_text(KNOWN)
    (tmp_path / "egeblad2009" / "ep3d-03-C-C-50.3kp").write_text(KNAPSACK)
    return tmp_path


def test_containers_are_read_one_after_the_other(folder):
    first, second = containers(folder, "BR1")
    assert (first.name, first.room_mm, first.best) == ("BR1 1", (400, 200, 100), 8_000_000)
    # One of two long sides may stand upright: our turns cannot say that, so the top stays up.
    assert first.kinds == (
        Worth((200, 200, 100), "upright", 4_000_000, 3),
        Worth((400, 200, 100), "any", 8_000_000, 1),
    )
    assert (first.exact_turns, second.exact_turns) == (False, True)
    assert second.kinds == (Worth((50, 50, 50), "upright", 125_000, 8),)


def test_a_container_that_can_be_filled_is_filled(folder):
    for instance in containers(folder, "BR1"):
        assert share(instance, 0.0) == 1.0


def test_knapsacks_keep_their_turns_and_their_profits(folder):
    (instance,) = knapsacks(folder)
    assert (instance.name, instance.room_mm, instance.best) == ("ep3d-03-C-C-50", (300, 200, 100), None)
    assert instance.kinds == (
        Worth((100, 200, 100), "fixed", 2_000_200, 2),
        Worth((100, 100, 100), "fixed", 1_000_200, 1),
    )
    assert share(instance._replace(best=5_000_600), 0.0) == 1.0


def test_a_packing_that_sticks_out_is_an_error(folder, monkeypatch):
    out = {"thing": "box 000", "space": "room", "corner_mm": (201, 0, 500), "size_mm": (200, 200, 100)}
    plan = Plan.model_validate({"trip": "t.yaml", "placements": (out,)})
    monkeypatch.setattr(knapsack3d, "to_plan", lambda *_, **__: plan)
    with pytest.raises(RuntimeError, match="inside"):
        share(next(containers(folder, "BR1")), 0.0)


@pytest.mark.parametrize(("many", "chosen"), [(1, [0]), (2, [0, 5]), (3, [0, 3, 6]), (20, list(range(10)))])
def test_a_few_are_spaced_evenly(many, chosen):
    instances = [Instance(str(n), (1, 1, 1), (), None, True) for n in range(10)]
    assert [int(instance.name) for instance in spaced(instances, many)] == chosen
