"""Claims of a plan are recomputed and compared, never used."""

import pytest


def test_true_claims_within_rounding(world):
    totals = world.verdict().totals["track"]
    world.plan["claims"] = {
        "cg_height_mm": {"track": totals.cg_height_mm + 0.49},
        "front_axle_kg": {"track": totals.front_axle_kg - 0.49},
        "rear_axle_kg": {"track": totals.rear_axle_kg},
        "mass_kg": {"track": totals.mass_kg},
    }
    assert world.verdict().claims_off == ()


@pytest.mark.parametrize("claim", ["cg_height_mm", "front_axle_kg", "rear_axle_kg", "mass_kg"])
def test_a_claim_that_is_off(world, claim):
    totals = world.verdict().totals["track"]
    world.plan["claims"] = {claim: {"track": getattr(totals, claim) + 0.51}}
    (says,) = world.verdict().claims_off
    assert "'track'" in says


def test_a_claim_of_a_stage_that_does_not_exist(world):
    world.plan["claims"] = {"mass_kg": {"moon": 1.0}}
    assert len(world.verdict().claims_off) == 1
