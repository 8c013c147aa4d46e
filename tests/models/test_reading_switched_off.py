"""Limits that can hardly be meant, and what switches a rule off: asked about, never refused."""

import pytest

from tests.models.conftest import Trip

LIMITS = "limits:                           # from the plate and the handbook; write `unknown` where you do not know\n"
RACK = "limits: {any_kg: 120}"
LIMIT_ROWS = [
    ("front_share_min: 0", "0% of the mass on the front wheels is enough"),
    ("front_share_min: 0.24", "24% of the mass on the front wheels is enough"),
    ("front_share_min: 0.249", "24.9% of the mass on the front wheels is enough"),
    ("front_share_min: 0.2499999", "24.99999% of the mass on the front wheels is enough"),
    ("front_share_min: 0.25", None),
    ("side_difference_share: 1", "may differ by 100% of the mass"),
    ("side_difference_share: 0.21", "may differ by 21% of the mass"),
    ("side_difference_share: 0.2001", "may differ by 20.01% of the mass"),
    ("side_difference_share: 0.2", None),
]
AXLES = [
    ("front_axle_kg: {kg: 1480", "front_axle_kg: {kg: 14800", "14800 kg on one axle, more than the gvm_kg of 3200 kg"),
    ("rear_axle_kg: {kg: 1850", "rear_axle_kg: {kg: 3201", "3201 kg on one axle, more than the gvm_kg of 3200 kg"),
    ("rear_axle_kg: {kg: 1850", "rear_axle_kg: {kg: 3200", None),
]
RACKS = [
    (
        "{sealed_road_kg: 70, off_road_kg: 100}",
        "off the road it may carry 100 kg, more than the 70 kg on a sealed road",
    ),
    (
        "{any_kg: 70, off_road_kg: 100}",
        "off the road it may carry 100 kg, more than the 70 kg on a sealed road by `any_kg`; is it meant so?",
    ),
    (
        "{any_kg: 150, sealed_road_kg: 75}",
        "off the road it may carry 150 kg, more than the 75 kg on a sealed road by `any_kg`; is it meant so?",
    ),
    ("{any_kg: 75, sealed_road_kg: 75}", None),
    ("{any_kg: 75, sealed_road_kg: 100}", None),
    ("{any_kg: unknown, sealed_road_kg: 75}", None),
    ("{any_kg: 150, sealed_road_kg: 75, off_road_kg: 75}", None),
    ("{any_kg: 150, sealed_road_kg: 75, off_road_kg: unknown}", None),
    ("{parked_kg: 200, sealed_road_kg: 100, off_road_kg: 100}", None),
    ("{parked_kg: 200, off_road_kg: 100}", None),
]


def asked(trip: Trip, says: str | None) -> None:
    notes = trip.notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


@pytest.mark.parametrize(("line", "says"), LIMIT_ROWS)
def test_shares_that_hold_whatever_is_loaded_are_asked_about(trip, line, says):
    asked(trip.change("vehicle.yaml", LIMITS, f"{LIMITS}  {line}\n"), says)


@pytest.mark.parametrize(("old", "new", "says"), AXLES)
def test_an_axle_limit_above_the_total_is_asked_about(trip, old, new, says):
    asked(trip.change("vehicle.yaml", old, new), says)


def test_an_axle_is_not_held_against_a_total_that_nobody_knows(trip):
    trip.change("vehicle.yaml", "gvm_kg: {kg: 3200, source: plate}", "gvm_kg: unknown")
    asked(trip.change("vehicle.yaml", "rear_axle_kg: {kg: 1850", "rear_axle_kg: {kg: 3201"), None)


@pytest.mark.parametrize(("limits", "says"), RACKS)
def test_a_rack_that_may_carry_more_off_the_road_is_asked_about(trip, limits, says):
    notes = trip.change("vehicle.yaml", RACK, f"limits: {limits}").notes()
    swapped = [note for note in notes if "off the road it may carry" in note]
    assert [says in note for note in swapped] == ([] if says is None else [True])


PARKED = [
    ("{parked_kg: 75, any_kg: 150}", ["parked it may carry 75 kg, less than the 150 kg of any_kg"]),
    ("{parked_kg: 75, sealed_road_kg: 100}", ["parked it may carry 75 kg, less than the 100 kg of sealed_road_kg"]),
    ("{any_kg: 75, sealed_road_kg: 100}", ["parked it may carry 75 kg, less than the 100 kg of sealed_road_kg"]),
    (
        "{parked_kg: 75, sealed_road_kg: 150, any_kg: 100}",
        [f"parked it may carry 75 kg, less than the {of}" for of in ("150 kg of sealed_road_kg", "100 kg of any_kg")],
    ),
    ("{parked_kg: 150, any_kg: 150}", []),
    ("{parked_kg: unknown, any_kg: 150}", []),
]


@pytest.mark.parametrize(("limits", "says"), PARKED)
def test_a_rack_that_may_carry_more_on_the_way_than_parked_is_asked_about(trip, limits, says):
    notes = trip.change("vehicle.yaml", RACK, f"limits: {limits}").notes()
    assert [note.partition(": ")[2].partition("): ")[2] for note in notes if "parked it may carry" in note] == says


@pytest.mark.parametrize(
    ("kg", "says"), [(3000, "3000 kg on the ball, more than the whole trailer of 1300 kg"), (1300, None)]
)
def test_a_ball_that_may_carry_more_than_the_trailer_is_asked_about(trip, kg, says):
    trip.change("trip.yaml", "locks: []", "towing: {ball_kg: 130, trailer_kg: 1300}")
    ball = f"  tow_ball_behind_rear_axle_mm: 1220\n  tow_ball_kg: {kg}\n"
    asked(trip.change("vehicle.yaml", LIMITS, LIMITS + ball), says)


def test_what_the_ball_may_carry_is_not_looked_at_where_nothing_is_towed(trip):
    asked(trip.change("vehicle.yaml", LIMITS, f"{LIMITS}  tow_ball_kg: 3000\n"), None)


@pytest.mark.parametrize(("mm", "says"), [(1881, "1881 mm between the middles of the wheels"), (1880, None)])
def test_a_track_wider_than_the_vehicle_is_asked_about(trip, mm, says):
    asked(trip.change("vehicle.yaml", "track_mm: 1570", f"track_mm: {mm}"), says)


@pytest.mark.parametrize("kind", ["open", "vented"])
def test_seats_without_air_that_people_breathe_are_asked_about(trip, kind):
    asked(trip.change("vehicle.yaml", "cabin: people", f"cabin: {kind}"), "no volume of air is `people`")


def test_an_extinguisher_that_nobody_needs_in_a_fire_is_asked_about(trip):
    trip.change("gear.yaml", "  needed_when: [fire]             # one in reach with a belt on, one from outside\n", "")
    asked(trip, '"extinguisher" is an extinguisher and is not needed in a fire')


@pytest.mark.parametrize(
    ("lines", "says"),
    [("together: true", "has no `kit`, so it is together with nothing"), ("together: true\n  kit: camp", None)],
)
def test_together_without_a_kit_is_asked_about(trip, lines, says):
    asked(trip.change("gear.yaml", "- name: tent\n", f"- name: tent\n  {lines}\n"), says)


@pytest.mark.parametrize(("more", "asked"), [("", True), (", at_mm: [2900, 0, 1000]", False)])
def test_people_on_a_rack_that_is_nowhere_are_asked_about(trip, more, asked):
    trip.change("vehicle.yaml", RACK, RACK + more)
    text = (trip.folder / "trip.yaml").read_text("utf-8")
    first = next(line for line in text.splitlines() if "surface: parked" in line)
    trip.change("trip.yaml", first, first.replace("surface: parked", "surface: parked, on_racks: {drawer frame: 80}"))
    told = [note for note in trip.notes() if "without `at_mm` it is not known where they weigh then" in note]
    assert len(told) == asked


@pytest.mark.parametrize("words", ["[anything, extinguisher]", "[anything]"])
def test_anything_is_no_word_among_others(trip, words):
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    trip.write("vehicle.yaml", text.replace("accepts: [extinguisher]", f"accepts: {words}", 1))
    (fault,) = trip.faults()
    assert "found `anything` in a list of words; allowed: `anything` by itself, or a list of words." in fault
