"""balance: the difference of left and right wheels."""

import pytest


def test_the_difference_by_hand(world):
    before = world.verdict().totals["leaving"]
    world.gear["roof tent"]["mass_kg"] = 155
    world.rack("cab rack")["limits"] = {"any_kg": 400}
    world.rack("cab roof")["limits"] = {"any_kg": 400}
    world.put("roof tent", (1600, -500, 1950))
    after = world.verdict().totals["leaving"]
    # The tent is in the middle: 100 kg more of it change nothing between the sides.
    assert after.right_kg - after.left_kg == pytest.approx(before.right_kg - before.left_kg, rel=1e-9)


def test_exactly_the_share_holds(world):
    worst = max(
        (finding for finding in world.verdict().findings if finding.rule == "balance"),
        key=lambda finding: finding.value / finding.limit,
    )
    share = worst.value / (worst.limit / 0.05)
    world.vehicle["limits"]["side_difference_share"] = share
    assert world.broken() == set()
    world.vehicle["limits"]["side_difference_share"] = share - 1e-6
    assert world.broken() == {("balance", "left and right")}


def test_a_heavy_thing_to_one_side(world):
    world.gear["recovery kit"]["mass_kg"] = 400
    world.space("right bay")["limit_kg"] = 600
    world.vehicle["limits"] |= {"gvm_kg": 4000, "rear_axle_kg": 3000}
    assert world.broken() == {("balance", "left and right")}


def test_left_and_right_carry_the_total(world):
    totals = world.verdict().totals["track"]
    assert totals.left_kg + totals.right_kg == pytest.approx(totals.mass_kg, rel=1e-12)
