"""The most likely masses, given a ticket: the same least squares by an outside solver, and hand-made readings."""

from typing import Any

import numpy as np
import pytest

from models.plan import Plan
from models.stages import mass_kg
from verifier import Correction, Difference, Ticket, weigh
from verifier.layout import layout_of
from verifier.reconciling import _Line, _told, corrections

STEP_KG = 20.0


def plan_of(world: Any) -> Plan:
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})


def weighed(world: Any, *off: float) -> tuple[Correction, ...]:
    """Corrections for a ticket so many kg off on front, rear, left and right at the first stage."""
    totals, case = world.verdict().totals["leaving"], world.case()
    own = (totals.front_axle_kg, totals.rear_axle_kg, totals.left_kg, totals.right_kg)
    ticket = Ticket(*(kg + more for kg, more in zip(own, off, strict=False)), division_kg=STEP_KG)  # type: ignore[misc]
    return weigh(case, plan_of(world), case.trip.stages[0], ticket).corrections


def lines(world: Any) -> dict[str, tuple[float, int, tuple[float, ...]]]:
    """By line: its deviation, its pieces, and what a kilogram of it puts on front, rear, left and right."""
    case, places = world.case(), plan_of(world).placements
    share, right = case.rulebook.doubt.share, 0.5 + case.vehicle.kerb.right_of_centre_mm / 1570
    found: dict[str, tuple[float, int, tuple[float, ...]]] = {
        "empty vehicle, front axle": (share["weighbridge"] * 1190, 1, (1, 0, 1 - right, right)),
        "empty vehicle, rear axle": (share["weighbridge"] * 960, 1, (0, 1, 1 - right, right)),
    }
    for thing in case.things:
        here = [p for p in places if p.thing == thing.name]
        if here:
            rear = sum((p.corner_mm[0] + p.size_mm[0] / 2) / 3200 for p in here)
            side = sum(0.5 + (p.corner_mm[1] + p.size_mm[1] / 2) / 1570 for p in here)
            off_kg = share[thing.known_from] * mass_kg(thing, case.trip.stages[0], "likely")
            found[thing.name] = (off_kg, len(here), (len(here) - rear, rear, len(here) - side, side))
    return found


@pytest.mark.parametrize("off", [(20.0, 45.0), (20.0, 45.0, 25.0, 40.0)])
def test_corrections_are_the_least_squares_that_an_outside_solver_finds(world, off):
    """Minimise the sum of (correction / deviation)² and (reading not explained / deviation of the scale)²."""
    world.vehicle["kerb"]["right_of_centre_mm"] = 40
    told, known = weighed(world, *off), lines(world)
    sigma = np.array([line[0] for line in known.values()])
    acting = np.array([line[2][: len(off)] for line in known.values()]).T
    scale = np.sqrt(STEP_KG**2 / 12 + 4**2)
    stacked = np.vstack([acting / scale, np.diag(1 / sigma)])
    best, *_ = np.linalg.lstsq(stacked, np.concatenate([np.array(off) / scale, np.zeros(len(sigma))]), rcond=None)
    left = np.sqrt(np.diag(np.linalg.inv(stacked.T @ stacked)))
    expected = {name: kg for name, kg in zip(known, best, strict=True) if abs(kg) >= 0.05}
    assert {one.subject: one.each_kg for one in told} == pytest.approx(expected, rel=1e-6)
    rest = {name: kg for name, kg in zip(known, left, strict=True) if name in expected}
    assert {one.subject: one.left_kg for one in told} == pytest.approx(rest, rel=1e-6)
    assert {one.subject: one.pieces for one in told} == {name: known[name][1] for name in expected}


def test_weighed_things_barely_move_and_guesses_do(world):
    world.gear["fridge"]["known_from"] = "weighed"
    world.gear["tool box"] |= {"mass_kg": 30, "known_from": "guess"}
    moved = {one.subject: abs(one.each_kg) for one in weighed(world, 20.5, 45)}
    assert moved["tool box"] > 20 * moved.get("fridge", 0.0)
    left = {one.subject: (one.left_kg, one.deviation_kg) for one in weighed(world, 20.5, 45)}
    assert all(now <= before for now, before in left.values())


def test_no_mass_is_corrected_beyond_its_range_and_the_others_make_up_for_it(world):
    world.gear["tool box"] |= {"mass_kg": 30, "known_from": "guess"}
    free = {one.subject: one.each_kg for one in weighed(world, 20.5, 45)}
    most = free["tool box"] / 2
    world.gear["tool box"]["mass_kg"] = {"least": 29, "likely": 30, "most": 30 + most}
    told = {one.subject: one.each_kg for one in weighed(world, 20.5, 45)}
    assert told["tool box"] == pytest.approx(most)
    assert sum(told.values()) - told["tool box"] > sum(free.values()) - free["tool box"]
    world.gear["tool box"]["mass_kg"] = {"least": 29, "likely": 30, "most": 30.1 + 2 * most}
    assert {one.subject: one.each_kg for one in weighed(world, 20.5, 45)} == pytest.approx(free)


def test_a_mass_is_not_corrected_below_nothing(world):
    world.gear["tool box"] |= {"mass_kg": 30, "known_from": "guess"}
    case = world.case()
    off = tuple(Difference(f"{end} axle", 1000.0, None, 800.0) for end in ("front", "rear"))
    found = corrections(layout_of(case, plan_of(world)), case.trip.stages[0], off, STEP_KG)
    assert min(one.each_kg for one in found if one.subject == "tool box") >= -30


def test_things_at_home_and_things_of_no_mass_are_not_corrected(world):
    world.gear["jackets"]["mass_kg"] = 0
    told = {one.subject for one in weighed(world, 20.5, 45)}
    assert told
    assert not told & {"camp oven", "jackets"}


@pytest.mark.parametrize(
    ("front", "rear", "told"),
    [(20, -20, False), (20.5, 0, True), (0, -20.5, True), (None, 100, False), (100, None, False)],
)
def test_readings_within_their_step_or_unknown_correct_nothing(world, front, rear, told):
    case = world.case()
    found = tuple(
        Difference(name, None if off is None else 1000.0, None, 1000.0 + (off or 0))
        for name, off in (("front axle", front), ("rear axle", rear))
    )
    assert bool(corrections(layout_of(case, plan_of(world)), case.trip.stages[0], found, STEP_KG)) is told


def test_the_largest_in_all_comes_first_and_small_ones_are_left_out():
    # Three pieces of 1 kg, one of 2 kg, one of -4 kg, one of exactly 0.05 kg and one of less.
    each = {"a": (3, 1.0), "b": (1, 2.0), "c": (1, -4.0), "d": (1, 0.05), "e": (1, 0.049)}
    told = _told(
        [_Line(name, "guess", pieces, 5.0, {}) for name, (pieces, _) in each.items()],
        [kg for _, kg in each.values()],
        [9.0, -1e-15, 0.25, 1.0, 1.0],
    )
    assert [(one.subject, one.left_kg) for one in told] == [("c", 0.5), ("a", 3.0), ("b", 0.0), ("d", 1.0)]


def test_what_a_listed_range_explains_is_put_on_it_and_not_on_what_was_weighed(world):
    """All of 40 kg that the tool box may weigh more: nothing is missing, and the vehicle keeps its mass."""
    world.gear["tool box"]["mass_kg"] = {"least": 20, "likely": 30, "most": 90}
    place = world.places["tool box"]
    rear = (place["corner_mm"][0] + place["size_mm"][0] / 2) / 3200
    totals, case = world.verdict().totals["leaving"], world.case()
    ticket = Ticket(totals.front_axle_kg + 40 * (1 - rear), totals.rear_axle_kg + 40 * rear)
    found = weigh(case, plan_of(world), case.trip.stages[0], ticket)
    assert found.missing is None
    told = {one.subject: one for one in found.corrections}
    assert found.corrections[0].subject == "tool box"
    assert told["tool box"].deviation_kg == 30
    assert told["tool box"].each_kg > 5 * sum(abs(one.each_kg) for name, one in told.items() if "vehicle" in name)
