"""The bare vehicle where little is known of it."""

import pytest

from verifier import total_kg
from verifier.bare import bare_points


def test_a_vehicle_of_no_mass_has_no_middle(world):
    kerb = world.case().vehicle.kerb.model_copy(update={"front_kg": 0.0, "rear_kg": 0.0})
    weighed, *_ = bare_points(world.made(kerb=kerb))
    assert (weighed.mass_kg, weighed.x_mm) == (0, None)


def test_people_on_a_seat_that_is_not_there_are_not_taken_off(world):
    world.vehicle["kerb"]["aboard_kg"] = {"driver": 84}
    assert total_kg(bare_points(world.case())) == pytest.approx(2150 - 80 * 0.835 - 84)
    assert total_kg(bare_points(world.made(seats=()))) == pytest.approx(2150 - 80 * 0.835)
