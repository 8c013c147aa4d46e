"""The worked trips are read without a fault."""

from pathlib import Path

import pytest

from models.reading import read_case

TRIPS = sorted((Path(__file__).resolve().parents[2] / "scenarios").glob("*/trip.yaml"))


@pytest.mark.parametrize("trip", TRIPS, ids=lambda trip: trip.parent.name)
def test_a_worked_trip_is_read(trip):
    read = read_case(trip)
    assert read.case.things
    assert read.case.digest.startswith("sha256:")
