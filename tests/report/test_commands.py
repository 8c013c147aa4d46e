"""Commands that are told can be typed as they stand, whatever things and files are called."""

from shlex import split

import pytest

from models.case import Copy
from packing import MoveList
from report.explained import Explained, Figures, Offer, RowTold
from report.terminal.explanation import explain_report
from report.terminal.typed import quoted


@pytest.mark.parametrize(
    "name",
    [
        "tent", "water can #2", "first-aid", "it's", 'the "big" box', "Ada's \"big\" box", "Ada's $5 bag",
        "Ada's `bag`", "a\\b", "Béla", "水", "~", "*", "a;b", "&", "my trip/plan.yaml", "trips/plan_2.yaml",
    ],
)  # fmt: skip
def test_a_name_comes_to_the_command_as_it_is(name):
    assert split(quoted(name)) == [name]


@pytest.mark.parametrize("name", ["tent", "first-aid", "plan.yaml", "trips/plan_2.yaml", "Béla"])
def test_what_needs_no_quotes_has_none(name):
    assert quoted(name) == name


@pytest.mark.parametrize("name", ["Ada's $5 bag", "Ada's `bag`", 'Ada\'s "big" bag'])
def test_a_shell_takes_nothing_in_a_name_for_its_own(name):
    assert quoted(name).startswith("'")


def test_a_plan_in_a_folder_with_a_blank_in_its_name(told):
    here = Figures("leaving", 702.0, 265.0, 219.4, 695.2, 806.0)
    row = RowTold("left bay", "could", offer=Offer(told.plan, here, here, MoveList((), 0.0)), word="hardly matters")
    text = explain_report(told.case, Explained(Copy("camp chair", 1), "right shelf", (), (row,), "my trip/plan.yaml"))
    assert "\n  lowstow revise 'my trip/plan.yaml'\n" in text
