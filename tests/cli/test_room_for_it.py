"""What is said of a way to take a thing along, where other things have to lie elsewhere for it."""

import pytest

from cli.explaining import once_moved, way_words
from models.case import Copy
from models.reading import read_case, read_plan
from solver import WayToTake


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


def test_a_copy_of_several_is_told_by_its_number(trip):
    read = read_plan(trip / "plan.yaml")
    way = WayToTake(leave=Copy("camp chair", 1), limit=None, more_kg=0.0, plan=read.plan, along=(Copy("water can", 1),))
    told = "leave camp chair #1 at home instead (worth 30 of 100 to you), and water can #1 comes along"
    assert way_words(read.case, way, []) == told
