"""A plan made by hand goes into the model; every plan that is broken in one place goes into neither."""

from copy import deepcopy
from itertools import pairwise
from random import Random
from typing import Any

import pytest

from benchmarks.broken_plans import few, spoil
from benchmarks.recipes import RECIPES, Base
from benchmarks.whole import whole_model
from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.reading import case_from
from models.rules import Rule
from solver.build import Build
from solver.digging import in_reach
from solver.given import given_conflict
from solver.neighbourhood import Effort, better, solver_with
from solver.plans import from_plan, to_plan
from solver.problem import Problem
from solver.rules import RULES
from tests.solver.conftest import decided
from tests.verifier.conftest import GEAR, PLACES, TRIP, VEHICLE
from verifier import check


def by_hand() -> Base:
    """The little pickup of the verifier's tests and its plan, sleeping bags given as boxes."""
    gear = deepcopy(GEAR)
    for thing in gear:
        if thing.pop("volume_l", None):
            thing["size_mm"] = [400, 400, 130]
    placements = []
    for name, (space, corner, size, turn) in PLACES.items():
        thing_name, _, number = name.partition(" #")
        placements.append(
            {
                "thing": thing_name, "copy": int(number or 1), "space": space,
                "corner_mm": tuple(corner), "size_mm": tuple(size), "turn": turn,
                "facing": "rear" if name == "fridge" else None,
            }
        )  # fmt: skip
    plan = {"trip": "t.yaml", "placements": tuple(placements), "left_at_home": ({"thing": "camp oven"},)}
    return Base(case_from(VEHICLE, gear, TRIP), Plan.model_validate(plan))


def told(case: Case, plan: Plan) -> Build | None:
    """The model of a case with a plan told to it; None for a plan that no model can be told."""
    problem = Problem(case, locks=plan.locks)
    state = from_plan(problem, plan)
    left = {Copy(home.thing, home.copy_number) for home in plan.left_at_home}
    if len(state.at) < len(plan.placements) or left & {copy_of(p) for p in plan.placements}:
        return None
    for placement in plan.placements:
        it = state.at[problem.piece_of[copy_of(placement)]]
        shapes = problem.pieces[it.piece].shapes
        if not shapes or (shapes[it.shape].size, shapes[it.shape].facing) != (placement.size_mm, placement.facing):
            return None
    build = Build(problem, problem.pieces, range(len(problem.rooms)))
    for add in RULES:
        add(build)
    build.fix(state)
    return build


@pytest.fixture(scope="module")
def bases() -> list[Base]:
    return [by_hand(), few()[0]]


def test_verifier_and_model_accept_good_plans(bases):
    for base in bases:
        assert check(base.case, base.plan).holds is True
        assert given_conflict(Problem(base.case)) is None
        build = told(base.case, base.plan)
        assert build is not None
        assert decided(build)


@pytest.mark.long
def test_verifier_and_model_refuse_every_broken_plan(bases):
    chance = Random(5)  # noqa: S311 - plans by chance, not secrets
    refused: dict[Rule, int] = {}
    for recipe in RECIPES:
        spoiled = spoil(bases, recipe, chance, beyond=True)
        build = None if spoiled is None else told(spoiled.case, spoiled.plan)
        if spoiled is not None and build is not None:
            assert check(spoiled.case, spoiled.plan).holds is not True
            given = given_conflict(build.problem)  # what no load changes is judged before any model
            assert given or not decided(build), (recipe.__name__, spoiled.rule, spoiled.subject)
            refused[spoiled.rule] = refused.get(spoiled.rule, 0) + 1
    assert len(refused) >= 15
    assert sum(refused.values()) >= 30


def test_a_hint_is_complete(bases):
    for base in bases:
        problem = Problem(base.case)
        state = from_plan(problem, base.plan)
        build = Build(problem, [problem.pieces[i] for i in sorted(state.at)], range(len(problem.rooms)), all_come=True)
        for add in RULES[:3]:
            add(build)
        build.hint(state)
        solver = solver_with(Effort(5.0, 60.0))
        solver.parameters.fix_variables_to_their_hinted_value = True
        solver.solve(build.model)
        assert build.read(solver).at == state.at


@pytest.mark.long
def test_a_few_rooms_packed_anew_stay_lawful(bases):
    lower = 0
    for base in bases:
        problem = Problem(base.case)
        state = from_plan(problem, base.plan)
        wanted = [problem.pieces[index] for index in sorted(state.at)]
        used = sorted({it.room for it in state.at.values()})
        for first, second in pairwise(used):
            found = better(state, wanted, (first, second), Effort(0.3, 60.0))
            if found is not None:
                assert found.height_mm() < state.height_mm()
                state, lower = found, lower + 1
        assert check(base.case, to_plan(state, reserve_kept_kg=base.case.reserve_kg)).holds is True
    assert lower


def test_a_locked_piece_stays(bases):
    problem = Problem(bases[1].case)
    state = from_plan(problem, bases[1].plan)
    wanted = [problem.pieces[index] for index in sorted(state.at)]
    state.locked = frozenset(list(state.at)[::2])
    used = sorted({it.room for it in state.at.values()})
    found = better(state, wanted, used[:4], Effort(0.5, 60.0))
    if found is not None:
        assert all(found.at[index] == state.at[index] for index in state.locked)


def test_one_model_of_everything(tiny: Any):
    tiny.space("low", (2000, 0, 500), size_mm=[400, 200, 200])
    tiny.space("high", (2600, 0, 900))
    for name, kg in (("heavy", 30), ("middling", 20), ("light", 10)):
        tiny.thing(name, kg)
    problem = tiny.problem()
    state = whole_model(problem, problem.pieces, 60.0)
    assert state is not None
    # Things are in the order of their names: heavy, light, middling.
    assert [problem.rooms[state.at[i].room].space.name for i in range(3)] == ["low", "high", "low"]
    assert all(in_reach(state, it) for it in state.at.values())
    assert check(tiny.case(), to_plan(state, reserve_kept_kg=0)).holds is True
