"""Moves that nobody asked for and that would be worth their minutes."""

import pytest

from models.case import Case, Copy, fresh
from models.plan import Placement, Plan
from models.reading import case_from, shipped_rulebook
from solver import Options, propose, revise, worth_a_minute

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")
QUICK = Options(effort=0.02, seconds=600.0)


def high_up(case: Case) -> Plan:
    """A plan of a heavy thing, found, and then put where it lies as high as can be."""
    found = propose(case, QUICK).plan
    assert found is not None
    there = {"thing": "anvil", "space": "high", "corner_mm": (2600, 0, 900), "size_mm": (200, 200, 200)}
    return found.model_copy(update={"placements": (Placement.model_validate(there),)})


@pytest.fixture
def anvil(tiny) -> Case:
    """A heavy thing that may lie low or high, and nothing else."""
    tiny.space("low", (2000, 0, 500))
    tiny.space("high", (2600, 0, 900))
    tiny.thing("anvil", 60, carry="must")
    return case_from(tiny.vehicle, tiny.things, tiny.trip)


def test_a_move_that_gains_much_is_told_and_not_made(anvil):
    plan = high_up(anvil)
    found = revise(anvil, plan, QUICK)
    assert found.proposal.plan is not None
    assert [place.space for place in found.proposal.plan.placements] == ["high"]
    (move,) = found.further
    assert (move.copy, move.to_space) == (Copy("anvil", 1), "low")
    # 60 of 2060 kg, 400 mm lower.
    assert move.lower_mm == pytest.approx(60 * 400 / 2060)
    assert [place.space for place in move.plan.placements] == ["low"]


def test_where_lifting_and_opening_take_no_time_a_gain_is_always_worth_it(anvil):
    book = shipped_rulebook()
    steps = tuple(step.model_copy(update={"seconds": 0.0}) for step in book.handling.steps)
    quick = book.model_copy(update={"handling": book.handling.model_copy(update={"steps": steps})})
    doors = tuple(one.model_copy(update={"seconds": 0.0}) for one in anvil.vehicle.openings)
    free = anvil.model_copy(update={"rulebook": quick})
    case = fresh(free, vehicle=anvil.vehicle.model_copy(update={"openings": doors}))
    (move,) = revise(case, high_up(case), QUICK).further
    assert (move.to_space, move.minutes) == ("low", 0)


@pytest.mark.parametrize(
    ("lower_mm", "fewer_s", "minutes", "told"),
    [
        (1.0, 0.0, 1.0, True),
        (0.99, 0.0, 1.0, False),
        (0.0, 10.0, 1.27, False),
        (0.0, 13.0, 1.27, True),
        (9, -5, 1, False),
    ],
)
def test_a_millimetre_or_ten_seconds_a_day_for_each_minute(lower_mm, fewer_s, minutes, told):
    assert (worth_a_minute(lower_mm, fewer_s, minutes) >= 1) is told
