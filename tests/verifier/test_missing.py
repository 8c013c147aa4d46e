"""Where the middle of a missing mass lies, how well that is known, and what is there: hand-made readings."""

from math import sqrt
from random import Random
from typing import Any

import pytest

from models.case import Case
from models.plan import Plan
from verifier import Difference, MissingMass, Ticket, weigh
from verifier.missing import Place, missing_mass, places_near

STEP_KG = 0.5
SCALE_KG2 = STEP_KG**2 / 12 + 4**2


def missing(case: Case, front: float, rear: float, *sides: float, doubt_kg: float = 1.0) -> MissingMass | None:
    """What is missing when 1000 kg were predicted everywhere, each axle and side doubted by itself."""
    names = ("front axle", "rear axle", "total", "left wheels", "right wheels")
    doubts = (doubt_kg, doubt_kg, doubt_kg * sqrt(2), None, None)
    offs = (front, rear, front + rear, *sides)
    found = tuple(
        Difference(name, 1000.0, doubt, 1000.0 + off) for name, doubt, off in zip(names, doubts, offs, strict=False)
    )
    return missing_mass(case, case.trip.stages[0], found, (doubt_kg, doubt_kg), Ticket(0, 0, division_kg=STEP_KG))


def outlined(world: Any, **sides: int) -> Case:
    """The vehicle with another outline than its file gives."""
    case: Case = world.made(outline_mm=world.case().vehicle.outline_mm.model_copy(update=sides))
    return case


def by_hand(length_mm: float, first: float, second: float, doubt_kg: float = 1.0) -> float:
    """Two deviations of length · second / (first + second), of readings that are off by themselves."""
    one_kg2 = (doubt_kg / 2) ** 2 + SCALE_KG2
    return 2 * length_mm / (first + second) ** 2 * sqrt((first**2 + second**2) * one_kg2)


@pytest.mark.parametrize("doubt_kg", [1.0, 20.0])
def test_the_place_is_known_as_well_as_the_axles_and_the_sides(world, doubt_kg):
    found = missing(world.case(), 25, 75, 30, 70, doubt_kg=doubt_kg)
    assert found is not None
    assert found.x_mm == 2400
    assert found.right_mm == pytest.approx(314)
    assert found.x_doubt_mm == pytest.approx(by_hand(3200, 25, 75, doubt_kg))
    assert found.right_doubt_mm == pytest.approx(by_hand(1570, 30, 70, doubt_kg))
    assert missing(world.case(), 25, 75).right_doubt_mm is None  # type: ignore[union-attr]


def test_what_is_off_on_both_axles_together_moves_the_place_less(world):
    """Between the axles a heavier thing is heavier on both: the total is then in more doubt than two by themselves."""
    case = world.case()

    def told(total_kg: float) -> float:
        found = (
            Difference("front axle", 1000.0, 20.0, 1040.0),
            Difference("rear axle", 1000.0, 20.0, 1060.0),
            Difference("total", 2000.0, total_kg, 2100.0),
        )
        one = missing_mass(case, case.trip.stages[0], found, (0, 0), Ticket(0, 0, division_kg=STEP_KG))
        assert one is not None
        return one.x_doubt_mm

    assert told(20 * sqrt(2)) == pytest.approx(by_hand(3200, 40, 60, 20))
    # All of it together: the variance of 60 times the one less 40 times the other is that of 20 times one.
    expected = 3200 / 100**2 * sqrt((20 * 20) ** 2 + 4 * (40**2 + 60**2) * SCALE_KG2)
    assert told(40) == pytest.approx(expected)


@pytest.mark.parametrize(("more_mm", "inside"), [(1, True), (-1, False)])
def test_one_thing_explains_it_where_any_place_in_doubt_is_in_the_vehicle(world, more_mm, inside):
    reach = by_hand(3200, 80, -16)  # x = 3200 · -16 / 64 = -800 mm
    found = missing(outlined(world, front=round(-800 + reach - more_mm)), 80, -16)
    assert found is not None
    assert (found.x_mm, found.in_vehicle) == (-800, inside)
    found = missing(outlined(world, rear=round(4000 - reach + more_mm)), -16, 80)
    assert found is not None
    assert (found.x_mm, found.in_vehicle) == (4000, inside)


@pytest.mark.parametrize(("more_mm", "inside"), [(1, True), (-1, False)])
@pytest.mark.parametrize("sides", [(64, 0), (0, 64)])
def test_so_it_does_to_the_sides(world, more_mm, inside, sides):
    half = 785 - by_hand(1570, *sides) + more_mm  # y = ± 1570 / 2 mm
    found = missing(outlined(world, width=round(2 * half)), 16, 48, *sides)
    assert found is not None
    assert (abs(found.right_mm or 0), found.in_vehicle) == (785, inside)


def test_outside_of_the_vehicle_no_place_is_named(world):
    found = missing(outlined(world, rear=1500), 16, 48)  # x = 2400 mm, known to 850 mm
    assert found is not None
    assert (found.x_mm, found.places) == (2400, ())


def test_a_mass_in_the_middle_is_in_the_middle(world):
    found = missing(world.case(), 16, 48, 32, 32)
    assert found is not None
    assert found.right_mm == 0
    assert missing(world.case(), 16, 48, 32, -32).right_mm is None  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("x", "y", "there"),
    [
        (1300, 500, True),
        (1600, 650, True),
        (1200, 600, True),
        (1199, 600, False),
        (1700, 600, True),
        (1701, 600, False),
        (1400, 480, True),
        (1400, 479, False),
        (1400, 670, True),
        (1400, 671, False),
    ],
)
def test_a_space_is_near_from_wall_to_wall_and_as_far_as_the_doubt(world, x, y, there):
    # The door pocket is 300 by 150 mm from (1300, 500); x is known to 100 mm, y to 20 mm.
    case = world.case()
    near = places_near(case, case.trip.stages[0], (x, 100.0), (y, 20.0))
    assert (Place("space", "door pocket") in near) is there


def test_the_nearest_is_named_first(world):
    """The door pocket reaches to 1600 mm; the seats in front are at 1500 mm, the one in the rear is at 2100 mm."""
    case = world.case()
    near = places_near(case, case.trip.stages[0], (1750.0, 400.0), (None, None))
    names = [one.name for one in near]
    assert names.index("door pocket") < names.index("driver") < names.index("rear left")


def test_seats_are_places_with_who_sits_there_at_the_stage_and_so_are_tanks(world):
    case = world.case()
    track = next(one for one in case.trip.stages if one.name == "track")
    near = places_near(case, track, (2000.0, 900.0), (None, None))
    seats = {seat.name: tuple(p.name for p in case.trip.people if p.seat == seat.name) for seat in case.vehicle.seats}
    assert {one.name: one.people for one in near if one.kind == "seat"} == seats
    assert any(seats.values())
    assert {one.name for one in near if one.kind == "tank"} == {"main tank", "water tank"}
    alone = track.model_copy(update={"people": ()})
    assert not any(one.people for one in places_near(case, alone, (2000.0, 900.0), (None, None)))


def test_nobody_is_missing_from_an_empty_seat(world):
    world.stage("leaving")["people"] = []
    case = world.case()
    more, less = missing(case, 40, 40), missing(case, -40, -40)
    assert more is not None
    assert less is not None
    assert "seat" in {one.kind for one in more.places}
    assert "seat" not in {one.kind for one in less.places}
    assert less.spaces == more.spaces


@pytest.mark.parametrize("on", [True, False])
def test_the_ball_is_a_place_where_a_trailer_is_on(world, on):
    world.tow()
    world.stage("leaving")["towing"] = on
    case = world.case()
    at = 3200.0 + case.vehicle.limits.tow_ball_behind_rear_axle_mm
    near = places_near(case, case.trip.stages[0], (at, 0.5), (0.0, 0.5))
    assert (Place("ball", "tow ball") in near) is on


def test_the_true_space_is_among_the_named_ones_of_nearly_all_honest_tickets(world):
    """70 kg more in the left drawer, axles off by the doubt that is told, a scale of 20 kg."""
    case, verdict = world.case(), world.verdict()
    plan = Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})
    totals, doubt = verdict.totals["leaving"], verdict.doubts["leaving"]
    space, chance = case.space_named["left drawer"], Random(11)  # noqa: S311 - tickets by chance, not secrets
    rear = (space.corner_mm[0] + space.size_mm[0] / 2) / case.vehicle.wheelbase_mm
    told = []
    for _ in range(60):
        front_kg = totals.front_axle_kg + chance.gauss(0, doubt.front_axle_kg / 2) + 70 * (1 - rear)
        rear_kg = totals.rear_axle_kg + chance.gauss(0, doubt.rear_axle_kg / 2) + 70 * rear
        ticket = Ticket(20 * round(front_kg / 20), 20 * round(rear_kg / 20))
        found = weigh(case, plan, case.trip.stages[0], ticket).missing
        told += [found] if found else []
    assert len(told) >= 55
    assert sum("left drawer" in one.spaces for one in told) >= 0.93 * len(told)
    assert all(one.in_vehicle for one in told)
