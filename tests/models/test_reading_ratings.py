"""Limits and ratings that hold nothing back, as pounds, grams or a digit too many: asked about, never refused."""

import pytest

from tests.models.conftest import Trip

TOTAL = "gvm_kg: {kg: 3200, source: plate}"
FRONT, REAR = "front_axle_kg: {kg: 1480", "rear_axle_kg: {kg: 1850"
WEIGHED = "  front_kg: 1190\n  rear_kg: 960\n"
TIMES = "times the {} kg on the scale and bolted on since; are these pounds"


def asked(trip: Trip, says: str | None) -> None:
    notes = trip.notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


def with_axles(trip: Trip, front: int, rear: int) -> Trip:
    return trip.change("vehicle.yaml", FRONT, f"front_axle_kg: {{kg: {front}").change(
        "vehicle.yaml", REAR, f"rear_axle_kg: {{kg: {rear}"
    )


@pytest.mark.parametrize(("kg", "says"), [(4730, None), (4731, "4731 kg, 2.2 " + TIMES.format(2150))])
def test_a_total_above_pounds_of_the_weighed_vehicle_is_asked_about(trip, kg, says):
    with_axles(trip, 2400, 2400)
    asked(trip.change("vehicle.yaml", TOTAL, f"gvm_kg: {kg}"), says)


def test_the_vehicle_of_a_total_alone_is_weighed_too(trip):
    with_axles(trip, 2400, 2400).change("vehicle.yaml", WEIGHED, "  total_kg: 2000\n")
    asked(trip.change("vehicle.yaml", TOTAL, "gvm_kg: 4500"), "2.2 " + TIMES.format(2000))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("\nseats:", "\nfittings: [{name: body, mass_kg: 1, at_mm: [3000, 0, 900]}]\nseats:"),
        ("name: drawer frame", "name: drawer frame, own_mass_kg: 1, at_mm: [3000, 0, 900], on_the_scale: false"),
    ],
)
def test_what_was_bolted_on_since_counts(trip, old, new):
    with_axles(trip, 2400, 2400).change("vehicle.yaml", TOTAL, "gvm_kg: 4732")
    asked(trip.change("vehicle.yaml", old, new), None)  # 2.2 times 2151 kg are 4732.2 kg


def test_a_lost_digit_of_the_scale_is_asked_about_by_itself(trip):
    asked(trip.change("vehicle.yaml", "front_kg: 1190", "front_kg: 119"), "11% of the vehicle on its front wheels")


@pytest.mark.parametrize(("rear", "says"), [(2330, None), (2331, "4731 kg on both axles, 2.2 " + TIMES.format(2150))])
def test_both_axles_stand_in_for_a_total_that_nobody_knows(trip, rear, says):
    with_axles(trip, 2400, rear)
    asked(trip.change("vehicle.yaml", TOTAL, "gvm_kg: unknown"), says)


@pytest.mark.parametrize(
    ("kg", "says"), [(3200, None), (3201, '3201 kg for "left bay", more than the gvm_kg of 3200 kg; are these grams')]
)
def test_a_space_that_may_hold_more_than_the_whole_is_asked_about(trip, kg, says):
    asked(trip.change("vehicle.yaml", "limit_kg: 150", f"limit_kg: {kg}"), says)


@pytest.mark.parametrize(
    ("kg", "says"), [(175, None), (176, '176 kg in "cabin bracket", more than the 176 kg of gold')]
)
def test_a_space_that_may_hold_more_than_gold_is_asked_about(trip, kg, says):
    """150 x 130 x 450 mm are 8.775 L, of gold 175.5 kg."""
    walls = "size_mm: [150, 130, 450]\n    limit_kg: "
    asked(trip.change("vehicle.yaml", f"{walls}6", f"{walls}{kg}"), says)


@pytest.mark.parametrize(
    ("limits", "says"),
    [
        ("{any_kg: 3200}", None),
        ("{any_kg: 3201}", "racks[0].limits.any_kg: 3201 kg for"),
        ("{parked_kg: 7000, sealed_road_kg: 6000}", "racks[0].limits.parked_kg: 7000 kg for"),
    ],
)
def test_a_rack_that_may_carry_more_than_the_whole_is_asked_about_once(trip, limits, says):
    asked(trip.change("vehicle.yaml", "limits: {any_kg: 120}", f"limits: {limits}"), says)


def test_nothing_is_held_against_a_total_that_nobody_knows(trip):
    trip.change("vehicle.yaml", TOTAL, "gvm_kg: unknown").change("vehicle.yaml", "{any_kg: 120}", "{any_kg: 9000}")
    asked(trip.change("vehicle.yaml", "limit_kg: 150", "limit_kg: 9000"), None)


@pytest.mark.parametrize(
    ("dan", "says"), [("2000", None), ("2001, 4000", "2001 daN at one point"), ("20 kN", None), ("4000", "4000 daN")]
)
def test_a_point_that_would_hold_a_vehicle_is_asked_about_once_a_space(trip, dan, says):
    points = ", ".join(f"{{rated_dan: {one}}}" for one in dan.split(", "))
    trip.change("vehicle.yaml", "limit_kg: 150", f"limit_kg: 150\n    tie_downs: [{points}]")
    notes = [note for note in trip.notes() if "read as" not in note]
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True])
