"""A trip's own rule book: what is misspelt in it is refused, and what it changes is told."""

import pytest

from models.reading import read_case
from models.reading.shipped import changes, shipped_rulebook
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


@pytest.mark.parametrize(
    ("hazard", "air", "says"),
    [
        ("lpg", "people: true", "air that people breathe, which the shipped rule book forbids"),
        (
            "petrol",
            "sealed: true",
            "petrol in a can may ride in air without vents, which the shipped",
        ),
        ("aerosol", "people: {up_to_l: 0.6}", "air that people breathe, more than the shipped one allows"),
        ("aerosol", "people: true", "air that people breathe, more than the shipped one allows"),
        ("aerosol", "people: {up_to_l: 0.5}", None),
        ("aerosol", "people: no", None),
        ("lpg", "vented: true", None),
    ],
)
def test_a_hazard_let_into_closed_air_is_asked_about(trip, hazard, air, says):
    notes = own(trip, f"hazards: {{{hazard}: {{air: {{{air}}}, source: a friend}}}}\n").notes()
    assert [says is not None and says in note for note in notes] == ([] if says is None else [True]), notes


def test_what_is_changed_is_known_with_its_source(trip):
    text = "name: club\nreserve_kg: {value: 30, source: our club}\nhazards: {lpg: {upright: false, source: a friend}}\n"
    text += "openings: {sides: {rear: {seconds: 10}}, source: a watch}\nsegregation: []\n"
    text += "fluids_kg_per_l: {water: {value: 1.0, source: '998 kg/m3 at 20 C, rounded up'}}\n"  # as shipped
    book = read_case(own(trip, text).folder / "trip.yaml").case.rulebook
    assert changes(book) == (
        ("reserve_kg", "our club"),
        ("openings", "a watch"),
        ("hazards.lpg", "a friend"),
        ("segregation", None),
    )
    assert changes(shipped_rulebook()) == ()


DIVISORS = [
    ("body_classes: {pickup: {static_stability_factor: %s, source: x}}", "static_stability_factor", 0.01),
    ("restraint: {forward_g: %s, source: x}", "forward_g", 0.01),
    ("restraint: {tie_down_share: %s, source: x}", "tie_down_share", 0.01),
    ("restraint: {gravity_m_s2: %s, source: x}", "gravity_m_s2", 0.01),
    ("restraint: {newton_per_dan: %s, source: x}", "newton_per_dan", 0.01),
    ("fluids_kg_per_l: {water: {value: %s, source: x}}", "fluids_kg_per_l.water.value", 0.01),
]


@pytest.mark.parametrize(("text", "key", "least"), DIVISORS)
def test_what_something_is_divided_by_is_no_zero(trip, text, key, least):
    own(trip, "")
    for value in (0, 1e-9, 0.0099):
        (fault,) = trip.write("own.yaml", text % value).faults()
        assert f"{key}: found {value}; allowed: at least {least}" in fault
    trip.write("own.yaml", text % least)
    read_case(trip.folder / "trip.yaml")
