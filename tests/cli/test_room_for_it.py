"""What is said of a way to take a thing along, where other things have to lie elsewhere for it."""

import pytest

from cli.explaining import once_moved
from models.case import Copy
from models.reading import read_case


@pytest.mark.parametrize(
    ("count", "says"),
    [
        (0, "as it is"),
        (1, "once {0} lies elsewhere"),
        (2, "once {0} and {1} lie elsewhere"),
        (4, "once 4 other things lie elsewhere"),
    ],
)
def test_what_has_to_lie_elsewhere_is_named_or_counted(count, says, trip):
    case = read_case(trip / "trip.yaml").case
    moved = [Copy(copy.thing, copy.number) for copy in case.copies[:count]]
    assert once_moved(case, moved) == says.format(*map(case.called, moved))
