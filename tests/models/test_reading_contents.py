"""What is inside of a thing: hazard word, amount and mass fit what leaves or arrives."""

import pytest

from tests.models.conftest import Trip

CAN = """- name: can
  mass_kg: {mass}
  size_mm: [350, 170, 460]
  hazard: {hazard}
  approved_can: true
  holder: extinguisher
  {amount}
  uses_up: {{fuel: {kg}}}
"""


def with_can(
    trip: Trip,
    fluid: str | None = "petrol",
    hazard: str = "petrol",
    mass: float = 18,
    amount: str = "holds_l: 20",
    kg: float = 14.9,
) -> Trip:
    """A can beside the starter's things; `fluid` None: nobody says what its stream is."""
    thing = CAN.format(mass=mass, hazard=hazard, amount=amount, kg=kg)
    trip.change("gear.yaml", "- name: tent\n", f"{thing}- name: tent\n")
    return trip.change("trip.yaml", "locks: []", f"streams: {{fuel: {{{'' if fluid is None else f'fluid: {fluid}'}}}}}")


@pytest.mark.parametrize(
    ("fluid", "hazard", "meant"),
    [
        ("petrol", "lithium", "`hazard: petrol` or `hazard: petrol_equipment`"),
        ("petrol", "diesel", "`hazard: petrol` or `hazard: petrol_equipment`"),
        ("diesel", "oil", "`hazard: diesel` or `hazard: petrol_equipment`"),
        ("kerosene", "oil", "`hazard: ethanol`"),
        ("lpg", "air_bottle", "`hazard: lpg` or `hazard: gas_cartridge`"),
    ],
)
def test_a_hazard_word_that_does_not_fit_the_fluid_is_a_fault(trip, fluid, hazard, meant):
    (fault,) = with_can(trip, fluid, hazard, kg=10).faults()
    assert f'hazard: found "{hazard}" for "can", which uses up {fluid} (stream "fuel")' in fault
    assert meant in fault


def test_white_gas_is_asked_about(trip):
    (note,) = with_can(trip, "petrol", "ethanol", kg=10).notes()
    assert '"ethanol" for "can", and "fuel" is petrol; is it white gas?' in note


@pytest.mark.parametrize(
    ("fluid", "hazard", "amount"),
    [
        ("petrol", "petrol_equipment", "holds_l: 20"),
        ("diesel", "petrol_equipment", "holds_l: 20"),
        ("kerosene", "ethanol", "holds_l: 20"),
        ("lpg", "gas_cartridge", "net_kg: 10"),
    ],
)
def test_a_hazard_word_that_fits_the_fluid_is_read(trip, fluid, hazard, amount):
    assert with_can(trip, fluid, hazard, amount=amount, kg=10).notes() == []


def test_water_proves_no_hazard(trip):
    assert with_can(trip, "water", "lithium").notes() == []


def test_what_fills_with_a_fuel_is_told_so(trip):
    with_can(trip, hazard="lithium").change("gear.yaml", "uses_up: {fuel:", "fills: {fuel:")
    (fault,) = trip.faults()
    assert "which fills with petrol" in fault


def test_a_hazard_word_of_the_trip_s_own_rule_book_is_taken_at_its_word(trip):
    own = "hazards: {racing_fuel: {words: mixed, air: {open: true}, source: club}}\n"
    trip.write("own.yaml", own).change("trip.yaml", "reserve_kg: 20", "rulebook: own.yaml\nreserve_kg: 20")
    assert with_can(trip, hazard="racing_fuel").notes() == []


@pytest.mark.parametrize(("litres", "held"), [(2, False), (18.9, False), (19.1, True), (20, True)])
def test_a_can_holds_what_it_uses_up_within_what_fuels_differ(trip, litres, held):
    """14.9 kg of petrol with 0.745 kg in a litre are 20 litres: 18.9 l and 5 % are 19.845 l, 19.1 l and 5 % 20.055."""
    with_can(trip, amount=f"holds_l: {litres}")
    if held:
        assert trip.notes() == []
    else:
        (fault,) = trip.faults()
        assert f'uses_up: found 20.0 litres that "can" uses up; allowed: at most the {litres:g} litres' in fault


@pytest.mark.parametrize(("net_kg", "held"), [(0.4, False), (3.7, False), (3.8, True), (4, True)])
def test_a_bottle_holds_the_kilograms_that_it_uses_up(trip, net_kg, held):
    with_can(trip, "lpg", "lpg", 8.6, f"net_kg: {net_kg}", 4)
    assert trip.notes() == [] if held else f"at most the {net_kg:g} kg of its `net_kg`" in trip.faults()[0]


@pytest.mark.parametrize(("mass", "asked"), [(3, True), (11.9, True), (12, False), (18, False)])
def test_a_full_thing_lighter_than_what_it_holds_is_asked_about(trip, mass, asked):
    """20 litres of petrol are 14.9 kg, and 80 % of that 11.92 kg: an empty can is carried too, and is no fault."""
    notes = with_can(trip, mass=mass, kg=2.9).notes()
    assert (
        any("20 litres of petrol alone are 14.9 kg: is this its mass when it is full?" in note for note in notes)
        is asked
    )


@pytest.mark.parametrize(
    ("hazard", "amount", "kg", "says"),
    [
        ("lpg", "net_kg: 0.4", 4, '4 kg leave, and `net_kg` of "lpg" are 0.4 kg: which?'),
        ("lpg", "net_kg: 4", 4, None),
        ("petrol", "holds_l: 2", 14.9, '14.9 kg leave, 20.0 litres, and `holds_l` of "petrol" are 2 litres: which?'),
        ("petrol", "holds_l: 20", 14.9, None),
        ("ethanol", "holds_l: 2", 14.9, None),
    ],
)
def test_a_stream_of_no_fluid_that_only_hazards_have_is_asked_about(trip, hazard, amount, kg, says):
    notes = with_can(trip, None, hazard, amount=amount, kg=kg).notes()
    assert [says in note for note in notes] == ([] if says is None else [True])


def test_food_beside_a_cartridge_is_not_taken_for_gas(trip):
    with_can(trip, None, "gas_cartridge", amount="net_kg: 0.5", kg=4)
    trip.change("gear.yaml", "uses_up: {food: 8}", "uses_up: {food: 7, fuel: 1}")
    assert trip.notes() == []
