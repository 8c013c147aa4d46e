"""The proven bound on height against trying everything, a linear program, figures by hand, and plans that are found."""

from itertools import product
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.optimize import linprog

from benchmarks.generate import Wanted, made_case
from benchmarks.quick import first_plan
from models.reading import case_from
from solver.bound import Climb, height_bound
from solver.levels import Levels, Tolls
from solver.links import links_of
from solver.plans import from_plan
from solver.problem import Problem
from solver.room_rows import rooms_of
from tests.chances import seeds
from tests.outside.brute import lowest
from tests.outside.test_one_space import case_of, height_mm, small

LONG_S = 600.0
SHORT_S = 1.0
"""Enough for the largest of the made trips; a machine too busy for it finds no bound, which is none that is wrong."""
CUBE_MM = 200
ROUNDING_MM = 2e-3


def bound_mm(problem: Problem) -> float:
    found = height_bound(problem, frozenset(range(len(problem.pieces))), LONG_S).height_mm
    assert found is not None
    return found


def shelves(bench: Any, seed: int) -> tuple[Problem, list[int], list[int], list[int]]:
    """Flat spaces one above the other, each with a limit, and cubes: masses, limits and middles in kg and mm."""
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    kilos = [chance.randint(4, 25) for _ in range(6)]
    limits = [chance.randint(20, 40), chance.randint(20, 40), 200]
    for n, limit in enumerate(limits):
        bench.space(f"shelf {n}", [1000, 0, 500 + 300 * n], [6 * CUBE_MM, CUBE_MM, CUBE_MM], face="top", limit_kg=limit)
    for i, kg in enumerate(kilos):
        bench.thing(f"cube {i}", kg, [CUBE_MM] * 3, turns="fixed")
    case = case_from(bench.vehicle, bench.things, bench.trip)
    return Problem(case), kilos, limits, [500 + 300 * n + CUBE_MM // 2 for n in range(3)]


def best_by_trying(kilos: list[int], limits: list[int], middles: list[int]) -> float:
    """Least height in mm over every way to share the cubes out."""
    sums = []
    for chosen in product(range(3), repeat=len(kilos)):
        loads = np.bincount(chosen, weights=kilos, minlength=3)
        if (loads <= limits).all():
            sums.append(float(loads @ middles))
    return (2000 * 700 + min(sums)) / (2000 + sum(kilos))


def best_in_fractions(kilos: list[int], limits: list[int], middles: list[int]) -> float:
    """The same with cubes shared out in fractions."""
    n = len(kilos)
    answer = linprog(
        np.outer(kilos, middles).ravel(),
        A_ub=np.array([[kilos[i] * (r == s) for i in range(n) for r in range(3)] for s in range(3)]),
        b_ub=limits,
        A_eq=np.array([[float(i == j) for i in range(n) for _ in range(3)] for j in range(n)]),
        b_eq=np.ones(n),
    )
    return float((2000 * 700 + answer.fun) / (2000 + sum(kilos)))


@pytest.mark.parametrize("seed", seeds(6, of=12))
def test_things_shared_out_between_the_fractions_and_the_best(bench, seed):
    problem, kilos, limits, middles = shelves(bench, seed)
    bound = bound_mm(problem)
    assert bound <= best_by_trying(kilos, limits, middles) + 1e-9
    assert bound >= best_in_fractions(kilos, limits, middles) - ROUNDING_MM


def test_half_a_thing_is_no_thing(bench):
    # 30 kg below would hold one and a half things of 20 kg: one goes below, two above.
    bench.space("below", [1000, 0, 500], [1200, 200, 200], face="top", limit_kg=30)
    bench.space("above", [1000, 0, 900], [1200, 200, 200], face="top")
    bench.thing("cube", 20, [200, 200, 200], count=3)
    problem = Problem(case_from(bench.vehicle, bench.things, bench.trip))
    best = (2000 * 700 + 20 * 600 + 40 * 1000) / 2060
    assert best - ROUNDING_MM <= bound_mm(problem) <= best


def test_wet_and_dry_share_no_half_of_a_space(bench):
    # Two wet and two dry things: in fractions one of each fits below, by the rule two of one kind do.
    bench.space("below", [1000, 0, 500], [400, 200, 200], face="top")
    bench.space("above", [1000, 0, 900], [800, 200, 200], face="top")
    bench.space("beside", [2000, 0, 900], [800, 200, 200], face="top")
    bench.thing("wet", 30, [200, 200, 200], count=2, wet=True)
    bench.thing("dry", 10, [200, 200, 200], count=2, weather="dry")
    problem = Problem(case_from(bench.vehicle, bench.things, bench.trip))
    best = (2000 * 700 + 60 * 600 + 20 * 1000) / 2080
    assert best - ROUNDING_MM <= bound_mm(problem) <= best


@pytest.mark.parametrize("seed", seeds(6, of=40))
def test_one_space_by_trying_everything(bench, seed):
    room, boxes = small(seed)
    best = lowest(boxes, room)
    if best is not None:
        assert bound_mm(Problem(case_of(bench, room, boxes))) <= height_mm(boxes, best) + 1e-9


@pytest.mark.long
@pytest.mark.parametrize("seed", seeds(1, of=8, first=5))
def test_no_first_plan_lies_below(seed):
    case = made_case(seed, Wanted(9, 6, 2, fill=0.3, optional=0.0))
    plan = first_plan(case, tries=4, repacks=60)
    assert plan is not None
    problem = Problem(case)
    state = from_plan(problem, plan)
    bound = height_bound(problem, frozenset(state.at), SHORT_S).height_mm
    assert bound is None or bound <= state.height_mm() + 1e-9


@pytest.mark.parametrize("seed", seeds(4, of=8))
def test_a_bound_holds_at_any_tolls(bench, seed):
    problem, kilos, limits, middles = shelves(bench, seed)
    members = {piece.kind: [piece] for piece in problem.pieces}
    rooms = rooms_of(problem, members, 40, float("inf"))
    links = links_of(problem, members, rooms)
    chance = np.random.default_rng(seed)
    for _ in range(5):
        tolls = Tolls(
            {kind: float(chance.normal(0, 10)) for kind in members},
            np.ones(1),
            chance.uniform(0, 0.1, len(links.loads)),
        )
        climb = Climb(Levels(rooms, links, float("inf")), tolls)
        assert climb.ready(float("inf"))
        found = climb.step(float("inf"))
        assert found is not None
        assert found <= best_by_trying(kilos, limits, middles) + 1e-9


@pytest.mark.parametrize(("litres", "least_mm"), [(8.0, 100), (3.2, 40)])
def test_what_is_poured_is_never_above_the_box_it_could_be(bench, litres, least_mm):
    # 400 x 200 floor: 8 L lie 100 mm high with the middle at 50; 3.2 L may not be flatter than 80 mm.
    bench.space("bay", [1000, 0, 500], [400, 200, 300], face="top")
    bench.thing("sack", 10, [1, 1, 1], shape="soft", volume_l=litres)
    del bench.things[0]["size_mm"]
    problem = Problem(case_from(bench.vehicle, bench.things, bench.trip))
    best = (2000 * 700 + 10 * (500 + max(least_mm, 80) / 2)) / 2010
    # A layer is 40 mm: what is poured may seem lower by an eighth of 40² / 80 mm, and by its lowest layers' filling.
    assert best - 10 * 20 / 2010 <= bound_mm(problem) <= best + 1e-9


@pytest.mark.parametrize("above", ["a solid", "a slide"])
def test_a_fixed_box_may_be_above_what_nothing_may_lie_on(bench, above):
    # The kit needs all of the floor and nothing on it. What is fixed is no thing: it is not taken off the air above.
    bench.space("low", [2000, 0, 300], [400, 400, 400], face="top")
    bench.space("high", [2600, 0, 900], [400, 400, 400], face="top")
    if above == "a solid":
        bench.vehicle["spaces"][0]["solid"] = [{"corner_mm": [2000, 0, 600], "size_mm": [400, 400, 100]}]
    else:
        bench.space("tray", [1500, 0, 600], [400, 400, 100], slides={"to": "rear", "mm": 600})
    bench.vehicle["openings"][1]["seconds"] = 5
    bench.thing("kit", 100, [400, 400, 200], access="at_once", turns="fixed")
    bench.put("kit", "low", (2000, 0, 300), turn="lwh")
    assert bench.verdict().holds
    problem = Problem(case_from(bench.vehicle, bench.things, bench.trip))
    best = (2000 * 700 + 100 * 400) / 2100
    assert best - ROUNDING_MM <= bound_mm(problem) <= best


def test_what_nothing_may_lie_on_and_a_fixed_box_each_keep_their_room(bench):
    # Two kits side by side fill the floor; a third finds nothing above them, and beside a solid there is room for one.
    bench.space("low", [2000, 0, 300], [400, 400, 400], face="top")
    bench.space("high", [2600, 0, 900], [800, 400, 400], face="top")
    bench.vehicle["openings"][1]["seconds"] = 5
    bench.thing("kit", 100, [200, 400, 200], access="at_once", turns="fixed", count=3)
    case = case_from(bench.vehicle, bench.things, bench.trip)
    best = (2000 * 700 + 200 * 400 + 100 * 1000) / 2300
    assert best - ROUNDING_MM <= bound_mm(Problem(case)) <= best
    bench.vehicle["spaces"][0]["solid"] = [{"corner_mm": [2000, 0, 300], "size_mm": [200, 400, 400]}]
    case = case_from(bench.vehicle, bench.things, bench.trip)
    best = (2000 * 700 + 100 * 400 + 200 * 1000) / 2300
    assert best - ROUNDING_MM <= bound_mm(Problem(case)) <= best


def stored_by_chance(bench: Any, seed: int) -> None:
    """Kits that nothing may lie on and boxes, put by chance into spaces open at the top, with solids and slides."""
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    for n in range(2):
        corner = [1000 + 1000 * n, 0, 300 + 400 * n]
        solids = [
            {"corner_mm": [corner[0] + 100 * chance.randint(0, 3), 0, corner[2] + 100 * z], "size_mm": [100, 300, 100]}
            for z in chance.sample(range(4), chance.randint(0, 2))
        ]
        bench.space(f"bay {n}", corner, [400, 300, 400], face="top", solid=solids)
        if not solids:
            at = [corner[0] - 450, 0, corner[2] + 100 * chance.randint(1, 3)]
            bench.space(f"tray {n}", at, [400, 300, 100], slides={"to": "rear", "mm": 100 * chance.randint(1, 4) + 50})
    bench.vehicle["openings"][1]["seconds"] = 5
    for i in range(40):
        size = [100 * chance.randint(1, 3) for _ in range(3)]
        quick = {"access": "at_once"} if chance.random() < 0.5 else {}
        bench.thing(f"thing {i}", chance.randint(5, 15), size, turns="fixed", **quick)
        n = chance.randint(0, 1)
        corner = [1000 + 1000 * n, 0, 300 + 400 * n]
        place = [
            c + 100 * chance.choice(steps) for c, steps in zip(corner, (range(4), range(3), (0, 0, 1)), strict=True)
        ]
        bench.put(f"thing {i}", f"bay {n}", (place[0], place[1], place[2]), turn="lwh")
        if bench.verdict().broken:
            bench.things.pop()
            bench.places.pop()


@pytest.mark.parametrize("seed", seeds(1, of=30, first=8))
def test_no_lawful_layout_by_chance_lies_below(bench, seed):
    stored_by_chance(bench, seed)
    verdict = bench.verdict()
    assert verdict.holds
    assert bench.things
    height = verdict.totals["go"].cg_height_mm
    assert height is not None
    assert bound_mm(Problem(case_from(bench.vehicle, bench.things, bench.trip))) <= height + 1e-9
