"""Weighbridge against plan: differences, limits, the place of what is missing, questions, most likely masses."""

from typing import Any

import pytest

from models.plan import Plan
from verifier import Ticket, Weighing, weigh
from verifier.layout import layout_of
from verifier.missing import missing_x_mm
from verifier.reconciling import side_doubts_kg
from verifier.shifting import could_shift_kg
from verifier.ticket import Known
from verifier.weighing import _shifted


def plan_of(world: Any) -> Plan:
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(world.places.values()), **world.plan})


def predicted(world: Any, stage: str = "leaving") -> tuple[float, float]:
    totals = world.verdict().totals[stage]
    return totals.front_axle_kg, totals.rear_axle_kg


def weighed(world: Any, front: float, rear: float, *sides: float, division_kg: float = 20.0) -> Weighing:
    """A ticket so many kg off what is predicted at the first stage."""
    own = predicted(world)
    totals = world.verdict().totals["leaving"]
    left, right = (totals.left_kg + sides[0], totals.right_kg + sides[1]) if sides else (None, None)
    case = world.case()
    ticket = Ticket(own[0] + front, own[1] + rear, left, right, division_kg)
    return weigh(case, plan_of(world), case.trip.stages[0], ticket)


def test_a_ticket_as_predicted(world):
    found = weighed(world, 0, 0)
    assert [one.difference_kg for one in found.differences] == pytest.approx([0, 0, 0])
    assert (found.holds, found.questions, found.missing, found.shifted_kg, found.corrections) == (
        True, (), None, None, ()
    )  # fmt: skip


def test_one_thing_more_is_found_where_it_is(world):
    """A mass of 100 kg at x = 2400 mm of a wheelbase of 3200 mm puts 25 kg on the front and 75 kg on the rear axle."""
    found = weighed(world, 25, 75)
    assert found.missing is not None
    assert found.missing.mass_kg == pytest.approx(100)
    assert found.missing.x_mm == pytest.approx(2400)
    assert found.missing.right_mm is None
    assert "roof place" in found.missing.spaces


def test_behind_the_rear_axle_the_front_gets_lighter(world):
    assert missing_x_mm(3200, -25, 125) == pytest.approx(4000)
    assert weighed(world, -25, 125).missing is not None


def test_left_and_right_say_which_side(world):
    """The same 100 kg at y = +314 mm of a track of 1570 mm puts 30 kg on the left wheels and 70 kg on the right."""
    found = weighed(world, 25, 75, 30, 70)
    assert found.missing is not None
    assert found.missing.right_mm == pytest.approx(314)
    assert found.missing.spaces[0] == "roof place"
    assert "left drawer" not in found.missing.spaces
    assert not weighed(world, 25, 75, -130, 230, division_kg=0.5).questions
    assert not weighed(world, 25, 75, -130, 230).missing.in_vehicle  # type: ignore[union-attr]


def test_nothing_is_missing_within_the_doubt_or_within_a_step(world):
    doubt = world.verdict().doubts["leaving"].total_kg
    assert weighed(world, 0, doubt - 0.1, division_kg=1).missing is None
    assert weighed(world, 0, doubt + 0.1, division_kg=1).missing is not None
    assert weighed(world, 0, doubt + 0.1, division_kg=doubt + 1).missing is None


@pytest.mark.parametrize("sign", [1, -1])
def test_a_total_beyond_doubt_is_told_where_the_axles_are_unknown(world, sign):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700, "known_from": "weighbridge"}
    verdict, case = world.verdict(), world.case()
    mass_kg, doubt_kg = verdict.totals["leaving"].mass_kg, verdict.doubts["leaving"].total_kg

    def at(off_kg: float, division_kg: float = 1.0) -> float | None:
        ticket = Ticket(1200.0, mass_kg + sign * off_kg - 1200.0, division_kg=division_kg)
        found = weigh(case, plan_of(world), case.trip.stages[0], ticket)
        assert (found.missing, found.shifted_kg, found.off_axle, found.corrections) == (None, None, None, ())
        return found.missing_total_kg

    assert at(doubt_kg - 0.1) is None
    assert at(doubt_kg + 0.1) == pytest.approx(sign * (doubt_kg + 0.1))
    assert at(doubt_kg + 0.1, division_kg=doubt_kg + 1) is None


def test_where_the_axles_are_known_a_missing_mass_has_its_place(world):
    assert weighed(world, 25, 75).missing_total_kg is None


def test_a_shift_leaves_the_total_as_it_is(world):
    found = weighed(world, -110, 110)
    assert found.missing is None
    assert found.shifted_kg == pytest.approx(110)
    assert weighed(world, -10, 10).shifted_kg is None
    assert weighed(world, -10, 10).could_shift_kg is None


def test_how_much_could_have_shifted_by_hand(world):
    """All things to the end of the body at 4450 or -850 mm, all people to the seats at 2100 or 1500 mm."""
    case = world.case()
    things = [(world.gear[place["thing"]]["mass_kg"], place) for place in world.places.values()]
    middles = [(kg, place["corner_mm"][0] + place["size_mm"][0] / 2) for kg, place in things]
    rear = sum(kg * (4450 - x) for kg, x in middles) + (70 + 80) * 600
    front = sum(kg * (x + 850) for kg, x in middles)
    layout, stage = layout_of(case, plan_of(world)), case.trip.stages[0]
    assert could_shift_kg(layout, stage, to_rear=True) == pytest.approx(rear / 3200)
    assert could_shift_kg(layout, stage, to_rear=False) == pytest.approx(front / 3200)


@pytest.mark.parametrize("off", [(-110, 110), (110, -110)])
def test_where_no_doubt_of_the_masses_explains_an_axle_none_is_corrected(world, off):
    found = weighed(world, *off)
    assert found.shifted_kg is not None
    assert found.corrections == ()
    assert found.could_shift_kg == pytest.approx(
        could_shift_kg(layout_of(world.case(), plan_of(world)), world.case().trip.stages[0], to_rear=off[1] > 0)
    )


def test_a_load_that_is_missing_is_not_shifted_as_well(world):
    found = weighed(world, -60, 140)
    assert found.missing is not None
    assert found.shifted_kg is None


def test_a_shift_so_large_that_the_ticket_is_questioned_is_not_told(world):
    found = weighed(world, -200, 200)
    assert found.questions
    assert found.shifted_kg is None


def readings(front: float, rear: float, doubt: float = 0.1) -> dict[str, Known]:
    """Both axles so many kg off 1000."""
    axles = (("front axle", front), ("rear axle", rear))
    return {name: Known(name, 1000.0, doubt, 1000.0 + off) for name, off in axles}


@pytest.mark.parametrize(
    ("front", "rear", "shifted"),
    [
        (-0.5, 0.5, 0.5),
        (0.5, -0.75, -0.625),
        (0.5, 0.5, None),  # both the same way
        (0.25, -0.5, None),  # the front is within its step
        (-0.5, 0.25, None),
    ],
)
def test_a_shift_is_opposite_and_beyond_the_step_on_both_axles(front, rear, shifted):
    assert _shifted(readings(front, rear), 0.25) == shifted


def test_no_shift_without_axles():
    assert _shifted({}, 0.25) is None


def test_the_ball_is_on_the_scale_too(world):
    world.tow()
    total = next(one for one in weighed(world, 0, 0).differences if one.subject == "total")
    assert total.difference_kg == pytest.approx(0)


@pytest.mark.parametrize(("over_kg", "holds"), [(0, True), (1, False)])
def test_vehicle_and_trailer_are_held_to_what_both_may_weigh(world, over_kg, holds):
    """What the ball carries is on the scale already: the trailer of 1400 kg adds 1400 less its 120 on the ball."""
    world.tow()
    together = sum(predicted(world)) - 120 + 1400
    world.tow(gcm_kg=together - over_kg)
    found = weighed(world, 0, 0)
    (train,) = [one for one in found.limits if one.subject == "with trailer"]
    assert train.value == pytest.approx(together)
    assert (train.holds, found.holds) == (holds, holds)
    row = found.differences[-1]
    assert (row.subject, row.doubt_kg) == ("with trailer", None)
    assert row.measured_kg == pytest.approx(together)
    assert row.difference_kg == pytest.approx(0)


@pytest.mark.parametrize(("limit_kg", "holds"), [(120, True), (119, False), ("unknown", None)])
def test_the_ball_as_typed_in_is_held_to_its_limit(world, limit_kg, holds):
    """A ticket with every axle within its limit is no leave to drive with a ball that is over its own."""
    world.tow(tow_ball_kg=limit_kg)
    found = weighed(world, 0, 0)
    (ball,) = [one for one in found.limits if one.subject == "tow ball"]
    assert (ball.value, ball.holds, found.holds) == (120, holds, holds)
    assert "tow ball" not in [one.subject for one in found.differences]


def test_what_vehicle_and_trailer_may_weigh_is_never_assumed(world):
    world.tow(gcm_kg="unknown")
    assert weighed(world, 0, 0).holds is None


def test_no_trailer_is_judged_at_a_stage_without_one(world):
    world.tow(gcm_kg=1)
    world.stage("leaving")["towing"] = False
    found = weighed(world, 0, 0)
    assert found.holds is True
    assert not {"with trailer", "tow ball"} & {one.subject for one in found.limits}
    assert "with trailer" not in [one.subject for one in found.differences]


@pytest.mark.parametrize("side", [{"left_kg": 900.0}, {"right_kg": 900.0}])
def test_one_side_alone_tells_no_side(world, side):
    own, case = predicted(world), world.case()
    found = weigh(case, plan_of(world), case.trip.stages[0], Ticket(own[0] + 25, own[1] + 75, **side))
    assert found.missing is not None
    assert found.missing.right_mm is None
    assert "left and right" not in {one.subject for one in found.limits}


def test_what_is_judged_of_a_ticket(world):
    stages = world.case().trip.stages
    ticket = Ticket(1200, 1300, 1200, 1300)
    judged = {
        stage.name: {one.subject: one for one in weigh(world.case(), plan_of(world), stage, ticket).limits}
        for stage in stages
    }
    assert set(judged["camp"]) == {"front axle", "rear axle", "total", "left and right", "front share"}
    assert set(judged["track"]) == set(judged["camp"])
    share, sides = judged["track"]["front share"], judged["track"]["left and right"]
    book = world.case().rulebook
    assert (share.value, share.limit, share.source) == (0.48, book.front_share_min.value, book.front_share_min.source)
    most = book.side_difference_share
    assert (sides.value, sides.limit, sides.source) == (100, most.value * 2500, most.source)
    world.vehicle["limits"] |= {"front_share_min": 0.45, "side_difference_share": 0.03}
    limits = {one.subject: one for one in weigh(world.case(), plan_of(world), stages[1], ticket).limits}
    assert (limits["front share"].limit, limits["front share"].source) == (0.45, "vehicle file")
    assert (limits["left and right"].limit, limits["left and right"].source) == (75, "vehicle file")


def test_limits_are_those_of_what_was_measured(world):
    front, rear = predicted(world)
    world.vehicle["limits"] |= {"front_axle_kg": front, "rear_axle_kg": rear, "gvm_kg": front + rear + 1}
    assert weighed(world, 0, 0).holds is True, "no reserve is added to what a scale has said"
    over = weighed(world, 0, 0.5)
    assert {one.subject for one in over.limits if one.holds is False} == {"rear axle"}
    assert {one.subject for one in weighed(world, 1, 1).limits if one.holds is False} == {
        "front axle", "rear axle", "total"
    }  # fmt: skip
    del world.vehicle["limits"]["gvm_kg"]
    assert weighed(world, 0, 0).holds is None
    assert weighed(world, 0, 0.5).holds is False


@pytest.mark.parametrize(("front", "rear"), [(0, -300), (-300, 0), (300, 0), (200, 200)])
def test_a_ticket_that_is_far_off_is_questioned_before_anything_is_concluded(world, front, rear):
    found = weighed(world, front, rear)
    assert len(found.questions) == 2
    assert found.holds is None, "nothing is signed off by a ticket that is in question"
    assert "pounds" in found.questions[1]
    assert "right way round" in found.questions[1]
    assert (found.missing, found.shifted_kg, found.corrections) == (None, None, ())


def test_swapped_axles_are_asked_for_by_name(world):
    front, rear = predicted(world)
    world.vehicle["kerb"] |= {"front_kg": 1400, "rear_kg": 700}
    front, rear = predicted(world)
    assert abs(front - rear) > 150
    found = weighed(world, rear - front, front - rear)
    assert "swapped" in found.questions[1]
    assert len(found.questions) == 2


@pytest.mark.parametrize(("factor", "word"), [(2.2046, "Are these pounds?"), (1 / 2.2046, "twice"), (0.001, "tonnes?")])
def test_other_units_are_asked_for_by_name(world, factor, word):
    front, rear = predicted(world)
    found = weighed(world, front * (factor - 1), rear * (factor - 1))
    assert word in found.questions[1]


def test_four_readings_must_add_up(world):
    assert "all four" in weighed(world, 0, 0, 30, 30).questions[0]
    assert weighed(world, 0, 0, 30, 30).holds is None
    assert weighed(world, 0, 0, 20, 20).questions == ()


def test_unknown_axles_leave_the_total(world):
    world.vehicle["kerb"] = {"total_kg": 2150, "cg_height_mm": 700}
    case = world.case()
    found = weigh(case, plan_of(world), case.trip.stages[0], Ticket(1300, 1300))
    known = {one.subject: one.difference_kg is not None for one in found.differences}
    assert known == {"front axle": False, "rear axle": False, "total": True}
    assert (found.missing, found.corrections) == (None, ())


@pytest.mark.parametrize(("said", "was"), [(True, "off"), (False, "on")])
def test_a_trailer_that_was_not_as_at_the_stage_is_asked_about(world, said, was):
    """80 kg, 1200 mm behind the rear axle of 3200 mm, put 110 kg on the rear axle and take 30 kg off the front."""
    world.tow()
    world.trip["stages"][0]["towing"] = said
    world.trip["towing"]["ball_kg"] = 80
    found = weighed(world, *((30, -110) if said else (-30, 110)))
    assert len(found.questions) == 1
    assert found.questions[0].startswith(f"Was the trailer {was}? Then ")
    assert (found.holds, found.missing) == (None, None)
    assert weighed(world, 0, 0).questions == ()
    assert weighed(world, 25, 75).questions == ()


def test_a_trailer_is_asked_about_where_one_axle_alone_tells_of_it(world):
    """80 kg, 300 mm behind the rear axle, take 8 kg off the front: less than a step of the scale."""
    world.tow()
    world.vehicle["limits"]["tow_ball_behind_rear_axle_mm"] = 300
    world.trip["towing"]["ball_kg"] = 80
    (question,) = weighed(world, 7.5, -87.5).questions
    assert question.startswith("Was the trailer off? Then ")


def test_without_axles_nothing_is_asked_about_a_trailer(world):
    world.tow()
    kerb = world.vehicle["kerb"]
    kerb["total_kg"] = kerb.pop("front_kg") + kerb.pop("rear_kg")
    # The total alone is as predicted without the trailer.
    half_kg = world.verdict().totals["leaving"].mass_kg / 2
    found = weigh(world.case(), plan_of(world), world.case().trip.stages[0], Ticket(half_kg, half_kg))
    assert not [question for question in found.questions if "trailer" in question]
    assert next(one for one in found.differences if one.subject == "total").difference_kg == pytest.approx(-120)


@pytest.mark.parametrize("off", [1, -1])
def test_sides_that_are_off_beyond_doubt_are_told_as_more_on_one_of_them(world, off):
    case = world.case()
    doubt = max(side_doubts_kg(layout_of(case, plan_of(world)), case.trip.stages[0]))
    most = off * (doubt + 0.1)
    assert weighed(world, 0, 0, -most, most, division_kg=1).aside_kg == pytest.approx(most)
    assert weighed(world, 0, 0, -most, most, division_kg=doubt + 1).aside_kg is None
    least = off * (min(side_doubts_kg(layout_of(case, plan_of(world)), case.trip.stages[0])) - 0.1)
    assert weighed(world, 0, 0, -least, least, division_kg=1).aside_kg is None
    assert weighed(world, 0, 0, division_kg=1).aside_kg is None


def test_where_no_doubt_of_the_masses_explains_a_side_none_is_corrected(world):
    assert weighed(world, 0, 0, -100, 100).corrections == ()
    assert weighed(world, 0, 0, -100, 100).missing is None
    assert weighed(world, 0, 15, 5, 10, division_kg=10).corrections != ()


def test_the_doubt_of_a_side_is_that_of_all_masses_by_what_they_put_on_it(world):
    """Each puts as much of its own doubt on a side as of its mass."""
    case = world.case()
    before = side_doubts_kg(layout_of(case, plan_of(world)), case.trip.stages[0])
    place = world.places["tool box"]
    box = world.gear["tool box"]
    share = case.rulebook.doubt.share
    at_y = (place["corner_mm"][1] + place["size_mm"][1] / 2) / 1570
    listed = case.thing_named["tool box"]
    box |= {"known_from": "guess", "mass_kg": 30}
    old_kg, new_kg = share[listed.known_from] * listed.mass_kg.likely, share["guess"] * 30
    after = side_doubts_kg(layout_of(world.case(), plan_of(world)), world.case().trip.stages[0])
    for was, now, part in zip(before, after, (0.5 - at_y, 0.5 + at_y), strict=True):
        assert now**2 - was**2 == pytest.approx(4 * part**2 * (new_kg**2 - old_kg**2))


def test_an_axle_that_is_off_by_itself_is_named(world):
    doubt = world.verdict().doubts["leaving"]
    off = doubt.front_axle_kg + 1
    assert off < doubt.total_kg
    found = weighed(world, off, 0, division_kg=1)
    assert (found.missing, found.shifted_kg, found.off_axle) == (None, None, "front axle")
    assert weighed(world, 0, doubt.rear_axle_kg - 1, division_kg=1).off_axle is None
    assert found.corrections == ()
    assert weighed(world, -110, 110).off_axle is None


def test_swapped_sides_are_asked_about_before_a_side_is_said_to_be_heavier(world):
    world.vehicle["kerb"]["right_of_centre_mm"] = -30
    totals = world.verdict().totals["leaving"]
    more = totals.left_kg - totals.right_kg
    found = weighed(world, 0, 0, -more, more, division_kg=1)
    (question,) = found.questions
    assert question == "Were left and right swapped? The other way round they would be 0 kg off together."
    assert (found.holds, found.aside_kg, found.corrections) == (None, None, ())
    half = weighed(world, 0, 0, -more / 2, more / 2, division_kg=1)
    assert half.questions == ()
    assert half.aside_kg == pytest.approx(more / 2)


@pytest.mark.parametrize(("towing", "kg", "holds"), [(True, 119.5, True), (True, 119.6, False), (False, 126.5, True)])
def test_left_and_right_are_held_to_the_mass_without_the_ball_as_the_rule_holds_them(world, towing, kg, holds):
    """2530 kg on the scale, 140 of them on the ball: 5 % of 2390 kg is 119.5 kg."""
    world.tow()
    world.trip["towing"]["ball_kg"] = 140
    world.stage("leaving")["towing"] = towing
    half = 2530 / 2
    ticket = Ticket(1090, 1440, half + kg / 2, half - kg / 2, 10)
    case = world.case()
    found = weigh(case, plan_of(world), case.trip.stages[0], ticket)
    (sides,) = [one for one in found.limits if one.subject == "left and right"]
    assert sides.value == pytest.approx(kg)
    assert sides.holds is holds
    assert sides.limit == pytest.approx(119.5 if towing else 126.5)


@pytest.mark.parametrize("stage", ["track", "camp"])
@pytest.mark.parametrize(
    ("limits", "subject", "parked"),
    [
        ({"front_axle_kg": 1199.9}, "front axle", False),
        ({"rear_axle_kg": 1299.9}, "rear axle", False),
        ({"gvm_kg": 2499.9}, "total", False),
        ({"front_share_min": 0.49}, "front share", None),
        ({"side_difference_share": 0.0399}, "left and right", None),
    ],
)
def test_what_is_over_at_a_parked_stage_is_over_but_for_how_it_is_shared_out(world, stage, limits, subject, parked):
    world.vehicle["limits"] |= limits
    case, plan = world.case(), plan_of(world)
    (at,) = [one for one in case.trip.stages if one.name == stage]
    found = weigh(case, plan, at, Ticket(1200, 1300, 1200, 1300))
    assert [one.subject for one in found.limits if one.holds is False] == [subject]
    assert (found.driving, found.holds) == ((True, False) if stage == "track" else (False, parked))


def test_a_parked_ticket_within_the_limits_of_driving_is_within_the_limits(world):
    front, rear = predicted(world, "camp")
    world.vehicle["limits"] |= {"front_axle_kg": front, "rear_axle_kg": rear, "gvm_kg": front + rear}
    case = world.case()
    found = weigh(case, plan_of(world), case.trip.stages[-1], Ticket(front, rear))
    assert (found.driving, found.holds) == (False, True)


def test_the_trailer_is_set_beside_a_ticket_as_it_is_at_the_stage(world):
    world.tow()
    together = sum(predicted(world)) - 120 + 1400
    world.stage("leaving")["towing"] = {"ball_kg": 90, "trailer_kg": 1250}
    found = weighed(world, 0, 0)
    (train,) = [one for one in found.limits if one.subject == "with trailer"]
    assert train.value == pytest.approx(together - 150)
    (total,) = [one for one in found.differences if one.subject == "total"]
    assert total.predicted_kg == pytest.approx(together - 1400 + 90)
