"""The same ten statements of statics as in `test_invariants.py`, on whole plans through `check`.

Things, people, tanks, a fitting and a trailer are aboard at two stages. The plans need not be lawful: it is the
totals that are looked at.
"""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.outside.conftest import Bench
from verifier import StageTotals

SIDE = 200
"""Side of every thing in mm."""
LENGTH = 3000
BALL_KG, BEHIND_MM = 120, 1100
CLOSE: dict[str, Any] = {"rel": 1e-9, "abs": 1e-6}
FEW = settings(max_examples=settings.default.max_examples // 2)  # type: ignore[union-attr] # it is set

MIDDLE = st.tuples(st.integers(-1700, 8700), st.integers(-1700, 1700), st.integers(200, 3700))
LOADS: st.SearchStrategy[Any] = st.lists(st.tuples(st.integers(1, 150), MIDDLE), min_size=1, max_size=6)
LOAD: st.SearchStrategy[Any] = st.tuples(st.integers(1, 150), MIDDLE)


def plan_of(loads: Any) -> Bench:
    """One large space with the things where they are wanted, each by its middle."""
    bench = Bench()
    vehicle, trip = bench.vehicle, bench.trip
    bench.space("everywhere", [-1900, -1900, 100], [10800, 3800, 3800])
    vehicle["kerb"] |= {"right_of_centre_mm": 12.5, "aboard_l": {"tank": 30}}
    vehicle["limits"] |= {"tow_ball_behind_rear_axle_mm": BEHIND_MM, "tow_ball_kg": 300, "gcm_kg": 20000}
    vehicle["seats"] = [{"name": "driver", "at_mm": [1500, 370, 800], "back_top_z_mm": 1200}]
    vehicle["tanks"] = [{"name": "tank", "fluid": "water", "holds_l": 80, "at_mm": [2300, -300, 550]}]
    vehicle["fittings"] = [{"name": "bar", "mass_kg": 60, "at_mm": [-750, 0, 800]}]
    trip["people"] = [{"name": "Ena", "mass_kg": 75, "seat": "driver"}]
    trip["stages"].append({"name": "later", "surface": "sealed_road", "tanks": {"tank": 0.25}, "towing": False})
    trip["towing"] = {"ball_kg": BALL_KG, "trailer_kg": 1200}
    for load in loads:
        add(bench, *load)
    return bench


def add(bench: Bench, kg: float, middle: Any) -> None:
    name = f"thing {len(bench.things)}"
    bench.thing(name, kg, [SIDE] * 3)
    bench.put(name, "everywhere", corner(middle))


def corner(middle: Any) -> tuple[int, int, int]:
    x, y, z = (place - SIDE // 2 for place in middle)
    return (x, y, z)


def totals(bench: Bench) -> list[Any]:
    """What is told of both stages; every place is known."""
    found: list[StageTotals] = list(bench.verdict().totals.values())
    assert len(found) == 2
    return found


def figures(total: Any) -> tuple[float, ...]:
    return (total.mass_kg, total.front_axle_kg, total.rear_axle_kg, total.left_kg, total.right_kg, *total.cg_mm)


def both(loads: Any, others: Any) -> list[tuple[Any, Any]]:
    """The totals of two plans, stage by stage."""
    return list(zip(totals(plan_of(loads)), totals(plan_of(others)), strict=True))


@FEW
@given(LOADS)
def test_1_the_axles_carry_the_mass_and_the_ball(loads):
    towing, alone = totals(plan_of(loads))
    assert towing.front_axle_kg + towing.rear_axle_kg == pytest.approx(towing.mass_kg + BALL_KG, **CLOSE)
    assert alone.front_axle_kg + alone.rear_axle_kg == pytest.approx(alone.mass_kg, **CLOSE)
    assert towing.left_kg + towing.right_kg == pytest.approx(towing.mass_kg + BALL_KG, **CLOSE)


@FEW
@given(LOADS, st.integers(-100, 100))
def test_2_another_datum_moves_x_and_no_load(loads, d):
    before, moved = plan_of(loads), plan_of(loads)
    for place in moved.places:
        x, y, z = place["corner_mm"]
        place["corner_mm"] = (x + d, y, z)
    for kind in ("seats", "tanks", "fittings"):
        for part in moved.vehicle[kind]:
            x, y, z = part["at_mm"]
            part["at_mm"] = [x + d, y, z]
    kerb = moved.vehicle["kerb"]
    shift = 2000 * d / LENGTH
    kerb |= {"front_kg": kerb["front_kg"] - shift, "rear_kg": kerb["rear_kg"] + shift}
    for one, other in zip(totals(before), totals(moved), strict=True):
        assert other.cg_mm == pytest.approx((one.cg_mm[0] + d, *one.cg_mm[1:]), **CLOSE)
        # Measured from the new datum, the axles have moved with everything else.
        assert other.rear_axle_kg - other.mass_kg * d / LENGTH == pytest.approx(one.rear_axle_kg, **CLOSE)


@FEW
@given(LOADS, st.randoms(use_true_random=False))
def test_3_order_has_no_effect(loads, random):
    straight, shuffled = plan_of(loads), plan_of(loads)
    random.shuffle(shuffled.things)
    random.shuffle(shuffled.places)
    for one, other in zip(totals(straight), totals(shuffled), strict=True):
        assert figures(other) == pytest.approx(figures(one), **CLOSE)


@FEW
@given(LOADS, LOAD)
def test_4_over_the_rear_axle_adds_nothing_to_the_front(loads, load):
    kg, (_, y, z) = load
    for one, more in both(loads, [*loads, (kg, (LENGTH, y, z))]):
        assert more.front_axle_kg == pytest.approx(one.front_axle_kg, **CLOSE)
        assert more.rear_axle_kg == pytest.approx(one.rear_axle_kg + kg, **CLOSE)


@FEW
@given(LOADS, LOAD, st.integers(1, 1600))
def test_5_beyond_an_axle_the_other_is_relieved(loads, load, beyond):
    kg, (_, y, z) = load
    for one, behind in both(loads, [*loads, (kg, (LENGTH + beyond, y, z))]):
        assert behind.front_axle_kg < one.front_axle_kg
    for one, ahead in both(loads, [*loads, (kg, (-beyond, y, z))]):
        assert ahead.rear_axle_kg < one.rear_axle_kg


@FEW
@given(LOADS, st.integers(1, 300))
def test_6_a_mass_at_the_centre_leaves_the_centre(loads, kg):
    before = totals(plan_of(loads))
    for number, one in enumerate(before):
        more = plan_of(loads)
        # A thing has whole millimetres; what is bolted on may be anywhere.
        more.vehicle["fittings"].append({"name": "weight", "mass_kg": kg, "at_mm": list(one.cg_mm)})
        assert totals(more)[number].cg_mm == pytest.approx(one.cg_mm, **CLOSE)


@FEW
@given(LOADS, LOAD)
def test_7_splitting_a_thing_changes_nothing(loads, load):
    kg, middle = load
    for one, split in both([*loads, load], [*loads, (kg / 2, middle), (kg / 2, middle)]):
        assert figures(split) == pytest.approx(figures(one), **CLOSE)


@FEW
@given(LOADS, LOAD, MIDDLE)
def test_8_swapping_equal_masses_changes_nothing(loads, load, other):
    kg, middle = load
    straight = plan_of([*loads, load, (kg, other)])
    swapped = deepcopy(straight)
    one, two = swapped.places[-2:]
    one["corner_mm"], two["corner_mm"] = two["corner_mm"], one["corner_mm"]
    for before, after in zip(totals(straight), totals(swapped), strict=True):
        assert figures(after) == pytest.approx(figures(before), **CLOSE)
    assert corner(middle) == straight.places[-2]["corner_mm"]


@FEW
@given(LOADS)
def test_9_a_mirror_turns_y_alone(loads):
    straight, mirrored = plan_of(loads), plan_of([(kg, (x, -y, z)) for kg, (x, y, z) in loads])
    mirrored.vehicle["kerb"]["right_of_centre_mm"] *= -1
    for kind in ("seats", "tanks", "fittings"):
        for part in mirrored.vehicle[kind]:
            x, y, z = part["at_mm"]
            part["at_mm"] = [x, -y, z]
    for one, other in zip(totals(straight), totals(mirrored), strict=True):
        x, y, z = one.cg_mm
        assert other.cg_mm == pytest.approx((x, -y, z), **CLOSE)
        assert (other.left_kg, other.right_kg) == pytest.approx((one.right_kg, one.left_kg), **CLOSE)
        assert other.side_slope_deg == pytest.approx(one.side_slope_deg[::-1], **CLOSE)
        assert (other.front_axle_kg, other.rear_axle_kg) == pytest.approx(
            (one.front_axle_kg, one.rear_axle_kg), **CLOSE
        )


@FEW
@given(LOADS, LOAD, st.integers(-90, 90))
def test_10_raising_a_thing_raises_the_centre_by_its_share(loads, load, dz):
    kg, (x, y, z) = load
    for one, raised in both([*loads, load], [*loads, (kg, (x, y, z + dz))]):
        assert raised.cg_mm[2] == pytest.approx(one.cg_mm[2] + kg * dz / one.mass_kg, **CLOSE)
        assert figures(raised)[:-1] == pytest.approx(figures(one)[:-1], **CLOSE)
