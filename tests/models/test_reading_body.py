"""A body that can hardly be, and what is bolted on in centimetres or metres: asked about, never refused."""

import pytest

from tests.models.conftest import Trip

TANK = "at_mm: [2300, -300, 550]"


def asked(trip: Trip, says: str | None) -> None:
    notes = trip.notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("rear: 4450", "rear: 14150", None),
        ("rear: 4450", "rear: 14151", "15001 mm from front to rear, and hardly any single vehicle"),
        ("width: 1880", "width: 2600", None),
        ("width: 1880", "width: 2601", "2601 mm, and hardly any vehicle has more than 2600 mm"),
        ("height: 1950", "height: 4000", None),
        ("height: 1950", "height: 4001", "4001 mm, and hardly any vehicle has more than 4000 mm"),
    ],
)
def test_a_body_larger_than_vehicles_may_be_is_asked_about(trip, old, new, says):
    asked(trip.change("vehicle.yaml", old, new), says)


@pytest.mark.parametrize(
    ("front", "says"),
    [
        (-195, None),
        (-194, "the body begins at x -194 mm"),
        (-85, "is a minus missing, or is this in centimetres?"),
        (850, "the body begins at x 850 mm, and the middle of the front axle is at 0; is a minus missing"),
    ],
)
def test_a_body_that_begins_behind_its_wheels_is_asked_about(trip, front, says):
    asked(trip.change("vehicle.yaml", "front: -850", f"front: {front}"), says)


@pytest.mark.parametrize(
    ("mm", "says"),
    [
        (4255, None),
        (4256, "the rear axle is 4256 mm behind the front axle, and the body ends at x 4450 mm"),
        (5200, "the rear axle is 5200 mm behind the front axle"),
    ],
)
def test_an_axle_behind_the_end_of_the_body_is_asked_about(trip, mm, says):
    asked(trip.change("vehicle.yaml", "wheelbase_mm: 3200", f"wheelbase_mm: {mm}"), says)


@pytest.mark.parametrize(
    ("at_mm", "says"),
    [
        ("[2300, -300, 200]", None),
        ("[2300, -300, 199]", '"main tank" is 199 mm above the road; is this in millimetres?'),
        ("[230, -30, 55]", "55 mm above the road"),
        ("[2.3, -0.3, 0.55]", "0.55 mm above the road"),
        ("[205, -31, 211]", "211 mm above the road"),  # on the roof, in centimetres
        ("[205, -31, 225]", "225 mm above the road"),
        ("[205, -31, 226]", None),  # ten times of it is higher than what is on a roof
        ("[-200, 0, 210]", None),  # a plate below the engine
        ("[800, 0, 210]", None),  # a plate below the gearbox
    ],
)
def test_a_tank_below_the_vehicle_is_asked_about(trip, at_mm, says):
    asked(trip.change("vehicle.yaml", TANK, f"at_mm: {at_mm}"), says)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("\nseats:", "\nfittings: [{name: rear bar, mass_kg: 40, at_mm: [430, 0, 80]}]\nseats:"),
        ("name: drawer frame", "name: rear bar, at_mm: [430, 0, 80]"),
    ],
)
def test_fittings_and_racks_in_centimetres_are_asked_about(trip, old, new):
    if "rear bar, at" in new:
        text = (trip.folder / "vehicle.yaml").read_text("utf-8").replace("on: [drawer frame]", "on: [rear bar]")
        trip.write("vehicle.yaml", text)
    asked(trip.change("vehicle.yaml", old, new), '"rear bar" is 80 mm above the road')


def test_a_rack_without_a_place_is_not_asked_for_it(trip):
    assert trip.notes() == []
