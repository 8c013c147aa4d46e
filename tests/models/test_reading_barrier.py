"""What a cargo barrier is to hold lies behind the seats that it stands behind."""

from typing import Any

import pytest

SEATS = "behind_seats: [driver, passenger], "
"""Both at x 1500 mm."""


def with_hold(
    trip: Any, x_mm: int, length_mm: int, *, seats: str = SEATS, holds: str = "barrier", air: str = "cabin"
) -> Any:
    """The starter with a barrier and one more space, on the floor of the cabin."""
    walls = f"corner_mm: [{x_mm}, -100, 300], size_mm: [{length_mm}, 150, 150]"
    hold = f"{{name: hold, {walls}, opening: from the seats, holds: {holds}, air: {air}}}"
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    more = f"cargo_barrier: {{{seats}rated_kg: 60, top_z_mm: 1500}}\nspaces:\n  - {hold}\n"
    return trip.write("vehicle.yaml", text.replace("spaces:\n", more, 1))


@pytest.mark.parametrize("air", ["cabin", "canopy"])
@pytest.mark.parametrize(
    ("x_mm", "length_mm", "hint"),
    [
        (700, 500, ""),
        (1000, 500, ""),
        (1499, 500, " (make a space of its own of what lies further forward)"),
    ],
)
def test_a_space_ahead_of_the_seats_a_barrier_stands_behind_is_refused(trip, air, x_mm, length_mm, hint):
    (fault,) = with_hold(trip, x_mm, length_mm, air=air).faults()
    where, told = fault.split(": found ")
    assert where.startswith("vehicle.yaml, line ")
    assert "spaces[0].holds" in where
    assert told == (
        f'barrier for "hold", from x {x_mm} to {x_mm + length_mm} mm; allowed: that where a space begins no further '
        f'forward than "driver" at x 1500 mm, behind which the barrier stands{hint}.'
    )


def test_a_space_behind_the_last_of_the_seats_is_read(trip):
    assert with_hold(trip, 1500, 500).notes() == []
    trip.change("vehicle.yaml", "[1500, -380, 800]", "[1501, -380, 800]")
    (fault,) = trip.faults()
    assert '"passenger" at x 1501 mm' in fault


@pytest.mark.parametrize(("seats", "holds", "asked"), [("", "barrier", 1), (SEATS, "enclosed", 0)])
def test_where_no_seat_is_named_or_nothing_is_held_by_the_barrier_no_place_is_refused(trip, seats, holds, asked):
    assert len(with_hold(trip, 700, 500, seats=seats, holds=holds).notes()) == asked


@pytest.mark.parametrize(("holds", "asked"), [("holder", 1), ("bracket", 1), ("enclosed", 0)])
def test_a_bracket_that_accepts_anything_is_asked_about(trip, holds, asked):
    says = f"a {holds} that accepts anything is made for nothing, and what is in it has to be tied"
    assert sum(says in note for note in with_hold(trip, 1500, 500, holds=holds).notes()) == asked
