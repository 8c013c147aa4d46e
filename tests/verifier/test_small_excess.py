"""What is too much is never told as nothing, however little it is."""

import pytest

from verifier.finding import against


@pytest.mark.parametrize(
    ("value", "limit", "told"),
    [
        (95.2, 95.0, "95.2 kg of 95.0 kg, 0.2 kg too much"),
        (2393.9, 2393.8, "2393.9 kg of 2393.8 kg, 0.1 kg too much"),
        (95.05, 95.0, "95.05 kg of 95.00 kg, 0.05 kg too much"),
        (95.0, 94.999, "95.000 kg of 94.999 kg, 0.001 kg too much"),
        (27.0, 26.9999, "27.0000 kg of 26.9999 kg, 0.0001 kg too much"),
        (0.27, 0.2699999, "0.270000 kg of 0.270000 kg, less than 0.000001 kg too much"),
        (95.0, 95.0, "95.0 kg of 95.0 kg"),
        (94.9, 95.0, "94.9 kg of 95.0 kg"),
        (95.0, None, "95.0 kg; the limit is not known"),
    ],
)
def test_value_and_limit_are_told_as_closely_as_it_takes(value, limit, told):
    assert against(value, limit, "kg") == told
