"""Weighbridge against plan: differences, limits, the place of what is missing, questions, most likely masses."""

from typing import Any

import numpy as np
import pytest

from models.plan import Plan
from models.stages import mass_kg
from verifier import Ticket, Weighing, weigh
from verifier.weighing import missing_x_mm


def plan_of(world: Any) -> Plan:
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})


def predicted(world: Any, stage: str = "leaving") -> tuple[float, float]:
    totals = world.verdict().totals[stage]
    return totals.front_axle_kg, totals.rear_axle_kg


def weighed(world: Any, front: float, rear: float, *sides: float, division_kg: float = 20.0) -> Weighing:
    """A ticket so many kg off what is predicted at the first stage."""
    own = predicted(world)
    totals = world.verdict().totals["leaving"]
    left, right = (totals.left_kg + sides[0], totals.right_kg + sides[1]) if sides else (None, None)
    case = world.case()
    ticket = Ticket(own[0] + front, own[1] + rear, left, right, division_kg)
    return weigh(case, plan_of(world), case.trip.stages[0], ticket)


def test_a_ticket_as_predicted(world):
    found = weighed(world, 0, 0)
    assert [one.difference_kg for one in found.differences] == pytest.approx([0, 0, 0])
    assert (found.holds, found.questions, found.missing, found.shifted_kg, found.corrections) == (
        True, (), None, None, ()
    )  # fmt: skip


def test_one_thing_more_is_found_where_it_is(world):
    """A mass of 100 kg at x = 2400 mm of a wheelbase of 3200 mm puts 25 kg on the front and 75 kg on the rear axle."""
    found = weighed(world, 25, 75)
    assert found.missing is not None
    assert found.missing.mass_kg == pytest.approx(100)
    assert found.missing.x_mm == pytest.approx(2400)
    assert found.missing.right_mm is None
    assert "rear bench" not in found.missing.spaces
    assert "roof place" in found.missing.spaces


def test_behind_the_rear_axle_the_front_gets_lighter(world):
    assert missing_x_mm(3200, -25, 125) == pytest.approx(4000)
    assert weighed(world, -25, 125).missing is not None


def test_left_and_right_say_which_side(world):
    """The same 100 kg at y = +314 mm of a track of 1570 mm puts 30 kg on the left wheels and 70 kg on the right."""
    found = weighed(world, 25, 75, 30, 70)
    assert found.missing is not None
    assert found.missing.right_mm == pytest.approx(314)
    assert found.missing.spaces == ("roof place",)
    assert not weighed(world, 25, 75, -130, 230, division_kg=0.5).questions
    assert not weighed(world, 25, 75, -130, 230).missing.in_vehicle  # type: ignore[union-attr]


def test_nothing_is_missing_within_the_doubt_or_within_a_step(world):
    doubt = world.verdict().doubts["leaving"].total_kg
    assert weighed(world, 0, doubt - 0.1, division_kg=1).missing is None
    assert weighed(world, 0, doubt + 0.1, division_kg=1).missing is not None
    assert weighed(world, 0, doubt + 0.1, division_kg=doubt + 1).missing is None


def test_a_shift_leaves_the_total_as_it_is(world):
    found = weighed(world, -60, 60)
    assert found.missing is None
    assert found.shifted_kg == pytest.approx(60)
    assert weighed(world, -10, 10).shifted_kg is None


def test_limits_are_those_of_what_was_measured(world):
    front, rear = predicted(world)
    world.vehicle["limits"] |= {"front_axle_kg": front, "rear_axle_kg": rear, "gvm_kg": front + rear + 1}
    assert weighed(world, 0, 0).holds is True, "no reserve is added to what a scale has said"
    over = weighed(world, 0, 0.5)
    assert {one.subject for one in over.limits if one.holds is False} == {"rear axle"}
    assert {one.subject for one in weighed(world, 1, 1).limits if one.holds is False} == {
        "front axle", "rear axle", "total"
    }  # fmt: skip
    del world.vehicle["limits"]["gvm_kg"]
    assert weighed(world, 0, 0).holds is None
    assert weighed(world, 0, 0.5).holds is False


@pytest.mark.parametrize(("front", "rear"), [(0, -300), (-300, 0), (300, 0), (200, 200)])
def test_a_ticket_that_is_far_off_is_questioned_before_anything_is_concluded(world, front, rear):
    found = weighed(world, front, rear)
    assert len(found.questions) == 2
    assert found.holds is None, "nothing is signed off by a ticket that is in question"
    assert "pounds" in found.questions[1]
    assert "right way round" in found.questions[1]
    assert (found.missing, found.shifted_kg, found.corrections) == (None, None, ())


def test_swapped_axles_are_asked_for_by_name(world):
    front, rear = predicted(world)
    world.vehicle["kerb"] |= {"front_kg": 1400, "rear_kg": 700}
    front, rear = predicted(world)
    assert abs(front - rear) > 150
    found = weighed(world, rear - front, front - rear)
    assert "swapped" in found.questions[1]
    assert len(found.questions) == 2


@pytest.mark.parametrize(("factor", "word"), [(2.2046, "Are these pounds?"), (1 / 2.2046, "twice"), (0.001, "tonnes?")])
def test_other_units_are_asked_for_by_name(world, factor, word):
    front, rear = predicted(world)
    found = weighed(world, front * (factor - 1), rear * (factor - 1))
    assert word in found.questions[1]


def test_four_readings_must_add_up(world):
    assert "all four" in weighed(world, 0, 0, 30, 30).questions[0]
    assert weighed(world, 0, 0, 30, 30).holds is None
    assert weighed(world, 0, 0, 20, 20).questions == ()


def test_unknown_axles_leave_the_total(world):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700}
    case = world.case()
    found = weigh(case, plan_of(world), case.trip.stages[0], Ticket(1300, 1300))
    known = {one.subject: one.difference_kg is not None for one in found.differences}
    assert known == {"front axle": False, "rear axle": False, "total": True}
    assert (found.missing, found.corrections) == (None, ())


def test_corrections_are_the_least_squares_that_an_outside_solver_finds(world):
    """Minimise the sum of (correction / deviation)² and (reading not explained / deviation of the scale)²."""
    off = np.array([20.0, 45.0])
    found = weighed(world, *off)
    case = world.case()
    stage, share = case.trip.stages[0], case.rulebook.doubt.share
    names: list[str] = []
    deviation: list[float] = []
    columns: list[tuple[float, float]] = []
    for name, kg, column in (("front", 1190, (1, 0)), ("rear", 960, (0, 1))):
        names.append(f"empty vehicle, {name} axle")
        deviation.append(share["weighbridge"] * kg)
        columns.append(column)
    for thing in case.things:
        here = [p for p in plan_of(world).placements if p.thing == thing.name]
        if here:
            rear = sum((p.corner_mm[0] + p.size_mm[0] / 2) / 3200 for p in here)
            names.append(thing.name)
            deviation.append(share[thing.known_from] * mass_kg(thing, stage, "likely"))
            columns.append((len(here) - rear, rear))
    acting, sigma = np.array(columns).T, np.array(deviation)
    scale = np.sqrt(20**2 / 12 + 4**2)
    stacked = np.vstack([acting / scale, np.diag(1 / sigma)])
    best, *_ = np.linalg.lstsq(stacked, np.concatenate([off / scale, np.zeros(len(sigma))]), rcond=None)
    expected = {name: kg for name, kg in zip(names, best, strict=True) if abs(kg) >= 0.05}
    assert {one.subject: one.each_kg for one in found.corrections} == pytest.approx(expected, rel=1e-6)


def test_weighed_things_barely_move_and_guesses_do(world):
    world.gear["fridge"]["known_from"] = "weighed"
    world.gear["tool box"] |= {"mass_kg": 30, "known_from": "guess"}
    moved = {one.subject: abs(one.each_kg) for one in weighed(world, 20, 45).corrections}
    assert moved["tool box"] > 20 * moved.get("fridge", 0.0)
    left = {one.subject: (one.left_kg, one.deviation_kg) for one in weighed(world, 20, 45).corrections}
    assert all(now <= before for now, before in left.values())
