"""Barriers and seat backs that would stop whatever is behind them: asked about, never refused."""

import pytest

from tests.models.conftest import Trip

DRIVER = "at_mm: [1500, 380, 800], back_top_z_mm: 1150"


def asked(trip: Trip, says: str | None) -> None:
    notes = trip.notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


@pytest.mark.parametrize(
    ("rated_kg", "top_mm", "says"),
    [
        (300, 1950, None),
        (300.1, 1950, "cargo_barrier.rated_kg: a barrier that stops a single thing of 300.1 kg"),
        (60000, 1480, "stops a single thing of 60000 kg; is there a digit too many, or are these grams?"),
        (60, 1951, "cargo_barrier.top_z_mm: a barrier up to 1951 mm, and the body is 1950 mm high"),
        (60, 100, None),
    ],
)
def test_a_barrier_that_stops_everything_is_asked_about(trip, rated_kg, top_mm, says):
    barrier = f"cargo_barrier: {{behind_seats: [driver, passenger], rated_kg: {rated_kg}, top_z_mm: {top_mm}}}"
    asked(trip.change("vehicle.yaml", "\nspaces:", f"\n{barrier}\nspaces:"), says)


@pytest.mark.parametrize(
    ("top_mm", "says"),
    [
        (800, None),
        (799, 'the back of "driver" ends 799 mm above the road, and the middle of who sits there is 800 mm above it'),
        (1500, None),
        (1501, 'the back of "driver" ends 1501 mm above the road, and the middle of who sits there'),
        (1951, 'the back of "driver" ends 1951 mm above the road, and the body is 1950 mm high'),
        (11500, "is there a digit too many?"),
        (115, "is this in millimetres, from the road?"),
        (-1150, 'the back of "driver" ends -1150 mm above the road'),
    ],
)
def test_a_seat_back_that_can_hardly_be_is_asked_about(trip, top_mm, says):
    asked(trip.change("vehicle.yaml", DRIVER, f"at_mm: [1500, 380, 800], back_top_z_mm: {top_mm}"), says)


def test_a_back_that_nobody_measured_is_not_asked_about_here(trip):
    asked(trip.change("vehicle.yaml", DRIVER, "at_mm: [1500, 380, 800]"), None)
