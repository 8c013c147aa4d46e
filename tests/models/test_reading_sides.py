"""A face that looks away from its own opening is asked about."""

import pytest

from tests.models.conftest import Trip

BAY = "opening: left canopy door\n    face: left"
AWAY = '"left bay" is open to the {}, and a hand through "{}" comes from the {}; is one of them wrong?'


def asked(trip: Trip, says: str | None) -> None:
    notes = trip.notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


@pytest.mark.parametrize("face", ["left", "right", "front", "rear", "top"])
def test_a_face_that_looks_away_from_its_opening_is_asked_about(trip, face):
    says = AWAY.format("right", "left canopy door", "left") if face == "right" else None
    asked(trip.change("vehicle.yaml", BAY, f"opening: left canopy door\n    face: {face}"), says)


@pytest.mark.parametrize(
    ("side", "says"),
    [
        ("right", AWAY.format("left", "left canopy door", "right")),
        ("rear", None),
        ("top", None),
        ("inside", None),  # an arm goes in from anywhere
    ],
)
def test_an_opening_at_the_other_side_is_asked_about(trip, side, says):
    asked(trip.change("vehicle.yaml", "canopy door, side: left", f"canopy door, side: {side}"), says)


def test_a_tailgate_at_the_front_is_asked_about_for_each_space_it_opens(trip):
    notes = trip.change("vehicle.yaml", "tailgate, side: rear", "tailgate, side: front").notes()
    assert sum('a hand through "tailgate" comes from the front' in note for note in notes) == len(notes) == 2


def test_what_is_opened_before_it_is_not_held_against_a_face(trip):
    """A flap at the left that is reached through a door at the right: the hand comes to the space from the left."""
    trip.change("vehicle.yaml", BAY, "opening: flap\n    face: left")
    flap = "openings:\n  - {name: right door, side: right}\n  - {name: flap, side: left, after: [right door]}\n"
    text = (trip.folder / "vehicle.yaml").read_text("utf-8").splitlines(keepends=True)
    lines = [flap if line.startswith("openings:") else line for line in text]
    asked(trip.write("vehicle.yaml", "".join(lines)), None)


DRAWER = "{to: rear, mm: 900}"
FRONT = "drawer front, side: rear, seconds: 4, after: [tailgate]"
STAYS, BEYOND = (
    "so most of it stays in; is this in millimetres?",
    "far beyond its own length; is there a digit too many?",
)


@pytest.mark.parametrize(
    ("mm", "says"),
    [
        (750, None),
        (749, f'"right drawer" is 1500 mm long that way and slides 749 mm, {STAYS}'),
        (90, STAYS),
        (9, STAYS),
        (2250, None),
        (2251, f'"right drawer" is 1500 mm long that way and slides 2251 mm, {BEYOND}'),
        (9000, BEYOND),
    ],
)
def test_a_slide_by_far_less_or_more_than_its_length_is_asked_about(trip, mm, says):
    asked(trip.change("vehicle.yaml", DRAWER, f"{{to: rear, mm: {mm}}}"), says)


def test_a_slide_across_is_measured_across(trip):
    trip.change("vehicle.yaml", FRONT, "drawer front, side: right, seconds: 4")
    asked(trip.change("vehicle.yaml", DRAWER, "{to: right, mm: 320}"), None)
    asked(trip.change("vehicle.yaml", "right, mm: 320", "right, mm: 319"), "is 640 mm long that way and slides 319 mm")


@pytest.mark.parametrize("to", ["right", "front"])
def test_a_slide_to_where_nobody_comes_from_is_asked_about_alone(trip, to):
    """9 mm are too few as well: which way is asked first."""
    says = f'"right drawer" slides to the {to}, and what is opened for it is at the rear; is one of them wrong?'
    asked(trip.change("vehicle.yaml", DRAWER, f"{{to: {to}, mm: 9}}"), says)


@pytest.mark.parametrize(
    ("opening", "says"),
    [
        ("drawer front, side: left, after: [tailgate]", None),  # a catch at the left of a drawer in the tailgate
        ("drawer front, side: left", "what is opened for it is at the left; is one of them wrong?"),
        ("drawer front, side: left, after: [left canopy door]", "what is opened for it is at the left"),
        ("drawer front, side: inside", None),
        ("drawer front, side: top", None),
    ],
)
def test_a_slide_follows_what_is_opened_on_the_way(trip, opening, says):
    asked(trip.change("vehicle.yaml", FRONT, opening), says)


def test_a_slide_through_another_space_is_asked_about(trip):
    trip.change("vehicle.yaml", FRONT, "drawer front, side: left, seconds: 4")
    asked(trip.change("vehicle.yaml", DRAWER, "{to: left, mm: 400}"), '"right drawer" slides through "left bay"')
