"""Least, likely and most: which of the three each rule takes."""

from typing import Any

import pytest

CASES = [
    # rule, subject, thing, what the finding gains when the most mass is 2 kg more
    ("space_mass", "roof place", "roof tent", 2),
    ("rack", "cab rack", "roof tent", 2),
    ("gross_mass", "total", "roof tent", 2),
    ("axle", "rear axle", "roof tent", 2 * 2200 / 3200),
    ("axle", "front axle", "roof tent", 2 * 1000 / 3200),
    ("support", "tool box", "food box", 2),
    ("restraint", "roof place", "roof tent", 2 * 0.8 * 9.81),
]


def value(world: Any, rule: str, subject: str, thing: str, more: tuple[float, float]) -> float:
    """Value of a finding when the likely and the most mass of a thing are so much more than listed."""
    full, (likely, most) = world.gear[thing]["mass_kg"], more
    world.gear[thing]["mass_kg"] = {"least": full, "likely": full + likely, "most": full + most}
    found: float = world.found(rule, subject, "leaving").value
    world.gear[thing]["mass_kg"] = full
    return found


@pytest.mark.parametrize(("rule", "subject", "thing", "gain"), CASES)
def test_limits_take_the_most(world, rule, subject, thing, gain):
    before = world.found(rule, subject, "leaving").value
    gains = [value(world, rule, subject, thing, (likely, 2)) - before for likely in (0, 1, 2)]
    assert gains == pytest.approx([gain, gain, gain], abs=1e-9)


@pytest.mark.parametrize(("rule", "subject"), [("axle", "front share"), ("balance", "left and right")])
def test_shares_take_the_likely(world, rule, subject):
    before = world.found(rule, subject, "leaving").value
    assert value(world, rule, subject, "petrol can", (0, 9)) == before
    assert value(world, rule, subject, "petrol can", (1, 9)) != before
