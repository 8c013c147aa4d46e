"""A trip's own rule book: what is misspelt in it is refused, and what it changes is told."""

import pytest

from models.reading import read_case
from tests.models.conftest import Trip

REAR = "openings: {sides: {rear: {seconds: 10, stuck_when: [tail blocked, %s]}}, source: our club}\n"


def own(trip: Trip, text: str) -> Trip:
    """The trip with a rule book of its own."""
    return trip.change("trip.yaml", "locks: []", "rulebook: own.yaml").write("own.yaml", text)


@pytest.mark.parametrize(
    ("text", "place", "meant"),
    [
        (REAR % "trailor on", "openings.sides.rear.stuck_when[1]", "trailer on"),
        ("openings: {sides: {raer: {seconds: 10}}, source: our club}\n", "openings.sides.raer", "rear"),
        ("access: {words: {at_onc: {seconds: 9, uses_per_day: 1}}, source: x}\n", "access.words.at_onc", "at_once"),
        ("hazards: {lpg: {air: {lokcer: no}, source: our club}}\n", "hazards.lpg.air.lokcer", "locker"),
        ("hazards: {lpg: {air: {lokcer: yes}, source: our club}}\n", "hazards.lpg.air.lokcer", "locker"),
    ],
)
def test_a_misspelt_word_is_refused_with_the_nearest(trip, text, place, meant):
    (fault,) = own(trip, text).faults()
    assert fault.startswith(f"own.yaml, line 1: {place}: found ")
    assert f'did you mean "{meant}"?' in fault


def test_words_spelt_well_are_read(trip):
    words = "access: {words: {at_once: {seconds: 9}}, source: our club}\n"
    air = "hazards: {lpg: {air: {locker: no, sealed: no}, source: our club}}\n"
    own(trip, REAR % "trailer on" + words + air)
    book = read_case(trip.folder / "trip.yaml").case.rulebook
    assert book.openings.sides["rear"].stuck_when == ("tail blocked", "trailer on")
    assert book.access.words["at_once"].seconds == 9
    assert set(book.hazards["lpg"].air) == {"open"}
