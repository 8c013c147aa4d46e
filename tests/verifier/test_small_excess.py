"""What is too much is never told as nothing, however little it is."""

import pytest

from verifier.finding import against, against_least


@pytest.mark.parametrize(
    ("value", "limit", "told"),
    [
        (95.2, 95.0, "95.2 kg of 95.0 kg, 0.2 kg too much"),
        (2393.9, 2393.8, "2393.9 kg of 2393.8 kg, 0.1 kg too much"),
        (95.05, 95.0, "95.05 kg of 95.00 kg, 0.05 kg too much"),
        (95.0, 94.999, "95.000 kg of 94.999 kg, 0.001 kg too much"),
        (27.0, 26.9999, "27.0000 kg of 26.9999 kg, 0.0001 kg too much"),
        (0.27, 0.2699999, "0.270000 kg of 0.270000 kg, less than 0.000001 kg too much"),
        (131.43, 79.0, "131.5 kg of 79.0 kg, 52.5 kg too much"),
        (131.401, 79.0, "131.5 kg of 79.0 kg, 52.5 kg too much"),
        (131.4, 79.0, "131.4 kg of 79.0 kg, 52.4 kg too much"),
        (95.0, 95.0, "95.0 kg of 95.0 kg"),
        (94.9, 95.0, "94.9 kg of 95.0 kg"),
        (95.0, None, "95.0 kg; the limit is not known"),
    ],
)
def test_value_and_limit_are_told_as_closely_as_it_takes(value, limit, told):
    assert against(value, limit, "kg") == told


@pytest.mark.parametrize(
    ("share", "least", "decimals", "told"),
    [
        (0.57, 0.7, 0, ("57%", "70%")),
        (0.699, 0.7, 0, ("69.9%", "70.0%")),
        (0.69996, 0.7, 0, ("69.996%", "70.000%")),
        (0.7, 0.7, 0, ("70%", "70%")),
        (0.704, 0.7, 0, ("70%", "70%")),
        (0.3498, 0.35, 1, ("34.98%", "35.00%")),
        (0.35 - 4e-10, 0.35, 1, ("less than 35.000000%", "35.000000%")),
        (0.35 - 3e-10, 0.35, 1, ("35.0%", "35.0%")),  # the rounding of the arithmetic
    ],
)
def test_a_share_that_is_too_little_is_not_told_as_enough(share, least, decimals, told):
    assert against_least(share, least, decimals) == told


def test_shares_are_told_so_in_their_findings(world):
    world.space("right bay")["solid"] = []
    world.gear["tool box"]["size_mm"] = [400, 240, 260]
    world.put("tool box", (3079, 100, 900), size_mm=(400, 240, 260))
    world.gear["fridge"]["air_gap_mm"] = {"left": 50}
    world.put("food box", (3200, 100, 1160))
    share = world.verdict().totals["leaving"].front_share
    world.vehicle["limits"]["front_share_min"] = share + 0.00002
    told = {one.subject: one.says for one in world.verdict().broken if one.stage in (None, "leaving")}
    assert told["food box"] == "food box stands on 69.7% of its base; 70.0% is the least."
    less, least = against_least(share, share + 0.00002)
    assert less != least
    assert told["front share"].endswith(f"is {less}; {least} is the least.")
