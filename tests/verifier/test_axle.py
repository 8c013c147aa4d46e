"""axle: both axles and the front share, with worst masses; the ball lifts the front."""

from typing import Any

import pytest


def loads(world: Any) -> tuple[float, float]:
    totals = world.verdict().totals["leaving"]
    return totals.front_axle_kg, totals.rear_axle_kg


def test_exactly_the_limit_holds(world):
    front, rear = loads(world)
    world.vehicle["limits"] |= {"front_axle_kg": front + 20, "rear_axle_kg": rear + 20}
    assert world.broken() == set()
    world.vehicle["limits"]["rear_axle_kg"] = rear + 19.99
    assert world.broken() == {("axle", "rear axle")}


def test_the_front_axle_over(world):
    world.vehicle["limits"]["front_axle_kg"] = loads(world)[0] + 19.99
    assert world.broken() == {("axle", "front axle")}


def test_axles_carry_the_total(world):
    totals = world.verdict().totals["track"]
    assert totals.front_axle_kg + totals.rear_axle_kg == pytest.approx(totals.mass_kg, rel=1e-12)


def test_a_thing_behind_the_rear_axle_weighs_least_for_the_front(world):
    # Its middle at x 3875 is 675 mm behind the axle: each kilogram takes 0.211 kg off the front axle.
    front = world.found("axle", "front axle", "leaving").value
    rear = world.found("axle", "rear axle", "leaving").value
    world.gear["petrol can"]["mass_kg"] = {"least": 10, "likely": 20, "most": 24}
    assert world.found("axle", "front axle", "leaving").value == pytest.approx(front + 10 * 675 / 3200, rel=1e-12)
    assert world.found("axle", "rear axle", "leaving").value == pytest.approx(rear + 4 * 3875 / 3200, rel=1e-12)


def test_a_thing_ahead_of_the_front_axle_weighs_least_for_the_rear(world):
    x, y, z = world.places["roof tent"]["corner_mm"]
    world.places["roof tent"]["corner_mm"] = (x - 3000, y, z)
    # Its middle at x -800: each kilogram takes 0.25 kg off the rear axle.
    rear = world.found("axle", "rear axle", "leaving").value
    world.gear["roof tent"]["mass_kg"] = {"least": 40, "likely": 55, "most": 59}
    assert world.found("axle", "rear axle", "leaving").value == pytest.approx(rear + 15 * 800 / 3200, rel=1e-12)


def test_a_thing_before_the_rear_axle_weighs_most_for_the_front(world):
    front = world.found("axle", "front axle", "leaving").value
    world.gear["roof tent"]["mass_kg"] = {"least": 40, "likely": 55, "most": 59}
    assert world.found("axle", "front axle", "leaving").value == pytest.approx(front + 4 * 1000 / 3200, rel=1e-12)


def test_the_least_share_of_the_front(world):
    share = world.verdict().totals["leaving"].front_share
    world.vehicle["limits"]["front_share_min"] = share
    assert {stage for _, stage in broken_shares(world)} <= {"track"}
    world.vehicle["limits"]["front_share_min"] = share + 1e-6
    assert ("front share", "leaving") in broken_shares(world)


def broken_shares(world: Any) -> set[tuple[str, str | None]]:
    return {(f.subject, f.stage) for f in world.verdict().broken}


def test_a_ball_presses_the_rear_and_lifts_the_front(world):
    front, rear = loads(world)
    world.tow()
    lifted = 120 * 1200 / 3200
    assert loads(world) == pytest.approx((front - lifted, rear + 120 + lifted), rel=1e-12)


def test_a_ball_at_a_place_nobody_knows(world):
    world.tow(tow_ball_behind_rear_axle_mm=None)
    assert world.unknown() == {("axle", "front axle"), ("axle", "rear axle"), ("axle", "front share")}


def test_a_kerb_with_only_a_total(world):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700, "aboard_l": {"main tank": 80}}
    assert world.unknown() == {("axle", "front axle"), ("axle", "rear axle"), ("axle", "front share")}
    assert world.verdict().totals["leaving"].cg_mm[0] is None


def test_an_unknown_axle_limit(world):
    world.vehicle["limits"]["rear_axle_kg"] = "unknown"
    assert world.unknown() == {("axle", "rear axle")}
