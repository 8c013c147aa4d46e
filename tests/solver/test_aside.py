"""A second search in a process of its own: the same answers as here, none lost, and nothing left behind."""

from functools import cache
from random import Random

import pytest

from benchmarks.generate import Wanted, made_case
from solver import SILENT, Options, Proposal, aside, propose
from solver.aside import Aside, Asked, started
from solver.beginning import first
from solver.bound import Bound
from solver.clock import Clock
from solver.patterns import patterns_of
from solver.problem import Problem
from solver.repack import score
from solver.side import BringOn, Layout, ProveBound, Side, best_of
from solver.state import State, lying

LONG_S = 600.0
FULL = Options(effort=2.5, seconds=LONG_S)
"""As much effort for a small trip as a whole one has by default."""


@cache
def laid() -> State:
    """A layout of the musts of a small made trip."""
    problem = Problem(made_case(3, Wanted(9, 4, 2)))
    must = [piece for piece in problem.pieces if piece.thing.must]
    found = first(problem, must, State(problem), chance(), Clock(LONG_S, SILENT), 500)
    assert found is not None
    return found


def heights(found: Proposal) -> list[float | None]:
    """What was reached at each level."""
    return [level.value for level in found.levels]


def chance() -> Random:
    return Random(0)  # noqa: S311 - by chance, not a secret


def job(layout: Layout) -> BringOn:
    return BringOn(layout, None, 0.5, LONG_S, 0.1)


@pytest.fixture
def beside():
    found = Aside(laid().problem, None)
    yield found
    found.close()


def answers_alike(beside: Aside) -> None:
    packed = Side(laid().problem).packed(laid())
    there = beside.begin(job(packed))()
    assert beside._process is not None  # noqa: SLF001 - it answered, and nothing had to be done here
    here = job(packed).run(Asked(laid().problem.case, use_reserve=True, locks=(), before=None).side())
    assert there == here


def test_the_other_process_answers_as_this_one_would(beside):
    answers_alike(beside)


def test_a_layout_arrives_as_it_left_and_is_lawful():
    mine, other = Side(laid().problem), Side(Problem(laid().problem.case))
    arrived = other.unpacked(mine.packed(laid()))
    assert arrived.at == laid().at
    assert score(arrived, laid().carried(), State.height_mm) == score(laid(), laid().carried(), State.height_mm)


def test_what_the_other_side_knows_does_not_travel_again():
    mine, other = Side(laid().problem), Side(Problem(laid().problem.case))
    packed = mine.packed(laid())
    assert packed.patterns
    assert set(packed.patterns) <= set(patterns_of(other.unpacked(packed)).contents())
    assert mine.packed(laid()).patterns == ()
    assert not set(other.packed(other.unpacked(packed)).patterns) & set(packed.patterns)


def test_a_process_that_ends_too_soon_loses_nothing(beside):
    packed = Side(laid().problem).packed(laid())
    waiting = beside.begin(job(packed))
    process = beside._process  # noqa: SLF001 - somebody else may end it as well
    process.kill()
    process.wait()
    assert Side(laid().problem).unpacked(waiting()).height_mm() <= laid().height_mm()
    assert isinstance(beside.begin(ProveBound(frozenset(laid().at), 5.0))(), Bound)


def test_close_ends_the_process_in_the_middle_of_its_work():
    beside = Aside(laid().problem, None)
    process = beside._process  # noqa: SLF001
    assert process is not None
    beside.begin(BringOn(Side(laid().problem).packed(laid()), None, 0.5, LONG_S, 50.0))
    beside.close()
    assert process.poll() is not None


def test_a_folder_with_the_names_of_our_packages_does_not_disturb(tmp_path, monkeypatch):
    for name in ("solver", "models"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "__init__.py").write_text("raise SystemExit\n", "utf-8")
    monkeypatch.chdir(tmp_path)
    answers_alike(beside := Aside(laid().problem, None))
    beside.close()


def test_without_a_second_process_the_plan_is_the_same(monkeypatch):
    case = made_case(3, Wanted(14, 5, 2))
    process = started()
    assert process is not None
    monkeypatch.setattr(aside, "started", lambda: process)
    two = propose(case, FULL)
    assert process.poll() is not None
    monkeypatch.setattr(aside, "started", lambda: None)
    one = propose(case, FULL)
    assert one.plan is not None
    assert (one.plan, heights(one)) == (two.plan, heights(two))


def test_the_best_is_worth_the_most_and_then_the_lowest(tiny):
    tiny.space("shelf", size_mm=[400, 400, 400])
    tiny.thing("stove", 10, carry=20)
    low, high, none = (State(tiny.problem()) for _ in range(3))
    problem = low.problem
    low.add(lying(problem, 0, 0, 0, 2000, 0, 500))
    high.add(lying(problem, 0, 0, 0, 2000, 0, 700))
    assert best_of((none, high, low)) is low
