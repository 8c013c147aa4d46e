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
