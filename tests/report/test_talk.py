"""What people read of find, lock, weigh and compare, at 80 columns."""

from dataclasses import replace
from math import ceil
from types import SimpleNamespace

import pytest

from models.case import Copy, copy_of
from models.trip import Lock
from packing import moves_between, way_to
from report.comparison import Comparison, Side
from report.lost import NOTHING_LOST, Lost
from report.terminal.compare import compare_report
from report.terminal.find import Found, all_report, find_report
from report.terminal.locks import lock_report, unlock_report
from report.terminal.weigh import weigh_report
from verifier import MissingMass, Ticket, weigh
from verifier.missing import Place


def ways(told, *names: str):
    placed = {copy_of(place): place for place in told.plan.placements}
    wanted = [copy for copy in told.case.copies if not names or copy.thing in names]
    return [way_to(told.case, placed, copy) for copy in wanted if copy in placed], [
        copy for copy in wanted if copy not in placed
    ]


def weighed(told, stage: str, ticket: Ticket) -> str:
    (at,) = [one for one in told.case.trip.stages if one.name == stage]
    return weigh_report(told.case, weigh(told.case, told.plan, at, ticket))


def side(letter: str, told) -> Side:
    return Side(letter, f"{letter.lower()}.yaml", told.case, told.plan, told.verdict, 265.0 if letter == "A" else 200.0)


def fits(text: str) -> bool:
    return max(map(len, text.splitlines())) <= 80


@pytest.mark.parametrize(
    ("left", "right", "says"),
    [
        (60, -60, "by -60 kg, which neither the step of the scale nor the doubt of the masses explains: something is"),
        (-40, 40, "something is further to the right than the plan says, or the empty vehicle is heavier there"),
        (30, 30, "by +30 kg, which neither the step of the scale nor the doubt of the masses explains: weigh the"),
        (3, -3, "The ticket agrees with the plan"),
    ],
)
def test_sides_that_are_off_are_not_told_to_agree(told, left, right, says):
    """The total fits."""
    now = told.verdict.totals["leaving"]
    ticket = Ticket(now.front_axle_kg, now.rear_axle_kg, now.left_kg + left, now.right_kg + right, 1.0)
    ticket = replace(ticket, front_kg=ticket.front_kg + (left + right) / 2, division_kg=32.0 if left == 3 else 28.0)
    text = " ".join(weighed(told, "leaving", ticket).split())
    assert says in text
    assert ("agrees" in text) is (left == 3)


def test_where_things_are(told, golden):
    text = find_report(told.case, Found(*ways(told, "water can", "camp chair", "extinguisher", "pots and plates")))
    assert fits(text)
    golden("find.txt", text)


def test_what_must_come_and_is_not_aboard_does_not_stay_at_home(told):
    text = find_report(told.case, Found((), (Copy("tent", 1), Copy("camp chair", 2))))
    assert "tent: NOT ABOARD, though it must come." in text
    assert "camp chair #2: NOT ABOARD, it stays at home." in text


def test_everything_by_alphabet(told, golden):
    text = all_report(told.case, Found(*ways(told)))
    assert fits(text)
    golden("find_all.txt", text)


def test_locks(told, golden):
    made = (
        Lock.model_validate({"thing": "tent", "in": "left bay", "by": "Ada", "because": "wet when we strike camp"}),
        Lock.model_validate(
            {"thing": "water can", "copy": 2, "in": "left bay", "at_mm": (2460, -540, 850), "by": "Ada"}
        ),
    )
    text = lock_report(
        told.case,
        "plan.yaml",
        told.plan,
        SimpleNamespace(made=made, there=[Copy("shovel", 1)], away=[Copy("camp chair", 2)], against={}),
    )
    text += "\n" + unlock_report(told.case, "plan.yaml", made[:1], made[1:])
    assert fits(text)
    golden("locks.txt", text)


@pytest.mark.parametrize(
    ("name", "stage", "kg"),
    [
        ("agrees", "leaving", (1240, 1120)),
        ("missing", "leaving", (1250, 1240)),
        ("less", "leaving", (1240, 1040)),
        ("four", "leaving", (1240, 1220, 1200, 1260)),
        ("shifted", "halfway", (1150, 1170)),
        ("odd", "leaving", (1240, 832)),
        ("pounds", "leaving", (2735, 2497)),
        ("over", "halfway", (1223, 1861)),
        ("parked", "last camp", (1174, 1034, 1164, 1044)),
    ],
)
def test_a_ticket(told, golden, name, stage, kg):
    front, rear, left, right = (*kg, None, None)[:4]
    text = weighed(told, stage, Ticket(front, rear, left, right, division_kg=10))
    assert fits(text)
    golden(f"weigh_{name}.txt", text)


@pytest.mark.parametrize(("could_kg", "elsewhere"), [(81.0, True), (80.9, False), (3.2, False)])
def test_a_shift_that_nothing_aboard_explains_asks_for_the_vehicle_s_own_figures(told, could_kg, elsewhere):
    at = next(one for one in told.case.trip.stages if one.name == "halfway")
    found = replace(weigh(told.case, told.plan, at, Ticket(1150, 1170)), shifted_kg=-81.0, could_shift_kg=could_kg)
    text = " ".join(weigh_report(told.case, found).split())
    assert ("something is further to the front than the plan says" in text) is elsewhere
    assert (
        f"would put {ceil(could_kg)} kg more there: look at the axles of the empty vehicle" in text
    ) is not elsewhere


@pytest.mark.parametrize(
    ("kg", "says"),
    [
        ((1240, 1032, None, None), "in the plan only, more than"),
        ((1240, 1232, None, None), "on the scale and not in the plan, more than the step of the scale and"),
        ((1240, 1232, 1240, 1232), "kg on the left wheels and +"),
        ((1240, 1132, None, None), None),
    ],
)
def test_a_total_that_is_off_is_told_where_the_axles_cannot_be_predicted(folder, kg, says):
    folder.change("vehicle.yaml", "  front_kg: 1190\n  rear_kg: 960\n", "  total_kg: 2150\n")
    front, rear, left, right = kg
    text = " ".join(weighed(folder.told, "leaving", Ticket(front, rear, left, right)).split())
    assert "cannot be predicted: weigh the empty vehicle axle by axle first." in text
    assert ("doubt of the masses explain" in text) is (says is not None)
    assert says is None or says in text


def test_axles_that_wait_for_the_place_of_the_ball_say_so(folder):
    folder.change("trip.yaml", "locks: []", "towing: {ball_kg: 100, trailer_kg: 1000}")
    folder.change("vehicle.yaml", "  gvm_kg:", "  gcm_kg: 3400\n  tow_ball_kg: 150\n  gvm_kg:")
    text = " ".join(weighed(folder.told, "leaving", Ticket(1240, 1232)).split())
    assert "cannot be predicted: give `tow_ball_behind_rear_axle_mm` of the vehicle first." in text


def missing_told(told, *places: Place, in_vehicle: bool = True) -> str:
    """What is said of 40 kg that are missing 1230 mm behind the front axle, known to 410 mm."""
    at = next(one for one in told.case.trip.stages if one.name == "leaving")
    found = weigh(told.case, told.plan, at, Ticket(1250, 1240))
    one = MissingMass(40.0, 1230.0, 410.0, None, None, in_vehicle, places)
    return " ".join(weigh_report(told.case, replace(found, missing=one)).split())


def test_a_missing_mass_is_told_with_seats_and_tanks_and_the_number_of_the_rest(told):
    near = (Place("seat", "driver", ("Ada",)), Place("seat", "rear left"), Place("tank", "main"), Place("ball", "ball"))
    first = "1250 +/- 450 mm behind the front axle. Nearest first, look at driver (seat of Ada), rear left (empty seat)"
    assert f"{first}, main (tank) or ball." in missing_told(told, *near)
    spaces = tuple(Place("space", f"s{n}") for n in range(8))
    assert "look at s0, s1, s2, s3, s4 or s5." in missing_told(told, *spaces[:6])
    assert "look at s0, s1, s2, s3, s4, s5 and 2 more." in missing_told(told, *spaces)
    assert "behind the front axle, where no space, seat or tank is." in missing_told(told)
    assert "One thing alone does not explain it" not in missing_told(told)
    outside = "One thing alone does not explain it: its place would be 1250 +/- 450 mm behind the front axle, outside"
    assert outside in missing_told(told, in_vehicle=False)


def test_a_ticket_where_nobody_knows_the_axles(folder, golden):
    folder.change("vehicle.yaml", "front_kg: 1190", "total_kg: 2150")
    folder.change("vehicle.yaml", "  rear_kg: 960\n", "")
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200, source: plate}", "gvm_kg: unknown")
    golden("weigh_unknown.txt", weighed(folder.told, "leaving", Ticket(1240, 1120)))


@pytest.mark.parametrize(("name", "gcm"), [("trailer", "3400"), ("trailer_unknown", "unknown")])
def test_a_ticket_with_a_trailer_on(folder, golden, name, gcm):
    folder.change("trip.yaml", "locks: []", "towing: {ball_kg: 100, trailer_kg: 1000}")
    limits = f"  gcm_kg: {gcm}\n  tow_ball_kg: 150\n  tow_ball_behind_rear_axle_mm: 1220\n"
    folder.change("vehicle.yaml", "  gvm_kg:", f"{limits}  gvm_kg:")
    text = weighed(folder.told, "leaving", Ticket(1210, 1290))
    assert fits(text)
    golden(f"weigh_{name}.txt", text)


def test_two_plans(folder, golden):
    a = side("A", folder.told)
    folder.change("plan.yaml", "[2460, 390, 1100]", "[2460, 80, 1100]")
    folder.change("plan.yaml", "[2460, 80, 1100], size_mm: [700", "[2460, 390, 1100], size_mm: [700")
    folder.change("plan.yaml", "left_at_home: [{thing: camp chair, copy: 2}]\n", "")
    text = (folder.path / "plan.yaml").read_text("utf-8")
    chair = "{thing: camp chair, copy: 2, space: right shelf, corner_mm: [3200, 280, 1380], size_mm: [950, 180, 150]}"
    (folder.path / "plan.yaml").write_text(f"{text}  - {chair}\n", "utf-8")
    b = side("B", folder.told)
    found = Comparison(a, b, moves_between(b.case, a.plan, b.plan), NOTHING_LOST, False, b.case)
    text = compare_report(found)
    assert fits(text)
    golden("compare.txt", text)
    assert "Nothing moves." in compare_report(replace(found, b=a, moves=moves_between(a.case, a.plan, a.plan)))
    lantern = b.plan.placements[0].model_copy(update={"thing": "gas lantern", "space": "left bay"})
    back = Comparison(
        replace(b, letter="A", digest_matches=False, left_out=(lantern,)),
        replace(a, letter="B"),
        moves_between(a.case, b.plan, a.plan),
        Lost((lantern,)),
        True,
        a.case,
    )
    golden("compare_other.txt", compare_report(back))
