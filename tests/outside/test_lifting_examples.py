"""Lifting: the published examples of the NIOSH equation and of HSE, through the functions `check` uses."""

from typing import Any

import pytest

from models.advice import PerPerson
from models.plan import Plan
from models.reading import case_from, shipped_rulebook
from verifier import Hands, Lift, check, recommended_kg, turned_kg, zone_kg
from verifier.lifting import height_multiplier

BOOK = shipped_rulebook().lifting
INCH_MM = 25
"""The equation's own inch: it has 10 in where it has 25 cm, 30 for 75 and 70 for 175."""
LOAD_LB = 51
STOCK_LB = 44


def zone(low: float, high: float, close: bool = True) -> PerPerson:
    found = zone_kg(low, high, close, BOOK)
    assert found is not None
    return found


def rwl_lb(out_in: float, up_in: float) -> float:
    """What is recommended, in pounds, at one end of the first example: 49 in up, no turn, a fair grip."""
    at = Hands(out_in * INCH_MM, up_in * INCH_MM)
    return recommended_kg(at, 49 * INCH_MM, "fair", LOAD_LB, 1.0)


def test_m1_loading_punch_press_stock():
    # NIOSH 94-110, example 1, inputs from memory: hands 23 in out, from 15 in to 64 in up, 44 lb. The manual rounds its
    # multipliers and prints 16.3 and 14.5 lb, lifting index 2.7 and 3.0.
    origin, destination = rwl_lb(23, 15), rwl_lb(23, 64)
    assert (origin, destination) == pytest.approx((16.017, 14.153), abs=5e-4)
    assert (STOCK_LB / origin, STOCK_LB / destination) == pytest.approx((2.747, 3.109), abs=5e-4)
    assert (origin, destination) == pytest.approx((16.3, 14.5), rel=0.04)


def lifted(bench: Any, name: str, rulebook: dict[str, Any] | None = None) -> Lift:
    case = case_from(bench.vehicle, bench.things, bench.trip, rulebook)
    verdict = check(case, Plan.model_validate({"trip": "t.yaml", "placements": tuple(bench.places)}))
    (found,) = [one for one in verdict.lifts if one.name == name]
    return found


def test_m1_through_a_whole_plan(bench):
    # A box 750 mm deep and high is held 200 + 375 mm out, 23 of the equation's inches, and 375 mm up, 15 of them; it is
    # set down with its middle at 1600 mm, 64 of them. Pounds are written as kilograms.
    bench.space("shelf", [1000, -375, 1225], [750, 750, 750])
    bench.thing("stock", STOCK_LB, [750, 750, 750])
    bench.put("stock", "shelf", (1000, -375, 1225))
    found = lifted(bench, "stock", {"lifting": {"load_kg": LOAD_LB, "source": "NIOSH 94-110, in pounds"}})
    assert found.recommended_kg == pytest.approx(rwl_lb(23, 64), rel=1e-9)
    assert found.kg / found.recommended_kg == pytest.approx(3.109, abs=5e-4)
    assert found.too_heavy
    assert bench.verdict().holds is True  # advice, and no limit


def test_m2_the_ideal_lift():
    # NIOSH 94-110: 23 kg, the load constant, where every multiplier is 1.
    assert recommended_kg(Hands(250, 750), 250, "good", BOOK.load_kg, BOOK.frequency) == 23.0


def test_m3_the_ends_of_the_range_of_heights():
    # 0.78 at the floor and 0.70 at 175 cm as printed; none above.
    assert height_multiplier(0) == pytest.approx(0.775)
    assert height_multiplier(1750) == pytest.approx(0.700)
    assert height_multiplier(1750.001) == 0


@pytest.mark.parametrize("frequency", [1.0, 0.84, 0.72, 0.45])
def test_t9_a_package_documents_another_figure(frequency):
    # T9: 45 cm out, 25 cm up, 40 cm of way, no turn, good grip. A package documents 3.75 kg; the equation gives
    # 10.128 kg times the frequency, which at 4 lifts a minute is 0.84, 0.72 or 0.45 (from memory), and never 0.37.
    found = recommended_kg(Hands(450, 250), 400, "good", 23, frequency)
    assert found == pytest.approx(10.128 * frequency, abs=1e-3)
    assert found != pytest.approx(3.75, rel=0.1)


@pytest.mark.parametrize(("kg", "degrees", "left"), [
    (10, 91, 8.0), (25, 46, 22.5), (10, 90, 9.0), (25, 45, 25.0), (25, 0, 25.0),
])  # fmt: skip
def test_m6_what_turning_takes_off(kg, degrees, left):
    # HSE: a tenth off beyond 45 degrees, a fifth beyond 90.
    assert turned_kg(kg, degrees, BOOK) == pytest.approx(left)


ZONES = [
    # height in mm, men close and far, women close and far: HSE INDG143, from memory; 25 and 5 kg seen.
    (1500, 10, 5, 7, 3),
    (1200, 20, 10, 13, 7),
    (900, 25, 15, 16, 10),
    (500, 20, 10, 13, 7),
    (100, 10, 5, 7, 3),
]


@pytest.mark.parametrize(("up", "men", "men_far", "women", "women_far"), ZONES)
def test_the_filter_of_hse_zone_by_zone(up, men, men_far, women, women_far):
    close, far = zone(up, up), zone(up, up, close=False)
    assert (close.men, close.women) == (men, women)
    assert (far.men, far.women) == (men_far, women_far)


def test_hands_that_pass_through_several_zones_take_the_smaller_figure():
    assert zone(100, 900).men == 10
    assert zone(900, 1500).men == 10
    assert zone(500, 900).men == 20


def test_the_best_zone_and_the_worst_are_those_that_were_seen():
    figures = [kg for zone in BOOK.zones for kg in (zone.close_kg.men, zone.far_kg.men)]
    assert (max(figures), min(figures)) == (25, 5)
