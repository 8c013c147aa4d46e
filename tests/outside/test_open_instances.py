"""Adapters of open instances: files in their published forms, in small, become the trips they stand for."""

from pathlib import Path
from random import Random

import numpy as np
import pytest
from scipy.optimize import LinearConstraint, milp

from benchmarks import gap, knapsack3d
from benchmarks.assignment import case_of, second_opinion_mm
from benchmarks.jobs import WORTH, jobs_of, published
from benchmarks.knapsack3d import Instance, containers, knapsacks, share, spaced
from benchmarks.one_room import Worth
from benchmarks.table import data_folder
from models.plan import Plan
from solver import Level, Options, propose
from tests.chances import seeds
from verifier import check

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


def test_jobs_become_offers_of_which_one_may_come(tmp_path):
    path = tmp_path / "c0203_1"
    path.write_text(GAP)
    case = jobs_of(path)
    offers = {(thing.hazard, thing.holder): (thing.mass_kg.most, thing.carry) for thing in case.things}
    assert offers["job 001", "agent 00"] == (1.5, 80)
    assert offers["job 002", "agent 01"] == (1.6, 66)
    assert len(offers) == 6
    assert [space.limit_kg.kg for space in case.vehicle.spaces] == [2.5, 3.0]


def most_worth(path: Path) -> float:
    """What is best where each job is done at most once, by a general-purpose solver (scipy's milp, HiGHS)."""
    costs, uses, room = gap.read(path)
    m, n = len(costs), len(costs[0])
    worth = np.array([[WORTH - cost for cost in row] for row in costs]).ravel()
    rows = [[float(k % n == j) for k in range(m * n)] for j in range(n)]
    rows += [[uses[i][k % n] if k // n == i else 0.0 for k in range(m * n)] for i in range(m)]
    limits = LinearConstraint(np.array(rows), -np.inf, [1.0] * n + room)
    return float(-milp(-worth, constraints=limits, integrality=np.ones(m * n), bounds=(0, 1)).fun)


def carried(path: Path, effort: float) -> Level:
    found = propose(jobs_of(path), Options(effort=effort, seconds=600.0))
    assert found.plan is not None
    assert check(jobs_of(path), found.plan).holds
    return found.levels[0]


@pytest.mark.usefixtures("no_bound")
@pytest.mark.parametrize("seed", seeds(1, of=6))
def test_jobs_by_chance_are_done_as_well_as_by_another_solver(tmp_path, seed):
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    m, n = chance.choice(((2, 4), (3, 6), (4, 9)))
    uses = [[chance.randint(5, 25) for _ in range(n)] for _ in range(m)]
    costs = [[chance.randint(10, 50) for _ in range(n)] for _ in range(m)]
    room = [round(chance.uniform(0.6, 1.1) * sum(row) / m) for row in uses]
    lines = [[m, n], *costs, *uses, room]
    path = tmp_path / "by_chance"
    path.write_text("\n".join(" ".join(map(str, line)) for line in lines))
    level = carried(path, 0.1)
    assert level.value == pytest.approx(most_worth(path))
    assert (level.bound, level.state) == (level.value, "proven")


def in_the_data(*names: str) -> Path:
    """A file of the folder with open instances; the test is skipped, and says how not, where it is not there."""
    folder = data_folder()
    path = None if folder is None else folder.joinpath(*names)
    if path is None or not path.is_file():
        pytest.skip(
            f"{'/'.join(names)} of the OR-Library is missing in {folder or 'a folder `data` of the repository'}:"
            " put bounds.txt and the files of gap1 to gap12 into a folder gap, and set LOWSTOW_DATA to the folder"
            " around it (docs/benchmarks.md)"
        )
    return path


def test_published_data_that_are_missing_are_named_with_how_to_have_them(tmp_path, monkeypatch):
    for folder in (tmp_path / "none", tmp_path):
        monkeypatch.setenv("LOWSTOW_DATA", str(folder))
        with pytest.raises(pytest.skip.Exception) as skipped:
            in_the_data("gap", "c0515_1")
        assert str(skipped.value).startswith("gap/c0515_1 of the OR-Library is missing in ")
        assert "set LOWSTOW_DATA" in str(skipped.value)
    (tmp_path / "gap").mkdir()
    (tmp_path / "gap" / "c0515_1").write_text(GAP)
    assert in_the_data("gap", "c0515_1") == tmp_path / "gap" / "c0515_1"


@pytest.mark.usefixtures("no_bound")
@pytest.mark.parametrize("name", ["c0515_1", "c0824_3", "c1030_2"])
def test_published_assignments_are_done_at_their_published_optimum(name):
    """OR-Library gap1 to gap12 (J. E. Beasley), the proven optima of the folder's list; 100 a job less the cost."""
    path = in_the_data("gap", name)
    level = carried(path, 0.05)
    jobs = len({thing.hazard for thing in jobs_of(path).things})
    assert (WORTH * jobs - level.value, level.state) == (published(path.parent)[name], "proven")


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
