"""What is asked about a ticket: hand-made readings beside predictions of 1000 and 1200 kg on the axles."""

from typing import Any

import pytest

from verifier.ticket import ALL_OF_IT, Difference, Known, Ticket, known_of, questions, swapped_sides

SURE = (10.0, 10.0, 15.0)


def asked(
    front_off: float,
    rear_off: float,
    *sides: float,
    doubt: tuple[float, float, float] = SURE,
    axles: tuple[float | None, float | None] = (1000.0, 1200.0),
    division_kg: float = 20.0,
) -> tuple[str, ...]:
    left, right = sides or (None, None)
    ticket = Ticket(1000 + front_off, 1200 + rear_off, left, right, division_kg)
    found = (
        Difference("front axle", axles[0], doubt[0], ticket.front_kg),
        Difference("rear axle", axles[1], doubt[1], ticket.rear_kg),
        Difference("total", 2200.0, doubt[2], ticket.total_kg),
        *(Difference(name, 1100.0, None, kg) for name, kg in zip(("left wheels", "right wheels"), sides, strict=False)),
    )
    return questions(found, ticket)


def test_steps_of_twenty_kilograms_where_nothing_else_is_said():
    assert Ticket(1000, 1200).division_kg == 20


def test_readings_are_what_was_weighed():
    both = [("front axle", 1000), ("rear axle", 1200), ("total", 2200)]
    assert Ticket(1000, 1200).readings == tuple(both)
    assert Ticket(1000, 1200, right_kg=1090).readings == (*both, ("right wheels", 1090))


@pytest.mark.parametrize(("off", "odd"), [(150, False), (150.5, True), (-150, False), (-150.5, True)])
def test_a_hundred_and_fifty_kilograms_are_odd(off, odd):
    assert bool(asked(off, 0)) is odd
    assert bool(asked(0, off)) is odd


@pytest.mark.parametrize(("off", "odd"), [(180, False), (181, True)])
def test_and_three_times_the_doubt(off, odd):
    # The rear is 100 kg off the other way, so that the total is not odd.
    assert bool(asked(off, -100, doubt=(60.0, 10.0, 15.0))) is odd


@pytest.mark.parametrize(
    ("off", "says"),
    [
        ((200, 300), "The rear axle is 300 kg above what the plan predicts."),
        ((-300, -200), "The front axle is 300 kg below what the plan predicts."),
        ((100, 100), "The total is 200 kg above what the plan predicts."),
    ],
)
def test_the_worst_axle_is_told_and_the_total_only_where_no_axle_is_odd(off, says):
    assert asked(*off) == (says, ALL_OF_IT)


def test_unknown_axles_are_not_guessed_to_be_swapped():
    assert asked(200, 200, axles=(None, None)) == ("The total is 400 kg above what the plan predicts.", ALL_OF_IT)


@pytest.mark.parametrize(("front_off", "swapped"), [(400, True), (599.5, True), (600, False)])
def test_swapped_where_that_halves_what_is_off(front_off, swapped):
    # The rear reads 1000 of 1200 kg, as the front should. Of 600 kg off, 200 are left; of 800 kg, half.
    first, second = asked(front_off, -200)
    assert first == f"The front axle is {front_off:.0f} kg above what the plan predicts."
    assert second.startswith("Were front and rear swapped?") is swapped
    if front_off == 400:
        assert second == "Were front and rear swapped? The other way round they would be 200 kg off together."


@pytest.mark.parametrize(
    ("rear_kg", "division_kg", "swapped"),
    [(1000, 20, True), (1000, 95, False), (1030, 20, True), (1031, 20, False)],
)
def test_a_small_swap_is_asked_about_where_only_the_other_way_fits(rear_kg, division_kg, swapped):
    # 1000 and 1100 kg are predicted, each to within 10 kg, and the ticket says 1100 and about 1000.
    told = asked(100, rear_kg - 1200, axles=(1000.0, 1100.0), division_kg=division_kg)
    assert any(one.startswith("Were front and rear swapped?") for one in told) is swapped


@pytest.mark.parametrize(
    ("total_kg", "word"),
    [
        (2535.316015126092, "Are these pounds?"),  # 1150 kg in pounds
        (521.6312255, "Was it turned from pounds into kilograms twice?"),  # 1150 kg times 0.45359237
        (1.15, "Are these tonnes?"),
    ],
)
def test_within_fifteen_percent_it_may_be_another_unit(total_kg, word):
    def told(total: float) -> tuple[str, ...]:
        return questions((Difference("total", 1000.0, 10.0, total),), Ticket(total, 0.0))[1:]

    assert told(total_kg) == (ALL_OF_IT,), "exactly fifteen percent off"
    assert told(total_kg * 0.999) == (f"{word} Then the total would be 1149 kg, and 1000 kg are predicted.",)


@pytest.mark.parametrize(
    ("sides", "division_kg", "says"),
    [
        ((1100, 1140), 20, None),
        ((1100, 1141), 20, "Left and right together are 41 kg more than front and rear: were all four read well?"),
        ((1100, 1059), 20, "Left and right together are 41 kg less than front and rear: were all four read well?"),
        ((1100, 1100.75), 0.25, "Left and right together are 1 kg more than front and rear: were all four read well?"),
    ],
)
def test_four_readings_add_up_within_two_steps(sides, division_kg, says):
    assert asked(0, 0, *sides, division_kg=division_kg) == (() if says is None else (says,))


@pytest.mark.parametrize("side", [{"left_kg": 900.0}, {"right_kg": 900.0}])
def test_one_side_alone_adds_up_to_nothing(side):
    assert questions((), Ticket(1000, 1200, **side)) == ()


def test_known_is_what_has_a_prediction_and_a_doubt():
    found = (
        Difference("front axle", None, 10.0, 900.0),
        Difference("left wheels", 1000.0, None, 900.0),
        Difference("total", 1000.0, 10.0, 900.0),
    )
    (one,) = known_of(found).values()
    assert (one.subject, one.off_kg) == ("total", -100)


@pytest.mark.parametrize(
    ("doubt", "division", "beyond"),
    [(99.5, 0.0, True), (100, 0.0, False), (0.0, 99.5, True), (0.0, 100.0, False)],
)
def test_beyond_is_more_than_doubt_and_step(doubt: float, division: float, beyond: Any) -> None:
    assert Known("total", 1000.0, doubt, 900.0).beyond(division) is beyond
    assert Known("total", 1000.0, doubt, 1100.0).beyond(division) is beyond


def sides_asked(left_kg: float, right_kg: float, *, axles: bool = True, predicted: float | None = 1100.0) -> bool:
    """1200 kg are predicted on the left and 1100 on the right wheels, each to within 10 kg, on a scale of 20 kg."""
    found = (
        Difference("front axle", 1000.0 if axles else None, 10.0, 1000.0),
        Difference("rear axle", 1300.0 if axles else None, 10.0, 1300.0),
        Difference("total", 2300.0, 15.0, 2300.0),
        Difference("left wheels", 1200.0, None, left_kg),
        Difference("right wheels", predicted, None, right_kg),
    )
    told = swapped_sides(found, Ticket(1000, 1300, left_kg, right_kg), (10.0, 10.0))
    assert all(one.startswith("Were left and right swapped? The other way round they would be ") for one in told)
    return bool(told)


@pytest.mark.parametrize(
    ("left_kg", "right_kg", "swapped"),
    [
        (1100, 1200, True),
        (1130, 1200, True),  # within 30 kg the other way round
        (1131, 1200, False),
        (1100, 1170, True),
        (1100, 1169, False),
        (1070, 1230, True),
        (1069, 1230, False),
        (1200, 1100, False),  # as predicted
        (1150, 1150, False),  # neither way
    ],
)
def test_swapped_sides_are_asked_about_where_only_the_other_way_fits(left_kg, right_kg, swapped):
    assert sides_asked(left_kg, right_kg) is swapped


def test_sides_that_nobody_can_predict_are_not_guessed_to_be_swapped():
    assert not sides_asked(1100, 1200, axles=False)
    assert not sides_asked(1100, 1200, predicted=None)
    assert swapped_sides((), Ticket(1000, 1300), (10.0, 10.0)) == ()
