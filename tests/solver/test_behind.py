"""Choices of what stays behind: heavy enough, the least wanted first, and made only as they are looked at."""

from itertools import combinations, islice
from random import Random

import pytest

from solver.answers import SILENT
from solver.behind import COUNTED, _choices, closed, groups, rest, too_heavy, value
from solver.clock import Budget, Clock
from solver.problem import Problem

FREE_KG = 2000
"""Mass of the vehicle of these cases when nothing is aboard."""


def drawn(tiny, seed: int, number: int) -> Problem:
    """A bay with things of masses and values by chance, some with company, and too much of it."""
    random = Random(seed)  # noqa: S311 - things by chance, not secrets
    tiny.space("bay", (500, -1500, 500), size_mm=[3000, 3000, 1200])
    masses = [random.randint(20, 60) / 10 for _ in range(number)]
    for i, mass in enumerate(masses):
        company = {"with": [f"thing {i - 1}"]} if i and random.random() < 0.2 else {}
        tiny.thing(f"thing {i}", mass, carry=random.randint(1, 9), **company)
    tiny.vehicle["limits"]["gvm_kg"] = FREE_KG + sum(masses) - random.randint(40, 140) / 10
    return Problem(tiny.case())


def plenty(problem: Problem, corners: float = 1e9) -> Budget:
    return Budget(problem, Clock(600.0, SILENT), corners)


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("seed", range(4))
def test_just_the_choices_that_are_heavy_enough_come(tiny, seed, count):
    problem = drawn(tiny, seed, 9)
    wanted = problem.pieces
    every = groups(problem, wanted)
    unions = {tuple(sorted({i for group in some for i in group})) for some in combinations(every, count)}
    known = {gone for gone in unions if not too_heavy(problem, rest(wanted, gone))}
    known = {gone for gone in known if closed(problem, wanted, gone) == gone}
    found = list(_choices(problem, wanted, every, count, plenty(problem)))
    assert len(found) == len(set(found))
    assert set(found) == known


def test_the_fewest_come_first_then_the_least_wanted(tiny):
    tiny.space("bay", (500, -1500, 500), size_mm=[3000, 3000, 1200])
    for i, worth in enumerate((7, 3, 9, 1, 5)):
        tiny.thing(f"thing {i}", carry=worth)
    problem = Problem(tiny.case())
    every = groups(problem, problem.pieces)
    found = list(_choices(problem, problem.pieces, every, 2, plenty(problem)))
    assert len(found) == 10
    assert [value(problem, gone) for gone in found] == sorted(value(problem, gone) for gone in found)


@pytest.mark.parametrize(("over_kg", "most"), [(8.5, 10_000), (11.0, 0)])
def test_of_very_many_choices_only_as_many_are_made_as_are_looked_at(tiny, over_kg, most):
    tiny.space("bay", (500, -1500, 500), size_mm=[6000, 3000, 1200])
    for i in range(150):
        tiny.thing(f"thing {i}", 3.0, carry=5)
    tiny.vehicle["limits"]["gvm_kg"] = FREE_KG + 450 - over_kg
    problem = Problem(tiny.case())
    every, before = groups(problem, problem.pieces), problem.work
    found = list(islice(_choices(problem, problem.pieces, every, 3, plenty(problem)), 60))
    assert len(found) == (60 if most else 0)
    assert problem.work - before <= most


def test_what_is_too_light_is_looked_through_until_the_budget_is_spent(tiny):
    tiny.space("bay", (500, -1500, 500), size_mm=[6000, 3000, 1200])
    for i in range(23):
        tiny.thing(f"thing {i:02}", 3.0 if i < 20 else 6.0, carry=1 if i < 20 else 90)
    tiny.vehicle["limits"]["gvm_kg"] = FREE_KG + 78 - 12
    problem = Problem(tiny.case())
    every = groups(problem, problem.pieces)
    light = 20 * 19 * 18 // 6
    assert next(_choices(problem, problem.pieces, every, 3, plenty(problem)))[-1] >= 20
    assert list(_choices(problem, problem.pieces, every, 3, plenty(problem, COUNTED * light))) == []
