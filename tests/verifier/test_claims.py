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


def test_half_a_kilogram_is_rounding_and_no_more(world):
    world.plan["claims"] = {"mass_kg": {"track": world.verdict().totals["track"].mass_kg + 0.5}}
    assert world.verdict().claims_off == ()


def test_a_claim_of_what_cannot_be_known(world):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700}
    world.plan["claims"] = {"rear_axle_kg": {"track": 1400.0}}
    assert world.verdict().claims_off == (
        "The plan claims a rear axle of 1400.0 kg at 'track'; it cannot be known.",
    )  # fmt: skip


def test_after_a_stage_that_does_not_exist_the_others_are_looked_at(world):
    world.plan["claims"] = {"mass_kg": {"moon": 1.0, "track": 1.0}}
    assert len(world.verdict().claims_off) == 2


def test_a_total_that_is_off_says_what_is_not_in_it_when_towing(world):
    world.tow()
    kg = world.verdict().totals["track"].mass_kg
    world.plan["claims"] = {"mass_kg": {"track": kg + 120}}
    (says,) = world.verdict().claims_off
    assert says.endswith(f"it is {kg:.1f} kg without the 120.0 kg on the tow ball.")
