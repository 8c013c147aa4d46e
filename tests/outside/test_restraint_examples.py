"""Restraint: the forces of the published design accelerations, and figures that lost their point."""

import pytest

from models.reading import shipped_rulebook
from verifier import required_restraint_n, tie_down_capacity_n

RESTRAINT = shipped_rulebook().restraint


@pytest.mark.parametrize(("share", "newton"), [(0.8, 486.576), (0.5, 304.110), (0.2, 121.644)])
def test_l0_force_on_a_fridge_of_62_kg(share, newton):
    # Constructed: 62 kg against the design accelerations, 9.81 m/s2.
    assert required_restraint_n(62, share) == pytest.approx(newton, abs=5e-4)


def test_the_shipped_accelerations():
    # 0.8 / 0.5 / 0.5 / 0.2 g: 49 CFR 393.102(a)(1), Quebec C-24.2 r. 30 s. 3, light-vehicle guides.
    given = (RESTRAINT.forward_g, RESTRAINT.rearward_g, RESTRAINT.sideways_g, RESTRAINT.upward_g)
    assert given == (0.8, 0.5, 0.5, 0.2)


def test_t4_a_summary_lost_the_point():
    # T4: a web summary prints 8 g / 5 g / 5 g / 2 g.
    assert required_restraint_n(62, RESTRAINT.forward_g) != pytest.approx(required_restraint_n(62, 8))


def test_t5_the_figure_not_the_prose():
    # T5: ESV 09-0008 says 0.9 for 2.0 to 3.5 t in its prose and 0.8 in its figure; VDI 2700-16 matches the figure.
    assert RESTRAINT.forward_g == 0.8


def test_l7_what_a_cargo_barrier_stops():
    # Constructed: 60 kg at 20 g are 11.768 kN, the "1200 kg" of AS/NZS 4034 as a maker quotes it.
    assert required_restraint_n(60, 20, gravity_m_s2=9.80665) / 1000 == pytest.approx(11.768, abs=5e-4)


def test_the_shipped_lifting_figures():
    # HSE INDG143: 25 kg in the best zone (seen); 10 kg close to the body above the shoulder (from memory). Not limits.
    handling = shipped_rulebook().handling
    assert (handling.single_person_kg, handling.above_shoulder_kg, handling.shoulder_mm) == (25, 10, 1400)


def test_half_of_a_rating_counts():
    # 49 CFR 393.106(d): half the rating where a tie-down goes from an anchor to the cargo.
    assert tie_down_capacity_n([400, 400]) == 4000
    assert RESTRAINT.tie_down_share == 0.5


def test_t6_liquid_gas_is_half_as_heavy_as_water():
    # T6: an online table prints 1700 and 2500 kg/m3, the densities of the gas times 1000.
    assert 0.5 <= shipped_rulebook().fluids_kg_per_l["lpg"].value <= 0.6


@pytest.mark.parametrize(("fluid", "least", "most"), [
    ("petrol", 0.72, 0.775), ("diesel", 0.82, 0.845), ("kerosene", 0.775, 0.84), ("water", 0.998, 1.0),
])  # fmt: skip
def test_densities_are_in_their_published_ranges(fluid, least, most):
    # EN 228 and EN 590 at 15 C from memory; engineering table for kerosene; water at 20 C.
    assert least <= shipped_rulebook().fluids_kg_per_l[fluid].value <= most
